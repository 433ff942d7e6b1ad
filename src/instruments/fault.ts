/** What can be the matter with an instrument on its wire; the screens say each in the language in use. */
export type Problem =
  | "unreachable"
  | "lost"
  | "silent"
  | "garbled"
  | "checksum"
  | "echo"
  | "two answers"
  | "unasked"
  | "another instrument"
  | "overload"
  | "out of range"
  | "unsteady"
  | "stuck"
  | "clock stands"
  | "refused"
  | "not confirmed";

/**
 * An instrument that can't be read or set as asked: nothing was written down.
 *
 * After most of these the line is closed and opened afresh at the next use, so that no late answer is taken for
 * another question's.
 */
export class InstrumentFault extends Error {
  readonly problem: Problem;
  readonly instrument: string;
  /** The instrument stands between the server and the answer. */
  readonly statusCode = 502;

  constructor(instrument: string, problem: Problem, words: string) {
    super(`${instrument}: ${words}`);
    this.name = "InstrumentFault";
    this.problem = problem;
    this.instrument = instrument;
  }

  get path(): string {
    return `problem.${this.problem}`;
  }
}

/** What an instrument said, cut short and with its unprintable signs made visible. */
export function saidWords(line: string): string {
  const seen = [...line]
    .slice(0, 60)
    .map((sign) => (/[ -~\u00a1-\u00ff]/.test(sign) ? sign : "·"))
    .join("");
  return `“${seen}${line.length > 60 ? "…" : ""}”`;
}
