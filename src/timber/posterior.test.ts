import { expect, test } from "vitest";
import { posteriorOf } from "./posterior.ts";

// source: by hand. Two unknowns believed 0 ± 1; their sum read as 3 with σ = 1: mean 1 each, variance 2/3, covariance −1/3
test("a linear reading gives the normal posterior of the textbook", () => {
  const { z, axes } = posteriorOf(([a, b]) => [3 - a! - b!], [[0, 0]]);
  expect(z[0]).toBeCloseTo(1, 4);
  expect(z[1]).toBeCloseTo(1, 4);
  const covariance = (i: number, j: number) => axes.reduce((sum, axis) => sum + axis[i]! * axis[j]!, 0);
  expect(covariance(0, 0)).toBeCloseTo(2 / 3, 6);
  expect(covariance(0, 1)).toBeCloseTo(-1 / 3, 6);
});

// source: property of a bent valley: exp(a)·(1 + b) read as 1: the ends found stay in it, where the cost rises by 1.96²
test("ends follow a bent valley", () => {
  const misses = ([a, b]: readonly number[]) => [(1 - Math.exp(a!) * (1 + 0.5 * b!)) / 0.2];
  const { ends, z } = posteriorOf(misses, [[0, 0]]);
  const cost = (at: readonly number[]) => at[0]! ** 2 + at[1]! ** 2 + misses(at)[0]! ** 2;
  for (const end of ends.flat()) expect(cost(end) - cost(z)).toBeLessThan(3 * 1.96 ** 2);
});

test("without readings the posterior is what was believed", () => {
  const { z, axes } = posteriorOf(() => [], [[0]]);
  expect(z).toEqual([0]);
  expect(Math.abs(axes[0]![0]!)).toBeCloseTo(1, 12);
});
