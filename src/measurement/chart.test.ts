import fc from "fast-check";
import { expect, test } from "vitest";
import reference from "../../reference/statistics.json" with { type: "json" };
import { recordAccuracy } from "../../tests/accuracy.ts";
import { individualsChart } from "./chart.ts";

const published = reference.control_charts.individuals;

// source: NIST/SEMATECH e-Handbook, section 6.3.2.2, flow rates of ten batches; printed with 1.128 for 1.128379
test("sets the handbook's limits", () => {
  const chart = individualsChart(published.data);
  expect(chart.centre).toBeCloseTo(published.mean, 10);
  const worst = Math.max(Math.abs(chart.high - published.ucl), Math.abs(chart.low - published.lcl));
  expect(worst).toBeLessThan(0.002);
  expect(chart.signals).toEqual([]);
  recordAccuracy({
    area: "measurement",
    what: "limits of a chart of single values",
    source: published.source,
    reached: worst.toFixed(4),
    limit: "0.002 (the handbook rounds 1.128379 to 1.128)",
  });
});

// source: by hand. One of twenty stands 3 off: mean 10.15, mean moving range 6/19, so limits 10.15 ± 0.84
test("names a value outside, and a row on one side", () => {
  const values = Array.from({ length: 20 }, (_, i) => (i === 12 ? 13 : 10));
  expect(individualsChart(values).signals).toContainEqual({ index: 12, rule: "outside" });
  const shifted = Array.from({ length: 24 }, (_, i) => (i < 12 ? 10 : 11) + (i % 2 === 0 ? 0.3 : -0.3));
  const runs = individualsChart(shifted).signals.filter(({ rule }) => rule === "run");
  expect(runs.map(({ index }) => index)).toEqual([8, 9, 10, 11, 20, 21, 22, 23]);
});

test("a constant series has no signal, whatever its value", () => {
  fc.assert(
    fc.property(fc.double({ noNaN: true, min: -1e9, max: 1e9 }), fc.integer({ min: 2, max: 40 }), (value, n) => {
      expect(individualsChart(Array.from({ length: n }, () => value)).signals).toEqual([]);
    }),
  );
});

// source: numpy and scipy 1.10 (Debian): ranges 2, 1, 2 of four values; the covariance of neighbouring ranges by
// integrate.dblquad over the two differences, the quantile of t by stats.t.ppf
test("the doubts of centre and limits, of four values", () => {
  const { doubt } = individualsChart([10, 12, 11, 13]);
  expect(doubt.centre).toBeCloseTo(3.1422607835922167, 5);
  expect(doubt.low).toBeCloseTo(9.884272159104178, 5);
  expect(doubt.high).toBe(doubt.low);
});

test("in a unit a thousand times as small all figures and doubts are a thousand times as large", () => {
  const [of, scaled] = [1, 1000].map((k) => individualsChart(published.data.map((value) => k * value)));
  for (const name of ["centre", "low", "high"] as const) {
    expect(scaled!.doubt[name] / of!.doubt[name]).toBeCloseTo(1000, 6);
    expect(scaled![name] / of![name]).toBeCloseTo(1000, 6);
  }
  expect(of!.doubt.low).toBe(of!.doubt.high);
});

test("one value, or one that is no number, is refused", () => {
  expect(() => individualsChart([1])).toThrow(expect.objectContaining({ path: "values" }));
  expect(() => individualsChart([1, Number.NaN])).toThrow(expect.objectContaining({ path: "values[1]" }));
});
