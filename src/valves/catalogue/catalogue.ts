import type { ValveModel } from "../valveModel.ts";
import data from "./catalogue.json" with { type: "json" };

/**
 * Greatest values a sheet allows, each left out where none is known. Of a valve of two sections, per section.
 *
 * `plate_V` and `screen_V` are to the cathode. Heater to cathode is a peak voltage, by which of the two is positive.
 * The grid leak is the resistance from grid to its bias: grid current drops bias across it, and a valve under fixed
 * bias, whose current nothing holds back, is allowed less of it than one under cathode bias.
 */
export interface Ratings {
  readonly plate_V?: number;
  readonly screen_V?: number;
  readonly plateDissipation_W?: number;
  /** Of both sections together, where it is less than twice one. */
  readonly bothSectionsDissipation_W?: number;
  readonly screenDissipation_W?: number;
  readonly plate_mA?: number;
  readonly cathode_mA?: number;
  readonly heaterCathodePositive_V?: number;
  readonly heaterCathodeNegative_V?: number;
  readonly gridLeakFixedBias_ohm?: number;
  readonly gridLeakCathodeBias_ohm?: number;
  readonly heaterLow_V: number;
  readonly heaterHigh_V: number;
  /** Where each comes from; not `seen`: from memory of the source named. */
  readonly sources: readonly {
    readonly of: readonly string[];
    readonly source: string;
    readonly seen: boolean;
    readonly confidence?: string;
  }[];
}

/** What is known of a type: names, ratings, the published working point, and curves fitted to published points. */
export interface CatalogueEntry {
  readonly type: string;
  readonly aliases: readonly string[];
  readonly kind: "triode" | "pentode";
  readonly sections: number;
  readonly heater: { readonly V: number; readonly A: number };
  /** What the sheet allows, in one form for all types; `max` keeps the sheet's own names. */
  readonly ratings: Ratings;
  /** Published ratings, as the sheet names them. */
  readonly max: Readonly<Record<string, number>>;
  readonly capacitance_pF?: Readonly<Record<string, number>>;
  /** The published operating point that limits in per cent of the type are counted from. */
  readonly published: {
    readonly plate_V: number;
    readonly grid_V: number;
    readonly screen_V?: number;
    readonly plate_mA: number;
    readonly gm_mS?: number;
    readonly rp_ohm?: number;
    readonly mu?: number;
    readonly source: string;
  };
  readonly model: ValveModel;
}

/** Written by `scripts/fitCatalogue.ts` from `reference/tubes.json` and `reference/valveRatings.json`. */
export const catalogue = data as unknown as readonly CatalogueEntry[];
