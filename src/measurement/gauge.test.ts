import fc from "fast-check";
import { expect, test } from "vitest";
import further from "../../reference/measurement.json" with { type: "json" };
import reference from "../../reference/statistics.json" with { type: "json" };
import { recordAccuracy } from "../../tests/accuracy.ts";
import { randomStream } from "../maths/random.ts";
import { type GaugeReading, gaugeStudy } from "./gauge.ts";
import { drawnIntervals } from "./gaugeIntervals.ts";

const published = reference.gauge_rr;
const readings: GaugeReading[] = Object.entries(published.data).flatMap(([operator, trials]) =>
  trials.flatMap((values) => values.map((value, part) => ({ part: `${part + 1}`, operator, value }))),
);

// source: AIAG Measurement Systems Analysis, 4th ed., ten parts by three appraisers, three trials; printed figures
test("finds the handbook's components", () => {
  const study = gaugeStudy(readings, 8);
  const { gauge_rr, part, total } = published.standard_deviations;
  const pairs = [
    [study.gauge_sd, gauge_rr],
    [study.part_sd, part],
    [study.total_sd, total],
    [study.repeatability_sd ** 2, published.variance_components.repeatability],
    [study.reproducibility_sd ** 2, published.variance_components.reproducibility],
  ] as const;
  const worst = Math.max(...pairs.map(([ours, theirs]) => Math.abs(ours - theirs)));
  expect(worst).toBeLessThan(0.00006);
  expect(study.gauge_pct!).toBeCloseTo(published.percent_study_variation.gauge_rr, 2);
  expect(study.tolerance_pct!).toBeCloseTo(published.tolerance_8_percent.gauge_rr, 2);
  expect(study.interaction.p).toBeCloseTo(published.anova.interaction.p, 3);
  expect(study.interaction.pooled).toBe(true);
  recordAccuracy({
    area: "measurement",
    what: "gauge study: standard deviations of instrument, hands and parts",
    source: published.source,
    reached: worst.toExponential(0),
    limit: "0.00006 (printed to 0.00001)",
  });
});

// source: by hand. Parts 0 and 2, operators equal but crossed by ±1, trials ±0.1: MSe = 0.02, MSi = 8·1/1 = 8,
// MSo = 0, MSp = 8·1/1 = 8; interaction (8 − 0.02)/2 = 3.99; operator and part negative or nil
test("keeps an interaction that is no chance apart, and sets negative components to nothing", () => {
  const crossed = [0, 1].flatMap((part) =>
    [0, 1].flatMap((operator) =>
      [-0.1, 0.1].map((trial) => ({
        part: `p${part}`,
        operator: `o${operator}`,
        value: 2 * part + (part === operator ? 1 : -1) + trial,
      })),
    ),
  );
  const study = gaugeStudy(crossed);
  expect(study.interaction.pooled).toBe(false);
  expect(study.repeatability_sd).toBeCloseTo(Math.sqrt(0.02), 12);
  expect(study.reproducibility_sd).toBeCloseTo(Math.sqrt(3.99), 12);
  expect(study.part_sd).toBe(0);
});

const thermal = further.gauge_thermal;
const thermalReadings: GaugeReading[] = thermal.data.flatMap((row, part) =>
  row.map((value, i) => ({ part: `${part + 1}`, operator: `${Math.floor(i / 3)}`, value })),
);

// source: data of Houf and Berman as printed in two places; components from memory, recomputed by numerical Python, as
// are the intervals (reference/measurement.json)
test("a study with a real interaction gets the textbook's components, and intervals of drawn mean squares", () => {
  const [low, high] = thermal.limits;
  const study = gaugeStudy(thermalReadings, high! - low!);
  const { part, operator, interaction, error, gauge } = thermal.variance_components;
  expect(study.interaction.pooled).toBe(false);
  const pairs = [
    [study.part_sd ** 2, part],
    [study.repeatability_sd ** 2, error],
    [study.reproducibility_sd ** 2, operator + interaction],
    [study.gauge_sd ** 2, gauge],
  ] as const;
  const worst = Math.max(...pairs.map(([ours, theirs]) => Math.abs(ours - theirs)));
  expect(worst).toBeLessThan(0.0001);

  const { intervals_95: published } = thermal;
  const ends = [
    [study.interval.part_sd, published.part.map(Math.sqrt)],
    [study.interval.gauge_sd, published.gauge.map(Math.sqrt)],
    [study.interval.repeatability_sd, published.error.map(Math.sqrt)],
    [study.interval.tolerance_pct!, published.tolerance_share.map((share) => 100 * share)],
    [study.interval.gauge_pct!, published.gauge_share_sd.map((share) => 100 * share)],
  ] as const;
  const off = Math.max(
    ...ends.flatMap(([ours, [lower, upper]]) => [Math.abs(ours.low / lower! - 1), Math.abs(ours.high / upper! - 1)]),
  );
  // Ends of 3000 draws against those of 400 000.
  expect(off).toBeLessThan(0.08);
  recordAccuracy({
    area: "measurement",
    what: "gauge study with interaction: components; ends of intervals",
    source: `${thermal.data_source}; ${thermal.components_source} (from memory, recomputed)`,
    reached: `${worst.toExponential(0)}; ${(100 * off).toFixed(1)} %`,
    limit: "0.0001; 8 % of each end",
  });
});

