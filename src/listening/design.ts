import { BadInput, quote } from "../maths/badInput.ts";
import { chanceOfAtLeast } from "./binomial.ts";
import { neededOf, seriesLength } from "./blind.ts";

export interface DesignInput {
  /** Share right of a listener worth finding. */
  readonly heard: number;
  /** Share right by guessing, ½ unless given. */
  readonly chance?: number;
  /** Chance that guessing passes, 0.05 unless given. */
  readonly falseAlarm?: number;
  /** Chance that such a listener passes, 0.8 unless given. */
  readonly power?: number;
  /** Listeners who will each be tried; the one found by luck among many must be luckier. */
  readonly listeners?: number;
}

export interface Design {
  readonly trials: number;
  /** Right answers that pass. */
  readonly needed: number;
  /** What the series then really keeps, as numbers are whole. */
  readonly falseAlarm: number;
  readonly power: number;
  /** Series of other lengths, to choose from. */
  readonly others: readonly { readonly trials: number; readonly needed: number; readonly power: number }[];
}

/**
 * How many blind trials find a listener who hears, fixed before anybody listens.
 *
 *     needed(n) = fewest k with P(k or more by guessing) ≤ falseAlarm/listeners,   power(n) = P(needed or more, heard)
 *     trials    = fewest n with power(n) ≥ power
 *
 * @throws BadInput  a listener no better than guessing, chances outside their range, more than 10,000 trials needed
 * @source  exact binomial; several listeners after Bonferroni (from memory)
 */
export function designTrials({
  heard,
  chance = 0.5,
  falseAlarm = 0.05,
  power = 0.8,
  listeners = 1,
}: DesignInput): Design {
  if (!(chance >= 0.001 && chance <= 0.999))
    throw new BadInput("chance", quote(chance), "0.001 to 0.999", "0.5 for one of two");
  if (!(heard > chance && heard <= 1)) {
    throw new BadInput("heard", quote(heard), `above chance, ${chance}, up to 1`, "give the share right worth finding");
  }
  if (!(falseAlarm >= 1e-6 && falseAlarm <= 0.5))
    throw new BadInput("falseAlarm", quote(falseAlarm), "1e-6 to 0.5", "0.05 is usual");
  if (!(power >= 0.5 && power <= 0.999)) throw new BadInput("power", quote(power), "0.5 to 0.999", "0.8 is usual");
  if (!(Number.isInteger(listeners) && listeners >= 1 && listeners <= 1000)) {
    throw new BadInput("listeners", quote(listeners), "a whole number, 1 to 1000", "count who will be tried");
  }
  const most = falseAlarm / listeners;
  const trials = seriesLength(1, chance, heard, most, power);
  if (trials === undefined) {
    throw new BadInput(
      "heard",
      quote(heard),
      "a listener found in 10,000 trials or fewer",
      "look for one who hears more",
    );
  }
  const needed = neededOf(trials, chance, most);
  const lengths = [...new Set([8, 12, 16, 20, 24, 32, 40, 50].filter((n) => n !== trials))];
  return {
    trials,
    needed,
    falseAlarm: chanceOfAtLeast(needed, trials, chance),
    power: chanceOfAtLeast(needed, trials, heard),
    others: lengths.flatMap((n) => {
      const k = neededOf(n, chance, most);
      return k > n ? [] : [{ trials: n, needed: k, power: chanceOfAtLeast(k, n, heard) }];
    }),
  };
}
