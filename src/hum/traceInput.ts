import type { Recording } from "../bench/recording.ts";
import type { Supply } from "./cause.ts";

/** A recording of a unit's output with its input closed, and how the unit stood. */
export interface HumRecording {
  readonly id: string;
  readonly recording: Recording;
  readonly fullScale_Vpk: number;
  /** What each channel holds, in order; `mains` is a reference of the building's mains. */
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
}

/** Channel name of the reference of the building's mains. */
export const mainsChannel = "mains";
