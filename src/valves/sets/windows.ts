import type { Boxes } from "./box.ts";
import { merged, numbersIn, type Pool, poolOf } from "./pool.ts";
import { type Packing, reducedCosts } from "./prices.ts";
import type { Proof } from "./provenPrices.ts";
import { isLate, type Order } from "./question.ts";
import { centreOf } from "./regions.ts";
import { wholeSets } from "./wholeSets.ts";

/** Valves of one window, and sets weighed in it for each of them, those of least reduced cost first. */
export interface Turn {
  readonly valves: number;
  readonly weighed: number;
  /** Time for each window, which `hasTime` may end earlier. */
  readonly seconds: number;
}
/** The sets of a window nearest to its middle need not be the middle of another one. */
const DONE = 0.25;
/** Nearer to the bound than this share it is not worth going on. */
const NEAR_ENOUGH = 1e-3;

/**
 * Betters a grouping window by window: the sets that lie nearest to one are undone, and branch and bound puts together
 * the cheapest sets of the pool that can be made of their valves. The widest slack comes first; a window is looked at
 * again only after sets in it have changed; where none helps, the next turn follows.
 *
 * Sets that cost more above their worth than all sets of a window together do now cannot help it and are left out.
 *
 * @param pool   sets worth looking at
 * @param turns  few sets over wide windows first, then more in smaller ones
 */
export async function windowed(
  space: Boxes,
  pool: Pool,
  { prices, bound }: Proof,
  packing: Packing,
  start: readonly (readonly number[])[],
  turns: readonly Turn[],
  order: Order,
): Promise<readonly (readonly number[])[]> {
  const n = packing.valves;
  const shelf = merged(pool, poolOf(space, pool.widest, start), prices, Number.POSITIVE_INFINITY);
  const { widest, members, size, cost } = shelf;
  const reduced = reducedCosts(shelf, n, prices);
  const cheapestFirst = Uint32Array.from(reduced.keys()).sort((a, b) => reduced[a]! - reduced[b]!);
  const number = numbersIn(shelf);
  const own = (j: number) => members.subarray(j * widest, j * widest + size[j]!);
  const sets = start.map(number);
  const centres = sets.map((j) => centreOf(space, [...own(j)]));
  const used = new Uint8Array(n);
  for (const j of sets) for (const v of own(j)) used[v] = 1;
  const total = () => sets.reduce((sum, j) => sum + cost[j]!, 0);
  const inside = new Uint8Array(n + 1);

  for (const { valves: width, weighed, seconds } of turns) {
    const done = new Uint8Array(sets.length);
    for (;;) {
      if (isLate(order) || total() <= bound * (1 + NEAR_ENOUGH)) return sets.map((j) => [...own(j)]);
      let middle = -1;
      for (let g = 0; g < sets.length; g++) {
        if (!done[g] && (middle < 0 || reduced[sets[g]!]! > reduced[sets[middle]!]!)) middle = g;
      }
      if (middle < 0) break;
      const away = (centre: Float64Array) => centre.reduce((sum, x, f) => sum + Math.abs(x - centres[middle]![f]!), 0);
      const far = centres.map(away);
      const nearestFirst = [...far.keys()].sort((a, b) => far[a]! - far[b]!);
      inside.fill(0);
      inside[n] = 1;
      const window: number[] = [];
      let count = 0;
      for (const g of nearestFirst) {
        if (count + size[sets[g]!]! > width && window.length > 0) break;
        window.push(g);
        count += size[sets[g]!]!;
        for (const v of own(sets[g]!)) inside[v] = 1;
      }
      done[middle] = 1;
      for (const g of window.slice(0, window.length === sets.length ? window.length : DONE * window.length)) {
        done[g] = 1;
      }
      const known = window.map((g) => sets[g]!);
      let room = known.reduce((sum, j) => sum + Math.max(0, reduced[j]!), 0);
      let spare = 0;
      const reach = far[window.at(-1)!]!;
      for (let v = 0; v < n; v++) {
        if (used[v] || (window.length < sets.length && away(centreOf(space, [v])) > reach)) continue;
        inside[v] = 1;
        spare++;
        room -= Math.min(0, prices.valve[v]!);
      }
      const able = new Set(known);
      for (const j of cheapestFirst) {
        if (reduced[j]! > room || able.size >= known.length + weighed * count) break;
        let k = j * widest;
        while (k < (j + 1) * widest && inside[members[k]!]) k++;
        if (k === (j + 1) * widest) able.add(j);
      }
      if (able.size === known.length) continue;
      const valves = [...Array(n).keys()].filter((v) => inside[v]);
      const found = await wholeSets(shelf, [...able], known, valves, spare > 0, prices, seconds, order);
      if (found.groups === undefined) continue;
      const fresh = found.groups.map(number).sort((a, b) => size[a]! - size[b]!);
      const before = new Set(known);
      for (const j of known) for (const v of own(j)) used[v] = 0;
      window
        .sort((a, b) => size[sets[a]!]! - size[sets[b]!]!)
        .forEach((g, i) => {
          sets[g] = fresh[i]!;
          for (const v of own(fresh[i]!)) used[v] = 1;
          if (before.has(fresh[i]!)) return;
          centres[g] = centreOf(space, [...own(fresh[i]!)]);
          done[g] = 0;
        });
    }
  }
  return sets.map((j) => [...own(j)]);
}
