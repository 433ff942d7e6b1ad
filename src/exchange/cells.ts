import type { Leaf } from "./columns.ts";

/** What a cell may hold: text out of a CSV file, a value with its type out of a spreadsheet. */
export type Cell = string | number | boolean | Date | undefined;

export interface Reading {
  /** Which sign stands before the decimals of typed numbers. */
  readonly decimal: "point" | "comma";
  /** An instant out of a clock time without offset, as the workshop's own wall clock shows it. */
  readonly instant: (wallClock: string) => string | undefined;
}

export type Taken =
  | { readonly ok: true; readonly value: unknown }
  | { readonly ok: false; readonly allowed: string; readonly mend: string };

/**
 * How a value is written in a cell. A text that would not come back as itself, or that a spreadsheet would take for a
 * formula, stands as JSON in quotes.
 */
export function cellOf(value: unknown, leaf: Leaf): string | number | boolean {
  if (leaf === "list" && Array.isArray(value)) {
    const words = value as readonly string[];
    const isPlain =
      words.length > 0 && words.every((word) => word === word.trim() && word !== "" && !word.includes(";"));
    return isPlain && !isLoaded(words[0]!) ? words.join("; ") : JSON.stringify(value);
  }
  if (leaf === "json") return JSON.stringify(value);
  if (typeof value === "number" || typeof value === "boolean") return value;
  const text = String(value);
  return text === "" || text !== text.trim() || isLoaded(text) ? JSON.stringify(text) : text;
}

/** JSON by its first letter, or a formula by it. */
const isLoaded = (text: string) => /^["[{=+\-@\t\r]/.test(text);

/** What a cell says, for a field of this leaf. An empty cell says nothing and never comes here. */
export function takeCell(cell: Exclude<Cell, undefined>, leaf: Leaf, { decimal, instant }: Reading): Taken {
  if (leaf === "number") return takeNumber(cell, decimal);
  if (leaf === "boolean") return takeBoolean(cell);
  if (leaf === "instant") return takeInstant(cell, instant);
  const text = cell instanceof Date ? cell.toISOString() : String(cell);
  if (leaf === "text") return text.startsWith('"') ? takeJson(text, "text in quotes") : { ok: true, value: text };
  if (leaf === "list" && !text.startsWith("[")) {
    const words = text.split(";").map((word) => word.trim());
    return { ok: true, value: words.filter((word) => word !== "") };
  }
  return takeJson(text, leaf === "list" ? "names between semicolons" : "JSON");
}

/** A free condition beside the named ones: a number where it reads as one, else its words. */
export function takeFree(cell: Exclude<Cell, undefined>, reading: Reading): unknown {
  const asNumber = takeNumber(cell, reading.decimal);
  if (asNumber.ok) return asNumber.value;
  return cell instanceof Date ? cell.toISOString() : cell;
}

function takeNumber(cell: Exclude<Cell, undefined>, decimal: "point" | "comma"): Taken {
  if (typeof cell === "number") return { ok: true, value: cell };
  const allowed = `a number with a decimal ${decimal}`;
  if (typeof cell !== "string") return { ok: false, allowed, mend: "write the number alone" };
  const text = cell.trim();
  const other = decimal === "point" ? "," : ".";
  if (text.includes(other)) {
    return {
      ok: false,
      allowed,
      mend:
        decimal === "point"
          ? "write a point, or say that the file has decimal commas; leave thousands unparted"
          : "write a comma, or say that the file has decimal points; leave thousands unparted",
    };
  }
  const plain = text.replace(",", ".");
  if (!/^[+-]?(\d+\.?\d*|\.\d+)(e[+-]?\d+)?$/i.test(plain) || !Number.isFinite(Number(plain))) {
    return { ok: false, allowed, mend: "write the number alone, without unit or blanks" };
  }
  return { ok: true, value: Number(plain) };
}

function takeBoolean(cell: Exclude<Cell, undefined>): Taken {
  if (typeof cell === "boolean") return { ok: true, value: cell };
  const word = String(cell).trim().toLowerCase();
  if (["true", "yes", "1"].includes(word)) return { ok: true, value: true };
  if (["false", "no", "0"].includes(word)) return { ok: true, value: false };
  return { ok: false, allowed: "true or false", mend: "write one of these" };
}

/** A spreadsheet's date has no offset; what it shows is taken for the workshop's own clock, as typed times are. */
function takeInstant(cell: Exclude<Cell, undefined>, instant: Reading["instant"]): Taken {
  const text = cell instanceof Date ? cell.toISOString().slice(0, 19) : String(cell).trim();
  if (/^\d{4}-\d\d-\d\dT\d\d:\d\d(:\d\d(\.\d+)?)?(Z|[+-]\d\d:\d\d)$/.test(text)) return { ok: true, value: text };
  const wallClock = /^(\d{4}-\d\d-\d\d)(?:[T ](\d\d:\d\d(?::\d\d(?:\.\d+)?)?))?$/.exec(text);
  const value = wallClock && instant(`${wallClock[1]}T${wallClock[2] ?? "12:00"}`);
  if (value) return { ok: true, value };
  return {
    ok: false,
    allowed: "a date and a time that is on the workshop's clock, 2026-03-29 14:05, or an instant with its offset",
    mend: "write it in that form",
  };
}

function takeJson(text: string, allowed: string): Taken {
  try {
    return { ok: true, value: JSON.parse(text) };
  } catch {
    return { ok: false, allowed, mend: "mend the JSON, or write plain words" };
  }
}
