/** Samples of a 24-bit WAV file with the extensible header, read byte by byte, −1 to 1. */
export function samplesOf(file: Uint8Array): readonly Float64Array[] {
  const view = new DataView(file.buffer, file.byteOffset, file.byteLength);
  const channels = view.getUint16(22, true);
  const frames = view.getUint32(64, true) / (3 * channels);
  return Array.from({ length: channels }, (_, channel) =>
    Float64Array.from({ length: frames }, (_, n) => {
      const at = 68 + 3 * (n * channels + channel);
      return ((view.getInt8(at + 2) << 16) | (view.getUint8(at + 1) << 8) | view.getUint8(at)) / 2 ** 23;
    }),
  );
}

/** A record under a Hann window, ready to be asked for lines. The window's own factor of one half is left away. */
export function windowed(samples: Float64Array): Float64Array {
  return samples.map((sample, n) => sample * (1 - Math.cos((2 * Math.PI * n) / samples.length)));
}

/**
 * Level of the strongest line within `reach_Hz` of a frequency: the Fourier sum itself, on a grid of an eighth of the
 * record's resolution.
 */
export function lineLevel_rms(
  windowedSamples: Float64Array,
  rate_Hz: number,
  near_Hz: number,
  reach_Hz: number,
): number {
  const step_Hz = rate_Hz / windowedSamples.length / 8;
  let best_rms = 0;
  for (let f = near_Hz - reach_Hz; f <= near_Hz + reach_Hz; f += step_Hz) {
    best_rms = Math.max(
      best_rms,
      (Math.SQRT2 * Math.abs(fourierSum(windowedSamples, f / rate_Hz))) / windowedSamples.length,
    );
  }
  return best_rms;
}

/** |Σ x(n)·e^(−2πi·cycles·n)|, the turning vector multiplied on from sample to sample. */
function fourierSum(samples: Float64Array, cycles: number): number {
  const cos = Math.cos(2 * Math.PI * cycles);
  const sin = Math.sin(2 * Math.PI * cycles);
  let [c, s, re, im] = [1, 0, 0, 0];
  for (let n = 0; n < samples.length; n++) {
    re += samples[n]! * c;
    im -= samples[n]! * s;
    const turned = c * cos - s * sin;
    s = s * cos + c * sin;
    c = turned;
  }
  return Math.hypot(re, im);
}
