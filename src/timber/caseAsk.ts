import type { Coat } from "./coats.ts";
import type { OwnWood } from "./ownWood.ts";

export interface Panel {
  readonly name: string;
  readonly species: string;
  /** In place of the catalogue's: the wood as the shop measured it. */
  readonly wood?: OwnWood;
  /** Of a wood that the catalogue lacks, as they stand: both coefficients, and its density at 12 %. */
  readonly tangential_per_pct?: number;
  readonly radial_per_pct?: number;
  readonly density_kg_m3?: number;
  readonly width_mm: number;
  readonly thickness_mm: number;
  readonly ringAngle_deg: number;
  /** At assembly. */
  readonly moisture_pct: number;
  readonly fixed: "edges" | "centre" | "free";
  /** Its inner face is at the wall's temperature. */
  readonly warm?: boolean;
  /** `first` is the outside, `second` the inside. */
  readonly coats?: readonly Coat[];
}

/** How the case travels: air by air is cold and dry, by sea damp and long (common practice, no source). */
export interface Parcel {
  readonly by: "air" | "sea";
  readonly days?: number;
  readonly temperature_C?: number;
  readonly humidity_pct?: number;
}

export const usualParcel = {
  air: { days: 5, temperature_C: 12, humidity_pct: 35 },
  sea: { days: 45, temperature_C: 26, humidity_pct: 78 },
} as const;

export interface MonthOfAir {
  readonly month: number;
  readonly temperature_C: number;
  readonly humidity_pct: number;
}

export interface CaseQuestion {
  readonly panels: readonly Panel[];
  readonly destination: readonly MonthOfAir[];
  readonly wall_C?: number;
  /** In place of a measured wall. */
  readonly amplifier?: Amplifier;
  /** The destination's months are of the air outside; the home treats it so. */
  readonly home?: Home;
  readonly parcel?: Parcel;
  readonly gaps: Readonly<Record<string, number>>;
}

export interface Remedy {
  readonly kind: "none" | "slot" | "gap" | "quarter-sawn" | "condition" | "leave alone";
  /** Millimetres of slot or gap, or percent of moisture. */
  readonly value?: number;
  readonly words: string;
}

export interface PanelAnswer {
  readonly name: string;
  readonly driest_pct: number;
  readonly wettest_pct: number;
  readonly shrink_mm: number;
  readonly swell_mm: number;
  readonly clearance_mm: number;
  readonly low: number;
  readonly high: number;
  readonly verdict: "proven" | "refuted" | "undecided";
  readonly remedy: string;
  readonly remedies: readonly Remedy[];
  /** At the end of each month of the year that repeats. */
  readonly year: readonly { readonly month: number; readonly moisture_pct: number; readonly clearance_mm: number }[];
  /** As it comes out of the parcel. */
  readonly parcel_pct?: number;
  /** Most by unequal faces over the year: positive where the outside goes hollow. */
  readonly cup_mm: number;
  /** Strain that its fixing, or its own gradient, would have to take, over that at which wood parts. */
  readonly stressIndex: number;
  /** Of the inner face, where it is warm; monthly mean room at the left. */
  readonly wallRise_K?: number;
  readonly doubt: { readonly shrink_mm: number; readonly swell_mm: number; readonly moisture_pct: number };
}

/** How a home treats the air from outside. */
export interface Home {
  readonly heatedTo_C: number;
  readonly cooledTo_C?: number;
  /** Water that people and plants add; 2 g/m³ where left out (common practice, no source). */
  readonly gain_g_m3?: number;
}

/** What an amplifier gives off into its case, and the case's outer surface. */
export interface Amplifier {
  readonly dissipation_W: number;
  readonly area_m2: number;
  /** Of the heat, what leaves by openings and by the chassis; 0.6 where left out (common practice, no source). */
  readonly ventedShare?: number;
  /** Hours a day that it plays; 4 where left out. */
  readonly hoursADay?: number;
}
