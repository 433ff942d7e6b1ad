import fc from "fast-check";
import { expect, test } from "vitest";
import reference from "../../reference/production.json" with { type: "json" };
import { recordAccuracy } from "../../tests/accuracy.ts";
import { chanceOfAtLeast } from "./binomial.ts";
import { blindTrials } from "./blind.ts";

const { single_checks, table } = reference.listening_tests.abx;

// source: reference/production.json, listening_tests: exact fractions
test("gives the exact chance of guessing", () => {
  const errors = single_checks.map(({ n, k, p }) => Math.abs(blindTrials({ trials: n, right: k }).p / p - 1));
  expect(Math.max(...errors)).toBeLessThan(1e-12);
  recordAccuracy({
    area: "listening",
    what: `chance of guessing, ${errors.length} exact fractions`,
    source: "exact binomial sums",
    reached: `relative ${Math.max(...errors).toExponential(0)}`,
    limit: "1e-12",
  });
});

// source: the same, fewest right answers for p ≤ 0.05
test.each(table.map((row) => [row.trials, row["min_correct_p0.05"]]))("%i trials need %i right", (trials, needed) => {
  expect(blindTrials({ trials: trials!, right: 0 }).needed).toBe(needed);
});

// source: by hand. Four trials: 1/16 for all right, so no score reaches 0.05 and no listener can be found.
// Five: 1/32; a listener right in three of four times gets all five in 0.75⁵ of series
test("says what a series could have shown", () => {
  expect(blindTrials({ trials: 4, right: 4 })).toMatchObject({ p: 1 / 16, power: 0 });
  expect(blindTrials({ trials: 4, right: 4 })).not.toHaveProperty("needed");
  expect(blindTrials({ trials: 5, right: 2 }).power).toBeCloseTo(0.75 ** 5, 12);
});

// source: second method, whole numbers of choices and terms summed one by one
test("asks for the shortest series that finds the listener in four of five times", () => {
  const power = (n: number) => {
    const tail = (from: number, p: number) => {
      let sum = 0;
      for (let k = from; k <= n; k++) {
        let choose = 1;
        for (let i = 0; i < k; i++) choose = (choose * (n - i)) / (i + 1);
        sum += choose * p ** k * (1 - p) ** (n - k);
      }
      return sum;
    };
    for (let k = 0; k <= n; k++) if (tail(k, 0.5) <= 0.05) return tail(k, 0.75);
    return 0;
  };
  let shortest = 10;
  while (power(shortest) < 0.8) shortest++;
  expect(blindTrials({ trials: 10, right: 6 }).moreTrials).toBe(shortest - 10);
  expect(blindTrials({ trials: 100, right: 60 }).moreTrials).toBe(0);
});

test("a tail and its complement make one, and more right answers are never more likely", () => {
  fc.assert(
    fc.property(
      fc.integer({ min: 1, max: 400 }),
      fc.double({ min: 0.01, max: 0.99, noNaN: true }),
      fc.nat(),
      (n, p, k) => {
        const right = k % (n + 1);
        const atLeast = chanceOfAtLeast(right, n, p);
        const atMost = chanceOfAtLeast(n - right, n, 1 - p);
        const exactly = atLeast - chanceOfAtLeast(right + 1, n, p);
        expect(exactly).toBeGreaterThanOrEqual(-1e-12);
        expect(atLeast + atMost - exactly).toBeCloseTo(1, 9);
      },
    ),
  );
});

// source: scipy 1.10 (Debian), stats.beta.ppf: 12 of 16 lies in 0.4762 … 0.9273
test("the interval of the share is exact", () => {
  const { low, high } = blindTrials({ trials: 16, right: 12 }).share;
  expect(low).toBeCloseTo(0.4762, 4);
  expect(high).toBeCloseTo(0.9273, 4);
});

test.each([
  ["right", { trials: 5, right: 6 }],
  ["right", { trials: 5, right: 1.5 }],
  ["trials", { trials: 0, right: 0 }],
  ["chance", { trials: 5, right: 1, chance: 1 }],
  ["heard", { trials: 5, right: 1, heard: 0.5 }],
])("refuses a wrong %s", (path, given) => {
  expect(() => blindTrials(given)).toThrow(expect.objectContaining({ path }));
});
