import { BadInput, quote } from "../maths/badInput.ts";
import { summary } from "../maths/statistics/index.ts";
import { type Chart, requireBaseline, requireSeries, type Signal } from "./chart.ts";

/** A chart whose limits may differ from value to value. */
export interface WeightedChart {
  readonly centre: number;
  /** Where the limits settle. */
  readonly low: number;
  readonly high: number;
  readonly sd: number;
  /** One a value. */
  readonly weighted: readonly number[];
  readonly signals: readonly Signal[];
}

/**
 * Chart of the exponentially weighted mean: sees a small lasting shift sooner than single values do.
 *
 *     zᵢ = λ·xᵢ + (1 − λ)·zᵢ₋₁,   z₀ = centre,   limits = centre ± 3·sd·√(λ/(2 − λ) + 1/drawnFrom)
 *
 * @param weight  λ, above 0 and up to 1; small sees small shifts
 * @param centre, sd  of the process while it was good
 * @param drawnFrom  readings that the centre was drawn from, whose own doubt widens the limits; left out, known
 * @throws BadInput  values, weight, centre or sd out of range
 * @source  NIST/SEMATECH e-Handbook, section 6.3.2.4 (figures read)
 */
export function weightedChart(
  values: readonly number[],
  weight: number,
  centre: number,
  sd: number,
  drawnFrom = Number.POSITIVE_INFINITY,
): WeightedChart {
  requireSeries(values, 1);
  if (!(weight > 0 && weight <= 1))
    throw new BadInput("weight", quote(weight), "above 0, up to 1", "0.2 to 0.3 is usual");
  if (!Number.isFinite(centre)) throw new BadInput("centre", quote(centre), "a finite number", "give the good mean");
  if (!(sd > 0)) throw new BadInput("sd", quote(sd), "above 0", "give the spread of single values while all was well");
  const reach = 3 * sd * Math.sqrt(weight / (2 - weight) + 1 / drawnFrom);
  const [low, high] = [centre - reach, centre + reach];
  let z = centre;
  const weighted = values.map((x) => {
    z = weight * x + (1 - weight) * z;
    return z;
  });
  return {
    centre,
    low,
    high,
    sd,
    weighted,
    signals: weighted.flatMap((value, index): Signal[] =>
      value < low || value > high ? [{ index, rule: "outside" }] : [],
    ),
  };
}

/** A chart of how far the readings of a group lie apart. */
interface SpreadChart {
  readonly centre: number;
  readonly low: number;
  readonly high: number;
  readonly signals: readonly Signal[];
}

export interface GroupChart extends Chart {
  /** Means of the groups, one a group; `centre`, `low`, `high` are theirs. */
  readonly means: readonly number[];
  readonly ranges: readonly number[];
  readonly range: SpreadChart;
  /** Standard deviations of the groups, and the spread of a single reading that they come to. */
  readonly deviation: SpreadChart & { readonly sd: number };
}

/** Mean and spread of the range of n standard normal values, n = 2 … 10. */
const d2 = [1.128379, 1.692569, 2.058751, 2.325929, 2.534413, 2.704357, 2.847201, 2.970026, 3.077505];
/** Mean of the standard deviation of n standard normal values, n = 2 … 10: √(2/(n − 1))·Γ(n/2)/Γ((n − 1)/2). */
const c4 = [0.797885, 0.886227, 0.921318, 0.939986, 0.951533, 0.959369, 0.96503, 0.969311, 0.972659];
const d3 = [0.852502, 0.888368, 0.879808, 0.864082, 0.84804, 0.833205, 0.819831, 0.807834, 0.797051];

/**
 * Chart of small groups of readings: their means and their ranges.
 *
 *     sd = mean range/d₂(n),   means: mean ± 3·sd/√n,   ranges: max(0, mean range·(1 − 3·d₃/d₂)) … (1 + 3·d₃/d₂)
 *     deviations: mean s·(1 ± 3·√(1 − c₄²)/c₄), not under 0;   sd = mean s/c₄
 *
 * @param baseline  groups, from the first, that the limits are drawn from; all if left out
 * @throws BadInput  groups of unequal size, or of fewer than 2 or more than 10
 * @source  factors by numerical integration, equal to the printed table (reference/statistics.json); Montgomery's
 *   piston rings as printed in the documentation of a general statistics package (figures read)
 */
