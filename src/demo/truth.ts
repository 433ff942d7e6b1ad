import type { OfficeTruth } from "./officeTruth.ts";
import type { Fault } from "./physics/fault.ts";
import type { ChannelPhysics } from "./physics/humLines.ts";
import type { Leakage } from "./physics/leakage.ts";
import type { Reservoir } from "./physics/rectifier.ts";
import type { Ring } from "./physics/ringing.ts";
import type { TriodeLaw } from "./physics/triode.ts";
import type { VolumeControl } from "./physics/volumeControl.ts";
import type { TimberTruth } from "./timber/truth.ts";

/** A section as it really is. */
export interface SectionTruth {
  /** Curves once it has run in. */
  readonly law: TriodeLaw;
  /** Current before the heat run over that after it. */
  readonly coldOverHot: number;
  /** Heater to cathode, at the tester's voltage. */
  readonly leakageCold_uA: number;
  readonly leakage: Leakage;
  readonly gridCurrent_uA: number;
  /** What rings in it when the bottle is tapped; left out, as little as in any good valve. */
  readonly rings?: readonly Ring[];
}

export interface ValveTruth {
  readonly valve: string;
  readonly type: string;
  readonly batch: string;
  readonly sections: Readonly<Record<string, SectionTruth>>;
}

export interface UnitTruth {
  readonly unit: string;
  readonly model: string;
  /** Resistances, in the net list's names, that differ from their print by this factor. */
  readonly resistors: Readonly<Record<string, number>>;
  readonly channels: readonly ChannelPhysics[];
  /** Its HT reservoir, where the pulses that charge it are heard. */
  readonly reservoir?: Reservoir;
  readonly control?: VolumeControl;
}

/** What one probe sheet was taken of. */
export interface SheetTruth {
  readonly unit: string;
  readonly at: string;
  readonly fault?: Fault;
  readonly story?: string;
}

/** What really is so in the demo workshop. It is kept apart from the evidence and read only to keep score. */
export interface Truth {
  readonly hum: readonly {
    readonly unit: string;
    readonly channel: string;
    readonly state: "decided" | "undecided" | "quiet";
    readonly cause?: "mains" | "pick-up" | "amplifier" | "valve";
    readonly position?: string;
    readonly valve?: string;
    readonly story: string;
  }[];
  readonly valves: readonly {
    readonly valve: string;
    /** Verdicts that are right by what the valve really does; more than one where it lies near a limit. */
    readonly allowed: readonly ("use" | "hold" | "reject")[];
    readonly story?: string;
  }[];
  /** Recordings on a supply that was not what it should be, so that they prove nothing. */
  readonly unfair: readonly { readonly recording: string; readonly unit: string; readonly story: string }[];
  /** What makes left and right differ, of every unit whose tones were recorded over its volume control. */
  readonly balance: readonly {
    readonly unit: string;
    readonly cause: "control" | "valves" | "circuit" | "alike";
    readonly story: string;
  }[];
  /** Units that were tapped: the valve that rings, or none. */
  readonly taps: readonly { readonly unit: string; readonly valve?: string; readonly story: string }[];
  /** Probe sheets, by unit and the moment they were begun: good, or which part had gone wrong and how. */
  readonly sheets: readonly SheetTruth[];
  /** Valves that pass at the tester and yet can't serve a place in a unit. */
  readonly places: readonly { readonly valve: string; readonly position: string; readonly story: string }[];
  /** A dealer's fours that match at his point, not at ours: pairs made across two of them serve better. */
  readonly fours: readonly { readonly fours: readonly (readonly string[])[]; readonly story: string }[];
  readonly proposals: readonly { readonly unit: string; readonly position: string; readonly best: string }[];
  readonly timber?: TimberTruth;
  readonly office?: OfficeTruth;
  readonly physics: {
    readonly seed: number;
    readonly building_Hz: number;
    readonly units: readonly UnitTruth[];
    readonly valves: readonly ValveTruth[];
  };
}
