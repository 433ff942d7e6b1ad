import { BadInput, quote } from "../maths/badInput.ts";
import { tQuantile } from "../maths/statistics/index.ts";

export interface Signal {
  /** Of the value in the series, from 0. */
  readonly index: number;
  readonly rule: "outside" | "run";
}

export interface Chart {
  readonly centre: number;
  readonly low: number;
  readonly high: number;
  /** Spread from one value to the next. */
  readonly sd: number;
  readonly signals: readonly Signal[];
  /** 95 % half-widths, were the series in control. */
  readonly doubt: { readonly centre: number; readonly low: number; readonly high: number };
}

/** Mean range of two normal values, in standard deviations. */
const d2 = 1.128379;
/** Values in a row on one side of the centre that chance brings in one of 256 places only. */
const runLength = 9;

/**
 * Control chart of single values.
 *
 *     sd = mean of |xᵢ − xᵢ₋₁| / 1.128379,   limits = mean ± 3·sd
 *
 * @param baseline  readings, from the first, that the limits are drawn from; all if left out
 * @returns centre and limits in the unit of the values; every value outside the limits, and every value that
 *   continues nine or more in a row on one side of the centre, is a signal
 * @throws BadInput  fewer than two values, or one that is not finite
 * @remarks In control, about one value in 370 lies outside by chance, about one in 250 ends a run of nine. Spread is
 *   taken from neighbours, so values that follow one another slowly (a drift) make limits too narrow on purpose.
 * @source  NIST/SEMATECH e-Handbook of Statistical Methods, section 6.3.2.2 (figures read); run rule common practice
 */
export function individualsChart(values: readonly number[], baseline = values.length): Chart {
  requireSeries(values);
  requireBaseline(baseline, values.length);
  const n = baseline;
  const good = values.slice(0, baseline);
  const centre = mean(good);
  const sd = mean(good.slice(1).map((value, i) => Math.abs(value - good[i]!))) / d2;
  const grain = 4 * Number.EPSILON * Math.max(...values.map(Math.abs));
  const [low, high] = [centre - 3 * sd, centre + 3 * sd];
  const centreSd = sd / Math.sqrt(n);
  const limitSd = Math.hypot(centreSd, 3 * sd * spreadOfSd(n));
  // The spread is itself known from few: as from so many degrees of freedom as spread alike.
  const factor = tQuantile(0.975, 1 / (2 * spreadOfSd(n) ** 2));
  return {
    centre,
    low,
    high,
    sd,
    signals: values.flatMap((value, index): Signal[] => [
      ...(value < low - grain || value > high + grain ? [{ index, rule: "outside" } as const] : []),
      ...(endsRun(values, index, centre, grain) ? [{ index, rule: "run" } as const] : []),
    ]),
    doubt: { centre: factor * centreSd, low: factor * limitSd, high: factor * limitSd },
  };
}

/**
 * Relative standard deviation of the sd taken from n − 1 moving ranges of independent normal values.
 *
 *     Var(|Δ|) = 2 − 4/π,   Cov(|Δᵢ|, |Δᵢ₊₁|) = (4/π)(√3/2 + π/12) − 4/π
 */
function spreadOfSd(n: number): number {
  const ranges = n - 1;
  const variance = 2 - 4 / Math.PI;
  const neighbours = (4 / Math.PI) * (Math.sqrt(3) / 2 + Math.PI / 12 - 1);
  return Math.sqrt((variance + (2 * neighbours * (ranges - 1)) / ranges) / ranges) / d2;
}

function endsRun(values: readonly number[], index: number, centre: number, grain: number): boolean {
  if (index < runLength - 1) return false;
  const row = values.slice(index - runLength + 1, index + 1);
  return row.every((value) => value > centre + grain) || row.every((value) => value < centre - grain);
}

function mean(values: readonly number[]): number {
  const first = values[0]!;
  return first + values.reduce((sum, value) => sum + (value - first), 0) / values.length;
}

export function requireBaseline(baseline: number, n: number): void {
  if (Number.isInteger(baseline) && baseline >= 2 && baseline <= n) return;
  throw new BadInput(
    "baseline",
    quote(baseline),
    `a whole number, 2 to ${n}`,
    "say how many, from the first, were good",
  );
}

export function requireSeries(values: readonly number[], least = 2): void {
  if (values.length < least) {
    throw new BadInput(
      "values",
      `${values.length} values`,
      `at least ${least}`,
      "add readings; 20 or more make firm limits",
    );
  }
  values.forEach((value, i) => {
    if (Number.isFinite(value)) return;
    throw new BadInput(`values[${i}]`, quote(value), "a finite number", "take it out or read again");
  });
}
