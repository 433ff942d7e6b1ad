import { expect, test } from "vitest";
import further from "../../reference/measurement.json" with { type: "json" };
import reference from "../../reference/statistics.json" with { type: "json" };
import { recordAccuracy } from "../../tests/accuracy.ts";
import { linearRegression } from "../maths/regression.ts";
import { normalCdf, summary } from "../maths/statistics/index.ts";
import { capability, compareGroups, countChart, groupChart, readingsNeeded, weightedChart } from "./index.ts";

/** Digits that agree, as NIST counts them; a certified value of 0 counts absolute. */
function digits(computed: number, certified: number): number {
  if (computed === certified) return 15;
  return -Math.log10(Math.abs(computed - certified) / (certified === 0 ? 1 : Math.abs(certified)));
}

interface Univariate {
  readonly dataset: string;
  readonly certified_mean: number;
  readonly certified_sd_n_minus_1: number;
  readonly certified_lag1_autocorrelation: number;
  readonly y?: readonly number[];
  readonly construction?: { readonly first: number; readonly pair: readonly number[] };
}

// source: NIST StRD, univariate summary statistics (reference/statistics.json). NumAcc3's spread is lost in its own
// decimals: 1000000.1 in binary is off by 5e-11, or 9 digits of 0.1.
test("mean, spread and autocorrelation reach the certified values", () => {
  const reached: string[] = [];
  for (const set of reference.univariate as readonly Univariate[]) {
    const y = set.y ?? [set.construction!.first, ...Array.from({ length: 500 }, () => set.construction!.pair).flat()];
    const { mean, sd, lag1 } = summary(y);
    const found = Math.min(
      digits(mean, set.certified_mean),
      digits(sd, set.certified_sd_n_minus_1),
      digits(lag1!, set.certified_lag1_autocorrelation),
    );
    expect(found, set.dataset).toBeGreaterThan(set.dataset === "NumAcc3" ? 8 : 12);
    reached.push(`${set.dataset} ${found.toFixed(1)}`);
  }
  recordAccuracy({
    area: "measurement",
    what: "mean, standard deviation, lag-1 autocorrelation: digits",
    source: "NIST StRD univariate summary statistics, reference/statistics.json",
    reached: reached.join(", "),
    limit: "12 digits; 8 for NumAcc3",
  });
});

// source: NIST StRD, linear regression, Norris
test("a straight line reaches the certified coefficients", () => {
  const [norris] = reference.linear_regression;
  const fit = linearRegression(
    norris!.x.map((x) => [1, x]),
    norris!.y,
  );
  if (!fit.ok) throw new Error("dependent");
  const found = Math.min(
    ...fit.coefficients.map((b, i) => digits(b, norris!.certified_b[i]!)),
    ...fit.sd.map((sd, i) => digits(sd, norris!.certified_sd_b[i]!)),
    digits(fit.residual_sd, norris!.certified_residual_sd),
    digits(fit.rSquared, norris!.certified_r_squared),
  );
  expect(found).toBeGreaterThan(9);
  expect(fit.freedom).toBe(norris!.certified_anova.residual_df);
  recordAccuracy({
    area: "measurement",
    what: "linear regression: digits of coefficients, their spreads and the scatter",
    source: norris!.source,
    reached: found.toFixed(1),
    limit: "9 digits",
  });
});

test("columns that others already tell are named, not fitted", () => {
  const rows = [0, 1, 0, 1, 0, 1].map((a, i) => [1, a, 1 - a, i]);
  expect(linearRegression(rows, [1, 2, 3, 4, 5, 6])).toEqual({ ok: false, dependent: [2] });
});

