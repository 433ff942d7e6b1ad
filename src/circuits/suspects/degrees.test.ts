import { expect, test } from "vitest";
import { meanOfBell } from "./degrees.ts";

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
