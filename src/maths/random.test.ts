import { expect, test } from "vitest";
import { type Random, randomStream } from "./random.ts";
import { chiSquaredQuantile, normalCdf, normalQuantile } from "./statistics/index.ts";

const draw = (n: number, next: () => number) => Float64Array.from({ length: n }, next);
const mean = (x: Float64Array) => x.reduce((a, b) => a + b, 0) / x.length;
const variance = (x: Float64Array) => {
  const m = mean(x);
  return x.reduce((sum, v) => sum + (v - m) ** 2, 0) / (x.length - 1);
};

/** Pearson's statistic of counts in equal classes stays under its 99.99 % point. */
function expectEven(shares: Float64Array, classes = 100): void {
  const counts = new Array<number>(classes).fill(0);
  for (const p of shares) counts[Math.min(classes - 1, Math.floor(p * classes))]!++;
  const expected = shares.length / classes;
  const statistic = counts.reduce((sum, count) => sum + (count - expected) ** 2 / expected, 0);
  expect(statistic).toBeLessThan(chiSquaredQuantile(0.9999, classes - 1));
  expect(statistic).toBeGreaterThan(chiSquaredQuantile(0.0001, classes - 1));
}

test("the same seed draws the same, another seed does not", () => {
  const first = (random: Random) => [random.uniform(), random.normal(), random.integer(1000)];
  expect(first(randomStream(417))).toEqual(first(randomStream(417)));
  expect(first(randomStream("day 3"))).toEqual(first(randomStream("day 3")));
  expect(first(randomStream(417))).not.toEqual(first(randomStream(418)));
});

test("a fork depends on seed and label, not on what was drawn before", () => {
  const early = randomStream(1).fork("valves");
  const used = randomStream(1);
  used.uniform();
  used.normal();
  expect(used.fork("valves").uniform()).toBe(early.uniform());
  expect(randomStream(1).fork("boards").uniform()).not.toBe(randomStream(1).fork("valves").uniform());
});

test("uniform draws fill 0 to 1 evenly", () => expectEven(draw(100_000, randomStream(11).uniform)));

test("first draws of neighbouring seeds and of neighbouring forks are unrelated", () => {
  const parent = randomStream("runs");
  expectEven(Float64Array.from({ length: 20_000 }, (_, seed) => randomStream(seed).uniform()));
  const forks = Float64Array.from({ length: 20_000 }, (_, run) => parent.fork(run).uniform());
  expectEven(forks);
  const centred = forks.map((u) => u - 0.5);
  const lag1 = centred.slice(1).reduce((sum, u, i) => sum + u * centred[i]!, 0) / (centred.length / 12);
  expect(Math.abs(lag1)).toBeLessThan(4 / Math.sqrt(centred.length));
});

test("normal draws follow the normal distribution", () => {
  const random = randomStream(12);
  const z = draw(100_000, () => random.normal(3, 2));
  expectEven(z.map((x) => normalCdf(x, 3, 2)));
  expect(Math.abs(mean(z) - 3)).toBeLessThan((4 * 2) / Math.sqrt(z.length));
});

// source: triangle distribution: mean (a+b+c)/3, variance (a²+b²+c²−ab−ac−bc)/18
test("triangle draws keep their limits, mean and variance", () => {
  const random = randomStream(13);
  const x = draw(200_000, () => random.triangle(1, 2, 6));
  expect(Math.min(...x.slice(0, 50_000))).toBeGreaterThanOrEqual(1);
  expect(Math.max(...x.slice(0, 50_000))).toBeLessThanOrEqual(6);
  const sd2 = (1 + 4 + 36 - 2 - 6 - 12) / 18;
  expect(Math.abs(mean(x) - 3)).toBeLessThan(4 * Math.sqrt(sd2 / x.length));
  expect(variance(x) / sd2).toBeCloseTo(1, 1);
  expect(random.triangle(2, 2, 2)).toBe(2);
  expect(random.triangle(2, 2, 4)).toBeGreaterThanOrEqual(2);
  expect(random.triangle(2, 4, 4)).toBeLessThanOrEqual(4);
});

test("whole numbers are drawn evenly", () => {
  const random = randomStream(14);
  expectEven(
    draw(60_000, () => (random.integer(6) + 0.5) / 6),
    6,
  );
});

// source: tables of the normal distribution
test("97.5 % lies below 1.959964", () => expect(normalQuantile(0.975)).toBeCloseTo(1.959964, 6));

test("a seed that is not finite is refused", () => expect(() => randomStream(Number.NaN)).toThrow(RangeError));
