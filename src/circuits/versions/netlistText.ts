/**
 * Net lists as people write them: JSON with a part to a line, read so that any fault can be named by its line.
 */

type TextFault = { readonly line: number; readonly message: string };

export type ReadText =
  | {
      readonly ok: true;
      readonly value: unknown;
      /** Line on which the value at a path, written `parts[3].ohm`, begins; its nearest holder's where it is missing. */
      lineOf(path: string): number;
    }
  | { readonly ok: false; readonly fault: TextFault };

/** More text than this is no net list that could be answered. */
const mostText = 1_000_000;
const deepest = 40;

/**
 * Reads JSON, remembering the line of every value.
 *
 * @returns the first fault with its line and what to do, where the text is not JSON
 * @example const read = readText('{"parts":[\n{"id":"R1"}]}'); read.ok && read.lineOf("parts[0].ohm") // 2
 */
export function readText(text: string): ReadText {
  if (text.length > mostText) {
    return { ok: false, fault: { line: 1, message: `the text is longer than ${mostText} letters; leave parts out` } };
  }
  const reader = new Reader(text);
  try {
    const value = reader.document();
    return { ok: true, value, lineOf: (path) => nearest(reader.lines, path) };
  } catch (fault) {
    if (!(fault instanceof Unreadable)) throw fault;
    return { ok: false, fault: { line: fault.line, message: fault.message } };
  }
}

/** Writes a net list with a part and a test point to a line, so that a line number names one. */
export function writeText(netlist: Readonly<Record<string, unknown>>): string {
  const fields = Object.entries(netlist).map(([key, value]) => {
    if (!Array.isArray(value) || value.length === 0) return `  ${JSON.stringify(key)}: ${onOneLine(value)}`;
    return `  ${JSON.stringify(key)}: [\n${value.map((item) => `    ${onOneLine(item)}`).join(",\n")}\n  ]`;
  });
  return `{\n${fields.join(",\n")}\n}\n`;
}

function onOneLine(value: unknown): string {
  if (Array.isArray(value)) return `[${value.map(onOneLine).join(", ")}]`;
  if (typeof value !== "object" || value === null) return JSON.stringify(value);
  const fields = Object.entries(value).filter(([, inner]) => inner !== undefined);
  return `{ ${fields.map(([key, inner]) => `${JSON.stringify(key)}: ${onOneLine(inner)}`).join(", ")} }`;
}

function nearest(lines: ReadonlyMap<string, number>, path: string): number {
  let at = path;
  while (at !== "") {
    const line = lines.get(at);
    if (line !== undefined) return line;
    at = at.slice(0, Math.max(0, at.lastIndexOf("."), at.lastIndexOf("[")));
  }
  return lines.get("") ?? 1;
}

class Unreadable extends Error {
  readonly line: number;
  constructor(line: number, message: string) {
    super(message);
    this.line = line;
  }
}

const literals = { true: true, false: false, null: null } as const;

class Reader {
  readonly lines = new Map<string, number>();
  private at = 0;
  private line = 1;

  constructor(private readonly text: string) {}

  document(): unknown {
    this.space();
    if (this.at >= this.text.length) throw this.fault("nothing is written; begin with { and name ground and parts");
    const value = this.value("", 0);
    this.space();
    if (this.at < this.text.length) {
      throw this.fault(`${this.seen()} after the end of the net list; take it out, or one } or ] too many before it`);
    }
    return value;
  }

  private value(path: string, depth: number): unknown {
    if (depth > deepest) throw this.fault(`more than ${deepest} brackets inside one another; a net list needs few`);
    this.lines.set(path, this.line);
    const next = this.text[this.at];
    if (next === "{") return this.object(path, depth);
    if (next === "[") return this.list(path, depth);
    if (next === '"') return this.string();
    const word = /[A-Za-z0-9+\-.,_µμ]*/y;
    word.lastIndex = this.at;
    const found = word.exec(this.text)?.[0].replace(/,.*$/, "") ?? "";
    if (found in literals) return this.take(found, literals[found as keyof typeof literals]);
    if (/^-?(0|[1-9]\d*)(\.\d+)?([eE][+-]?\d+)?$/.test(found)) return this.take(found, this.finite(found));
    throw this.fault(this.mendOf(found));
  }

