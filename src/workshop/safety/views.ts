import type { TouchGuide } from "../../safety/index.ts";

/** One figure of a safety test, as it stands against its limit. */
export interface SafetyFigureView {
  readonly claim: string;
  readonly title: string;
  readonly quantity: string;
  readonly point?: string;
  readonly channel?: string;
  /** What the order calls it, such as protective earth continuity. */
  readonly test: string;
  readonly how: string;
  readonly caution?: string;
  readonly danger: string;
  readonly low?: number;
  readonly high?: number;
  /** Where the limit comes from, and whether it was read. */
  readonly limit: { readonly source: string; readonly seen: "standard" | "copy" | "memory" | "own" | "model" };
  readonly state: "open" | "proven" | "refuted" | "undecided" | "void";
  readonly because: string;
  readonly value?: number;
  readonly doubt?: number;
  readonly instrument?: string;
  readonly at?: string;
  /** Reading up to (or from) which it is proven, at that doubt. */
  readonly acceptance?: number;
  readonly riskFalseAccept?: number;
  /** Tests that must be proven before this one is made. */
  readonly waitsFor: readonly string[];
  /** Tests that protect this one and had never been read when it was. */
  readonly outOfTurn: readonly string[];
}

/** The safety sheet of a unit: every test in the order that protects the tester. */
export interface SafetySheetView {
  readonly unit: string;
  readonly model: string;
  readonly place?: string;
  readonly supply?: { readonly nominal_V: number; readonly frequency_Hz: number };
  readonly market?: { readonly market: string; readonly edition: string; readonly by: string; readonly at: string };
  readonly state: "proven" | "refuted" | "undecided" | "open";
  readonly figures: readonly SafetyFigureView[];
  /** Instruments that may be read with today. */
  readonly instruments: readonly {
    readonly instrument: string;
    readonly title: string;
    readonly quantity: string;
    readonly state: string;
  }[];
  /** Level that the shop's headphones make of a voltage, and the hours a week of it that a guide allows. */
  readonly headphones: readonly {
    readonly headphone: string;
    readonly impedance_ohm: number;
    readonly at80_Vrms: number;
    readonly at100_Vrms: number;
    readonly dc_mW?: number;
  }[];
  /** Greatest steady level at the jack, where it was read. */
  readonly greatest_Vrms?: number | undefined;
  /** Stores of charge in the net list, at the top of their tolerance. */
  readonly stores: readonly {
    readonly part: string;
    readonly capacitance_uF: number;
    readonly bleeder?: string;
    readonly bleeder_ohm?: number;
  }[];
  readonly touch: readonly TouchGuide[];
  readonly cautions: readonly string[];
}

/** Limits of one market as they were adopted. */
export interface AdoptedLimitsView {
  readonly market: string;
  readonly places: readonly string[];
  readonly edition: string;
  readonly by: string;
  readonly at: string;
  readonly id: string;
  readonly limits: readonly {
    readonly quantity: string;
    readonly test: string;
    readonly point?: string;
    readonly low?: number;
    readonly high?: number;
    readonly source: string;
    readonly seen: "standard" | "copy" | "memory" | "own";
  }[];
}

export interface SafetyLimitsView {
  readonly markets: readonly AdoptedLimitsView[];
  /** Destinations of open orders for which nobody adopted limits. */
  readonly uncovered: readonly string[];
  /** Who may adopt limits. */
  readonly able: readonly string[];
  /** Quantities of safety claims, with the model's own limit. */
  readonly quantities: readonly {
    readonly quantity: string;
    readonly test: string;
    readonly low?: number;
    readonly high?: number;
  }[];
}
