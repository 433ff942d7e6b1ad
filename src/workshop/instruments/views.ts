import type { GaugeReading, GaugeStudy, Signal, WindowShare } from "../../measurement/index.ts";

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

/** Limits that some model sets to a figure. */
export interface WindowView {
  readonly model: string;
  readonly title: string;
  readonly quantity: string;
  readonly point?: string;
  readonly low?: number;
  readonly high?: number;
}

export interface GaugeView {
  readonly instruments: readonly { readonly instrument: string; readonly title: string; readonly quantity: string }[];
  readonly windows: readonly WindowView[];
  readonly studies: readonly {
    readonly id: string;
    readonly at: string;
    readonly by: string;
    readonly instrument: string;
    readonly title: string;
    readonly quantity: string;
    readonly what: string;
    readonly readings: readonly GaugeReading[];
    readonly result: GaugeStudy & {
      readonly state: "solved" | "undecided";
      readonly reason?: string;
      readonly notes: readonly string[];
    };
    /** What one reading by any of these hands leaves of each window, with its 95 % interval. */
    readonly windows: readonly (WindowView &
      WindowShare & { readonly least_pct?: number; readonly most_pct?: number })[];
  }[];
}

/** One figure of a model over its units, as they left. */
export interface UnitChartView {
  readonly model: string;
  readonly claim: string;
  readonly title: string;
  readonly quantity: string;
  /** Channel, valve position, test point. */
  readonly where: string;
  readonly window: { readonly low?: number; readonly high?: number };
  readonly units: readonly {
    readonly unit: string;
    readonly value: number;
    readonly doubt: number;
    /** Or still here, the figure proven by now. */
    readonly hasLeft: boolean;
  }[];
  /** Mean and three sigma of what units scatter from one to the next. */
  readonly centre: number;
  readonly low: number;
  readonly high: number;
  readonly signals: readonly Signal[];
  /** Room to the nearer limit in three sigma; 1 is just enough. */
  readonly room?: { readonly value: number; readonly low?: number; readonly high?: number };
}

export interface UnitChartsView {
  readonly models: readonly string[];
  /** Those with signals first. */
  readonly charts: readonly UnitChartView[];
  /** Figures of too few units. */
  readonly few: number;
}