test("scale and offset of the readings, and their order, do not matter", () => {
  const before = gaugeStudy(readings);
  fc.assert(
    fc.property(
      fc.double({ min: 1e-3, max: 1e3, noNaN: true }),
      fc.double({ min: -100, max: 100, noNaN: true }),
      (k, c) => {
        const after = gaugeStudy(readings.map((reading) => ({ ...reading, value: k * reading.value + c })).reverse());
        expect(Math.abs(after.gauge_sd / (k * before.gauge_sd) - 1)).toBeLessThan(1e-6);
        expect(Math.abs(after.gauge_pct! / before.gauge_pct! - 1)).toBeLessThan(1e-6);
      },
    ),
    { numRuns: 20 },
  );
});

test("equal readings give nothing to compare, and say so by leaving the share out", () => {
  expect(gaugeStudy(readings.map((reading) => ({ ...reading, value: 0.1 })))).not.toHaveProperty("gauge_pct");
});

test.each([
  ["one part", readings.filter(({ part }) => part === "1")],
  ["one operator", readings.filter(({ operator }) => operator === "A")],
  ["a missing reading", readings.slice(1)],
  ["single trials", readings.filter((_, i) => i % 30 < 10)],
])("refuses %s", (_, some) => {
  expect(() => gaugeStudy(some)).toThrow(expect.objectContaining({ path: "readings" }));
});

test.each([0, -1, Number.POSITIVE_INFINITY, Number.NaN])("a tolerance of %d is refused", (tolerance) => {
  expect(() => gaugeStudy(readings, tolerance)).toThrow(expect.objectContaining({ path: "tolerance" }));
});

test("a reading that is no number is named by its place", () => {
  const some = readings.map((reading, i) => (i === 7 ? { ...reading, value: Number.NaN } : reading));
  expect(() => gaugeStudy(some)).toThrow(expect.objectContaining({ path: "readings[7].value" }));
});

test("without a tolerance nothing is told of one", () => {
  const study = gaugeStudy(readings);
  expect(study).not.toHaveProperty("tolerance_pct");
  expect(study.interval).not.toHaveProperty("tolerance_pct");
});

// The first part of the first operator lacks its last trial: the others have three.
test.each([
  ["2 by A on 1, 3 elsewhere", 20],
  ["2 by C on 4, 3 elsewhere", 83],
])("says what is missing: %s", (words, left) => {
  const some = readings.filter((_, i) => i !== left);
  expect(() => gaugeStudy(some)).toThrow(
    expect.objectContaining({ path: "readings", message: expect.stringContaining(words) }),
  );
});

// source: by hand: parts and hands that add up to the last decimal have no interaction, whatever binary numbers leave
test("what rounding leaves is taken for no interaction", () => {
  const values = [
    [1e6 + 0.1, 1e6 + 0.3],
    [1e6 + 0.4, 1e6 + 0.6],
  ];
  const added = values.flatMap((row, part) =>
    row.flatMap((value, operator) => [0, 1].map(() => ({ part: `p${part}`, operator: `o${operator}`, value }))),
  );
  expect(gaugeStudy(added).interaction).toEqual({ p: 1, pooled: true });
});

