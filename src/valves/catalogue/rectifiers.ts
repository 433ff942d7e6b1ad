import data from "./rectifiers.json" with { type: "json" };

/** A thermionic rectifier: ratings under the sheet's own names, and the three-halves law through its published drop. */
export interface RectifierEntry {
  readonly type: string;
  readonly aliases: readonly string[];
  /** Plates in the envelope; currents are per plate. */
  readonly sections: number;
  readonly heater: { readonly V: number; readonly A: number };
  readonly max: Readonly<Record<string, number>>;
  readonly drop: { readonly plate_mA: number; readonly plate_V: number };
  readonly law: { readonly perveance_mA_per_V1p5: number };
  readonly source: string;
  /** False: from memory of the source named. */
  readonly seen: boolean;
}

/** Written by `scripts/fitCatalogue.ts` from `reference/tubes.json`. */
export const rectifiers = data as unknown as readonly RectifierEntry[];