  private finite(found: string): number {
    const value = Number(found);
    if (Number.isFinite(value)) return value;
    throw this.fault(`${found} is too large to hold; write an ordinary size`);
  }

  private take<T>(found: string, value: T): T {
    this.at += found.length;
    return value;
  }

  private mendOf(found: string): string {
    if (this.text[this.at] === "'") return "a single quote; names stand in double quotes";
    if (/^[+-]?\.?\d/.test(found)) {
      return `${found} is not a number; write digits with a point, the unit in the field's name (47000, not 47k)`;
    }
    return found === "" ? `${this.seen()} where a value belongs` : `${found} without quotes; write "${found}"`;
  }

  private object(path: string, depth: number): Record<string, unknown> {
    const opened = this.line;
    const object: Record<string, unknown> = {};
    this.at++;
    this.space();
    if (this.skip("}")) return object;
    for (;;) {
      if (this.text[this.at] !== '"') {
        throw this.fault(
          this.text[this.at] === "}"
            ? "a comma before }; take it out"
            : /^\d/.test(this.text[this.at] ?? "")
              ? `${this.seen()} after a comma; a number's decimals stand behind a point, not a comma`
              : `${this.seen()} where a field's name belongs; names stand in double quotes`,
        );
      }
      const key = this.string();
      const inner = path === "" ? key : `${path}.${key}`;
      if (Object.hasOwn(object, key)) throw this.fault(`"${key}" stands twice in one part; leave one out`);
      this.space();
      if (!this.skip(":")) throw this.fault(`no colon after "${key}"; write "${key}": and its value`);
      this.space();
      Object.defineProperty(object, key, {
        value: this.value(inner, depth + 1),
        enumerable: true,
        writable: true,
        configurable: true,
      });
      this.space();
      if (this.skip("}")) return object;
      this.comma("}", opened);
    }
  }

  private list(path: string, depth: number): unknown[] {
    const opened = this.line;
    const list: unknown[] = [];
    this.at++;
    this.space();
    if (this.skip("]")) return list;
    for (;;) {
      list.push(this.value(`${path}[${list.length}]`, depth + 1));
      this.space();
      if (this.skip("]")) return list;
      this.comma("]", opened);
      if (this.text[this.at] === "]") throw this.fault("a comma before ]; take it out");
    }
  }

  private comma(end: string, opened: number): void {
    const { line } = this;
    if (this.skip(",")) {
      this.space();
      return;
    }
    if (this.at >= this.text.length) {
      throw new Unreadable(opened, `what opens here is never closed; write ${end} where it ends`);
    }
    throw new Unreadable(line, `${this.seen()} where a comma or ${end} belongs; put one before it`);
  }

  private string(): string {
    const opened = this.at;
    let at = this.at + 1;
    while (at < this.text.length && this.text[at] !== '"' && this.text[at] !== "\n")
      at += this.text[at] === "\\" ? 2 : 1;
    if (this.text[at] !== '"') throw this.fault('a name whose closing quote is missing; write " at its end');
    this.at = at + 1;
    try {
      return JSON.parse(this.text.slice(opened, this.at)) as string;
    } catch {
      throw this.fault("a name with a backslash that means nothing, or a control letter; write it plainly");
    }
  }

  private skip(letter: string): boolean {
    if (this.text[this.at] !== letter) return false;
    this.at++;
    return true;
  }

  private space(): void {
    for (; this.at < this.text.length; this.at++) {
      const letter = this.text[this.at];
      if (letter === "\n") this.line++;
      else if (letter !== " " && letter !== "\t" && letter !== "\r" && letter !== "\ufeff") return;
    }
  }

  private seen(): string {
    const letter = this.text[this.at];
    return letter === undefined ? "the end" : `"${letter}"`;
  }

  private fault(message: string): Unreadable {
    return new Unreadable(this.line, message);
  }
}
