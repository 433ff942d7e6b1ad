import { expect, test } from "vitest";
import { randomStream } from "../../maths/random.ts";
import { normalCdf } from "../../maths/statistics/index.ts";
import { normalFiller } from "./normals.ts";

const n = 400_000;
const drawn = new Float64Array(n);
normalFiller(randomStream(20_261_125))(drawn, 0, n);

// source: the normal distribution; 40 classes of equal chance, chi-squared with 39 degrees of freedom stays under 76 in 99.96 %
test("deviates fill classes of equal chance alike, the tails among them", () => {
  const counts = new Float64Array(40);
  for (const x of drawn) {
    const at = Math.floor(normalCdf(x) * 40);
    counts[at] = counts[at]! + 1;
  }
  const chi2 = counts.reduce((sum, count) => sum + (count - n / 40) ** 2 / (n / 40), 0);
  expect(chi2).toBeLessThan(76);
});

// source: the normal distribution; counts beyond 2.576, 3.6 (past the ziggurat's corner) and 4.2, four standard deviations allowed
test.each([2.5758293035489, 3.6, 4.2])("as many lie beyond %f as should", (edge) => {
  const share = 1 - normalCdf(edge);
  for (const sign of [1, -1]) {
    const count = drawn.reduce((sum, x) => sum + (sign * x > edge ? 1 : 0), 0);
    expect(Math.abs(count - n * share)).toBeLessThan(4 * Math.sqrt(n * share));
  }
});

// source: the normal distribution; variance 1, fourth moment 3, neighbours unrelated
test("moments and neighbours", () => {
  const mean = (f: (x: number, i: number) => number) => drawn.reduce((sum, x, i) => sum + f(x, i), 0) / n;
  expect(Math.abs(mean((x) => x))).toBeLessThan(4 / Math.sqrt(n));
  expect(Math.abs(mean((x) => x * x) - 1)).toBeLessThan(4 * Math.sqrt(2 / n));
  expect(Math.abs(mean((x) => x ** 4) - 3)).toBeLessThan(4 * Math.sqrt(96 / n));
  expect(Math.abs(mean((x, i) => x * drawn[(i + 1) % n]!))).toBeLessThan(4 / Math.sqrt(n));
});
