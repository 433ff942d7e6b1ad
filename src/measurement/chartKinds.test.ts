import { expect, test } from "vitest";
import { countChart, groupChart, individualsChart, weightedChart } from "./index.ts";

const signalled = (signals: readonly { readonly index: number }[]) => signals.map(({ index }) => index);

// source: by hand. With weight 1 the weighted mean is the value, and the limits are those of single values
test("a weighted chart signals past its limits on either side, and on them not", () => {
  const chart = weightedChart([3, -3, 3.1, -3.1], 1, 0, 1);
  expect(chart).toMatchObject({ centre: 0, low: -3, high: 3, sd: 1, weighted: [3, -3, 3.1, -3.1] });
  expect(chart.signals).toEqual([
    { index: 2, rule: "outside" },
    { index: 3, rule: "outside" },
  ]);
});

// source: by hand. z₁ = 0.25·8 = 2, z₂ = 0.25·4 + 0.75·2 = 2.5; limits 3·√(0.25/1.75) = 1.13389; with a centre drawn
// from 7 readings 3·√(1/7 + 1/7) = 1.60357
test("a weighted mean remembers, and a centre drawn from few widens its limits", () => {
  const known = weightedChart([8, 4], 0.25, 0, 1);
  expect(known.weighted).toEqual([2, 2.5]);
  expect(known.high).toBeCloseTo(1.13389, 5);
  expect(weightedChart([8], 0.25, 0, 1, 7).high).toBeCloseTo(1.60357, 5);
  expect(weightedChart([8], 0.25, 10, 1, 7).low).toBeCloseTo(10 - 1.60357, 5);
});

test.each([
  ["values", [], 1, 0, 1],
  ["values[1]", [1, Number.NaN], 1, 0, 1],
  ["weight", [1], 0, 0, 1],
  ["weight", [1], 1.01, 0, 1],
  ["centre", [1], 1, Number.NaN, 1],
  ["sd", [1], 1, 0, 0],
] as const)("a weighted chart refuses at %s", (path, values, weight, centre, sd) => {
  expect(() => weightedChart(values, weight, centre, sd)).toThrow(expect.objectContaining({ path }));
});

// source: by hand, with d₂ = 2/√π and d₃ = √(2 − 4/π) for pairs: sd = 2/d₂ = √π, limits 1 ± 3·√π/√2, the range's upper
// limit 2·(1 + 3·0.755511); a pair's standard deviation is its range/√2, its limit √2·(1 + 3·0.755511)
test("pairs get limits by hand for their means, ranges and deviations, and each signals on its own", () => {
  const usual = [0, 2];
  const chart = groupChart([usual, usual, usual, [0, 20], [1, 1], [-3.7, -2], [-2.2, 4.3], [-2.3, 4.3]], 3);
  expect(chart.means.slice(0, 4)).toEqual([1, 1, 1, 10]);
  expect(chart.ranges.slice(0, 5)).toEqual([2, 2, 2, 20, 0]);
  expect(chart.sd).toBeCloseTo(Math.sqrt(Math.PI), 5);
  expect(chart.low).toBeCloseTo(1 - 3.759942, 5);
  expect(chart.high).toBeCloseTo(1 + 3.759942, 5);
  expect(chart.range).toMatchObject({ centre: 2, low: 0 });
  expect(chart.range.high).toBeCloseTo(6.533066, 4);
  expect(chart.deviation.low).toBe(0);
  expect(chart.deviation.high).toBeCloseTo(6.533066 / Math.SQRT2, 4);
  expect(chart.deviation.sd).toBeCloseTo(Math.sqrt(Math.PI), 5);
  expect(chart.signals).toEqual([
    { index: 3, rule: "outside" },
    { index: 5, rule: "outside" },
  ]);
  expect(signalled(chart.range.signals)).toEqual([3, 7]);
  expect(signalled(chart.deviation.signals)).toEqual([3, 7]);
});

// source: by hand: a mean of 4 pairs of spread √π has √π/√8 = 0.626657; its limits the mean range's 0.755511/√4 as well,
// of 3.759942
test("doubt of a chart of pairs is that of its mean and of its mean range", () => {
  const { doubt } = groupChart(Array.from({ length: 4 }, () => [0, 2]));
  expect(doubt.centre).toBeCloseTo(1.96 * 0.626657, 5);
  expect(doubt.low).toBeCloseTo(1.96 * Math.hypot(0.626657, 3.759942 * 0.377755), 4);
  expect(doubt.high).toBe(doubt.low);
});

