/**
 * Valve readings out of a table that some other program or a hand wrote: text in rows and columns.
 *
 * Nothing is known of whose table it is; which column holds what is chosen by the person who brings it.
 */

export interface Table {
  readonly head: readonly string[];
  readonly rows: readonly (readonly string[])[];
  /** Where each row stands in its file, when that is not one after the other from line 2. */
  readonly lines?: readonly number[];
}

/** What a column may hold. Plate current may have a column for each section: `plate_mA a`, `plate_mA b`. */
export type Choice = Readonly<Record<string, string>>;

export const quantities = ["plate_mA", "gm_mS", "gridCurrent_uA", "leakage_uA", "screen_mA"] as const;
type Quantity = (typeof quantities)[number];

export interface RowContext {
  readonly sections: readonly string[];
  readonly valves: readonly string[];
  /** Rows under this name are readings of the reference valve. */
  readonly reference: string;
  readonly phase: "cold" | "hot";
  readonly number: (typed: string) => number | undefined;
}

export interface RowReading {
  /** Line of the file, the head being line 1. */
  readonly line: number;
  readonly valve: string;
  readonly section: string;
  readonly phase: "cold" | "hot";
  readonly isReference: boolean;
  readonly quantities: Readonly<Partial<Record<Quantity, number>>>;
  readonly time_h?: number;
}

export interface RowFault {
  readonly line: number;
  readonly words: string;
}

/** Takes a table apart; the separator is whichever of tab, semicolon and comma the first line holds most. */
export function readTable(text: string): Table {
  const plain = text.replace(/^\ufeff/, "");
  const first = plain.slice(0, plain.search(/\r?\n|$/));
  const separator = ["\t", ";", ","].toSorted((a, b) => count(first, b) - count(first, a))[0]!;
  const lines = cells(plain, separator).filter((row) => row.some((cell) => cell.trim() !== ""));
  const [head = [], ...rows] = lines;
  return { head: head.map((cell, i) => cell.trim() || `column ${i + 1}`), rows };
}

/** Readings of all rows, and what is wrong with those that can't be taken. */
export function rowsOf(
  table: Table,
  choice: Choice,
  context: RowContext,
): { readonly readings: readonly RowReading[]; readonly faults: readonly RowFault[] } {
  const readings: RowReading[] = [];
  const faults: RowFault[] = [];
  for (const [i, row] of table.rows.entries()) {
    const line = table.lines?.[i] ?? i + 2;
    const cell = (role: string) => {
      const column = table.head.indexOf(choice[role] ?? "");
      return column < 0 ? "" : (row[column] ?? "").trim();
    };
    const found = rowReadings(line, cell, choice, context);
    if (typeof found === "string") faults.push({ line, words: found });
    else readings.push(...found);
  }
  return { readings, faults };
}

function rowReadings(
  line: number,
  cell: (role: string) => string,
  choice: Choice,
  { sections, valves, reference, phase: given, number }: RowContext,
): readonly RowReading[] | string {
  const valve = cell("valve");
  if (valve === "") return "no valve is named";
  const isReference = valve === reference;
  if (!isReference && !valves.includes(valve)) return `“${valve}” is not in this tray`;
  const phase = choice.phase ? phaseOf(cell("phase")) : given;
  if (phase === undefined) return `“${cell("phase")}” is neither cold nor hot`;
  const time = cell("time_h");
  const time_h = time === "" ? undefined : number(time);
  if (time !== "" && time_h === undefined) return `“${time}” is not a number`;

  const isWide = sections.some((section) => choice[`plate_mA ${section}`]) && !isReference;
  const wanted = isWide ? sections : [isReference ? "" : choice.section ? cell("section") : (sections[0] ?? "")];
  const taken: RowReading[] = [];
  for (const section of wanted) {
    const known = isReference ? "" : sections.find((name) => name.toLowerCase() === section.toLowerCase());
    if (known === undefined) return `“${section}” is no section of these valves; they have ${sections.join(" and ")}`;
    const read: Partial<Record<Quantity, number>> = {};
    for (const quantity of quantities) {
      const typed =
        cell(isWide ? `${quantity} ${known}` : quantity) || (isReference && isWideChoice(choice, quantity, cell)) || "";
      if (typed === "") continue;
      const value = number(typed);
      if (value === undefined) return `“${typed}” is not a number`;
      if (quantity === "plate_mA" && value < 0) return `${typed} mA: a plate current is 0 or more`;
      read[quantity] = value;
    }
    if (read.plate_mA === undefined) {
      if (isWide) continue;
      return "no plate current is given";
    }
    taken.push({
      line,
      valve,
      section: known,
      phase,
      isReference,
      quantities: read,
      ...(time_h !== undefined && { time_h }),
    });
  }
  return taken.length > 0 ? taken : "no plate current is given";
}

/** In a table with a column for each section, the reference valve stands in the first of them. */
function isWideChoice(choice: Choice, quantity: string, cell: (role: string) => string): string {
  const role = Object.keys(choice).find((name) => name.startsWith(`${quantity} `) && cell(name) !== "");
  return role === undefined ? "" : cell(role);
}

function phaseOf(typed: string): "cold" | "hot" | undefined {
  const word = typed.toLowerCase();
  if (["cold", "c", "before", "1"].includes(word)) return "cold";
  if (["hot", "h", "after", "2"].includes(word)) return "hot";
  return undefined;
}

/** Rows of cells; a cell in quotes may hold separators, line ends and doubled quotes. */
function cells(text: string, separator: string): string[][] {
  const rows: string[][] = [[]];
  let cell = "";
  let isQuoted = false;
  for (let i = 0; i < text.length; i += 1) {
    const letter = text[i]!;
    if (isQuoted) {
      if (letter !== '"') cell += letter;
      else if (text[i + 1] === '"') {
        cell += '"';
        i += 1;
      } else isQuoted = false;
    } else if (letter === '"' && cell.trim() === "") {
      cell = "";
      isQuoted = true;
    } else if (letter === separator) {
      rows.at(-1)!.push(cell);
      cell = "";
    } else if (letter === "\n" || letter === "\r") {
      if (letter === "\r" && text[i + 1] === "\n") i += 1;
      rows.at(-1)!.push(cell);
      cell = "";
      rows.push([]);
    } else cell += letter;
  }
  rows.at(-1)!.push(cell);
  return rows;
}

const count = (text: string, letter: string) => text.split(letter).length - 1;
