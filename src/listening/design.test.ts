import { expect, test } from "vitest";
import reference from "../../reference/production.json" with { type: "json" };
import { recordAccuracy } from "../../tests/accuracy.ts";
import { blindTrials, designTrials, levelMatch } from "./index.ts";

// source: reference/production.json, table of exact binomial limits
test("series of a chosen length need the printed number of right answers", () => {
  const { others } = designTrials({ heard: 0.75 });
  for (const { trials, "min_correct_p0.05": needed } of reference.listening_tests.abx.table) {
    const row = others.find((one) => one.trials === trials);
    if (row) expect(row.needed).toBe(needed);
  }
  expect(others.length).toBeGreaterThan(5);
});

// source: scipy 1.10 (Debian), binom.sf: 23 trials, 16 right: by guessing 0.04657, of a listener right in 0.75 0.80370;
// at 22 trials (16 needed) only 0.699
test("the shortest series that finds the listener is found", () => {
  const found = designTrials({ heard: 0.75 });
  expect(found).toMatchObject({ trials: 23, needed: 16 });
  expect(found.falseAlarm).toBeCloseTo(0.04657, 5);
  expect(found.power).toBeCloseTo(0.8037, 5);
  const many = designTrials({ heard: 0.75, listeners: 12 });
  expect(many.trials).toBeGreaterThan(found.trials);
  expect(many.falseAlarm).toBeLessThanOrEqual(0.05 / 12);
  recordAccuracy({
    area: "listening",
    what: "trials needed for a listener right in three of four, power 0.8",
    source: "exact binomial by numerical Python",
    reached: `${found.trials} trials, ${found.needed} right, power ${found.power.toFixed(4)}`,
    limit: "23, 16, 0.8037",
  });
});

// source: by hand. Four of four: ∫ from ½ to 1 of p⁴ dp·2 = 2·(1 − 1/32)/5 = 0.3875, over 1/16: 6.2
test("odds for hearing weigh the answers against guessing", () => {
  expect(blindTrials({ trials: 4, right: 4 }).odds).toBeCloseTo(6.2, 12);
  expect(blindTrials({ trials: 20, right: 10 }).odds).toBeLessThan(1);
  expect(blindTrials({ trials: 100_000, right: 100_000 }).odds).toBeGreaterThan(1e290);
});

// source: by hand. Two readings of ±0.03 dB differ by ±0.0424; 0.05 + 0.0424 ≤ 0.1, 0.07 + 0.0424 > 0.1
test("levels are matched by their doubt", () => {
  const pair = (difference: number, doubt_dB = 0.03) => ({
    at: "1 kHz left",
    first_dB: 0,
    second_dB: difference,
    doubt_dB,
  });
  expect(levelMatch([pair(0.05)]).state).toBe("proven");
  const open = levelMatch([pair(0.07)]);
  expect(open.state).toBe("undecided");
  expect(open.wouldDecide_dB).toBeCloseTo(0.03 / Math.SQRT2, 12);
  expect(levelMatch([pair(-0.2)]).state).toBe("refuted");
  expect(levelMatch([pair(0.05), pair(0.15, 0.01)])).toMatchObject({ state: "refuted", trim_dB: -0.1 });
  // What both readings share falls out of their difference.
  expect(levelMatch([{ ...pair(0.07), shared_dB: 0.025 }]).state).toBe("proven");
});

test.each<[() => unknown, string]>([
  [() => designTrials({ heard: 0.5 }), "heard"],
  [() => designTrials({ heard: 0.501 }), "heard"],
  [() => designTrials({ heard: 0.8, power: 1 }), "power"],
  [() => designTrials({ heard: 0.8, falseAlarm: 0.6 }), "falseAlarm"],
  [() => designTrials({ heard: 0.8, listeners: 0 }), "listeners"],
  [() => levelMatch([]), "pairs"],
  [() => levelMatch([{ at: "a", first_dB: 0, second_dB: 0, doubt_dB: -1 }]), "pairs[0].doubt_dB"],
  [() => levelMatch([{ at: "a", first_dB: 0, second_dB: 0, doubt_dB: 0.1, shared_dB: 0.2 }]), "pairs[0].shared_dB"],
  [() => levelMatch([{ at: "a", first_dB: 0, second_dB: 0, doubt_dB: 0.1 }], 0), "within_dB"],
])("refuses %s at %s", (call, path) => {
  expect(call).toThrow(expect.objectContaining({ path }));
});
