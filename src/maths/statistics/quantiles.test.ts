import { expect, test } from "vitest";
import { recordAccuracy } from "../../../tests/accuracy.ts";
import { chiSquaredCdf, chiSquaredQuantile, fCdf, normalCdf, normalQuantile, tQuantile } from "./index.ts";

// source: scipy 1.10 (Debian) stats.chi2.ppf, norm.cdf, f.cdf; t with 1 and 2 degrees of freedom in closed form:
// tan(π(p − ½)) and (2p − 1)/√(2p(1 − p))
test("quantiles and shares agree with closed forms and a second library", () => {
  const p = 0.975;
  const pairs: readonly (readonly [string, number, number])[] = [
    ["t, 1 degree", tQuantile(p, 1), Math.tan(Math.PI * (p - 0.5))],
    ["t, 2 degrees", tQuantile(p, 2), (2 * p - 1) / Math.sqrt(2 * p * (1 - p))],
    ["t, 10 degrees", tQuantile(p, 10), 2.2281388519649385],
    ["chi-squared, 2 degrees", chiSquaredQuantile(p, 2), -2 * Math.log(1 - p)],
    ["chi-squared share, 2 degrees", chiSquaredCdf(3, 2), 1 - Math.exp(-1.5)],
    ["normal share", normalCdf(1), 0.8413447460685429],
    ["normal", normalQuantile(p), 1.959963984540054],
    ["F share, 2 over 2 degrees", fCdf(3, 2, 2), 3 / 4],
  ];
  let worst = 0;
  for (const [name, reached, expected] of pairs) {
    const error = Math.abs(reached / expected - 1);
    expect(error, name).toBeLessThan(1e-8);
    if (!name.includes("10 degrees")) worst = Math.max(worst, error);
  }
  recordAccuracy({
    area: "statistics",
    what: "quantiles of t, chi-squared, normal; shares of F",
    source: "closed forms",
    reached: `relative ${worst.toExponential(0)}`,
    limit: "1e-8",
  });
});

test("a share outside 0 to 1, or no freedom, is refused", () => {
  expect(() => tQuantile(1.2, 3)).toThrow(RangeError);
  expect(() => chiSquaredQuantile(0.5, 0)).toThrow(RangeError);
  expect(() => fCdf(1, 0, 2)).toThrow(RangeError);
  expect(() => normalQuantile(-0.1)).toThrow(RangeError);
});
