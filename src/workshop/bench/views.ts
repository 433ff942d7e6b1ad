/** What the bench sheet shows: plain data, computed from a unit's recordings. Units stand in the names. */

export interface BenchFigure {
  readonly channel?: string;
  readonly quantity: string;
  readonly value: number;
  readonly doubt?: number;
  /** The figure could not be told from nothing: at most this. */
  readonly isLimit?: boolean;
  /** The recorder's own, below which this figure says nothing of the unit. */
  readonly recorder?: number;
}

export interface BenchCurve {
  readonly channel: string;
  readonly frequencies_Hz: readonly number[];
  readonly gain_dB: readonly number[];
}

export interface BenchRecordingView {
  readonly recording: string;
  readonly at: string;
  readonly by: string;
  readonly purpose: string;
  /** What was played, into which channel, at which volume and load. */
  readonly conditions: string;
  readonly instrument: string;
  readonly calculation?: string;
  readonly figures: readonly BenchFigure[];
  readonly curves: readonly BenchCurve[];
  readonly notes: readonly string[];
  /** Why there are no figures, in the words of the calculation. */
  readonly trouble?: string;
}

export interface RecorderView {
  readonly instrument: string;
  readonly title: string;
  readonly calibratedAt?: string;
  readonly age_days?: number;
  readonly grain_bits?: number;
  readonly rate_Hz?: number;
  readonly channels: readonly {
    readonly channel: string;
    readonly fullScale_Vpk: number;
    readonly doubt_Vpk: number;
    readonly noiseA_Vrms?: number;
    readonly thd_pct?: number;
  }[];
  /** What it is tried against each day. */
  readonly trial?: { readonly reference: string; readonly quantity: string; readonly true: number };
  /** How its daily trial stands, in words. */
  readonly standing: { readonly state: "good" | "failed" | "undecided" | "untried"; readonly words: string };
}

/** Left over right by the volume control's setting, and whose the difference is. */
export interface BalanceView {
  readonly cause: "control" | "valves" | "circuit" | "alike" | "undecided";
  readonly words: string;
  /** Each with one set of valves. */
  readonly rounds: readonly {
    readonly valves: Readonly<Record<string, string>>;
    readonly byPosition: readonly {
      readonly position: string;
      readonly difference_dB: number;
      readonly doubt_dB: number;
    }[];
  }[];
}

export interface BenchSheetView {
  readonly unit: string;
  readonly channels: readonly string[];
  /** Newest first. */
  readonly recordings: readonly BenchRecordingView[];
  /** Where tones were recorded at several settings of the volume control. */
  readonly balance?: BalanceView;
  /** Recorders calibrated here or used on this unit. */
  readonly recorders: readonly RecorderView[];
  /** Every instrument of the shop, for whoever names the recorder. */
  readonly instruments: readonly string[];
}
