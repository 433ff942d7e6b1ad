import { expect, test } from "vitest";
import { recordAccuracy } from "../../tests/accuracy.ts";
import { type Asked, asked, heldOf, kinds } from "./testing/countHeld.ts";

const draws = Number(process.env.STILLGLOW_DRAWS ?? 3);
const seed = Number(process.env.STILLGLOW_SEED ?? 20_417);

// source: the draws themselves: hidden factor, wood, logger, start and balance as they are believed to be. Counted over
// thousands by scripts/timberCoverage.ts, see docs/timberCoverage.md
test.each(kinds)("ends of 95 % hold the truth as often as they say: $name", (kind) => {
  const counts = new Map<Asked, { held: number; of: number }>(asked.map((one) => [one, { held: 0, of: 0 }]));
  for (let i = 0; i < draws; i++) {
    for (const [one, isHeld] of Object.entries(heldOf(kind, seed, i)) as [Asked, boolean][]) {
      const count = counts.get(one)!;
      count.of += 1;
      if (isHeld) count.held += 1;
    }
  }
  for (const [what, { held, of }] of counts) {
    // A sample so small says nothing of a share.
    if (of <= draws / 4 || of < 3) continue;
    // By how much a share may miss 95 % by chance alone: four standard errors.
    const reach = 4 * Math.sqrt((0.95 * 0.05) / of);
    expect(held / of, `${what}, seed ${seed}`).toBeGreaterThan(0.95 - Math.max(0.02, reach));
    if (draws < 500) continue;
    recordAccuracy({
      area: "timber",
      what: `95 % ends of a piece's ${what}, ${of} draws, ${kind.name}`,
      source: "simulation, seeds as printed",
      reached: `${((100 * held) / of).toFixed(1)} %`,
      limit: "93 to 97 %",
    });
  }
});