// source: by hand: where parts, or hands, differ through their pairing alone, their own mean square is as large as that of
// the pairing: nothing is left of parts, and of hands the pairing itself; sixty of them tell so within a fifth
test.each([
  ["hands", 2, 60],
  ["parts", 60, 2],
])("many %s that differ by pairing alone have an interval about that", (many, parts, operators) => {
  const chance = randomStream(`pairing of ${many}`);
  const drawn = Array.from({ length: parts }, (_, part) =>
    Array.from({ length: operators }, (_, operator) => {
      const pairing = chance.normal();
      return [-0.1, 0.1].map((trial) => ({ part: `${part}`, operator: `${operator}`, value: pairing + trial }));
    }),
  ).flat(2);
  const { interval } = gaugeStudy(drawn);
  if (many === "parts") {
    expect(interval.part_sd.low).toBe(0);
    expect(interval.part_sd.high).toBeLessThan(0.8);
  } else {
    expect(interval.reproducibility_sd.low).toBeGreaterThan(0.7);
    expect(interval.reproducibility_sd.low).toBeLessThan(1);
    expect(interval.reproducibility_sd.high).toBeGreaterThan(1);
    expect(interval.reproducibility_sd.high).toBeLessThan(1.3);
  }
});

test("doubt is the longer side of each interval", () => {
  const study = gaugeStudy(readings, 8);
  for (const name of ["repeatability_sd", "reproducibility_sd", "gauge_sd", "part_sd"] as const) {
    const { low, high } = study.interval[name];
    expect(study.doubt[name]).toBe(Math.max(study[name] - low, high - study[name]));
    expect(low).toBeLessThan(study[name]);
    expect(high).toBeGreaterThan(study[name]);
  }
});

// source: by hand. Every pair of trials alike: no repeatability, and what parts and operators do to each other is no chance
test("readings repeated to the last figure leave an interaction that no chance brings", () => {
  const same = (values: readonly (readonly number[])[]) =>
    values.flatMap((row, part) =>
      row.flatMap((value, operator) => [0, 1].map(() => ({ part: `p${part}`, operator: `o${operator}`, value }))),
    );
  const crossed = gaugeStudy(
    same([
      [1, 3],
      [4, 2],
    ]),
  );
  expect(crossed.interaction).toEqual({ p: 0, pooled: false });
  expect(crossed.repeatability_sd).toBe(0);
  // MSi = 2·4·1 = 8 with 1 degree of freedom, (8 − 0)/2; operators' means are alike, parts' 2 and 3: MSp = 4·2·0.25 = 2 < 8.
  expect(crossed.reproducibility_sd).toBeCloseTo(2, 12);
  expect(crossed.part_sd).toBe(0);
  const parallel = gaugeStudy(
    same([
      [1, 3],
      [4, 6],
    ]),
  );
  expect(parallel.interaction).toEqual({ p: 1, pooled: true });
  // MSo = 4·2·1 = 8, over 4 of each; MSp = 4·2·2.25 = 18, over 4.
  expect(parallel.reproducibility_sd).toBeCloseTo(Math.SQRT2, 12);
  expect(parallel.part_sd).toBeCloseTo(Math.sqrt(18 / 4), 12);
  expect(parallel.gauge_pct).toBeCloseTo(100 * Math.sqrt(2 / 6.5), 9);
});

test("readings that are all equal have spreads, shares of a tolerance and doubts of nothing", () => {
  const flat = gaugeStudy(
    readings.map((reading) => ({ ...reading, value: 1e6 / 3 })),
    2,
  );
  expect(flat).toMatchObject({ gauge_sd: 0, part_sd: 0, total_sd: 0, tolerance_pct: 0 });
  expect(flat.doubt).toEqual({ repeatability_sd: 0, reproducibility_sd: 0, gauge_sd: 0, part_sd: 0 });
  expect(flat.interval).toEqual({
    repeatability_sd: { low: 0, high: 0 },
    reproducibility_sd: { low: 0, high: 0 },
    gauge_sd: { low: 0, high: 0 },
    part_sd: { low: 0, high: 0 },
    tolerance_pct: { low: 0, high: 0 },
  });
});

// source: tables of chi-squared (from memory), its 2.5th and 97.5th percentile by degrees of freedom; 3,000 draws place the
// lower one within a quarter in a hundred of itself
test.each([
  [1, 0.000982, 5.0239, 0.6],
  [4, 0.4844, 11.143, 0.15],
  [20, 9.5908, 34.1696, 0.05],
])(
  "a mean square of %i degrees of freedom leaves what the table of chi-squared says",
  (freedom, lower, upper, room) => {
    let least = Number.POSITIVE_INFINITY;
    const [found] = drawnIntervals({ one: { ms: 1, freedom } }, ({ one }) => {
      least = Math.min(least, one);
      return [one];
    });
    expect(Math.abs(Math.log((found!.low * upper) / freedom))).toBeLessThan(0.12);
    expect(Math.abs(Math.log((found!.high * lower) / freedom))).toBeLessThan(room);
    expect(least).toBeGreaterThan(0);
  },
);
