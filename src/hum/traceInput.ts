import type { Recording } from "../bench/recording.ts";
import { type RecordingStream, streamOf } from "../bench/recordingStream.ts";
import type { Supply } from "./cause.ts";

/** A recording of a unit's output with its input closed, and how the unit stood. */
export interface HumRecording {
  readonly id: string;
  /** In memory, or on disk: no more of it is read than the time for the answer allows. */
  readonly recording: Recording | RecordingStream;
  readonly fullScale_Vpk: number;
  /** What each channel holds, in order; `mains` and `supply` are references: the building's mains, the unit's own supply. */
  readonly channels: readonly string[];
  readonly supply: Supply;
  /** Position to the valve fitted there; the same positions in every recording. */
  readonly valves: Readonly<Record<string, string>>;
  /** How the unit's input was closed. */
  readonly input: string;
}

export interface TraceInput {
  readonly building_Hz: number;
  /** Channels that a valve position can reach; all of them for a position left out. */
  readonly feeds?: Readonly<Record<string, readonly string[]>>;
  readonly recordings: readonly HumRecording[];
  /** Time granted for the answer, 10 s when left out. */
  readonly seconds?: number;
}

/** How long a recording lasts and how many channels it has, without reading its samples. */
export function sizeOf({ recording }: HumRecording) {
  const { rate_Hz, channels, frames, truncated } = streamOf(recording);
  return { rate_Hz, channels, frames, truncated, duration_s: frames / rate_Hz };
}

/** The first seconds of a recording, all channels; the whole where it is shorter. */
export function beginningOf({ recording }: HumRecording, most_s: number): Recording {
  const stream = streamOf(recording);
  const { rate_Hz, truncated, bits, float } = stream;
  const length = Math.min(stream.frames, Math.floor(most_s * rate_Hz));
  const samples = Array.from({ length: stream.channels }, () => new Float64Array(length));
  stream.read(0, samples);
  return { rate_Hz, samples, truncated, bits, float };
}

/** Channel names of references, through a divider: the building's mains, and what the unit's socket gives. */
export const mainsChannel = "mains";
export const supplyChannel = "supply";

/** Whether a channel holds a reference instead of an output of the unit. */
export function isReference(channel: string): boolean {
  return channel === mainsChannel || channel === supplyChannel;
}
