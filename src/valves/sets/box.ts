import type { Costing } from "./question.ts";

/**
 * Valves renumbered along the feature in which they lie widest, so that every set has a first member. A set costs the
 * sum of the sides of the box it spans.
 */
export interface Boxes {
  readonly count: number;
  readonly features: number;
  /** Place of valve v in feature f at v·features + f. */
  readonly at: Float64Array;
  /** The valve's number before. */
  readonly own: Int32Array;
  /** For each valve those after it, the nearest first, and how far they lie. */
  readonly after: readonly Uint16Array[];
  readonly far: readonly Float64Array[];
}

/** @returns undefined where cost is no box, or there are more than 2,000 valves */
export function boxes(costing: Costing): Boxes | undefined {
  if (costing.box === undefined || costing.count > 2000) return undefined;
  const { features, at } = costing.box;
  const n = costing.count;
  const width = (f: number): number => {
    let low = Number.POSITIVE_INFINITY;
    let high = Number.NEGATIVE_INFINITY;
    for (let v = 0; v < n; v++) {
      low = Math.min(low, at[v * features + f]!);
      high = Math.max(high, at[v * features + f]!);
    }
    return high - low;
  };
  const widest = [...Array(features).keys()].reduce((a, f) => (width(f) > width(a) ? f : a), 0);
  const own = Int32Array.from({ length: n }, (_, v) => v).sort(
    (a, b) => at[a * features + widest]! - at[b * features + widest]! || a - b,
  );
  const places = new Float64Array(n * features);
  own.forEach((v, i) => {
    for (let f = 0; f < features; f++) places[i * features + f] = at[v * features + f]!;
  });
  const after: Uint16Array[] = [];
  const far: Float64Array[] = [];
  // Sorted as whole numbers, distance before number, which is far quicker than by comparing.
  let whole = 0;
  for (let f = 0; f < features; f++) whole += width(f);
  const steps = whole > 0 ? 2 ** 40 / whole : 0;
  const between = (a: number, b: number): number => {
    let sum = 0;
    for (let f = 0; f < features; f++) sum += Math.abs(places[a * features + f]! - places[b * features + f]!);
    return sum;
  };
  for (let v = 0; v < n; v++) {
    const keys = new Float64Array(n - v - 1);
    for (let a = v + 1; a < n; a++) keys[a - v - 1] = Math.floor(between(v, a) * steps) * 2048 + a;
    keys.sort();
    const sorted = Uint16Array.from(keys, (key) => key % 2048);
    after.push(sorted);
    far.push(Float64Array.from(sorted, (a) => between(v, a)));
  }
  return { count: n, features, at: places, own, after, far };
}
