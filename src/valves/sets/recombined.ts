import { annealed } from "./annealed.ts";
import type { Boxes } from "./box.ts";
import { merged, numbersIn, type Pool, poolOf } from "./pool.ts";
import { type Packing, type Prices, reducedCosts } from "./prices.ts";
import type { Proof } from "./provenPrices.ts";
import { isLate, type Order } from "./question.ts";
import { centreOf, regrouped } from "./regions.ts";
import { wholeSets } from "./wholeSets.ts";

const GENERATIONS = 8;
/** Groupings drawn in a generation, and exchanges tried for each valve. */
const DRAWN = 3;
const MOVES_A_VALVE = 2500;
const MOST_MOVES = 5e6;
/** How hot each begins, in mean costs of a set. */
const HOT = [0.15, 0.1, 0.12] as const;
const LOOKS = 2e6;
/** Sets of least reduced cost that join those of the groupings, for each valve. */
const JOINING = 2;
const SEARCH_s = 3;
/** Valves that branch and bound is given at once, and the share of a window that the next one need not begin in. */
const TOGETHER = 500;
const DONE = 0.6;
/** Nearer to the bound than this share it is not worth going on. */
const NEAR_ENOUGH = 1e-3;

/**
 * Betters a grouping by putting together the best sets of several: groupings are drawn by annealing and bettered
 * region by region, and branch and bound chooses among all their sets and those of least cost beside their worth.
 *
 * @param pool  sets worth looking at
 */
export async function recombined(
  space: Boxes,
  pool: Pool,
  { prices, bound }: Proof,
  packing: Packing,
  start: readonly (readonly number[])[],
  order: Order,
): Promise<readonly (readonly number[])[]> {
  const n = packing.valves;
  const moves = Math.min(MOST_MOVES, MOVES_A_VALVE * n);
  const reduced = reducedCosts(pool, n, prices);
  const joining = Uint32Array.from(reduced.keys())
    .sort((a, b) => reduced[a]! - reduced[b]!)
    .subarray(0, JOINING * n);
  const costIn = (sets: Pool, numbers: readonly number[]) => numbers.reduce((sum, j) => sum + sets.cost[j]!, 0);
  let shelf = poolOf(space, pool.widest, [
    ...start,
    ...[...joining].map((j) => [...pool.members.subarray(j * pool.widest, j * pool.widest + pool.size[j]!)]),
  ]);
  let best = start;
  let cost = costIn(shelf, best.map(numbersIn(shelf)));
  for (let generation = 0, stale = 0; generation < GENERATIONS && stale < 2 && !isLate(order); generation++) {
    const before = cost;
    const drawn: (readonly number[])[] = [];
    for (let i = 0; i < DRAWN && !isLate(order); i++) {
      const seed = generation * DRAWN + i + 1;
      const own = annealed(space, best, order, moves, HOT[i % HOT.length]!, seed);
      drawn.push(...regrouped(space, pool, prices, own, { left: LOOKS }, order.hasTime));
    }
    shelf = merged(shelf, poolOf(space, pool.widest, drawn), prices, Number.POSITIVE_INFINITY);
    const number = numbersIn(shelf);
    for (let i = 0; i < drawn.length; i += best.length) {
      const own = drawn.slice(i, i + best.length);
      if (costIn(shelf, own.map(number)) < costIn(shelf, best.map(number))) best = own;
    }
    best = await windowByWindow(space, shelf, prices, best, order);
    cost = costIn(shelf, best.map(number));
    if (cost <= bound * (1 + NEAR_ENOUGH)) break;
    stale = cost < before * (1 - 1e-6) ? 0 : stale + 1;
  }
  return best;
}

/** The cheapest packing of the shelf's sets, so many valves at a time; what lies outside a window stays as it is. */
async function windowByWindow(
  space: Boxes,
  shelf: Pool,
  prices: Prices,
  groups: readonly (readonly number[])[],
  order: Order,
): Promise<readonly (readonly number[])[]> {
  const { widest, members } = shelf;
  const n = space.count;
  const sets = [...groups];
  const number = numbersIn(shelf);
  const centres = sets.map((set) => centreOf(space, set));
  const done = new Set<number>();
  for (let seed = 0; seed < sets.length && !isLate(order); seed++) {
    if (done.has(seed)) continue;
    const far = (centre: Float64Array) => centre.reduce((sum, x, f) => sum + Math.abs(x - centres[seed]![f]!), 0);
    const near = centres.map(far);
    const nearestFirst = [...near.keys()].sort((a, b) => near[a]! - near[b]!);
    const window: number[] = [];
    const inside = new Uint8Array(n + 1);
    let count = 0;
    for (const g of nearestFirst) {
      if (count + sets[g]!.length > TOGETHER) break;
      window.push(g);
      count += sets[g]!.length;
      for (const v of sets[g]!) inside[v] = 1;
    }
    for (const g of window.slice(0, Math.ceil(window.length === sets.length ? window.length : DONE * window.length))) {
      done.add(g);
    }
    const used = new Uint8Array(n);
    for (const set of sets) for (const v of set) used[v] = 1;
    const reach = Math.max(...window.map((g) => near[g]!));
    let spare = 0;
    for (let v = 0; v < n; v++) {
      if (used[v] || (window.length < sets.length && far(centreOf(space, [v])) > reach)) continue;
      inside[v] = 1;
      spare++;
    }
    inside[n] = 1;
    const able: number[] = [];
    for (let j = 0; j < shelf.count; j++) {
      let k = j * widest;
      while (k < (j + 1) * widest && inside[members[k]!]) k++;
      if (k === (j + 1) * widest) able.push(j);
    }
    const known = window.map((g) => number(sets[g]!));
    const valves = [...Array(n).keys()].filter((v) => inside[v]);
    const found = await wholeSets(shelf, able, known, valves, spare > 0, prices, SEARCH_s, order);
    if (found.groups === undefined) continue;
    const fresh = [...found.groups].sort((a, b) => a.length - b.length);
    window
      .sort((a, b) => sets[a]!.length - sets[b]!.length)
      .forEach((g, i) => {
        sets[g] = fresh[i]!;
        centres[g] = centreOf(space, fresh[i]!);
      });
  }
  return sets;
}