export function groupChart(groups: readonly (readonly number[])[], baseline = groups.length): GroupChart {
  const n = groups[0]?.length ?? 0;
  if (!(n >= 2 && n <= 10))
    throw new BadInput("groups[0]", `${n} readings`, "2 to 10 in each group", "group otherwise");
  groups.forEach((group, i) => {
    if (group.length !== n) {
      throw new BadInput(
        `groups[${i}]`,
        `${group.length} readings`,
        `${n}, as in the first`,
        "complete it or take it out",
      );
    }
    const bad = group.findIndex((value) => !Number.isFinite(value));
    if (bad >= 0) throw new BadInput(`groups[${i}][${bad}]`, quote(group[bad]), "a finite number", "read again");
  });
  requireBaseline(baseline, groups.length);
  const means = groups.map(mean);
  const ranges = groups.map((group) => Math.max(...group) - Math.min(...group));
  const centre = mean(means.slice(0, baseline));
  const middle = mean(ranges.slice(0, baseline));
  const sd = middle / d2[n - 2]!;
  const spread = (3 * d3[n - 2]!) / d2[n - 2]!;
  const reach = (3 * sd) / Math.sqrt(n);
  const [low, high] = [centre - reach, centre + reach];
  const rangeLimits = { centre: middle, low: Math.max(0, middle * (1 - spread)), high: middle * (1 + spread) };
  const outside = (values: readonly number[], from: number, to: number) =>
    values.flatMap((value, index): Signal[] => (value < from || value > to ? [{ index, rule: "outside" }] : []));
  const centre_sd = sd / Math.sqrt(n * baseline);
  const limit_sd = Math.hypot(centre_sd, (reach * d3[n - 2]!) / (d2[n - 2]! * Math.sqrt(baseline)));
  return {
    centre,
    low,
    high,
    sd,
    signals: outside(means, low, high),
    doubt: { centre: 1.96 * centre_sd, low: 1.96 * limit_sd, high: 1.96 * limit_sd },
    means,
    ranges,
    range: { ...rangeLimits, signals: outside(ranges, rangeLimits.low, rangeLimits.high) },
    deviation: deviationChart(groups, baseline, c4[n - 2]!, outside),
  };
}

function deviationChart(
  groups: readonly (readonly number[])[],
  baseline: number,
  c: number,
  outside: (values: readonly number[], from: number, to: number) => Signal[],
): GroupChart["deviation"] {
  const deviations = groups.map((group) => summary(group).sd);
  const centre = mean(deviations.slice(0, baseline));
  const reach = (3 * Math.sqrt(1 - c ** 2)) / c;
  const [low, high] = [Math.max(0, centre * (1 - reach)), centre * (1 + reach)];
  return { centre, low, high, sd: centre / c, signals: outside(deviations, low, high) };
}

/**
 * Chart of counts, such as faults a unit.
 *
 *     limits = mean ± 3·√mean, not under 0
 *
 * @throws BadInput  a count that is not a whole number of 0 or more
 * @source  NIST/SEMATECH e-Handbook, section 6.3.3.1 (figures read)
 */
export function countChart(counts: readonly number[], baseline = counts.length): Chart {
  requireSeries(counts);
  counts.forEach((count, i) => {
    if (!(Number.isInteger(count) && count >= 0)) {
      throw new BadInput(`values[${i}]`, quote(count), "a whole number, 0 or more", "count again");
    }
  });
  requireBaseline(baseline, counts.length);
  const centre = mean(counts.slice(0, baseline));
  const sd = Math.sqrt(centre);
  const [low, high] = [Math.max(0, centre - 3 * sd), centre + 3 * sd];
  const centre_sd = sd / Math.sqrt(baseline);
  const limit_sd = centre_sd * (1 + 1.5 / Math.max(1, sd));
  return {
    centre,
    low,
    high,
    sd,
    signals: counts.flatMap((count, index): Signal[] =>
      count < low || count > high ? [{ index, rule: "outside" }] : [],
    ),
    doubt: { centre: 1.96 * centre_sd, low: 1.96 * limit_sd, high: 1.96 * limit_sd },
  };
}

function mean(values: readonly number[]): number {
  const first = values[0]!;
  return first + values.reduce((sum, value) => sum + (value - first), 0) / values.length;
}
