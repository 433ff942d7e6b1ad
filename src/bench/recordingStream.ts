import type { Recording } from "./recording.ts";

/** A recording read a stretch at a time, so that its length costs no memory. Samples are scaled as in `Recording`. */
export interface RecordingStream {
  readonly rate_Hz: number;
  readonly channels: number;
  /** Samples of each channel that the file holds. */
  readonly frames: number;
  readonly truncated: boolean;
  readonly bits: number;
  readonly float: boolean;
  /**
   * Fills one array a channel, all of one length, with the samples from `first` on.
   *
   * @throws RangeError  outside the recording
   */
  read(first: number, into: readonly Float64Array[]): void;
}

/** A recording in memory, read like one that is not. */
export function streamOf(recording: Recording | RecordingStream): RecordingStream {
  if ("read" in recording) return recording;
  const { rate_Hz, samples, truncated, bits, float } = recording;
  const frames = samples[0]!.length;
  return {
    rate_Hz,
    channels: samples.length,
    frames,
    truncated,
    bits,
    float,
    read(first, into) {
      refuseOutside(first, into, frames);
      into.forEach((room, c) => {
        room.set(samples[c]!.subarray(first, first + room.length));
      });
    },
  };
}

/** @throws RangeError when a stretch does not lie within a record */
export function refuseOutside(first: number, into: readonly Float64Array[], frames: number): void {
  const count = into[0]?.length ?? 0;
  if (first >= 0 && first + count <= frames) return;
  throw new RangeError(`samples ${first} to ${first + count} of a recording of ${frames}`);
}
