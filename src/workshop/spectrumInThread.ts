import { BadInput } from "../maths/badInput.ts";
import { openWavFile } from "../store/wavFile.ts";
import { type LevelSpectrum, levelSpectrum, mostSamples } from "./spectrum.ts";

/** A channel of a recording, by its place among the others. */
export interface PictureOf {
  readonly path: string;
  /** The recording as whoever asks knows it. */
  readonly given: string;
  readonly channel: number;
  readonly fullScale_Vpk: number;
}

export type Drawn =
  | { readonly ok: true; readonly levels: LevelSpectrum }
  | { readonly ok: false; readonly error: { readonly path: string; readonly message: string } };

/**
 * The levels that pictures of a channel are drawn from, away from the thread that serves people: half a second and more
 * of computing. A recording that can't be read is told, not thrown, as an error loses its kind on its way out of a thread.
 */
export function spectrumInThread({ path, given, channel, fullScale_Vpk }: PictureOf): Drawn {
  try {
    const stream = openWavFile(path, given, "recording");
    const frames = Math.min(stream.frames, mostSamples);
    const samples = Array.from({ length: stream.channels }, () => new Float64Array(frames));
    stream.read(0, samples);
    return { ok: true, levels: levelSpectrum(samples[channel]!, stream.rate_Hz, fullScale_Vpk) };
  } catch (fault) {
    if (!(fault instanceof BadInput)) throw fault;
    return { ok: false, error: { path: fault.path, message: fault.message } };
  }
}
