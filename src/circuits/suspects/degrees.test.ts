import { expect, test } from "vitest";
import { normalCdf } from "../../maths/statistics/index.ts";
import { bellAbout, meanOfBell, overDegrees } from "./degrees.ts";
import { weighEvidence } from "./evidence.ts";
import type { Seen } from "./inspect.ts";

// source: scipy 1.10 (Debian) integrate.quad, in pieces about the nearest point, to 1e-13
test.each<[curvature: number, middle: number, range: [number, number], mean: number]>([
  [0, 3, [0, 1], 1],
  [4, 0.5, [0, 1], 0.8556243918921489],
  [4, 3, [0, 1], 0.11832250548958051],
  [400, -2, [0, 5], 0.0002498440420572149],
  [1e8, 0.3, [0, 1], 0.00025066282746306586],
  [1e8, 1.001, [0, 1], 9.90285964716036e-6],
  [1e-6, 50, [0, 14], 0.9997153889694849],
  [2.5, 7, [0, 5.7], 0.045803750091701644],
  [1e-4, 1000, [0, 0.15], 0.9925381028027314],
  [2500, 2, [0, 14], 0.0035808975351871502],
])("mean of a bell of curvature %f about %f over %j", (curvature, middle, range, mean) => {
  expect(meanOfBell(curvature, middle, range) / mean).toBeCloseTo(1, 9);
});

/** One reading of 10 that the severity moves by `slope`. */
const leaning = (slope: number): Seen => ({
  values: Float64Array.of(10),
  slopes: Float64Array.of(slope),
  columns: 1,
  grain: new Float64Array(1),
  loads: new Float64Array(1),
  x: new Float64Array(0),
});

// source: closed form. ∫ φ(y − 10 − slope·(s − 2)) ds over the range, by its length
test.each([
  ["inside its range", 5, 12, [1, 6]],
  ["at its end", 5, 10, [2, 6]],
  ["beyond its end", 1, 9, [2, 6]],
  ["leaning on nothing", 1e-9, 10.5, [-3, 6]],
] as const)("density of a reading over the degrees of a fault, likeliest %s", (_, slope, value, range) => {
  const readings = [{ value, sd: 1 }];
  const seen = leaning(slope);
  const look = (variance: number) => weighEvidence(seen, new Float64Array(0), Float64Array.of(variance), readings);
  const bell = bellAbout(2, seen, Float64Array.of(4), look(0), look(4));
  const [low, high] = range.map((s) => value - 10 - slope * (s - 2)) as [number, number];
  const mean =
    slope < 1e-6
      ? Math.exp(-0.5 * (value - 10) ** 2) / Math.sqrt(2 * Math.PI)
      : (normalCdf(low) - normalCdf(high)) / (slope * (range[1] - range[0]));
  expect(Math.exp(overDegrees(range, bell)) / mean).toBeCloseTo(1, 7);
});
