import type { Costing } from "./question.ts";

/** No grouping into so many sets of one size costs less: each valve's share of the cheapest set it could be in. */
export function nearestBound(costing: Costing, size: number, sets: number): number {
  if (size < 2) return 0;
  const nearest = size - 1;
  const shares = new Float64Array(costing.count);
  const row = new Float64Array(Math.max(costing.count - 1, 0));
  for (let v = 0; v < costing.count; v++) {
    let least = Number.POSITIVE_INFINITY;
    for (let u = 0, k = 0; u < costing.count; u++) {
      if (u === v) continue;
      row[k] = costing.least(v, u);
      least = Math.min(least, row[k++]!);
    }
    shares[v] = (nearest === 1 ? least : row.sort()[nearest - 1]!) / size;
  }
  return shares
    .sort()
    .slice(0, size * sets)
    .reduce((sum, share) => sum + share, 0);
}
