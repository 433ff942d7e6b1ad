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
    /** The calculation that drew it, where it was not read. */
    readonly calculation?: string;
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
  /** What of the causes may be named: one that surely makes nearly all of the line. */
  readonly origin?: {
    readonly state: "one cause" | "not told apart";
    readonly causes?: readonly {
      readonly cause: "mains" | "pick-up" | "amplifier" | "valve";
      readonly position?: string;
      readonly valve?: string;
    }[];
  };
  readonly heardOn: readonly {
    readonly headphone: string;
    readonly margin_dB: number;
    readonly audible: "yes" | "no" | "doubtful";
    /** Whether the channel's own hiss covers it; left out where the hiss was not asked. */
    readonly masked?: "yes" | "no" | "doubtful";
  }[];
}

export interface SpectrumView {
  readonly recording: string;
  readonly channel: string;
  /** Lowest and highest level in each column of a log frequency axis, amplitude spectrum. */
  readonly columns: readonly { readonly frequency_Hz: number; readonly low_dBV: number; readonly high_dBV: number }[];
  readonly resolution_Hz: number;
  /** The ends of the whole recording's axis, of which the columns may show a part. */
  readonly whole_Hz: readonly [number, number];
}

/** Whether a regenerated supply was fit to judge a hum by. */
export interface SupplyFairnessView {
  readonly recording: string;
  readonly instrument?: string;
  readonly state: "believed" | "not believed" | "untried";
  /** What speaks against it, in words. */
  readonly against: readonly string[];
  /** How the regenerator's own trials about that time stand. */
  readonly trial?: "good" | "failed" | "undecided";
  /** Its shape, recorded on the same unit within half a day; a sine's crest factor is 1.414. */
  readonly shape?: { readonly crestFactor: number; readonly doubt: number; readonly thd_pct: number };
  /** The recording's own `supply` channel, and its level against the building's mains at the same scale. */
  readonly beside?: {
    readonly crestFactor: number;
    readonly doubt: number;
    readonly thd_pct: number;
    readonly level?: { readonly change_pct: number; readonly doubt_pct: number };
  };
  /** HT while it was recorded, against that on the building's mains. */
  readonly ht?: {
    readonly building_V: number;
    readonly here_V: number;
    readonly change_pct: number;
    readonly doubt_pct: number;
  };
}

/** What the unit's valves do when they are tapped; hum recordings show nothing of it. */
export interface MicrophonyView {
  readonly state: "rings" | "quiet" | "undecided";
  readonly position?: string;
  readonly valve?: string;
  readonly frequency_Hz?: number;
  readonly q?: number;
  readonly decay_ms?: number;
  readonly peak_Vpk?: number;
  readonly words: string;
  readonly recordings: readonly {
    readonly recording: string;
    readonly valves: Readonly<Record<string, string>>;
    readonly taps: number;
    readonly rings: readonly {
      readonly frequency_Hz: number;
      readonly q: number;
      readonly decay_ms: number;
      readonly peak_Vpk: number;
    }[];
  }[];
}

/** Recorder's files that came in by themselves and wait to be given to a unit. */
export interface WaitingView {
  /** The folder that is watched, and whether it was there at the last look; left out where none is. */
  readonly folder?: string;
  readonly isThere?: boolean;
  /** Newest first. */
  readonly files: readonly {
    readonly file_sha256: string;
    readonly name: string;
    readonly arrivedAt: string;
    readonly madeAt: string;
    readonly rate_Hz: number;
    readonly channels: number;
    readonly duration_s: number;
  }[];
  /** Files that could not be taken in, and why. */
  readonly refused: readonly { readonly name: string; readonly why: string }[];
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
      | {
          readonly state: "undecided";
          readonly reason: string;
          readonly candidates: readonly string[];
          /** Causes that surely make the hum together, none of them surely more than half. */
          readonly together?: HumLineView["causes"];
        }
      | { readonly state: "quiet" }
    >
  >;
  /** Of every recording on a regenerated supply, those that are not believed with them. */
  readonly supplies: readonly SupplyFairnessView[];
  readonly microphony?: MicrophonyView;
  readonly nextRecording: null | {
    readonly why: string;
    readonly supply: { readonly source: string; readonly frequency_Hz: number };
    readonly valves: Readonly<Record<string, string>>;
    /** At the bench, from how the unit stands now. */
    readonly minutes?: number;
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
  /** It left and is here again, with what its customer says. */
  readonly back?: { readonly at: string; readonly says: string };
  /** When it went into its parcel. */
  readonly packedAt?: string;
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
      /** When these hands come to it. */
      readonly start?: string;
    }[];
    /** When they go home; left out when not at work any more today. */
    readonly home?: string;
    /** What to begin before that, as it goes on by itself. */
    readonly beforeHome?: readonly {
      /** Where it waits, and for how long. */
      readonly place?: string;
      readonly wait_h?: number;
      readonly slot?: number;
      readonly unit: string;
      readonly claim: string;
      readonly title: string;
      readonly why: string;
      readonly hands_min: number;
      readonly danger: string;
      readonly latest: string;
      readonly ripe: string;
    }[];
  }[];
  /** What goes on by itself once hands set it going, and was not written down as begun. */
  readonly toBegin?: readonly {
    readonly unit: string;
    readonly step: string;
    readonly place?: string;
    readonly hours: number;
    /** Slots of the place that nothing stands in. */
    readonly free?: number;
    /** The first slot that is free, where slots are counted. */
    readonly slot?: number;
  }[];
  /** Units that came back and were not released anew, though each proof of theirs stands: no check tells of them. The newest first. */
  readonly back?: readonly { readonly unit: string; readonly at: string; readonly says: string }[];
  /** What nobody can do today, and why. */
  readonly blocked?: readonly {
    readonly unit: string;
    readonly claim: string;
    readonly title: string;
    readonly why: string;
    readonly danger: string;
    readonly hands_min: number;
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
  /** When the date was given, and how often such dates are to be kept. */
  readonly given?: { readonly at: string; readonly share_pct: number };
  /** Share of the runs that have it done on the day given. */
  readonly onTime?: number;
  readonly words: string;
  readonly late: boolean;
}

