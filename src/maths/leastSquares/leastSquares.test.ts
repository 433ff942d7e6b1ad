import { describe, expect, test } from "vitest";
import statistics from "../../../reference/statistics.json" with { type: "json" };
import { recordAccuracy } from "../../../tests/accuracy.ts";
import { inverseNormal, leastSquares } from "./leastSquares.ts";

interface Certified {
  readonly dataset: string;
  readonly start1: readonly number[];
  readonly start2: readonly number[];
  readonly certified_b: readonly number[];
  readonly certified_sd_b: readonly number[];
  readonly certified_residual_sum_of_squares: number;
  readonly degrees_of_freedom: number;
  readonly x: readonly number[];
  readonly y: readonly number[];
}

/** The models as NIST prints them, b1 first. */
const models: Readonly<Record<string, (b: Float64Array, x: number) => number>> = {
  Misra1a: (b, x) => b[0]! * (1 - Math.exp(-b[1]! * x)),
  Chwirut2: (b, x) => Math.exp(-b[0]! * x) / (b[1]! + b[2]! * x),
  MGH17: (b, x) => b[0]! + b[1]! * Math.exp(-x * b[3]!) + b[2]! * Math.exp(-x * b[4]!),
  Roszman1: (b, x) => b[0]! - b[1]! * x - Math.atan(b[2]! / (x - b[3]!)) / Math.PI,
  Thurber: (b, x) =>
    (b[0]! + b[1]! * x + b[2]! * x ** 2 + b[3]! * x ** 3) / (1 + b[4]! * x + b[5]! * x ** 2 + b[6]! * x ** 3),
  MGH09: (b, x) => (b[0]! * (x ** 2 + x * b[1]!)) / (x ** 2 + x * b[2]! + b[3]!),
  Eckerle4: (b, x) => (b[0]! / b[1]!) * Math.exp(-0.5 * ((x - b[2]!) / b[1]!) ** 2),
  MGH10: (b, x) => b[0]! * Math.exp(b[1]! / (x + b[2]!)),
};

const digits = (computed: number, certified: number): number =>
  Math.min(11, -Math.log10(Math.abs(computed - certified) / Math.abs(certified) || 1e-16));

// source: NIST/ITL Statistical Reference Datasets, nonlinear regression, certified values as in
// reference/statistics.json; they are printed to 11 digits. 6 digits is the floor from either start.
describe("certified by NIST", () => {
  const reached: string[] = [];
  for (const set of statistics.nonlinear_regression as unknown as Certified[]) {
    const starts = [set.start1, set.start2];
    test(`${set.dataset} from both starts`, () => {
      const model = models[set.dataset]!;
      const fits = starts.map((start) =>
        leastSquares({
          start,
          residuals: (b) => Float64Array.from(set.x, (x, i) => model(b, x) - set.y[i]!),
        }),
      );
      let worst = 11;
      for (const fit of fits) {
        expect(fit.converged).toBe(true);
        const variance = fit.sumOfSquares / set.degrees_of_freedom;
        const inverse = inverseNormal(
          fit.jacobian,
          set.certified_b.map(() => true),
          0,
        )!;
        set.certified_b.forEach((b, k) => {
          worst = Math.min(worst, digits(fit.parameters[k]!, b));
          // Deviations come through differences of the model, hence four digits.
          expect(digits(Math.sqrt(variance * inverse[k]![k]!), set.certified_sd_b[k]!)).toBeGreaterThan(4);
        });
        expect(digits(fit.sumOfSquares, set.certified_residual_sum_of_squares)).toBeGreaterThan(6);
      }
      expect(worst).toBeGreaterThan(6);
      reached.push(`${set.dataset} ${worst.toFixed(1)}`);
    });
  }

  test("all eight are recorded", () => {
    expect(reached).toHaveLength(8);
    recordAccuracy({
      area: "least squares",
      what: "digits of the parameters, worse of two starts",
      source: "NIST StRD nonlinear regression, reference/statistics.json",
      reached: reached.join(", "),
      limit: "6",
    });
  });
});

describe("bounds", () => {
  // source: worked by hand, min (x − 3)² + (y + 1)² with x ≤ 2, y ≥ 0 lies at (2, 0), sum 1 + 1
  test("hold a parameter that would leave them", () => {
    const fit = leastSquares({
      start: [0, 5],
      residuals: (p) => Float64Array.of(p[0]! - 3, p[1]! + 1),
      low: [-Infinity, 0],
      high: [2, Infinity],
    });
    expect([...fit.parameters]).toEqual([2, 0]);
    expect(fit.sumOfSquares).toBeCloseTo(2, 12);
    expect(fit.held).toEqual([true, true]);
  });

  test("a parameter that no residual feels stays where it was, and its deviation is not invented", () => {
    const fit = leastSquares({ start: [1, 7], residuals: (p) => Float64Array.of(p[0]! - 3, 2 * p[0]! - 6) });
    expect(fit.parameters[0]).toBeCloseTo(3, 9);
    expect(fit.parameters[1]).toBe(7);
    expect(inverseNormal(fit.jacobian, [true, true])).toBeUndefined();
  });

  test("a start that cannot be worked out is refused", () => {
    expect(() => leastSquares({ start: [0], residuals: (p) => Float64Array.of(1 / p[0]!) })).toThrow(RangeError);
  });
});
