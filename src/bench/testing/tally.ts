import { expect } from "vitest";
import { recordAccuracy } from "../../../tests/accuracy.ts";

/** Benches drawn; more by STILLGLOW_DRAWS, from another first seed by STILLGLOW_SEED. */
export const draws = Number(process.env.STILLGLOW_DRAWS ?? 16);
export const patience_ms = 60_000 + 3000 * draws;
export const firstSeed = Number(process.env.STILLGLOW_SEED ?? 1);

/** Counts how often a stated 95 % interval held the truth. */
export class Tally {
  held = 0;
  readonly misses: string[] = [];

  note(value: number, truth: number, doubt: number, seed: string): void {
    if (Math.abs(value - truth) <= doubt) this.held++;
    else this.misses.push(`${seed} by ${((1.96 * (value - truth)) / doubt).toFixed(1)} sd`);
  }

  get count(): number {
    return this.held + this.misses.length;
  }
}

/** 93 to 97 %, and what chance may add to that in so few: three and a half binomial deviations. */
export function judge(what: string, tally: Tally): void {
  const slack = 3.5 * Math.sqrt(0.95 * 0.05 * tally.count);
  recordAccuracy({
    area: "bench",
    what: `95 % interval of ${what}`,
    source: "benches drawn by the tests' own synthesiser, random levels, rates, lengths, phases and mains",
    reached: `holds the truth in ${tally.held} of ${tally.count}`,
    limit: `93 to 97 %, chance in ${tally.count} allowed for`,
  });
  if (process.env.STILLGLOW_DRAWS)
    console.log(what, tally.held, "of", tally.count, tally.misses.slice(0, 12).join("; "));
  expect(tally.held, `${what}: ${tally.misses.join("; ")}`).toBeGreaterThanOrEqual(0.93 * tally.count - slack);
  expect(tally.held, what).toBeLessThanOrEqual(0.97 * tally.count + slack);
}
