import type { Boxes } from "./box.ts";
import type { PartsProgram } from "./partsProgram.ts";
import { type Packing, reducedCosts } from "./prices.ts";
import { isLate, type Order } from "./question.ts";
import { worthy } from "./worthy.ts";

const ROUNDS = 400;
/** Sets taken at least so far are taken whole. */
const NEARLY_WHOLE = 0.9;
/** Of the sets still to be made at least this share is taken whole in a round. */
const SHARE = 0.3;
/** Rounds in which sets only join before some are taken. */
const SOLVED = 2;
/** Sets that could lower the cost of what is left: of each first member weighed, and joining. */
const WEIGHED = 12;
const JOINING = 3;
/** What a set not made costs, in usual costs: so dear that the last valves, far apart, are seldom left to be swept up. */
const MISSING = 12;

/**
 * A grouping by the relaxed packing: the sets that it takes nearly whole are taken whole, the rest is solved again with
 * the sets joining that have become worth their cost, and so on until all sets are whole. Proves nothing, and spoils
 * the program for other uses.
 *
 * @param usual  cost of a usual set
 * @returns undefined where time ended or the last valves make no sets within the limit
 */
export function dived(
  program: PartsProgram,
  space: Boxes,
  packing: Packing,
  usual: number,
  order: Order,
): number[][] | undefined {
  const n = packing.valves;
  const groups: number[][] = [];
  const isTaken = new Uint8Array(n);
  const left = new Map(packing.made);
  const wanted = [...left.values()].reduce((a, b) => a + b, 0);
  let solved = 0;
  program.allowMissing(MISSING * usual);
  for (let round = 0; round < ROUNDS && groups.length < wanted; round++) {
    const at = isLate(order) ? undefined : program.solve(order);
    if (at === undefined) return undefined;
    const valve = at.prices.valve.map((price, v) => (v < n && isTaken[v] ? -1e3 * usual : price));
    const prices = { ...at.prices, valve };
    const pool = worthy(space, prices, order.limit, WEIGHED, () => -1e-6 * usual, 2e7, order.hasTime);
    if (pool === undefined) return undefined;
    const reduced = reducedCosts(pool, n, prices);
    const joining: number[] = [];
    for (let v = 0; v < n; v++) {
      const own: number[] = [];
      for (let j = pool.start[v]!; j < pool.start[v + 1]!; j++) if (reduced[j]! < -1e-6 * usual) own.push(j);
      joining.push(...own.sort((a, b) => reduced[a]! - reduced[b]!).slice(0, JOINING));
    }
    const added = program.add(pool, joining);
    if (added > 0 && ++solved < SOLVED) continue;
    solved = 0;

    const { sets, parts, numbers } = at;
    const fullest = [...parts.keys()].sort((a, b) => parts[b]! - parts[a]!);
    const enough = groups.length + Math.max(1, Math.ceil(SHARE * (wanted - groups.length)));
    const before = groups.length;
    for (const j of fullest) {
      if (parts[j]! < NEARLY_WHOLE && groups.length >= enough) break;
      const own = [...sets.members.subarray(j * sets.widest, j * sets.widest + sets.size[j]!)];
      if (left.get(own.length) === 0 || own.some((v) => isTaken[v])) continue;
      for (const v of own) isTaken[v] = 1;
      left.set(own.length, left.get(own.length)! - 1);
      groups.push(own);
      program.fix(numbers[j]!);
    }
    if (groups.length === before) break;
  }
  // What is left over is few; the order of numbers follows the widest feature.
  const rest = [...isTaken.keys()].filter((v) => !isTaken[v]);
  for (const [size, count] of left) for (let i = 0; i < count; i++) groups.push(rest.splice(0, size));
  return groups.every((group) => group.length < 2 || costOf(space, group) <= order.limit) ? groups : undefined;
}

function costOf({ features, at }: Boxes, set: readonly number[]): number {
  let sum = 0;
  for (let f = 0; f < features; f++) {
    const along = set.map((v) => at[v * features + f]!);
    sum += Math.max(...along) - Math.min(...along);
  }
  return sum;
}