// source: NIST StRD analysis of variance (SiRstv), and the handbook's machine diameters recomputed from its data
test("groups are compared as certified", () => {
  const [silicon, machines] = reference.one_way_anova;
  const one = compareGroups(silicon!.groups!);
  const certified = silicon!.certified!;
  const found = Math.min(
    digits(one.between.squares, certified.between_ss),
    digits(one.within.squares, certified.within_ss),
    digits(one.F!, certified.F),
    digits(one.rSquared, certified.r_squared),
    digits(one.sd, certified.residual_sd),
  );
  expect(found).toBeGreaterThan(9);
  const two = compareGroups(machines!.groups_by_machine_mm!);
  expect(two.F).toBeCloseTo(machines!.recomputed!.F, 6);
  expect(two.p).toBeCloseTo(machines!.recomputed!.p, 8);
  recordAccuracy({
    area: "measurement",
    what: "one-way analysis of variance: digits",
    source: silicon!.source,
    reached: found.toFixed(1),
    limit: "9 digits",
  });
});

// source: NIST/SEMATECH e-Handbook 2.4.4.3 (read): runs of five check standards, two each, pooled. A pair whose standard
// deviation is s lies s/√2 to either side of its mean.
test("spreads of several check standards pool as the handbook's gauge study does", () => {
  const { sd, squares, squares_sum, pooled_sd, source } = further.pooled_spread;
  const pairs = sd.map((s, i) => [i + s / Math.SQRT2, i - s / Math.SQRT2]);
  const { within, sd: pooled } = compareGroups(pairs);
  expect(within.freedom).toBe(5);
  expect(Math.abs(within.squares - squares_sum)).toBeLessThan(0.000005);
  for (const [i, s] of sd.entries()) expect(Math.abs(s ** 2 - squares[i]!)).toBeLessThan(0.0000025);
  expect(pooled).toBeCloseTo(pooled_sd, 4);
  recordAccuracy({
    area: "measurement",
    what: "pooled standard deviation of five check standards",
    source,
    reached: pooled.toFixed(5),
    limit: `${pooled_sd} as printed`,
  });
});

// source: NIST/SEMATECH e-Handbook 6.3.2.4; the printed lower limit is truncated in its last digit
test("the weighted mean follows the handbook", () => {
  const published = reference.control_charts.ewma;
  const chart = weightedChart(published.data, published.lambda, published.start, published.sigma);
  const worst = Math.max(...chart.weighted.map((z, i) => Math.abs(z - published.ewma_0_to_20[i + 1]!)));
  expect(worst).toBeLessThan(0.0051);
  expect(chart.high).toBeCloseTo(published.ucl, 3);
  expect(chart.low).toBeCloseTo(published.lcl, 3);
  expect(chart.signals).toEqual([]);
  recordAccuracy({
    area: "measurement",
    what: "chart of the weighted mean, 20 values and limits",
    source: published.source,
    reached: worst.toFixed(4),
    limit: "0.005 (printed to 0.01)",
  });
});

// source: Montgomery's piston rings, limits as a general statistics package prints them
test("means and ranges of groups get the published limits", () => {
  const published = reference.control_charts.xbar_r;
  const chart = groupChart(published.subgroups, published.phase_1_subgroups);
  expect(chart.centre).toBeCloseTo(published.grand_mean, 5);
  expect(chart.range.centre).toBeCloseTo(published.mean_range, 5);
  // The package divides by 2.326, rounded from 2.325929.
  expect(chart.sd).toBeCloseTo(published.sigma_hat, 6);
  expect(chart.low).toBeCloseTo(published.xbar_lcl, 5);
  expect(chart.high).toBeCloseTo(published.xbar_ucl, 4);
  expect(chart.range.low).toBe(published.r_lcl);
  expect(chart.range.high).toBeCloseTo(published.r_ucl, 5);
  const { s_chart } = published;
  expect(chart.deviation.centre).toBeCloseTo(s_chart.mean_s, 8);
  expect(chart.deviation.sd).toBeCloseTo(s_chart.sigma_hat, 7);
  expect([chart.deviation.low, chart.deviation.high][0]).toBe(s_chart.lcl);
  expect(chart.deviation.high).toBeCloseTo(s_chart.ucl, 6);
  // The later groups are known to have shifted.
  expect(chart.signals.map(({ index }) => index).filter((index) => index >= 25).length).toBeGreaterThan(0);
  expect(chart.signals.filter(({ index }) => index < 25)).toEqual([]);
});

