import type { Evidence, EvidenceKind } from "../claims/evidence.ts";
import { type Cell, cellOf, type Reading, takeCell, takeFree } from "./cells.ts";
import { type Column, columnsOf } from "./columns.ts";
import type { Fault, Grid, GridRow } from "./grid.ts";

/** Whole body of an entry that its columns alone could not give back as it is. */
const wholeColumn = "body";

type Fields = Record<string, unknown>;

/** Entries of one kind as a table; `entriesOf` gives the same entries back. */
export function tableOf(
  kind: EvidenceKind,
  entries: readonly Evidence[],
): { head: string[]; rows: Exclude<Cell, Date>[][] } {
  const columns = columnsOf(kind);
  const read = entries.map(({ id, at, by, body }) => {
    const { kind: _kind, ...fields } = body as Fields;
    const told: Fields = { id, at, by, ...fields };
    const cells = columns.map(({ name, leaf }) => {
      const value = valueAt(told, name);
      return value === undefined ? undefined : cellOf(value, leaf);
    });
    const isExact = sameValue(takeRow(columns, cells).fields, told);
    return { cells, whole: isExact ? undefined : JSON.stringify(fields) };
  });
  const used = columns.map(({ isNeeded }, i) => isNeeded || i < 3 || read.some(({ cells }) => cells[i] !== undefined));
  const needsWhole = read.some(({ whole }) => whole !== undefined);
  const kept = <T>(items: readonly T[]) => items.filter((_, i) => used[i]);
  return {
    head: [...kept(columns.map(({ name }) => name)), ...(needsWhole ? [wholeColumn] : [])],
    rows: read.map(({ cells, whole }) => [
      ...(whole === undefined ? kept(cells) : kept(cells).map((cell, i) => (i < 3 ? cell : undefined))),
      ...(needsWhole ? [whole] : []),
    ]),
  };
}

export interface Taking extends Reading {
  /** Head of the file to our own column; a head that is not named stands for itself. */
  readonly called?: Readonly<Record<string, string>>;
  /** What every row holds that has no cell for it: who, when, with what. */
  readonly fill?: Readonly<Record<string, string>>;
}

export type Entries =
  | { readonly ok: true; readonly entries: readonly Fields[]; readonly lines: readonly number[] }
  | { readonly ok: false; readonly faults: readonly Fault[] };

/**
 * Entries of one kind out of a table. Every fault is named, with its row and column; with one there are no entries.
 * Whether they fit the workshop's record is seen when they are handed in.
 */
export function entriesOf(kind: EvidenceKind, grid: Grid, taking: Taking): Entries {
  const columns = columnsOf(kind);
  const heads = grid.head.map((head) => headOf(head, columns, taking.called));
  const faults = headFaults(grid, heads, columns, taking);
  if (faults.length > 0) return { ok: false, faults };
  const entries: Fields[] = [];
  for (const row of grid.rows) {
    const taken = entryOf(kind, row, heads, columns, taking);
    if ("fields" in taken) entries.push(taken.fields);
    else faults.push(...taken.faults);
  }
  if (faults.length > 0) return { ok: false, faults };
  return { ok: true, entries, lines: grid.rows.map(({ line }) => line) };
}

/** Our column that a head of the file stands for; undefined for one that there is none for; empty for one left out. */
function headOf(head: string, columns: readonly Column[], called: Taking["called"] = {}): string | undefined {
  const name = called[head] ?? head;
  if (name === "") return "";
  if (name === wholeColumn || isFree(name, columns)) return name;
  return columns.find((column) => column.name.toLowerCase() === name.toLowerCase())?.name;
}

/** A column for one key of a field whose keys are free: `conditions.plate_V`. */
function isFree(name: string, columns: readonly Column[]): boolean {
  return columns.some((column) => column.leaf === "json" && name.startsWith(`${column.name}.`));
}

function headFaults(
  { head }: Grid,
  heads: readonly (string | undefined)[],
  columns: readonly Column[],
  { fill = {} }: Taking,
): Fault[] {
  const names = columns.map(({ name }) => name).join(", ");
  const unknown = heads.flatMap((name, i): Fault[] => {
    const given = head[i] === "" ? "a column without a name" : head[i]!;
    if (name === undefined)
      return [
        {
          line: 1,
          column: columnLetter(i),
          given,
          allowed: `one of ${names}`,
          mend: "say which it is, or leave it out",
        },
      ];
    if (name !== "" && heads.indexOf(name) < i)
      return [
        { line: 1, column: columnLetter(i), given, allowed: "each column once", mend: "leave one of the two out" },
      ];
    return [];
  });
  if (unknown.length > 0 || heads.includes(wholeColumn)) return unknown;
  return columns
    .filter(({ name, isNeeded }) => isNeeded && !heads.includes(name) && fill[name] === undefined)
    .filter(({ name }) => !heads.some((head) => head?.startsWith(`${name}.`)))
    .map(({ name }) => ({
      line: 1,
      column: name,
      given: "no such column",
      allowed: "a column that is needed",
      mend: "add it, say which column holds it, or give one value for all rows",
    }));
}

