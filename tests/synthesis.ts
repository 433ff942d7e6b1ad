/** Test-side signals and files, made from sines and noise alone. */

export interface Line {
  readonly frequency_Hz: number;
  readonly level_Vrms: number;
  readonly phase_deg?: number;
}

/** A channel in volts: steady lines over white noise of the given density. */
export function channel(
  lines: readonly Line[],
  noise_V_per_rtHz: number,
  seconds: number,
  rate_Hz: number,
  seed: number,
): Float64Array {
  const normal = gaussian(seed);
  const scatter = noise_V_per_rtHz * Math.sqrt(rate_Hz / 2);
  return new Float64Array(Math.round(seconds * rate_Hz)).map((_, i) => {
    const t = i / rate_Hz;
    const hum = lines.reduce(
      (sum, { frequency_Hz, level_Vrms, phase_deg = 0 }) =>
        sum + Math.SQRT2 * level_Vrms * Math.cos(2 * Math.PI * frequency_Hz * t + (phase_deg * Math.PI) / 180),
      0,
    );
    return hum + scatter * normal();
  });
}

/** A WAV file of 32-bit floats. */
export function wavFile(channels: readonly Float64Array[], rate_Hz: number, fullScale_Vpk: number): Buffer {
  const frames = channels[0]!.length;
  const bytes = frames * channels.length * 4;
  const file = Buffer.alloc(44 + bytes);
  file.write("RIFF", 0);
  file.writeUInt32LE(36 + bytes, 4);
  file.write("WAVEfmt ", 8);
  file.writeUInt32LE(16, 16);
  file.writeUInt16LE(3, 20);
  file.writeUInt16LE(channels.length, 22);
  file.writeUInt32LE(rate_Hz, 24);
  file.writeUInt32LE(rate_Hz * channels.length * 4, 28);
  file.writeUInt16LE(channels.length * 4, 32);
  file.writeUInt16LE(32, 34);
  file.write("data", 36);
  file.writeUInt32LE(bytes, 40);
  for (let i = 0; i < frames; i++) {
    for (const [k, samples] of channels.entries())
      file.writeFloatLE(samples[i]! / fullScale_Vpk, 44 + (i * channels.length + k) * 4);
  }
  return file;
}

function gaussian(seed: number): () => number {
  let state = seed >>> 0 || 1;
  const uniform = () => {
    state = (Math.imul(state ^ (state >>> 15), 1 | state) + 0x6d2b79f5) >>> 0;
    const mixed = Math.imul(state ^ (state >>> 7), 61 | state) ^ state;
    return (((mixed ^ (mixed >>> 14)) >>> 0) + 0.5) / 4_294_967_296;
  };
  return () => Math.sqrt(-2 * Math.log(uniform())) * Math.cos(2 * Math.PI * uniform());
}
