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

/**
 * The levels that pictures of a channel are drawn from, away from the thread that serves people: half a second and more
 * of computing.
 *
 * @throws BadInput  when the recording can't be read
 */
export function spectrumInThread({ path, given, channel, fullScale_Vpk }: PictureOf): LevelSpectrum {
  const stream = openWavFile(path, given, "recording");
  const samples = Array.from({ length: stream.channels }, () => new Float64Array(Math.min(stream.frames, mostSamples)));
  stream.read(0, samples);
  return levelSpectrum(samples[channel]!, stream.rate_Hz, fullScale_Vpk);
}