/** How a valve stands after what was read of it; `unread` when nothing can be said yet. */
export type ValveStanding = "use" | "hold" | "reject" | "unread";

/** One tray among all: what lies in it and how far its reading has come. */
export interface TrayCardView {
  readonly batch: string;
  readonly type: string;
  readonly seller: string;
  readonly at: string;
  readonly valves: number;
  readonly stands: Readonly<Record<ValveStanding, number>>;
  readonly coldRead: number;
  readonly hotRead: number;
  /** When the heat run of a tray read cold, and not yet hot, ends. */
  readonly heatRunEnds?: string;
}

export interface TraysView {
  readonly now: string;
  /** The newest first; the latest of all, or of those found. */
  readonly trays: readonly TrayCardView[];
  readonly traysInAll?: number;
  /** Types that have their test point and limits on record. */
  readonly types: readonly { readonly type: string; readonly plate_V: number; readonly grid_V: number }[];
  /** Types of the catalogue, with their number of sections. */
  readonly catalogue: readonly { readonly type: string; readonly sections: number }[];
}

export interface ValveReadingView {
  readonly evidence: string;
  readonly section: string;
  readonly phase: "cold" | "hot" | "curve";
  readonly at: string;
  readonly by: string;
  readonly instrument: string;
  readonly time_h: number;
  readonly plate_V: number;
  readonly grid_V: number;
  /** As the tester showed it. */
  readonly plate_mA: number;
  /** Put right by the reference valve. */
  readonly right_mA?: number;
  readonly gm_mS?: number;
  readonly gridCurrent_uA?: number;
  readonly leakage_uA?: number;
}

export interface TrayValveView {
  readonly valve: string;
  readonly standing: ValveStanding;
  readonly reasons: readonly string[];
  /** For each place of its type whether it serves there, and what its grid current does to the bias. */
  readonly advice: readonly {
    readonly place: string;
    readonly serves: "yes" | "no" | "undecided";
    readonly words: readonly string[];
  }[];
  /** The unit and position it stands in, when it stands in one. */
  readonly standsIn?: { readonly unit: string; readonly position: string };
  readonly sections: readonly {
    readonly section: string;
    /** Put right by the reference valve. */
    readonly cold_mA?: number;
    readonly hot_mA?: number;
    readonly drift_pct?: number;
    readonly doubt_pct?: number;
    readonly gm_mS?: number;
    readonly gridCurrent_uA?: number;
    readonly leakage_uA?: number;
    /** Where its current is heading and how soon, and what its grid current does in the real grid leak. */
    readonly words: readonly string[];
  }[];
  readonly sectionSpread_pct?: number;
  readonly sectionSpreadDoubt_pct?: number;
  readonly readings: readonly ValveReadingView[];
}

export interface TrayView {
  readonly batch: string;
  readonly type: string;
  readonly seller: string;
  readonly at: string;
  readonly now: string;
  readonly sections: readonly string[];
  readonly limits?: {
    readonly plate_V: number;
    readonly grid_V: number;
    readonly referenceTrue_mA: number;
    readonly reading_doubt_pct: number;
    readonly heatRun_h?: number;
    readonly drift_pct: number;
    readonly sectionSpread_pct: number;
    readonly gridCurrent_uA?: number;
    readonly leakage_uA?: number;
    readonly gm_min_pct?: number;
  };
  readonly reference?: {
    readonly valve: string;
    readonly true_mA: number;
    readonly readings: readonly {
      readonly evidence: string;
      readonly at: string;
      readonly time_h: number;
      readonly plate_mA: number;
      readonly shift_pct: number;
    }[];
    /** What the tester showed of the true current while the tray was read, less one. */
    readonly cold_pct?: number;
    readonly hot_pct?: number;
    /** How far the tester itself moved between the two; the whole tray leans by it. */
    readonly lean_pct?: number;
    readonly doubt_pct: number;
  };
  /** The middle of all sections' put-right currents, about which the tray is drawn. */
  readonly middle_mA?: number;
  readonly heatRunEnds?: string;
  readonly valves: readonly TrayValveView[];
  /** Why nothing can be judged yet, and what would mend it. */
  readonly wanting?: string;
  /** Hours on the tester's clock at `now`, where the next reading would stand. */
  readonly clock_h: number;
  /** Instruments on record, each with what it is tried by. */
  readonly instruments: readonly { readonly instrument: string; readonly reference: string }[];
  readonly notes: readonly string[];
}

