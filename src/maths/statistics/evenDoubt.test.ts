import { expect, test } from "vitest";
import { evenDoubt } from "./evenDoubt.ts";

// source: scipy 1.10, brentq on the two tails of norm.cdf
test.each([
  [10, 8, 16, 4.8355240773],
  [10, 9, 12, 1.6573076794],
  [3, 0.5, 3.2, 2.3330763178],
  [1, 0.2, 40, 21.1050309568],
])("of %f between %f and %f it is %f", (value, low, high, expected) => {
  expect(evenDoubt(value, low, high)).toBeCloseTo(expected, 9);
});

// source: by hand. With nothing below, the upper half alone: ln(1 + d/v) = ln(high/v)·1.644854/1.959964
test("holds one side alone as often as both", () => {
  expect(evenDoubt(10, 10, 12)).toBeCloseTo(
    10 * Math.expm1((Math.log(1.2) * 1.6448536269514722) / 1.959963984540054),
    9,
  );
  expect(evenDoubt(10, 10, 10)).toBe(0);
  expect(evenDoubt(10, 9, Number.POSITIVE_INFINITY)).toBe(Number.POSITIVE_INFINITY);
});
