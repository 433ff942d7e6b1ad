import type { Cell } from "./cells.ts";

/** A table out of a file, whatever the file was. */
export interface Grid {
  readonly head: readonly string[];
  readonly rows: readonly GridRow[];
}

export interface GridRow {
  /** Where it stands in the file, as its reader counts: the head is line 1. */
  readonly line: number;
  readonly cells: readonly Cell[];
}

/** What can't be taken, where it stands and how to mend it. */
export interface Fault {
  readonly line: number;
  readonly column?: string;
  readonly given: string;
  readonly allowed: string;
  readonly mend: string;
}

export type GridRead =
  | { readonly ok: true; readonly grid: Grid }
  | { readonly ok: false; readonly faults: readonly Fault[] };

/** More rows than any shop reads in one go are no table but a mistake, or somebody's wish to fill the memory. */
export const most_rows = 200_000;
export const most_columns = 400;

/** Where a fault stands, in words: `row 5, column plate_mA`. */
export const placeOf = ({ line, column }: Pick<Fault, "line" | "column">): string =>
  column === undefined ? `row ${line}` : `row ${line}, column ${column}`;