export interface ValveSetsView {
  readonly batch: string;
  readonly type: string;
  readonly from: "tray" | "shelf";
  /** Valves that may be used and stand nowhere. */
  readonly considered: number;
  readonly models: readonly {
    readonly model: string;
    readonly revision: string;
    /** What a set is judged by: the channels' imbalance in its own circuit, or only likeness at the test point. */
    readonly by: "circuit" | "current";
    readonly limit?: number;
    readonly sets: readonly {
      readonly unit: string;
      readonly order: string;
      readonly due?: string;
      readonly positions: Readonly<Record<string, string>>;
      /** dB in the circuit, or per cent of current. */
      readonly cost: number;
      readonly doubt?: number;
    }[];
    readonly unplaced: readonly string[];
    /** Sets that would fit the same places, kept for units in the field. */
    readonly reserve: readonly {
      readonly positions: Readonly<Record<string, string>>;
      readonly cost: number;
      readonly doubt?: number;
    }[];
    readonly optimal: boolean;
    readonly gap: number;
    readonly notes: readonly string[];
  }[];
  /** Valves left over, those nearest to the middle first. */
  readonly left: readonly string[];
  readonly notes: readonly string[];
}

export type ProbeKind = "resistance" | "dc" | "gain";

/** A reading taken with a probe, as it stands beside what good units give there. */
export interface ProbeReadingView {
  readonly evidence: string;
  readonly kind: ProbeKind;
  readonly value: number;
  readonly doubt: number;
  readonly instrument: string;
  readonly at: string;
  readonly by: string;
  /** For a resistance the other end; for a gain where the tone went in, and its frequency. */
  readonly to?: string;
  readonly input?: string;
  readonly frequency_Hz?: number;
  /** Why it no longer counts, when it does not: a rework since, or its instrument. */
  readonly fallen?: string;
}

export interface ProbePointView {
  readonly point: string;
  readonly node: string;
  readonly stage?: string;
  readonly channel?: string;
  /** On the chassis seen from below, front edge at 0. */
  readonly x_mm: number;
  readonly y_mm: number;
  /** Where the tone goes in for a gain at this point, when its channel has an input. */
  readonly input?: string;
  /** It is a channel's output, where the gain shows what no direct voltage does. */
  readonly isOutput: boolean;
  /** Positions whose valve has an electrode here. */
  readonly valves: readonly string[];
  /** The newest of each kind that counts, and those that no longer do. */
  readonly readings: readonly ProbeReadingView[];
}

export interface ProbeCardView {
  readonly unit: string;
  readonly model: string;
  readonly revision: string;
  readonly now: string;
  /** The node that resistances and voltages are read against. */
  readonly ground: string;
  /** Whether the places are the model's own, or laid out by stage and channel because it names none. */
  readonly placed: "by the model" | "by stage";
  /** In the order in which a hand goes from the supply to the output. */
  readonly points: readonly ProbePointView[];
  readonly valves: readonly { readonly position: string; readonly type: string; readonly valve?: string }[];
  readonly instruments: readonly string[];
  readonly meter_Mohm: number;
  readonly released: boolean;
}

export interface Window {
  readonly low: number;
  readonly median: number;
  readonly high: number;
}

export interface ProbeWindowsView {
  /** By point: where 99 of 100 good units lie, the meter's own load reckoned with. */
  readonly dc: Readonly<Record<string, Window>>;
  readonly resistance: Readonly<Record<string, Window>>;
  readonly gain: Readonly<Record<string, Window>>;
  /** Positions drawn by their own valve's readings; at the others the type's spread stands. */
  readonly ownCurves: readonly string[];
  readonly notes: readonly string[];
  /** Why there are none, when the circuit would not be solved, and the mend. */
  readonly trouble?: string;
}

export interface SuspectView {
  readonly part: string;
  readonly fault: string;
  readonly odds: number;
  /** What the part is, as its model labels it, and what would be wrong with it. */
  readonly words: string;
  /** Others that no reading tells apart from this one. */
  readonly alike: readonly string[];
  /** Test points that stand on one of the part's ends. */
  readonly near: readonly string[];
}

export interface ProbeSuspectsView {
  readonly state: "unread" | "good" | "faulty" | "undecided";
  readonly because: string;
  readonly counted: number;
  readonly suspects: readonly SuspectView[];
  readonly nextProbe?: {
    readonly kind: ProbeKind;
    readonly point: string;
    readonly to?: string;
    readonly input?: string;
    readonly frequency_Hz?: number;
    readonly why: string;
    readonly minutes: number;
    readonly danger: "none" | "mains" | "high-voltage";
    readonly caution: string;
  };
  readonly notes: readonly string[];
  readonly trouble?: string;
}
