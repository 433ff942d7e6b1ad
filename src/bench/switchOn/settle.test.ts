import { expect, test } from "vitest";
import { onsetBefore } from "./moment.ts";
import { settled } from "./settle.ts";

const rate_Hz = 8000;
const jump = { before: 0.5, doubt: 0.475 };
const falling = (at: (t: number) => number) => new Float64Array(4 * rate_Hz).map((_, n) => at((n + 0.5) / rate_Hz));

// source: by hand, p·e^{−t/τ} reaches the band at τ·ln(p/band)
test("an exponential's settling comes out to the doubt of the switch itself", () => {
  const { settle_s, doubt_s } = settled(
    falling((t) => 2 * Math.exp(-t / 0.2)),
    rate_Hz,
    0.015,
    0,
    jump,
  );
  expect(Math.abs(settle_s! - 0.2 * Math.log(2 / 0.015))).toBeLessThan(1e-5);
  expect(doubt_s).toBeCloseTo(0.475 / rate_Hz, 6);
});

// source: by hand, 2/(1 + t/0.01)² reaches the band at 0.01·(√(2/0.015) − 1); its logarithm is no straight line
test("a fall of another form, and one within a single mean, hold the truth in wider doubts", () => {
  const slow = settled(
    falling((t) => 2 / (1 + t / 0.01) ** 2),
    rate_Hz,
    0.015,
    0,
    jump,
  );
  expect(slow.doubt_s).toBeGreaterThan(1.1 * (jump.doubt / rate_Hz));
  expect(Math.abs(slow.settle_s! - 0.01 * (Math.sqrt(2 / 0.015) - 1))).toBeLessThan(slow.doubt_s);
  const sudden = settled(
    falling((t) => 2 * Math.exp(-t / 0.001)),
    rate_Hz,
    0.015,
    0,
    jump,
  );
  expect(Math.abs(sudden.settle_s! - 0.001 * Math.log(2 / 0.015))).toBeLessThan(sudden.doubt_s);
});

// source: by hand, 1 − e^{−t/ρ} sampled from u samples after its start on
test("a first-order rise tells when it began, a jump only that it fell between two samples", () => {
  const rise = Float64Array.from({ length: 9 }, (_, n) => -(1 - Math.exp(-(n + 0.3) / 5)));
  expect(onsetBefore(rise, 0).before).toBeCloseTo(0.3, 9);
  expect(onsetBefore(Float64Array.of(1, 0.99, 0.98), 0.001)).toEqual(jump);
});
