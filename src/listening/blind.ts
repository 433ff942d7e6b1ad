import { BadInput, quote } from "../maths/badInput.ts";
import { firstWhere } from "../maths/firstWhere.ts";
import { betaCdf, normalQuantile, shareInterval } from "../maths/statistics/index.ts";
import { chanceOfAtLeast } from "./binomial.ts";

export interface BlindTrials {
  readonly trials: number;
  readonly right: number;
  /** Share right by guessing, ½ unless given. */
  readonly chance?: number;
  /** Share right of a listener worth finding; halfway from guessing to certain unless given. */
  readonly heard?: number;
}

export interface BlindResult {
  /** Chance of as many right answers, or more, by guessing. */
  readonly p: number;
  /** Right answers that would have made p 0.05 or less; left out where no number would. */
  readonly needed?: number;
  /** Chance that such a listener reaches that number. */
  readonly power: number;
  /** Trials beyond these until a series of that length would find such a listener in four of five times. */
  readonly moreTrials?: number;
  /** Odds for hearing against guessing, at even odds beforehand; below 1 the answers speak for guessing. */
  readonly odds: number;
  /** 95 % interval of the share right. */
  readonly share: { readonly value: number; readonly low: number; readonly high: number };
}

export const mostTrials = 100_000;
const significance = 0.05;
const wantedPower = 0.8;
/** Trials up to which a planned series is looked for. */
const longestSeries = 10_000;

/**
 * Whether right answers in blind trials are more than guessing, and whether the trials could have shown it.
 *
 *     p     = Σ C(n, k)·cᵏ·(1 − c)ⁿ⁻ᵏ over k ≥ right                     exact, one-sided
 *     power = the same sum with the share of a listener who hears, over k ≥ needed
 *     odds  = ∫ₚ from c to 1 of pᵏ(1 − p)ⁿ⁻ᵏ dp/(1 − c) / (cᵏ(1 − c)ⁿ⁻ᵏ)    any share above guessing alike beforehand
 *     share = right/n, interval after Clopper and Pearson
 *
 * @throws BadInput  more right answers than trials, shares that leave nothing to test
 * @source  exact arithmetic; D. Clark, J. Audio Engineering Society 30 (1982) 330-338 (from memory)
 * @example blindTrials({ trials: 16, right: 12 }) // p 0.0384
 */
export function blindTrials({ trials, right, chance = 0.5, heard = (1 + chance) / 2 }: BlindTrials): BlindResult {
  requireTestable(trials, right, chance, heard);
  const needed = neededOf(trials, chance);
  const moreTrials = seriesLength(trials, chance, heard);
  return {
    p: Math.min(1, chanceOfAtLeast(right, trials, chance)),
    ...(needed > trials ? {} : { needed }),
    power: chanceOfAtLeast(needed, trials, heard),
    odds: oddsOfHearing(trials, right, chance),
    ...(moreTrials === undefined ? {} : { moreTrials: moreTrials - trials }),
    share: { value: right / trials, ...shareInterval(right, trials) },
  };
}

function oddsOfHearing(trials: number, right: number, chance: number): number {
  const above = 1 - betaCdf(chance, right + 1, trials - right + 1);
  // ∫₀¹ pᵏ(1 − p)ⁿ⁻ᵏ dp = 1/((n + 1)·C(n, k))
  let ln = -Math.log(trials + 1);
  const few = Math.min(right, trials - right);
  for (let i = 1; i <= few; i++) ln -= Math.log((trials - few + i) / i);
  ln -= right * Math.log(chance) + (trials - right) * Math.log1p(-chance);
  return Math.min(1e300, (Math.exp(Math.min(690, ln)) * above) / (1 - chance));
}

/** Fewest right answers that guessing reaches in one of twenty series or less; one more than all where none is. */
export function neededOf(trials: number, chance: number, most = significance): number {
  return firstWhere(1, trials + 1, (right) => chanceOfAtLeast(right, trials, chance) <= most);
}

export function seriesLength(
  trials: number,
  chance: number,
  heard: number,
  most = significance,
  power = wantedPower,
): number | undefined {
  const [z1, z2] = [normalQuantile(1 - most), normalQuantile(power)];
  const estimate =
    ((z1 * Math.sqrt(chance * (1 - chance)) + z2 * Math.sqrt(heard * (1 - heard))) / (heard - chance)) ** 2;
  if (estimate > longestSeries) return undefined;
  for (let n = Math.max(trials, Math.floor(0.95 * estimate - 40), 1); n <= mostTrials; n++) {
    if (chanceOfAtLeast(neededOf(n, chance, most), n, heard) >= power) return n;
  }
  return undefined;
}

function requireTestable(trials: number, right: number, chance: number, heard: number): void {
  if (!Number.isInteger(trials) || trials < 1 || trials > mostTrials) {
    throw new BadInput("trials", quote(trials), `a whole number, 1 to ${mostTrials}`, "give the number of trials made");
  }
  if (!Number.isInteger(right) || right < 0 || right > trials) {
    throw new BadInput(
      "right",
      quote(right),
      `a whole number, 0 to the ${trials} trials`,
      "count the right answers again",
    );
  }
  if (!(chance >= 0.001 && chance <= 0.999)) {
    throw new BadInput(
      "chance",
      quote(chance),
      "0.001 to 0.999",
      "give the share right by guessing, 0.5 for one of two",
    );
  }
  if (!(heard > chance && heard <= 1)) {
    throw new BadInput("heard", quote(heard), `above chance, ${chance}, up to 1`, "give the share right worth finding");
  }
}
