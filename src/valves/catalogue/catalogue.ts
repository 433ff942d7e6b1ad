import type { ValveModel } from "../valveModel.ts";
import data from "./catalogue.json" with { type: "json" };

/** What is known of a type: names, ratings, the published working point, and curves fitted to published points. */
export interface CatalogueEntry {
  readonly type: string;
  readonly aliases: readonly string[];
  readonly kind: "triode" | "pentode";
  readonly sections: number;
  readonly heater: { readonly V: number; readonly A: number };
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

/** Written by `scripts/fitCatalogue.ts` from `reference/tubes.json`. */
export const catalogue = data as unknown as readonly CatalogueEntry[];
