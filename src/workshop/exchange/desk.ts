import { createHash } from "node:crypto";
import { Temporal } from "temporal-polyfill";
import type { Evidence, EvidenceKind } from "../../claims/evidence.ts";
import { columnsOf, kindNamed, kinds } from "../../exchange/columns.ts";
import { type Encoding, encodingNamed, readCsv, writeCsv } from "../../exchange/csv.ts";
import { entriesOf, tableOf } from "../../exchange/entries.ts";
import type { Fault, Grid, GridRead } from "../../exchange/grid.ts";
import { readWorkbook, writeWorkbook } from "../../exchange/workbook.ts";
import { BadInput, quote } from "../../maths/badInput.ts";
import { canonicalJson } from "../../store/chain.ts";
import { type List, type ListSource, lists } from "./lists.ts";

export const formats = ["csv", "json", "xlsx"] as const;
export type Format = (typeof formats)[number];

/** A file on its way out: its bytes, and what they are. */
export interface FileOut {
  readonly name: string;
  readonly type: string;
  readonly bytes: Buffer;
}

/** How a file that comes in is to be read. Everything left out is found out, or stands in the file. */
export interface FileIn {
  readonly decimal?: "point" | "comma";
  readonly encoding?: string;
  /** Of a spreadsheet. */
  readonly sheet?: string;
  /** Head of the file to our own column; an empty name leaves the column out. */
  readonly called?: Readonly<Record<string, string>>;
  /** What every row holds that has no cell for it. */
  readonly fill?: Readonly<Record<string, string>>;
}

/** What a file would bring, or why it can't be taken; nothing is written down yet. */
export type Looked =
  | {
      readonly ok: true;
      readonly head: readonly string[];
      readonly entries: readonly Readonly<Record<string, unknown>>[];
      readonly lines: readonly number[];
    }
  | { readonly ok: false; readonly head: readonly string[]; readonly faults: readonly Fault[] };

export interface ExchangeSource extends ListSource {
  evidence(kind: EvidenceKind): readonly Evidence[];
  now(): string;
}

const types: Readonly<Record<Format, string>> = {
  csv: "text/csv; charset=utf-8",
  json: "application/json; charset=utf-8",
  xlsx: "application/vnd.openxmlformats-officedocument.spreadsheetml.sheet",
};

/** Tables on their way in and out of the workshop. */
export class ExchangeDesk {
  private readonly source: ExchangeSource;

  constructor(source: ExchangeSource) {
    this.source = source;
  }

  /** Names of what can be taken out, and of the columns of what can be taken in. */
  offers() {
    return {
      lists: Object.keys(lists),
      kinds: kinds.map((kind) => ({
        kind,
        entries: this.source.evidence(kind).length,
        columns: columnsOf(kind),
      })),
    };
  }

  /** @throws BadInput  when there is no such list or kind of evidence, or no such format */
  async takeOut(name: string, format: string): Promise<FileOut> {
    const known = formats.find((one) => one === format);
    if (!known) throw new BadInput("format", quote(format), `one of ${formats.join(", ")}`, "choose one of these");
    const make = Object.hasOwn(lists, name) ? lists[name] : undefined;
    if (!make && !kinds.includes(name as EvidenceKind)) {
      throw new BadInput(
        "what",
        quote(name),
        `a list (${Object.keys(lists).join(", ")}) or a kind of evidence (${kinds.join(", ")})`,
        "choose one of these",
      );
    }
    const bytes = make
      ? await this.listBytes(name, await make(this.source), known)
      : await this.evidenceBytes(name as EvidenceKind, known);
    return { name: `${name}.${known}`, type: types[known], bytes };
  }

  private async listBytes(name: string, { head, rows }: List, format: Format): Promise<Buffer> {
    if (format === "csv")
      return Buffer.from(
        writeCsv(
          head,
          rows.map((row) => row.map(harmless)),
        ),
      );
    if (format === "xlsx") return writeWorkbook({ name, head, rows }, new Date(this.source.now()));
    const told = rows.map((row) => Object.fromEntries(head.map((column, i) => [column, row[i]])));
    return Buffer.from(`${JSON.stringify(told, null, 1)}\n`);
  }

  private async evidenceBytes(kind: EvidenceKind, format: Format): Promise<Buffer> {
    const entries = this.source.evidence(kind);
    if (format === "json") {
      const told = entries.map(({ id, at, by, body }) => ({ id, at, by, ...body }));
      return Buffer.from(`[\n${told.map((entry) => JSON.stringify(entry)).join(",\n")}\n]\n`);
    }
    const { head, rows } = tableOf(kind, entries);
    if (format === "csv") return Buffer.from(writeCsv(head, rows));
    return writeWorkbook({ name: kind, head, rows }, new Date(this.source.now()));
  }