// source: by hand with the printed factors of groups of seven: d₂ 2.704, d₃ 0.833, c₄ 0.9594
test("of seven readings a group, one that varies too little signals too", () => {
  const usual = [0, 1, 2, 3, 4, 5, 6];
  const chart = groupChart([usual, usual, [3, 3, 3, 3, 3, 3, 3]], 2);
  expect(chart.range.low).toBeCloseTo(6 * (1 - (3 * 0.833) / 2.704), 2);
  expect(chart.deviation.low).toBeCloseTo(2.160247 * (1 - (3 * Math.sqrt(1 - 0.9594 ** 2)) / 0.9594), 2);
  expect(signalled(chart.range.signals)).toEqual([2]);
  expect(signalled(chart.deviation.signals)).toEqual([2]);
  expect(chart.signals).toEqual([]);
});

test("groups that never vary have no signal", () => {
  const { signals, range, deviation } = groupChart(Array.from({ length: 3 }, () => [0.1, 0.1, 0.1]));
  expect([signals, range.signals, deviation.signals]).toEqual([[], [], []]);
});

// source: by hand: neighbours among binary numbers near 300,000, half of their distance to either side of the centre
test("what only rounding tells apart is no row on one side", () => {
  const [less, more] = [3e5, 3e5 * (1 + Number.EPSILON)];
  const values = [...Array.from({ length: 9 }, () => less), ...Array.from({ length: 9 }, () => more), 0];
  expect(individualsChart(values, 18).signals).toEqual([{ index: 18, rule: "outside" }]);
});

const ten = Array.from({ length: 10 }, (_, i) => i);

test.each([
  ["groups[0]", []],
  ["groups[0]", [[1], [1]]],
  [
    "groups[0]",
    [
      [...ten, 10],
      [...ten, 10],
    ],
  ],
  ["groups[1]", [[1, 2], [1]]],
  [
    "groups[1][0]",
    [
      [1, 2],
      [Number.NaN, 2],
    ],
  ],
  ["baseline", [[1, 2]]],
])("groups are refused at %s", (path, groups) => {
  expect(() => groupChart(groups)).toThrow(expect.objectContaining({ path }));
});

test("two to ten readings a group, and limits from two groups or more of those there are", () => {
  expect(groupChart([ten, ten]).ranges).toEqual([9, 9]);
  const groups = [
    [1, 2],
    [2, 4],
    [3, 9],
  ];
  expect(groupChart(groups, 2).centre).toBe(2.25);
  expect(groupChart(groups, 3).centre).toBe(3.5);
  for (const baseline of [1, 2.5, 4]) {
    expect(() => groupChart(groups, baseline)).toThrow(expect.objectContaining({ path: "baseline" }));
    expect(() => individualsChart([1, 2, 3], baseline)).toThrow(expect.objectContaining({ path: "baseline" }));
    expect(() => countChart([1, 2, 3], baseline)).toThrow(expect.objectContaining({ path: "baseline" }));
  }
});

// source: by hand: mean 16, so limits 16 ± 12; its spread of four counts 4/2, and its limits' 2·(1 + 1.5/4)
test("counts signal past their limits on either side, by limits drawn from those named good", () => {
  const chart = countChart([16, 16, 16, 16, 3, 4, 28, 30], 4);
  expect(chart).toMatchObject({ centre: 16, low: 4, high: 28, sd: 4 });
  expect(chart.signals).toEqual([
    { index: 4, rule: "outside" },
    { index: 7, rule: "outside" },
  ]);
  expect(chart.doubt.centre).toBeCloseTo(1.96 * 2, 12);
  expect(chart.doubt.low).toBeCloseTo(1.96 * 2.75, 12);
  expect(chart.doubt.high).toBe(chart.doubt.low);
});

// source: by hand: a mean count of 1/4 has a spread of 1/2; under a spread of one the limit's own doubt grows no further
test("few faults have no lower limit but none", () => {
  const chart = countChart([0, 1, 0, 0]);
  expect([chart.low, chart.high]).toEqual([0, 1.75]);
  expect(chart.doubt.high).toBeCloseTo(1.96 * 0.25 * 2.5, 12);
  expect(countChart([0, 0])).toMatchObject({ centre: 0, low: 0, high: 0, signals: [] });
});

test.each([
  ["values", [3]],
  ["values[1]", [3, 1.5]],
  ["values[0]", [-1, 3]],
])("counts are refused at %s", (path, counts) => {
  expect(() => countChart(counts)).toThrow(expect.objectContaining({ path }));
});

// source: by hand: mean of the first five 10.08, each 0.2 from the one before: sd 0.2/1.128379 = 0.177245
test("single values get limits from those named good, and the rest is judged by them", () => {
  const chart = individualsChart([10, 10.2, 10, 10.2, 10, 10.7, 9.5], 5);
  expect(chart.centre).toBeCloseTo(10.08, 12);
  expect(chart.sd).toBeCloseTo(0.177245, 6);
  expect(chart.low).toBeCloseTo(10.08 - 3 * 0.177245, 5);
  expect(chart.high).toBeCloseTo(10.08 + 3 * 0.177245, 5);
  expect(chart.signals).toEqual([
    { index: 5, rule: "outside" },
    { index: 6, rule: "outside" },
  ]);
});
