import type { Pool } from "./pool.ts";

/** So many sets of each size from so many valves, as a packing of sets taken in parts. */
export interface Packing {
  readonly valves: number;
  /** Sets to make, by size. */
  readonly made: ReadonlyMap<number, number>;
  /** True where every valve is used. */
  readonly isTight: boolean;
}

/** Three valves of which no two sets can hold two each: sets that hold two or more of them may be taken once in all. */
export type Triple = readonly [number, number, number];

/** Prices that prove a bound. */
export interface Prices {
  /** By valve, 0 for none at the end; at most 0 where valves may be left over. */
  readonly valve: Float64Array;
  readonly size: ReadonlyMap<number, number>;
  readonly triples: readonly Triple[];
  readonly triple: readonly number[];
}

/** Sets of the pool that hold two or three of each triple, as lists one after the other. */
export function holders(
  { widest, members, count }: Pick<Pool, "widest" | "count"> & { readonly members: ArrayLike<number> },
  valves: number,
  triples: readonly Triple[],
): readonly Int32Array[] {
  if (triples.length === 0) return [];
  const start = new Int32Array(valves + 2);
  for (let i = 0; i < count * widest; i++) start[members[i]! + 1]!++;
  for (let v = 0; v <= valves; v++) start[v + 1]! += start[v]!;
  const fill = start.slice();
  const sets = new Int32Array(count * widest);
  for (let i = 0; i < count * widest; i++) sets[fill[members[i]!]!++] = (i / widest) | 0;
  const hits = new Uint8Array(count);
  return triples.map((triple) => {
    const found: number[] = [];
    for (const v of triple) {
      for (let i = start[v]!; i < start[v + 1]!; i++) if (++hits[sets[i]!]! === 2) found.push(sets[i]!);
    }
    for (const v of triple) for (let i = start[v]!; i < start[v + 1]!; i++) hits[sets[i]!] = 0;
    return Int32Array.from(found);
  });
}

/** What each set of the pool costs above its worth, triples counted: no less than 0 where the prices are the best. */
export function reducedCosts(pool: Pool, valves: number, prices: Prices): Float64Array {
  const { widest, members } = pool;
  const reduced = new Float64Array(pool.count);
  for (let j = 0; j < pool.count; j++) {
    reduced[j] = pool.cost[j]! - prices.size.get(pool.size[j]!)!;
    for (let k = j * widest; k < (j + 1) * widest; k++) reduced[j]! -= prices.valve[members[k]!]!;
  }
  const priced = prices.triples.flatMap((triple, t) =>
    prices.triple[t]! > 0 ? [{ triple, own: prices.triple[t]! }] : [],
  );
  holders(
    pool,
    valves,
    priced.map(({ triple }) => triple),
  ).forEach((sets, t) => {
    for (const j of sets) reduced[j]! += priced[t]!.own;
  });
  return reduced;
}

/**
 * A bound that holds for all sets, by prices found on some.
 *
 *     bound = Σ valve + Σ made·size − Σ triple + Σ over the first members of least reduced cost min(0, that cost)
 *
 * over as many first members as sets are made, since a valve is the first member of one set at most.
 *
 * @param pool     for each first member the sets of least cost less worth among all sets that begin with it, and in
 *                 `leftOut` what no other can be under
 * @param reduced  of the pool's sets
 */
export function boundOn(pool: Pool, reduced: Float64Array, packing: Packing, prices: Prices): number {
  const n = packing.valves;
  let bound = 0;
  for (let v = 0; v < n; v++) bound += prices.valve[v]!;
  for (const [size, made] of packing.made) bound += made * prices.size.get(size)!;
  for (const own of prices.triple) bound -= own;
  const least = Float64Array.from({ length: n }, (_, v) => {
    let own = Math.min(0, pool.leftOut[v]!);
    for (let j = pool.start[v]!; j < pool.start[v + 1]!; j++) own = Math.min(own, reduced[j]!);
    return own;
  }).sort();
  const made = [...packing.made.values()].reduce((a, b) => a + b, 0);
  for (const own of least.subarray(0, made)) bound += own;
  return bound;
}
