/** The dates of one order over all runs, in milliseconds from `now`. */
export interface OrderDates {
  readonly p50_ms: number;
  readonly p80_ms: number;
  readonly p95_ms: number;
  readonly p50Doubt_ms: number;
  readonly p80Doubt_ms: number;
  readonly p95Doubt_ms: number;
  /** Share of the runs that have the order done by an instant. */
  readonly shareBy: (instant_ms: number) => number;
}

/** @param done  one instant a run; a single one when all runs are alike. Not modified. */
export function orderDates(done: Float64Array): OrderDates {
  const sorted = done.slice().sort();
  return {
    p50_ms: reachedBy(sorted, 0.5),
    p80_ms: reachedBy(sorted, 0.8),
    p95_ms: reachedBy(sorted, 0.95),
    p50Doubt_ms: doubtOf(sorted, 0.5),
    p80Doubt_ms: doubtOf(sorted, 0.8),
    p95Doubt_ms: doubtOf(sorted, 0.95),
    shareBy: (instant_ms) => sorted.filter((at) => at <= instant_ms).length / sorted.length,
  };
}

/**
 * The earliest instant by which at least a share q of the runs is done: the ⌈n·q⌉-th of n.
 *
 * @param sorted  rising
 */
export function reachedBy(sorted: Float64Array, q: number): number {
  return sorted[rank(sorted.length, q)]!;
}

/** Place of that date among n rising ones, counted from 0. */
export function rank(n: number, q: number): number {
  // 0.95·2000 must not become 1901 by rounding.
  return Math.min(n, Math.max(1, Math.ceil(n * q - 1e-9))) - 1;
}

/**
 * 95 % half-width of a quantile from finitely many runs: the further of the two order statistics
 *
 *     k ± 1.96·√(n·q·(1 − q))
 *
 * from the quantile itself.
 *
 * @source  order statistics of a binomial count, e.g. H. A. David and H. N. Nagaraja, Order Statistics (from memory)
 */
function doubtOf(sorted: Float64Array, q: number): number {
  const n = sorted.length;
  const k = rank(n, q);
  const reach = reachOf(n, q);
  const low = sorted[Math.max(0, k - reach)]!;
  const high = sorted[Math.min(n - 1, k + reach)]!;
  const middle = sorted[k]!;
  return Math.max(middle - low, high - middle);
}

function reachOf(n: number, q: number): number {
  return Math.ceil(1.96 * Math.sqrt(n * q * (1 - q)));
}

/** Whether n runs are enough that some run lies as far above the quantile as its doubt may reach. */
export function boundsFromAbove(n: number, q: number): boolean {
  return rank(n, q) + 1 + reachOf(n, q) <= n;
}
