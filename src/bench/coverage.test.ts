import { expect, test } from "vitest";
import { recordAccuracy } from "../../tests/accuracy.ts";
import { allDraws } from "./testing/intervals/all.ts";
import { countStated } from "./testing/intervals/count.ts";

/** Benches drawn of each kind; more by STILLGLOW_DRAWS, from another first seed by STILLGLOW_SEED. docs/coverage.md has 2,000. */
const draws = Number(process.env.STILLGLOW_DRAWS ?? 10);
const firstSeed = Number(process.env.STILLGLOW_SEED ?? 1);

/** 93 to 97 %, and what chance may add to that in so few: three and a half binomial deviations. */
const chance = (count: number) => 3.5 * Math.sqrt(0.95 * 0.05 * count);

// source: benches made with known figures, see each kind in testing/intervals
test.each(allDraws)(
  "stated intervals of $of hold the truth as often as they say",
  ({ of, draw }) => {
    const stated = Array.from({ length: draws }, (_, i) => draw(`${of} ${firstSeed + i}`)).flat();
    for (const { what, held, count, misses } of countStated(stated)) {
      recordAccuracy({
        area: "bench",
        what: `95 % interval of ${what} (${of})`,
        source: "benches drawn by the tests' own synthesiser, random levels, rates, lengths, phases and mains",
        reached: `holds the truth in ${held} of ${count}`,
        limit: `93 to 97 %, chance in ${count} allowed for; thousands of draws in coverage.md`,
      });
      expect(held, `${of} ${what}: ${JSON.stringify(misses)}`).toBeGreaterThanOrEqual(0.93 * count - chance(count));
      expect(held, `${of} ${what}`).toBeLessThanOrEqual(0.97 * count + chance(count));
    }
  },
  60_000 + 3000 * draws,
);
