import type { Saved, SurvivalPoint } from "../../production/index.ts";

/** Something that goes on by itself now. */
export interface RunningView {
  readonly run: string;
  readonly what: string;
  readonly at: string;
  readonly by: string;
  readonly ripe: string;
  readonly hours: number;
  readonly place: string;
  readonly danger: string;
  readonly things: readonly { readonly thing: string; readonly slot?: number }[];
  /** Things of the run that have ended. */
  readonly ended: number;
}

export interface SoakCostsView {
  readonly hour_cents: number;
  readonly escape_cents: number;
  /** Faults of the same sorts that came back from customers, which the escape's cost is of. */
  readonly returns: number;
}

/** A length of soak to change, by the shop's own hours; undecided where its interval holds naught. */
export interface SoakChangeView {
  readonly what: string;
  readonly kind: "shorten" | "lengthen";
  readonly from_h: number;
  readonly to_h: number;
  readonly saving_cents: number;
  readonly low_cents: number;
  readonly high_cents: number;
  readonly state: Saved["state"];
  readonly pieces: number;
  readonly failures: number;
  /** Failures on record that a shorter one would not have shown, where they were counted. */
  readonly missed?: number;
}

/** One sort of soak: its pieces, their survival, and the hours that pay. */
export interface SoakSortView {
  readonly what: string;
  readonly pieces: number;
  readonly failures: number;
  readonly soaked_h: number;
  /** The length it is usually begun for. */
  readonly today_h: number;
  readonly curve: readonly SurvivalPoint[];
  readonly median_h?: number;
  /** Where nothing failed yet: at most this share does, in 19 of 20 such series. */
  readonly atMost?: number;
  readonly costs?: SoakCostsView | undefined;
  readonly hoursThatPay?: number;
  readonly saving_cents?: number;
  readonly againstNone?: Saved;
  readonly againstToday?: Saved;
  readonly change?: Omit<SoakChangeView, "what" | "from_h" | "pieces" | "failures">;
  readonly faults: readonly { readonly fault: string; readonly count: number; readonly hours: readonly number[] }[];
  readonly notes: readonly string[];
}

export interface SoaksView {
  readonly now: string;
  readonly currency?: string;
  readonly running: readonly RunningView[];
  readonly sorts: readonly SoakSortView[];
  /** Units that may be set going, with what they would wait for. */
  readonly units: readonly {
    readonly unit: string;
    readonly waits: readonly {
      readonly step?: string;
      readonly claim?: string;
      readonly title: string;
      readonly hours: number;
      readonly place?: string;
      readonly danger?: string;
    }[];
  }[];
  readonly trays: readonly {
    readonly batch: string;
    readonly type: string;
    readonly valves: readonly string[];
    readonly heatRun_h?: number;
  }[];
  readonly places: readonly {
    readonly place: string;
    readonly capacity: number;
    readonly free: number;
    readonly slot?: number;
  }[];
}
