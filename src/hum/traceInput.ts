import type { Recording } from "../bench/recording.ts";
import type { Supply } from "./cause.ts";

/** A recording of a unit's output with its input closed, and how the unit stood. */
export interface HumRecording {
  readonly id: string;
  readonly recording: Recording;
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

/** Channel names of references, through a divider: the building's mains, and what the unit's socket gives. */
export const mainsChannel = "mains";
export const supplyChannel = "supply";

/** Whether a channel holds a reference instead of an output of the unit. */
export function isReference(channel: string): boolean {
  return channel === mainsChannel || channel === supplyChannel;
}
