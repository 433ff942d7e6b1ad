import { expect, test } from "vitest";
import { shareInterval } from "./share.ts";

// source: scipy 1.10, beta.ppf(0.025, k, n − k + 1) and beta.ppf(0.975, k + 1, n − k)
test.each([
  [0, 10, 0, 0.308497107819],
  [1, 10, 0.002528578544, 0.445016117028],
  [8, 10, 0.443904537692, 0.974789273673],
  [10, 10, 0.691502892181, 1],
  [12, 16, 0.476229180104, 0.927337961747],
  [150, 200, 0.68403716667, 0.808392830377],
  [499, 500, 0.988907523101, 0.999949365666],
  [5, 1000, 0.001625419518, 0.01162947056],
])("%i of %i is a share of %f to %f", (count, of, low, high) => {
  const found = shareInterval(count, of);
  expect(found.low).toBeCloseTo(low, 11);
  expect(found.high).toBeCloseTo(high, 11);
});

// source: of none in n the upper end solves (1 − p)ⁿ = tail, by hand: 1 − 0.05^(1/20) and 1 − 0.005^(1/20)
test("holds as often as asked", () => {
  expect(shareInterval(0, 20, 0.9).high).toBeCloseTo(1 - 0.05 ** (1 / 20), 12);
  expect(shareInterval(0, 20, 0.99).high).toBeCloseTo(1 - 0.005 ** (1 / 20), 12);
});

test.each([
  [-1, 10],
  [11, 10],
  [0.5, 10],
  [0, 0],
  [Number.NaN, 10],
])("%f of %f is refused", (count, of) => {
  expect(() => shareInterval(count, of)).toThrow(RangeError);
});
