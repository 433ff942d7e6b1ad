import { BadInput, quote } from "../maths/badInput.ts";
import { betaQuantile } from "../maths/statistics/index.ts";

/** How often something happened, and what was thought of it before anything was counted. */
export interface Counted {
  readonly found: number;
  readonly of: number;
  /** Odds guessed beforehand; 0.1 if left out, one fault in ten. */
  readonly guess?: number;
  /** Units that the guess is worth; 10 if left out. */
  readonly weight?: number;
}

export interface Odds {
  readonly odds: number;
  /** 95 % interval. */
  readonly low: number;
  readonly high: number;
}

/**
 * Odds from the shop's own records, softened where counts are small: the guess counts as `weight` units more.
 *
 *     odds = (found + guess·weight)/(of + weight)             mean of Beta(found + g·w, of − found + (1 − g)·w)
 *
 * With the guess and weight left out this is (found + 1)/(of + 10), so that a rare fault is never taken as impossible
 * and a single one never as certain.
 *
 * @throws BadInput  more found than looked at, a guess outside 0 … 1, at `path`
 * @source  beta prior of a binomial share, A. Gelman et al., Bayesian Data Analysis, chapter 2 (from memory); a weight
 *   of ten units: common practice, no source
 * @example softened({ found: 3, of: 44 }).odds // 0.074
 */
export function softened({ found, of, guess = 0.1, weight = 10 }: Counted, path = "records"): Odds {
  if (!(Number.isInteger(of) && of >= 0))
    throw new BadInput(`${path}.of`, quote(of), "a whole number, 0 or more", "count the units looked at");
  if (!(Number.isInteger(found) && found >= 0 && found <= of)) {
    throw new BadInput(`${path}.found`, quote(found), `a whole number, 0 to the ${of} looked at`, "count again");
  }
  if (!(guess >= 0 && guess <= 1)) throw new BadInput(`${path}.guess`, quote(guess), "0 to 1", "0.1 for one in ten");
  if (!(weight > 0 && weight <= 10_000)) {
    throw new BadInput(
      `${path}.weight`,
      quote(weight),
      "above 0, up to 10000",
      "say how many units the guess is worth",
    );
  }
  const a = found + guess * weight;
  const b = of - found + (1 - guess) * weight;
  if (a === 0) return { odds: 0, low: 0, high: 0 };
  if (b === 0) return { odds: 1, low: 1, high: 1 };
  return {
    odds: meanOdds({ found, of, guess, weight }),
    low: betaQuantile(0.025, a, b),
    high: betaQuantile(0.975, a, b),
  };
}

/** The odds of `softened` alone, where nobody asks how sure they are. */
export function meanOdds({ found, of, guess = 0.1, weight = 10 }: Counted): number {
  return (found + guess * weight) / (of + weight);
}
