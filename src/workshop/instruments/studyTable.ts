import { readTable } from "../readingsFile.ts";

/** A study as it is being typed: a field for each reading, by part, person and turn. */
export interface Sheet {
  readonly parts: readonly string[];
  readonly people: readonly string[];
  readonly times: number;
}

/** A field's name: which part, who, the how-manieth reading. */
export const cellOf = (part: string, who: string, nth: number) => `${part}|${who}|${nth}`;

export type Taken =
  | {
      readonly ok: true;
      readonly sheet: Sheet;
      readonly cells: Readonly<Record<string, string>>;
      readonly count: number;
    }
  | { readonly ok: false; readonly line: number; readonly words: string }
  | { readonly ok: false; readonly head: readonly string[] };

const columns = {
  part: /^(part|piece|unit|valve|board|teil|st(ü|ue)ck|cz(ę|e)ść|sztuka)/i,
  who: /^(operator|who|hands|person|by|reader|wer\b|kto\b|osoba)/i,
  value: /^(value|reading|read|measured|wert|messwert|wartość|odczyt)/i,
} as const;

/** A table of three columns taken into the form: named columns wherever they stand, else the first three in that order. */
export function takeTable(text: string, number: (typed: string) => number | undefined): Taken {
  const { head, rows } = readTable(text);
  const at = (pattern: RegExp) => head.findIndex((name) => pattern.test(name.trim()));
  const found = [at(columns.part), at(columns.who), at(columns.value)];
  const [part, who, value] = found.every((i) => i >= 0) ? found : head.length === 3 ? [0, 1, 2] : [];
  if (part === undefined || who === undefined || value === undefined) return { ok: false, head };
  const cells: Record<string, string> = {};
  const [parts, people, turns] = [new Set<string>(), new Set<string>(), new Map<string, number>()];
  for (const [i, row] of rows.entries()) {
    const [name, hands, typed] = [row[part]?.trim() ?? "", row[who]?.trim() ?? "", row[value]?.trim() ?? ""];
    if (name === "" || hands === "") return { ok: false, line: i + 2, words: row.join(" ") };
    if (number(typed) === undefined) return { ok: false, line: i + 2, words: typed };
    parts.add(name);
    people.add(hands);
    const turn = (turns.get(`${name}|${hands}`) ?? 0) + 1;
    turns.set(`${name}|${hands}`, turn);
    cells[cellOf(name, hands, turn)] = typed;
  }
  return {
    ok: true,
    sheet: { parts: [...parts], people: [...people], times: Math.max(0, ...turns.values()) },
    cells,
    count: rows.length,
  };
}
