import { BadInput, quote } from "../maths/badInput.ts";
import { normalCdf } from "../maths/statistics/index.ts";

export type Verdict = "proven" | "refuted" | "undecided";

export interface Guarded {
  readonly value: number;
  /** 95 % half-width, same unit as the value. */
  readonly doubt: number;
  readonly low?: number;
  readonly high?: number;
}

export interface Judged {
  readonly state: Verdict;
  /** Chance that the true value lies outside the limits, were the piece accepted on this reading. */
  readonly riskFalseAccept: number;
}

/**
 * Judges a reading against limits with a guard band of one doubt.
 *
 *     proven      low + doubt ≤ value ≤ high − doubt, for the limits given
 *     refuted     value ≥ high + doubt  or  value ≤ low − doubt
 *     undecided   else
 *     risk      = Φ((low − value)/sd) + Φ((value − high)/sd),   sd = doubt/1.96
 *
 * @returns the verdict, and the chance [0 … 1] that the true value is outside
 * @throws BadInput  no limit, low above high, a negative doubt, or a number that is not finite
 * @remarks Without doubt the limits themselves are inside, and the risk is 0 or 1. A reading that stands off a limit
 *   by exactly one doubt as written in decimals is judged so, whatever rounding binary numbers bring.
 * @source  JCGM 106:2012, guarded acceptance and rejection (from memory)
 * @example guard({ value: 9.5, doubt: 0.4, high: 10 }) // { state: "proven", riskFalseAccept: 0.0072 }
 */
export function guard(reading: Guarded): Judged {
  requireJudgeable(reading);
  const { value, doubt } = reading;
  const low = reading.low ?? Number.NEGATIVE_INFINITY;
  const high = reading.high ?? Number.POSITIVE_INFINITY;
  const reaches = (margin: number, limit: number) => margin >= doubt - grain(value, doubt, limit);

  const insideBoth = reaches(value - low, low) && reaches(high - value, high);
  const outsideOne = reaches(low - value, low) || reaches(value - high, high);
  return {
    state: insideBoth ? "proven" : outsideOne ? "refuted" : "undecided",
    riskFalseAccept: chanceOutside(value, doubt / 1.96, low, high),
  };
}

function chanceOutside(value: number, sd: number, low: number, high: number): number {
  if (sd === 0) return value < low || value > high ? 1 : 0;
  return Math.min(1, normalCdf((low - value) / sd) + normalCdf((value - high) / sd));
}

/** What rounding of the numbers as given can have moved a margin by; nothing where no doubt was claimed. */
function grain(value: number, doubt: number, limit: number): number {
  if (doubt === 0 || !Number.isFinite(limit)) return 0;
  return 2 * Number.EPSILON * Math.max(Math.abs(value), doubt, Math.abs(limit));
}

function requireJudgeable({ value, doubt, low, high }: Guarded): void {
  for (const [name, number] of Object.entries({ value, doubt, low, high })) {
    const isOptional = name === "low" || name === "high";
    if (number === undefined && isOptional) continue;
    if (!Number.isFinite(number))
      throw new BadInput(name, String(number), "a finite number", `give ${name} as a number`);
  }
  if (doubt < 0) throw new BadInput("doubt", quote(doubt), "a 95 % half-width of 0 or more", "leave the sign off");
  if (low === undefined && high === undefined) {
    throw new BadInput("high", "neither low nor high", "at least one limit", "give low, high or both");
  }
  if (low !== undefined && high !== undefined && low > high) {
    throw new BadInput("low", quote(low), `a limit at or below high, ${quote(high)}`, "exchange the two limits");
  }
}