// source: reference/statistics.json, factors computed by numerical integration and printed in tables
test("factors of the range agree with the table", () => {
  for (const { n, A2, D4 } of reference.control_charts.constants.table) {
    const group = Array.from({ length: n }, (_, i) => (i === 0 ? 1 : 0));
    const { centre, high, range } = groupChart([group, group]);
    expect(high - centre).toBeCloseTo(A2, 3);
    expect(range.high).toBeCloseTo(D4, 3);
  }
});

// source: the same handbook, 6.3.2.2: ranges of neighbouring values, limit 3.267 times their mean
test("moving ranges get the handbook's limit", () => {
  const { data, mr_ucl } = reference.control_charts.individuals;
  const pairs = data.slice(1).map((value, i) => [data[i]!, value]);
  expect(groupChart(pairs).range.high).toBeCloseTo(mr_ucl, 2);
});

// source: operating characteristic as a general statistics package prints it: values until a three-sigma chart signals
test("three sigma are left as often as printed", () => {
  const { average_run_length: printed } = reference.control_charts;
  const runLength = (shift: number, n: number) => {
    const off = shift * Math.sqrt(n);
    return 1 / (normalCdf(-3 - off) + normalCdf(-3 + off));
  };
  expect(runLength(0, 1)).toBeCloseTo(printed.three_sigma_in_control, -0.5);
  expect(Math.round(runLength(0.1, 1))).toBe(printed.shift_0_1_sigma.n1);
  expect(Math.round(runLength(0.1, 5))).toBe(printed.shift_0_1_sigma.n5);
  expect(Math.round(runLength(0.2, 1))).toBe(printed.shift_0_2_sigma.n1);
  expect(Math.round(runLength(0.2, 5))).toBe(printed.shift_0_2_sigma.n5);
});

// source: NIST/SEMATECH e-Handbook 6.3.3.1, wafer defects
test("counts get the handbook's limits", () => {
  const { counts, c_bar, ucl, lcl } = reference.control_charts.c_chart;
  const chart = countChart(counts);
  expect(chart.centre).toBeCloseTo(c_bar, 10);
  expect([chart.low, chart.high]).toEqual([lcl, ucl]);
  expect(chart.signals.map(({ index }) => counts[index])).toEqual([31]);
});

// source: NIST/SEMATECH e-Handbook 6.1.6; piston rings with 125 pieces as a general statistics package prints them
test("capability agrees with both published cases", () => {
  const [handbook, pistons] = reference.capability;
  const plain = capability({ mean: handbook!.mean!, sd: handbook!.sd!, low: handbook!.lsl, high: handbook!.usl });
  expect(plain.cp!.value).toBeCloseTo(handbook!.Cp, 10);
  expect(plain.cpk.value).toBeCloseTo(handbook!.Cpk, 4);
  const rings = capability({
    mean: pistons!.mean,
    sd: pistons!.sigma_within!,
    low: pistons!.lsl,
    high: pistons!.usl,
    n: pistons!.n!,
  });
  expect(rings.cp!.value).toBeCloseTo(pistons!.Cp, 3);
  expect(rings.cp!.low).toBeCloseTo(pistons!.Cp_95![0]!, 3);
  expect(rings.cp!.high).toBeCloseTo(pistons!.Cp_95![1]!, 3);
  expect(rings.cpk.low).toBeCloseTo(pistons!.Cpk_95![0]!, 3);
  expect(rings.cpk.high).toBeCloseTo(pistons!.Cpk_95![1]!, 3);
});

// source: NIST/SEMATECH e-Handbook 7.2.2.2
test("readings needed are the handbook's", () => {
  const { alpha, beta, delta_over_sigma, n_normal, n_t } = reference.sample_size;
  const wanted = { sd: 1, difference: delta_over_sigma, falseAlarm: alpha, missed: beta, sides: 1 } as const;
  expect(readingsNeeded(wanted)).toEqual({ n: n_t, nKnown: n_normal });
});
