import { holders, type Packing, type Prices } from "./ascent.ts";
import type { Pool } from "./pool.ts";

/**
 * A bound that holds for all sets, by prices found on some.
 *
 * @param pool  for each first member the sets of least cost less worth among all sets that begin with it, and in
 *              `leftOut` what no other can be under
 */
export function boundOn(pool: Pool, packing: Packing, prices: Prices): number {
  const n = packing.valves;
  const { widest, members, start, cost, size, leftOut } = pool;
  const penalty = new Float64Array(pool.count);
  holders(pool, n, prices.triples).forEach((sets, t) => {
    for (const j of sets) penalty[j]! += prices.triple[t]!;
  });
  let bound = 0;
  for (let v = 0; v < n; v++) bound += prices.valve[v]!;
  for (const [s, made] of packing.made) bound += made * prices.size.get(s)!;
  for (const own of prices.triple) bound -= own;
  for (let v = 0; v < n; v++) {
    let least = Math.min(0, leftOut[v]!);
    for (let j = start[v]!; j < start[v + 1]!; j++) {
      let reduced = cost[j]! - prices.size.get(size[j]!)! + penalty[j]!;
      for (let k = j * widest; k < (j + 1) * widest; k++) reduced -= prices.valve[members[k]!]!;
      least = Math.min(least, reduced);
    }
    bound += least;
  }
  return bound;
}
