import { selectRank } from "../../maths/statistics/select.ts";

/** Between `low_V` and `high_V` lie 99 % of good units. */
export interface Window {
  readonly low_V: number;
  readonly median_V: number;
  readonly high_V: number;
  /** What another set of draws would move each by, 95 %. */
  readonly doubt: { readonly low_V: number; readonly median_V: number; readonly high_V: number };
}

const outside = 0.005;
/** Fewer draws than this hold no half per cent of their own: see `windowOf`. */
export const fewest = 400;

/**
 * Window of a point from drawn voltages: the quantiles at 0.5, 50 and 99.5 %.
 *
 *     rank = p·(n + 1), a value between two ranks in proportion;  doubt from the ranks p·n ± 1.96·√(n·p·(1 − p))
 *
 * So chosen, a fresh unit lies between the outer two with 99 % chance, whatever the distribution. From fewer draws
 * than 400 no such ranks can be had: each side then stands 2.576 of its own spread from the median.
 *
 * @param drawn  is put in another order
 * @source order statistics as intervals for quantiles: Wilks, Ann. Math. Statist. 12, 1941 (remembered)
 */
export function windowOf(drawn: Float64Array): Window {
  const n = drawn.length;
  if (n >= fewest) {
    const low = doubtful(drawn, outside, 0);
    const median = doubtful(drawn, 0.5, low.to);
    return named(low.of, median.of, doubtful(drawn, 1 - outside, median.to).of);
  }
  drawn.sort();
  const median = doubtful(drawn, 0.5, 0).of;
  const side = (sign: 1 | -1): readonly [number, number] => {
    let sum = 0;
    for (const value of drawn) if (sign * (value - median[0]) > 0) sum += 2 * (value - median[0]) ** 2;
    const sd = Math.sqrt(sum / Math.max(1, n - 1));
    return [median[0] + sign * per99 * sd, 1.96 * per99 * sd * Math.sqrt(1 / Math.max(1, n - 1))];
  };
  return named(side(-1), median, side(1));
}

const per99 = 2.5758293035489;

type Doubtful = readonly [value: number, doubt: number];

function named(low: Doubtful, median: Doubtful, high: Doubtful): Window {
  return {
    low_V: low[0],
    median_V: median[0],
    high_V: high[0],
    doubt: { low_V: low[1], median_V: median[1], high_V: high[1] },
  };
}

/** A quantile with its doubt, and how far the drawn values are in order then; `from` on they are not yet. */
function doubtful(drawn: Float64Array, p: number, from: number): { readonly of: Doubtful; readonly to: number } {
  const n = drawn.length;
  const reach = 1.96 * Math.sqrt(n * p * (1 - p));
  const first = Math.max(from, Math.floor(p * n - reach) - 1);
  const to = Math.min(n, Math.ceil(p * n + reach + 1) + 1);
  // Only the ranks that are asked for are put in order.
  if (first > from) selectRank(drawn, first, from);
  if (to < n) selectRank(drawn, to, first);
  drawn.subarray(first, to).sort();
  const value = ranked(drawn, p * (n + 1));
  return { of: [value, (ranked(drawn, p * n + reach + 1) - ranked(drawn, p * n - reach)) / 2], to };
}

/** Value at a rank counted from 1, between two in proportion, at the ends the last. */
function ranked(drawn: Float64Array, rank: number): number {
  const within = Math.min(Math.max(rank, 1), drawn.length);
  const below = Math.floor(within);
  const value = drawn[below - 1]!;
  return value + (within - below) * ((drawn[below] ?? value) - value);
}
