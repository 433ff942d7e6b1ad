import { extensibleTail, wavExtensible, wavFloat, wavPcm } from "./wavFormat.ts";

export type WavEncoding = "pcm16" | "pcm24" | "pcm32" | "float32" | "float64";

export interface WavOptions {
  readonly encoding?: WavEncoding;
  /** Writes the longer header of WAVE_FORMAT_EXTENSIBLE. */
  readonly extensible?: boolean;
  /** Writes the header for files over 4 GiB whatever the size. */
  readonly rf64?: boolean;
}

/**
 * Writes a WAV file of samples where 1 is full scale; integers are rounded to the nearest step and held at the ends
 * of their range, so dither is the caller's affair.
 *
 * @param samples  one array a channel, all of one length
 */
export function encodeWav(
  rate_Hz: number,
  samples: readonly Float64Array[],
  { encoding = "pcm24", extensible = false, rf64 = false }: WavOptions = {},
): Uint8Array {
  const bytesPerSample = Number(encoding.replace(/\D+/, "")) / 8;
  const float = encoding.startsWith("float");
  const channels = samples.length;
  const frames = samples[0]?.length ?? 0;
  const dataBytes = frames * channels * bytesPerSample;
  const formatBytes = extensible ? 40 : 16;
  const largeBytes = rf64 ? 8 + 28 : 0;
  const total = 12 + largeBytes + 8 + formatBytes + 8 + dataBytes + (dataBytes % 2);
  const bytes = new Uint8Array(total);
  const at = new DataView(bytes.buffer);
  let place = 0;
  const text = (letters: string) => {
    for (const letter of letters) at.setUint8(place++, letter.charCodeAt(0));
  };
  const u16 = (value: number) => {
    at.setUint16(place, value, true);
    place += 2;
  };
  const u32 = (value: number) => {
    at.setUint32(place, value, true);
    place += 4;
  };
  const u64 = (value: number) => {
    u32(value % 2 ** 32);
    u32(Math.floor(value / 2 ** 32));
  };

  text(rf64 ? "RF64" : "RIFF");
  u32(rf64 ? 0xffff_ffff : total - 8);
  text("WAVE");
  if (rf64) {
    text("ds64");
    u32(28);
    u64(total - 8);
    u64(dataBytes);
    u64(frames);
    u32(0);
  }
  text("fmt ");
  u32(formatBytes);
  u16(extensible ? wavExtensible : float ? wavFloat : wavPcm);
  u16(channels);
  u32(rate_Hz);
  u32(rate_Hz * channels * bytesPerSample);
  u16(channels * bytesPerSample);
  u16(bytesPerSample * 8);
  if (extensible) {
    u16(22);
    u16(bytesPerSample * 8);
    u32(0);
    u16(float ? wavFloat : wavPcm);
    for (const byte of extensibleTail) at.setUint8(place++, byte);
  }
  text("data");
  u32(rf64 ? 0xffff_ffff : dataBytes);
  const write = sampleWriter(encoding, at);
  for (let i = 0; i < frames; i++) {
    for (const channel of samples) {
      write(place, channel[i]!);
      place += bytesPerSample;
    }
  }
  return bytes;
}

function sampleWriter(encoding: WavEncoding, at: DataView): (byte: number, value: number) => void {
  const code = (value: number, steps: number) => Math.max(-steps, Math.min(steps - 1, Math.round(value * steps)));
  switch (encoding) {
    case "pcm16":
      return (byte, value) => at.setInt16(byte, code(value, 2 ** 15), true);
    case "pcm24":
      return (byte, value) => {
        const step = code(value, 2 ** 23);
        at.setUint16(byte, step & 0xffff, true);
        at.setInt8(byte + 2, step >> 16);
      };
    case "pcm32":
      return (byte, value) => at.setInt32(byte, code(value, 2 ** 31), true);
    case "float32":
      return (byte, value) => at.setFloat32(byte, value, true);
    case "float64":
      return (byte, value) => at.setFloat64(byte, value, true);
  }
}