  /** Reads a file as a table of one kind of evidence and says what it would bring. */
  async look(kindGiven: string, bytes: Buffer, options: FileIn = {}): Promise<Looked> {
    const kind = kindNamed(kindGiven);
    if (isJson(bytes)) return lookAtJson(kind, bytes);
    const read = await gridOf(bytes, options);
    if (!read.ok) return { ok: false, head: [], faults: read.faults };
    return this.entriesIn(kind, read.grid, options);
  }

  private entriesIn(kind: EvidenceKind, grid: Grid, { decimal = "point", called, fill }: FileIn): Looked {
    const timeZone = this.source.shop().shop?.timeZone ?? "UTC";
    const read = entriesOf(kind, grid, {
      decimal,
      instant: (wallClock) => instantOf(wallClock, timeZone),
      ...(called && { called }),
      ...(fill && { fill }),
    });
    if (!read.ok) return { ok: false, head: grid.head, faults: read.faults };
    const entries = read.entries.map((entry) => ({ id: idOf(entry), ...entry }));
    const twice = twins(entries.map(({ id }) => String(id)));
    if (twice.length > 0) {
      const faults = twice.map(([first, second]) => ({
        line: read.lines[second]!,
        given: `the same as row ${read.lines[first]}`,
        allowed: "each entry once",
        mend: "leave one out, or give the times at which each was read",
      }));
      return { ok: false, head: grid.head, faults };
    }
    return { ok: true, head: grid.head, entries, lines: read.lines };
  }
}

/** A text that a spreadsheet would take for a formula is told as a text. */
const harmless = (cell: string | number | boolean | undefined) =>
  typeof cell === "string" && /^[=+\-@\t\r]/.test(cell) ? `'${cell}` : cell;

const isZip = (bytes: Buffer) => bytes.subarray(0, 4).equals(Buffer.from([0x50, 0x4b, 0x03, 0x04]));
const isOldSpreadsheet = (bytes: Buffer) => bytes.subarray(0, 4).equals(Buffer.from([0xd0, 0xcf, 0x11, 0xe0]));
const isJson = (bytes: Buffer) => /^\s*\[/.test(bytes.subarray(0, 64).toString("latin1"));

/** A file as a table, by what is in it and not by its name. */
export async function gridOf(bytes: Buffer, { encoding, sheet }: FileIn): Promise<GridRead> {
  if (isZip(bytes)) return readWorkbook(bytes, sheet);
  if (isOldSpreadsheet(bytes)) {
    throw new BadInput("file", "a spreadsheet of the older form", ".xlsx, CSV or JSON", "save it as .xlsx");
  }
  const named: Encoding | undefined = encoding === undefined ? undefined : encodingNamed(encoding);
  return readCsv(bytes, named);
}

function lookAtJson(kind: EvidenceKind, bytes: Buffer): Looked {
  let told: unknown;
  try {
    told = JSON.parse(bytes.toString("utf8"));
  } catch (fault) {
    const why = fault instanceof Error ? fault.message : String(fault);
    throw new BadInput("file", `JSON that can't be read (${why.slice(0, 120)})`, "a list of entries", "mend the JSON");
  }
  const entries = told as readonly Readonly<Record<string, unknown>>[];
  const faults = entries.flatMap((entry, i): Fault[] => {
    const of = typeof entry === "object" && entry !== null ? entry.kind : undefined;
    if (of === kind) return [];
    return [
      { line: i + 1, column: "kind", given: quote(of), allowed: `"${kind}"`, mend: "take each kind in by itself" },
    ];
  });
  if (faults.length > 0) return { ok: false, head: [], faults };
  return {
    ok: true,
    head: [],
    entries: entries.map((entry) => ({ id: idOf(entry), ...entry })),
    lines: entries.map((_, i) => i + 1),
  };
}

/** The same entry always gets the same id, so that a file taken in twice is written down once. */
function idOf(entry: Readonly<Record<string, unknown>>): string {
  const { id: _id, ...said } = entry;
  return `in:${createHash("sha256").update(canonicalJson(said)).digest("hex").slice(0, 24)}`;
}

function twins(ids: readonly string[]): [number, number][] {
  const seen = new Map<string, number>();
  return ids.flatMap((id, i): [number, number][] => {
    const first = seen.get(id);
    if (first !== undefined) return [[first, i]];
    seen.set(id, i);
    return [];
  });
}

function instantOf(wallClock: string, timeZone: string): string | undefined {
  try {
    const moment = Temporal.PlainDateTime.from(wallClock).toZonedDateTime(timeZone, { disambiguation: "reject" });
    return moment.toString({ timeZoneName: "never" });
  } catch {
    return undefined;
  }
}
