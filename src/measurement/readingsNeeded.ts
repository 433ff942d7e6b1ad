import { BadInput, quote } from "../maths/badInput.ts";
import { normalQuantile, tQuantile } from "../maths/statistics/index.ts";

export interface Wanted {
  /** Standard deviation of one reading. */
  readonly sd: number;
  /** Difference that must be told from none. */
  readonly difference: number;
  /** Chance of seeing a difference where there is none, and of missing one that is there. */
  readonly falseAlarm: number;
  readonly missed: number;
  readonly sides: 1 | 2;
}

/**
 * How many readings tell a difference of that size.
 *
 *     n = ((z₁ + z₂)·sd/difference)²,   then with t at n − 1 degrees of freedom until it holds
 *
 * @throws BadInput  a spread or difference not above 0, chances outside 0 … 0.5
 * @source  NIST/SEMATECH e-Handbook, section 7.2.2.2 (figures read)
 */
export function readingsNeeded({ sd, difference, falseAlarm, missed, sides }: Wanted): {
  readonly n: number;
  /** Were the spread known beforehand. */
  readonly nKnown: number;
} {
  for (const [name, value] of Object.entries({ sd, difference })) {
    if (!(value > 0 && value < Number.POSITIVE_INFINITY)) {
      throw new BadInput(name, quote(value), "above 0", `give ${name} in the reading's unit`);
    }
  }
  for (const [name, value] of Object.entries({ falseAlarm, missed })) {
    if (!(value > 0 && value < 0.5)) throw new BadInput(name, quote(value), "above 0, below 0.5", "give 0.05 for 5 %");
  }
  const ratio = sd / difference;
  const alpha = 1 - falseAlarm / sides;
  const known = ((normalQuantile(alpha) + normalQuantile(1 - missed)) * ratio) ** 2;
  const nKnown = Math.max(1, Math.ceil(known - 1e-9));
  if (nKnown > 1_000_000) {
    throw new BadInput("difference", quote(difference), "a difference told by a million readings", "ask for more");
  }
  let n = Math.max(2, nKnown);
  while (n < ((tQuantile(alpha, n - 1) + tQuantile(1 - missed, n - 1)) * ratio) ** 2 - 1e-9) n++;
  return { n, nKnown };
}