function entryOf(
  kind: EvidenceKind,
  row: GridRow,
  heads: readonly (string | undefined)[],
  columns: readonly Column[],
  taking: Taking,
): { readonly fields: Fields } | { readonly faults: readonly Fault[] } {
  const cells = columns.map(({ name }) => {
    const at = heads.indexOf(name);
    return (at < 0 ? undefined : row.cells[at]) ?? taking.fill?.[name];
  });
  const { fields, faults } = takeRow(columns, cells, taking);
  const named: Fault[] = faults.map((fault) => ({ line: row.line, ...fault }));
  for (const [i, name] of heads.entries()) {
    const cell = row.cells[i];
    if (name === undefined || cell === undefined) continue;
    if (name === wholeColumn) Object.assign(fields, wholeOf(cell, row.line, named));
    else if (name !== "" && !columns.some((column) => column.name === name))
      put(fields, free(name, columns), takeFree(cell, taking));
  }
  return named.length > 0 ? { faults: named } : { fields: { ...fields, kind } };
}

/** `conditions.plate_V` as the path of one key in one field, whatever else the key holds. */
function free(name: string, columns: readonly Column[]): readonly string[] {
  const field = columns.find((column) => column.leaf === "json" && name.startsWith(`${column.name}.`))!.name;
  return [...field.split("."), name.slice(field.length + 1)];
}

function wholeOf(cell: Exclude<Cell, undefined>, line: number, faults: Fault[]): Fields {
  try {
    const whole: unknown = JSON.parse(String(cell));
    if (typeof whole === "object" && whole !== null && !Array.isArray(whole)) return whole as Fields;
  } catch {
    // Said below, as of any text that is no object.
  }
  faults.push({
    line,
    column: wholeColumn,
    given: String(cell).slice(0, 40),
    allowed: "one JSON object",
    mend: "mend the JSON",
  });
  return {};
}

const plain: Reading = { decimal: "point", instant: () => undefined };

function takeRow(
  columns: readonly Column[],
  cells: readonly Cell[],
  reading: Reading = plain,
): { fields: Fields; faults: Omit<Fault, "line">[] } {
  const fields: Fields = {};
  const faults: Omit<Fault, "line">[] = [];
  for (const [i, { name, leaf }] of columns.entries()) {
    const cell = cells[i];
    if (cell === undefined) continue;
    const taken = takeCell(cell, leaf, reading);
    if (taken.ok) put(fields, name.split("."), taken.value);
    else faults.push({ column: name, given: shown(cell), allowed: taken.allowed, mend: taken.mend });
  }
  return { fields, faults };
}

const shown = (cell: Exclude<Cell, undefined>) =>
  cell instanceof Date ? cell.toISOString() : JSON.stringify(cell).slice(0, 60);

function valueAt(fields: Fields, name: string): unknown {
  return name.split(".").reduce<unknown>((value, key) => (value as Fields | undefined)?.[key], fields);
}

function put(fields: Fields, path: readonly string[], value: unknown): void {
  const [key, ...rest] = path;
  if (key === undefined || key === "__proto__") return;
  if (rest.length === 0) {
    Object.defineProperty(fields, key, { value, enumerable: true, configurable: true, writable: true });
    return;
  }
  const inner = Object.hasOwn(fields, key) ? fields[key] : undefined;
  const next: Fields = typeof inner === "object" && inner !== null && !Array.isArray(inner) ? (inner as Fields) : {};
  put(next, rest, value);
  fields[key] = next;
}

function sameValue(a: unknown, b: unknown): boolean {
  if (typeof a !== "object" || a === null || typeof b !== "object" || b === null) return Object.is(a, b);
  if (Array.isArray(a) !== Array.isArray(b)) return false;
  const keys = Object.keys(a);
  return (
    keys.length === Object.keys(b).length &&
    keys.every((key) => Object.hasOwn(b, key) && sameValue((a as Fields)[key], (b as Fields)[key]))
  );
}

/** A, B, …, Z, AA: how a spreadsheet calls its columns. */
function columnLetter(index: number): string {
  const rest = Math.floor(index / 26);
  return `${rest > 0 ? columnLetter(rest - 1) : ""}${String.fromCharCode(65 + (index % 26))}`;
}
