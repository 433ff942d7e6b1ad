/** One instrument with its trials, its chart, and what rests on it. */
export interface InstrumentView {
  readonly instrument: string;
  readonly title: string;
  readonly trial: {
    readonly reference: string;
    readonly quantity: string;
    readonly true: number;
    readonly limit: number;
  };
  readonly standing: {
    readonly state: "good" | "failed" | "undecided" | "untried";
    readonly words: string;
    readonly at?: string;
  };
  readonly trials: readonly {
    readonly at: string;
    readonly value: number;
    readonly doubt: number;
    readonly state: "proven" | "refuted" | "undecided";
  }[];
  /** Drawn from its first trials; a reading outside, or nine on one side, is a signal. */
  readonly chart?: {
    readonly centre: number;
    readonly low: number;
    readonly high: number;
    readonly baseline: number;
    readonly signals: readonly { readonly index: number; readonly rule: "outside" | "run" }[];
    /** Weighted mean, for slow drifts. */
    readonly weighted: readonly number[];
    readonly weightedLow: number;
    readonly weightedHigh: number;
    readonly drifts: boolean;
  };
  /** Proofs of open units that rest on it. */
  readonly restsOnIt: number;
  /** Proofs that fell with it and must be made again. */
  readonly reopened: readonly {
    readonly unit: string;
    readonly claim: string;
    readonly title: string;
    readonly why: string;
  }[];
}

export interface InstrumentsView {
  readonly now: string;
  readonly instruments: readonly InstrumentView[];
}
