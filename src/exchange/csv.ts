import Papa from "papaparse";
import { BadInput, quote } from "../maths/badInput.ts";
import { type Fault, type GridRead, most_columns, most_rows } from "./grid.ts";

/** Encodings that shops' older programs still write. */
const encodings = ["utf-8", "utf-16le", "utf-16be", "windows-1250", "windows-1252", "iso-8859-2"] as const;
export type Encoding = (typeof encodings)[number];

/** @throws BadInput  when it is none of those that can be read */
export function encodingNamed(given: string): Encoding {
  const found = encodings.find((name) => name === given.toLowerCase());
  if (found) return found;
  throw new BadInput("encoding", quote(given), `one of ${encodings.join(", ")}`, "choose one of these");
}

/**
 * Reads text in rows and columns: the first row is the head; cells are parted by whichever of tab, semicolon and comma
 * the head holds most (RFC 4180 otherwise); a mark of the encoding at the beginning is obeyed.
 */
export function readCsv(bytes: Uint8Array, encoding?: Encoding): GridRead {
  const decoded = decode(bytes, encoding ?? markedEncoding(bytes) ?? "utf-8");
  if (!decoded.ok) return decoded;
  const { text } = decoded;
  if (text.includes("\u0000")) return refused(1, "bytes of 0", "text in rows and columns", "save it as CSV");
  const first = text.slice(0, text.search(/\r|\n|$/));
  const delimiter = ["\t", ";", ","].toSorted((a, b) => first.split(b).length - first.split(a).length)[0]!;
  const { data, errors } = Papa.parse<string[]>(text, { delimiter, skipEmptyLines: false, preview: most_rows + 2 });
  const open = errors.find(({ type }) => type === "Quotes");
  if (open) {
    return refused(
      (open.row ?? 0) + 1,
      quote(open.message),
      "every quote closed, a quote inside doubled",
      "mend the quotes there",
    );
  }
  const lines = data.map((cells, i) => ({ line: i + 1, cells }));
  const filled = lines.filter(({ cells }) => cells.some((cell) => cell.trim() !== ""));
  const [head, ...rows] = filled;
  if (head === undefined) return refused(1, "an empty file", "a head and rows", "save the table again");
  if (rows.length > most_rows)
    return refused(most_rows + 2, `more than ${most_rows} rows`, `at most ${most_rows} rows`, "split the file");
  if (head.cells.length > most_columns)
    return refused(
      1,
      `${head.cells.length} columns`,
      `at most ${most_columns} columns`,
      "leave out what is not needed",
    );
  const names = head.cells.map((cell) => cell.trim());
  const wide = rows.filter(({ cells }) => cells.slice(names.length).some((cell) => cell.trim() !== ""));
  if (wide.length > 0) {
    return {
      ok: false,
      faults: wide.map(({ line, cells }) => ({
        line,
        given: `${cells.length} cells`,
        allowed: `${names.length} cells, as the head has columns`,
        mend: "put a text that holds the separator, such as a decimal comma, in quotes, or part cells by semicolons",
      })),
    };
  }
  return {
    ok: true,
    grid: {
      head: names,
      rows: rows.map(({ line, cells }) => ({
        line,
        cells: cells.map((cell) => (cell.trim() === "" ? undefined : cell.trim())),
      })),
    },
  };
}

function refused(line: number, given: string, allowed: string, mend: string): GridRead {
  return { ok: false, faults: [{ line, given, allowed, mend }] };
}

function markedEncoding(bytes: Uint8Array): Encoding | undefined {
  if (bytes[0] === 0xff && bytes[1] === 0xfe) return "utf-16le";
  if (bytes[0] === 0xfe && bytes[1] === 0xff) return "utf-16be";
  return undefined;
}

type Decoded = { readonly ok: true; readonly text: string } | { readonly ok: false; readonly faults: readonly Fault[] };

function decode(bytes: Uint8Array, encoding: Encoding): Decoded {
  try {
    return { ok: true, text: new TextDecoder(encoding, { fatal: true }).decode(bytes) };
  } catch {
    return { ok: false, faults: [{ ...firstOdd(bytes, encoding), ...encodingWords(encoding) }] };
  }
}

const encodingWords = (encoding: Encoding) => ({
  allowed: `text in the encoding ${encoding}`,
  mend: "save it as CSV UTF-8, or say its encoding (windows-1252 in the west of Europe, windows-1250 in its middle)",
});

/** The first byte that is no letter of the encoding, and where it stands. */
function firstOdd(bytes: Uint8Array, encoding: Encoding): { line: number; given: string } {
  const decoder = new TextDecoder(encoding, { fatal: true });
  let line = 1;
  let from = 0;
  for (let i = 0; i <= bytes.length; i += 1) {
    if (i < bytes.length && bytes[i] !== 0x0a) continue;
    const part = bytes.subarray(from, i);
    try {
      decoder.decode(part);
    } catch {
      const odd = part.find((byte) => byte > 0x7f) ?? 0;
      return { line, given: `the byte 0x${odd.toString(16).padStart(2, "0")}` };
    }
    from = i + 1;
    line += 1;
  }
  return { line: 1, given: "bytes of another encoding" };
}

/** Text in rows and columns by RFC 4180: commas, quotes where needed, lines ended by CR LF, UTF-8. */
export function writeCsv(
  head: readonly string[],
  rows: readonly (readonly (string | number | boolean | undefined)[])[],
): string {
  const lines = [head, ...rows].map((cells) => cells.map((cell) => csvCell(cell)).join(","));
  return `${lines.join("\r\n")}\r\n`;
}

function csvCell(cell: string | number | boolean | undefined): string {
  if (cell === undefined) return "";
  const text = String(cell);
  return /[",;\t\r\n]/.test(text) ? `"${text.replaceAll('"', '""')}"` : text;
}
