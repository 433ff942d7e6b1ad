/**
 * What the screens, the terminal and the API show: plain data, computed from evidence by `workshop/`.
 * Every figure is a number with its unit in its name; words are for people. Dates are ISO 8601 instants.
 */

import type { Subject } from "../claims/evidence.ts";

export type State = "open" | "proven" | "refuted" | "undecided" | "void" | "conceded";

export interface ClaimView {
  readonly claim: string;
  readonly title: string;
  readonly sheet: "valves" | "voltages" | "sound" | "hum" | "timber" | "supply" | "safety";
  readonly safety: boolean;
  readonly state: State;
  /** Why it stands so, in one sentence. */
  readonly because: string;
  /** Each figure the claim needs, with the newest evidence for it, if any. */
  readonly figures: readonly {
    /** What a reading must name to answer this figure. */
    readonly subject: Subject;
    readonly quantity: string;
    readonly where: string;
    readonly value?: number;
    readonly doubt?: number;
    readonly low?: number;
    readonly high?: number;
    readonly state: State;
    readonly evidence?: string;
    readonly instrument?: string;
    readonly at?: string;
    readonly why: string;
  }[];
  /** What would decide it, when it is not decided. */
  readonly wouldDecide?: string;
  readonly check: {
    readonly how: string;
    readonly hands_min: number;
    readonly wait_h: number;
    readonly danger: string;
    readonly skill: string;
  };
}

export interface HumLineView {
  readonly channel: string;
  readonly recording: string;
  readonly frequency_Hz: number;
  readonly order: number;
  readonly of: "supply" | "building";
  readonly level_Vrms: number;
  readonly doubt_Vrms: number;
  readonly causes: readonly {
    readonly cause: "mains" | "pick-up" | "amplifier" | "valve";
    readonly position?: string;
    readonly valve?: string;
    readonly share: number;
    readonly low: number;
    readonly high: number;
  }[];
  readonly heardOn: readonly {
    readonly headphone: string;
    readonly margin_dB: number;
    readonly audible: "yes" | "no" | "doubtful";
  }[];
}

export interface SpectrumView {
  readonly recording: string;
  readonly channel: string;
  /** Lowest and highest level in each column of a log frequency axis, amplitude spectrum. */
  readonly columns: readonly { readonly frequency_Hz: number; readonly low_dBV: number; readonly high_dBV: number }[];
  readonly resolution_Hz: number;
}

export interface HumHearingView {
  readonly unit: string;
  readonly building_Hz: number;
  readonly recordings: readonly {
    readonly recording: string;
    readonly at: string;
    readonly source: "building" | "regenerated";
    readonly frequency_Hz: number;
    readonly valves: Readonly<Record<string, string>>;
    readonly input: string;
    readonly duration_s: number;
    readonly truncated: boolean;
  }[];
  readonly lines: readonly HumLineView[];
  readonly verdict: Readonly<
    Record<
      string,
      | {
          readonly state: "decided";
          readonly cause: string;
          readonly position?: string;
          readonly valve?: string;
          readonly odds: number;
        }
      | { readonly state: "undecided"; readonly reason: string; readonly candidates: readonly string[] }
      | { readonly state: "quiet" }
    >
  >;
  readonly nextRecording: null | {
    readonly why: string;
    readonly supply: { readonly source: string; readonly frequency_Hz: number };
    readonly valves: Readonly<Record<string, string>>;
  };
  readonly headphones: readonly {
    readonly headphone: string;
    readonly impedance_ohm: number;
    readonly sensitivity_dB_per_V: number;
  }[];
  /** In plain words, the most important first. */
  readonly sentences: readonly string[];
  readonly notes: readonly string[];
}

export interface ProposalView {
  /** What the valve's own readings say about it, before and after the heat run. */
  readonly because: readonly string[];
  readonly position: string;
  readonly out: string;
  readonly in: string;
  readonly balance_dB: number;
  readonly doubt_dB: number;
  readonly limit_dB: number;
  readonly considered: number;
  readonly voids: readonly { readonly claim: string; readonly title: string }[];
  readonly retests: readonly {
    readonly claim: string;
    readonly title: string;
    readonly hands_min: number;
    readonly wait_h: number;
    readonly danger: string;
  }[];
  /** The order's date as promised, as it stands before the exchange, and after it. */
  readonly promise: {
    readonly promised?: string;
    readonly before_p80: string;
    readonly after_p80: string;
    readonly heldBy: string;
  };
}

export interface UnitView {
  readonly unit: string;
  readonly model: string;
  readonly revision: string;
  readonly order: string;
  readonly destination: { readonly place: string; readonly nominal_V: number; readonly frequency_Hz: number };
  readonly due?: string;
  readonly fitted: Readonly<
    Record<
      string,
      {
        readonly valve: string;
        readonly type: string;
        readonly verdict?: "use" | "hold" | "reject";
        readonly reasons: readonly string[];
      }
    >
  >;
  readonly claims: readonly ClaimView[];
  readonly released: boolean;
  readonly release: {
    readonly granted: boolean;
    readonly missing: readonly {
      readonly claim: string;
      readonly title: string;
      readonly state: State;
      readonly because: string;
    }[];
  };
  readonly nextChecks: readonly {
    readonly claim: string;
    readonly title: string;
    readonly why: string;
    readonly hands_min: number;
    readonly danger: string;
  }[];
  readonly history: readonly {
    readonly id: string;
    readonly at: string;
    readonly by: string;
    readonly kind: string;
    readonly words: string;
  }[];
  readonly proposal?: ProposalView;
  readonly cautions: readonly string[];
}

export interface MorningView {
  readonly now: string;
  /** By the clock: what ends by itself today. */
  readonly ripens: readonly { readonly at: string; readonly what: string; readonly unit?: string }[];
  /** For each pair of hands, the next check and why. */
  readonly hands: readonly {
    readonly person: string;
    readonly next: readonly {
      readonly unit: string;
      readonly claim: string;
      readonly title: string;
      readonly why: string;
      readonly hands_min: number;
      readonly danger: string;
    }[];
  }[];
  readonly instruments: readonly {
    readonly instrument: string;
    readonly title: string;
    readonly state: "good" | "failed" | "undecided" | "untried";
    readonly at?: string;
    readonly words: string;
  }[];
}

export interface PromiseView {
  readonly order: string;
  readonly model: string;
  readonly units: readonly string[];
  readonly promised?: string;
  readonly p50: string;
  readonly p80: string;
  readonly p95: string;
  readonly heldBy: string;
  readonly words: string;
  readonly late: boolean;
}
