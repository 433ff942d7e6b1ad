import fc from "fast-check";
import { expect, test } from "vitest";
import { windowOf } from "./window.ts";

/** Type 6 of Hyndman and Fan on values sorted outright. */
function quantile(sorted: readonly number[], p: number): number {
  const at = Math.min(Math.max(p * (sorted.length + 1), 1), sorted.length);
  const below = Math.floor(at);
  const value = sorted[below - 1]!;
  return value + (at - below) * ((sorted[below] ?? value) - value);
}

// second method: all values sorted
test("windows are the quantiles of the values sorted", () => {
  fc.assert(
    fc.property(
      fc.array(fc.oneof(fc.double({ min: -5, max: 5, noNaN: true }), fc.integer({ min: -2, max: 2 })), {
        minLength: 400,
        maxLength: 900,
      }),
      (list) => {
        const sorted = [...list].sort((a, b) => a - b);
        const { low_V, median_V, high_V, doubt } = windowOf(Float64Array.from(list));
        expect(low_V).toBeCloseTo(quantile(sorted, 0.005), 12);
        expect(median_V).toBeCloseTo(quantile(sorted, 0.5), 12);
        expect(high_V).toBeCloseTo(quantile(sorted, 0.995), 12);
        expect(Math.min(doubt.low_V, doubt.median_V, doubt.high_V)).toBeGreaterThanOrEqual(0);
      },
    ),
    { numRuns: 60 },
  );
});
