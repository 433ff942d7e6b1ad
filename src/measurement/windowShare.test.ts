import { expect, test } from "vitest";
import { guard, windowShare } from "./index.ts";

// source: by hand: 1.96·0.05 = 0.098 at each end of a window 2 wide is 9.8 %
test("a window loses one doubt at each end", () => {
  expect(windowShare(0.05, 1, 3).guard).toBeCloseTo(0.098, 12);
  expect(windowShare(0.05, 1, 3).eaten_pct).toBeCloseTo(9.8, 12);
  expect(windowShare(0.05, undefined, 3)).not.toHaveProperty("eaten_pct");
  expect(windowShare(1, 1, 3).eaten_pct).toBe(100);
  expect(windowShare(0, 2, 2).eaten_pct).toBe(100);
});

// source: second method: readings walked through the window, judged one by one
test("it is the share in which a reading proves nothing", () => {
  const [low, high, sd] = [4.2, 9.7, 0.31];
  const steps = 20_000;
  let undecided = 0;
  for (let i = 0; i < steps; i++) {
    const value = low + ((i + 0.5) / steps) * (high - low);
    if (guard({ value, doubt: 1.96 * sd, low, high }).state !== "proven") undecided++;
  }
  expect(Math.abs(windowShare(sd, low, high).eaten_pct! - (100 * undecided) / steps)).toBeLessThan(0.02);
});
