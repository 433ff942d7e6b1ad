import { type WavWriting, wavWriter } from "./wavWriter.ts";

export type { WavEncoding } from "./wavWriter.ts";

export interface WavOptions extends Pick<WavWriting, "encoding" | "extensible"> {
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
  { rf64 = false, ...options }: WavOptions = {},
): Uint8Array {
  const pieces: Uint8Array[] = [];
  const frames = samples[0]?.length ?? 0;
  const writer = wavWriter(
    { append: (bytes) => pieces.push(bytes) },
    { ...options, rate_Hz, channels: samples.length, frames, ...(rf64 && { largeFrom_B: 0 }) },
  );
  writer.write(samples);
  writer.close();
  const whole = new Uint8Array(pieces.reduce((sum, piece) => sum + piece.length, 0));
  let place = 0;
  for (const piece of pieces) {
    whole.set(piece, place);
    place += piece.length;
  }
  return whole;
}
