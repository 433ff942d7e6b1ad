import { expect, test } from "vitest";
import { weighEvidence } from "./evidence.ts";
import type { Seen } from "./inspect.ts";
import { information } from "./nextProbe.ts";

/** Readings of 10 and 20 that one value of spread 0.1 moves by 100 and 50, and a severity that moves nothing. */
const seen: Seen = {
  values: Float64Array.of(10, 20),
  slopes: Float64Array.of(100, 0, 50, 0),
  columns: 2,
  grain: new Float64Array(2),
  loads: new Float64Array(2),
  x: new Float64Array(0),
};

// source: worked by hand. S = 0.01·[10000 5000; 5000 2500] + diag(1, 4) = [101 50; 50 29], |S| = 429;
// r = (1, 2): rᵀ·S⁻¹·r = (29·1 − 2·50·2 + 101·4)/429 = 233/429; S⁻¹·r = (29 − 100, −50 + 202)/429
test("two readings that one value moves", () => {
  const { distance, logLikelihood, shift } = weighEvidence(seen, Float64Array.of(0), Float64Array.of(0.01, 0), [
    { value: 11, sd: 1 },
    { value: 22, sd: 2 },
  ]);
  expect(distance).toBeCloseTo(233 / 429, 12);
  expect(logLikelihood).toBeCloseTo(-0.5 * (233 / 429 + Math.log(429) + 2 * Math.log(2 * Math.PI)), 12);
  expect(shift[0]).toBeCloseTo((0.01 * (100 * (29 - 100) + 50 * (-50 + 202))) / 429, 12);
});

// source: entropy of a fair choice that the reading shows outright is one bit; of one that it can't show, none
test("information runs from nothing to the whole question", () => {
  const two = (apart: number) => [
    { odds: 0.5, at: 0, sd: 1 },
    { odds: 0.5, at: apart, sd: 1 },
  ];
  expect(information(two(50))).toBeCloseTo(1, 6);
  expect(information(two(0))).toBeCloseTo(0, 6);
  const four = [0, 50, 100, 150].map((at) => ({ odds: 0.25, at, sd: 1 }));
  expect(information(four)).toBeCloseTo(2, 6);
  expect(information(two(2))).toBeGreaterThan(0.3);
  // source: binary choice at ±1 in unit normal noise carries 0.486 bit (capacity of antipodal signalling at 0 dB;
  // numerical integration in numpy)
  expect(Math.abs(information(two(2)) - 0.486)).toBeLessThan(0.06);
});
