import { type EverySet, sumsOver } from "./everySet.ts";
import { isLate, type Order } from "./question.ts";
import type { Prices } from "./relaxed.ts";

/** Sets looked at before a search is given up. */
const MOST_LOOKS = 8e7;

export interface Cover {
  readonly sets: readonly number[];
  readonly cost: number;
}

/**
 * The cheapest exactly `wanted` disjoint sets that cost less than `below`, by depth-first search under prices.
 *
 *     cost of a choice = bound + Σ reduced costs of its sets + Σ prices of valves left over + Σ waived sizes
 *
 * Every term but the bound is 0 or more, so a set whose reduced cost exceeds what is left between bound and the best
 * known cost can be in no better choice. What is left is allowed in growing helpings: the first choice found in a
 * helping that was searched to its end is the best.
 *
 * @returns `cover` undefined when there is none; `searched` false when the search was given up
 */
export function cheapestCover(
  every: EverySet,
  order: Order,
  wanted: number,
  prices: Prices,
  costOf: (set: number) => number,
  below: number,
): { readonly cover: Cover | undefined; readonly searched: boolean } {
  const slack = 1e-9 * (1 + Math.abs(prices.bound));
  const most = below - prices.bound + slack;
  const looks = { left: MOST_LOOKS };
  const start = Number.isFinite(below) ? most / 16 : 0.02 * (1 + Math.abs(prices.bound));
  let widest = 0;
  const sum = sumsOver(prices.valve);
  const reduced = new Float64Array(every.mask.length);
  for (const { size, from, to } of every.bySize) {
    const own = prices.worth.get(size)!;
    for (let set = from; set < to; set++) {
      const figure = Math.max(0, costOf(set) + sum(every.mask[set]!) - own);
      reduced[set] = figure;
      if (figure > widest) widest = figure;
    }
  }
  // No choice can spend more than this, whatever it costs.
  const everything =
    widest * wanted +
    prices.valve.reduce((a, b) => a + b, 0) +
    [...order.sizes].reduce((a, [s, n]) => a + n * (prices.waived.get(s) ?? 0), 0) +
    slack;
  for (let helping = Math.max(start, slack); ; helping *= 3) {
    const allowed = Math.min(helping, most, everything);
    const found = search(every, order, wanted, prices, reduced, allowed, looks);
    if (looks.left <= 0) return { cover: found && { sets: found, cost: costSum(found, costOf) }, searched: false };
    if (found) return { cover: { sets: found, cost: costSum(found, costOf) }, searched: true };
    if (allowed >= most || allowed >= everything) return { cover: undefined, searched: true };
  }
}

const costSum = (sets: readonly number[], costOf: (set: number) => number): number =>
  sets.reduce((total, set) => total + costOf(set), 0);

function search(
  every: EverySet,
  order: Order,
  wanted: number,
  prices: Prices,
  reduced: Float64Array,
  allowed: number,
  looks: { left: number },
): number[] | undefined {
  const able = ableSets(every, reduced, allowed);
  const turn = scarceFirst(every, able);
  const sizes = [...order.sizes.keys()];
  const least = Math.min(...sizes);
  const { byFirst } = turn;
  const priceAt = turn.valves.map((v) => prices.valve[v]!);
  const n = every.count;
  const left = new Map(order.sizes);
  const waived = new Map(prices.waived);
  const chosen: number[] = [];
  let best: number[] | undefined;
  let room = allowed;
  let calls = 0;

  const go = (used: number, free: number, spent: number): void => {
    if (chosen.length === wanted) {
      let total = spent;
      for (let v = 0; v < n; v++) if (!((used >> v) & 1)) total += priceAt[v]!;
      for (const [size, count] of left) total += count * (waived.get(size) ?? 0);
      if (total <= room) {
        best = [...chosen];
        room = total - 1e-12;
      }
      return;
    }
    if (free < least * (wanted - chosen.length) || looks.left <= 0) return;
    if (++calls % 4096 === 0 && isLate(order)) {
      looks.left = 0;
      return;
    }
    const v = 31 - Math.clz32(~used & -~used);
    const bucket = byFirst[v]!;
    const length = bucket.set.length;
    for (let i = 0; i < length; i++) {
      const total = spent + bucket.reduced[i]!;
      if (total > room) {
        looks.left -= i;
        break;
      }
      if (i === length - 1) looks.left -= length;
      const mask = bucket.mask[i]!;
      if ((mask & used) !== 0) continue;
      const size = bucket.size[i]!;
      const remaining = left.get(size)!;
      if (remaining === 0) continue;
      left.set(size, remaining - 1);
      chosen.push(bucket.set[i]!);
      go(used | mask, free - size, total);
      chosen.pop();
      left.set(size, remaining);
    }
    if (spent + priceAt[v]! <= room) go(used | (1 << v), free - 1, spent + priceAt[v]!);
  };
  go(0, n, 0);
  return best;
}

interface Able {
  readonly set: Int32Array;
  readonly size: Int8Array;
  readonly reduced: Float64Array;
}

function ableSets(every: EverySet, reduced: Float64Array, allowed: number): Able {
  let count = 0;
  for (const figure of reduced) if (figure <= allowed) count++;
  const able = { set: new Int32Array(count), size: new Int8Array(count), reduced: new Float64Array(count) };
  let at = 0;
  for (const { size, from, to } of every.bySize) {
    for (let set = from; set < to; set++) {
      if (reduced[set]! > allowed) continue;
      able.set[at] = set;
      able.size[at] = size;
      able.reduced[at++] = reduced[set]!;
    }
  }
  return able;
}

/** Valves renumbered so that those in the fewest sets are decided first; each set filed under its first valve. */
function scarceFirst(every: EverySet, able: Able) {
  const n = every.count;
  const often = new Int32Array(n);
  for (const set of able.set) {
    for (let rest = every.mask[set]!; rest !== 0; rest &= rest - 1) often[31 - Math.clz32(rest & -rest)]!++;
  }
  const valves = [...often.keys()].sort((a, b) => often[a]! - often[b]!);
  const place = new Int32Array(n);
  valves.forEach((v, i) => {
    place[v] = i;
  });
  const masks = able.set.map((set) => {
    let mask = 0;
    for (let rest = every.mask[set]!; rest !== 0; rest &= rest - 1) {
      mask |= 1 << place[31 - Math.clz32(rest & -rest)]!;
    }
    return mask;
  });
  const firstOf = (i: number) => 31 - Math.clz32(masks[i]! & -masks[i]!);
  const sizes = new Int32Array(n);
  for (let i = 0; i < masks.length; i++) sizes[firstOf(i)]!++;
  const filed = valves.map((_, v) => new Int32Array(sizes[v]!));
  const filled = new Int32Array(n);
  for (let i = 0; i < masks.length; i++) filed[firstOf(i)]![filled[firstOf(i)]!++] = i;
  const byFirst = filed.map((entries) => {
    entries.sort((a, b) => able.reduced[a]! - able.reduced[b]!);
    return {
      set: entries.map((i) => able.set[i]!),
      mask: entries.map((i) => masks[i]!),
      size: Int8Array.from(entries, (i) => able.size[i]!),
      reduced: Float64Array.from(entries, (i) => able.reduced[i]!),
    };
  });
  return { valves, byFirst };
}
