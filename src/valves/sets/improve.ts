import { alikeSets } from "./alike.ts";
import { type Costing, isLate, type Order, totalCost, wantedSets } from "./question.ts";

const MOST_LOOKS = 6e6;
const MOST_NEAR = 24;

/**
 * A good grouping by hand's rule: runs of neighbours along each feature (and along their sum), where those make too few sets
 * also by `alikeSets`, then exchanges of one
 * valve between sets, or with one left over, as long as one helps. Proves nothing.
 */
export function improve(costing: Costing, order: Order, places: readonly (readonly number[])[]): number[][] {
  const directions = places[0]!.map((_, f) => (v: number) => places[v]![f]!);
  const orders = [...directions, (v: number) => places[v]!.reduce((sum, x) => sum + x, 0)];
  const tries = orders.flatMap((key) => {
    const sorted = [...places.keys()].sort((a, b) => key(a) - key(b));
    return [runs(costing, order, sorted)];
  });
  const rank = (a: number[][], b: number[][]) => b.length - a.length || totalCost(costing, a) - totalCost(costing, b);
  const near = nearest(places);
  const wanted = Math.min(wantedSets(order), places.length);
  if (costing.box !== undefined && tries.every((groups) => groups.length < wanted)) {
    tries.push(fewestFirst(order, places, (set) => costing.cost(set)));
  }
  // The likeliest start is bettered first and longest; looks are counted, so that the answer does not hang on a clock.
  return tries
    .sort(rank)
    .map((groups, i) => exchange(costing, order, groups, near, { left: MOST_LOOKS / (i + 1) / tries.length }))
    .sort(rank)[0]!;
}

/** Where the limit is tight: valves with few partners first, small sets before large; of too many sets the cheapest. */
function fewestFirst(
  order: Order,
  places: readonly (readonly number[])[],
  cost: (set: readonly number[]) => number,
): number[][] {
  let left = [...places.keys()];
  return [...order.sizes]
    .sort(([a], [b]) => a - b)
    .flatMap(([size, wanted]) => {
      const sets = alikeSets(
        left.map((v) => places[v]!),
        size,
        order.limit,
      ).map((set) => set.map((i) => left[i]!));
      const taken = sets.sort((a, b) => cost(a) - cost(b)).slice(0, wanted);
      const used = new Set(taken.flat());
      left = left.filter((v) => !used.has(v));
      return taken;
    });
}

/** Takes the cheapest run of neighbours again and again, small sets first. */
function runs(costing: Costing, order: Order, sorted: readonly number[]): number[][] {
  let left = [...sorted];
  const groups: number[][] = [];
  for (const [size, wanted] of [...order.sizes].sort(([a], [b]) => a - b)) {
    for (let made = 0; made < wanted && left.length >= size; made++) {
      // Runs counted off from one end, so that no single valve is stranded; the dearest valves are left over.
      const spare = left.length - size * (wanted - made);
      let best: { at: number; cost: number } | undefined;
      const last = Math.max(0, Math.min(left.length - size, Math.max(spare, 0)));
      for (let at = 0; at <= last; at++) {
        const cost = costing.cost(left.slice(at, at + size));
        if (cost <= order.limit && (best === undefined || cost < best.cost)) best = { at, cost };
      }
      for (let at = last + 1; best === undefined && at <= left.length - size; at++) {
        const cost = costing.cost(left.slice(at, at + size));
        if (cost <= order.limit) best = { at, cost };
      }
      if (best === undefined) break;
      groups.push(left.slice(best.at, best.at + size));
      left = [...left.slice(0, best.at), ...left.slice(best.at + size)];
    }
  }
  return groups;
}

/** The valves nearest to each, so that only exchanges that can help are looked at. */
function nearest(places: readonly (readonly number[])[]): Int32Array[] {
  const most = Math.min(MOST_NEAR, places.length - 1);
  return places.map((own, v) => {
    const near = new Int32Array(most);
    const far = new Float64Array(most).fill(Number.POSITIVE_INFINITY);
    places.forEach((place, u) => {
      if (u === v) return;
      let distance = 0;
      for (let f = 0; f < own.length; f++) distance += Math.abs(own[f]! - place[f]!);
      if (distance >= far[most - 1]!) return;
      let at = most - 1;
      for (; at > 0 && far[at - 1]! > distance; at--) {
        far[at] = far[at - 1]!;
        near[at] = near[at - 1]!;
      }
      far[at] = distance;
      near[at] = u;
    });
    return near;
  });
}

function exchange(
  costing: Costing,
  order: Order,
  start: readonly (readonly number[])[],
  near: readonly Int32Array[],
  looks: { left: number },
): number[][] {
  const groups = start.map((group) => [...group]);
  const groupOf = new Int32Array(costing.count).fill(-1);
  groups.forEach((group, g) => {
    for (const v of group) groupOf[v] = g;
  });
  const costs = groups.map((group) => costing.cost(group));
  const put = (g: number, group: number[], cost: number): void => {
    groups[g] = group;
    costs[g] = cost;
    for (const v of group) groupOf[v] = g;
  };
  /** Brings u into v's group, near another member of which it lies, in place of member i. */
  const swap = (g: number, i: number, u: number): boolean => {
    const h = groupOf[u]!;
    if (h === g) return false;
    const v = groups[g]![i]!;
    const one = groups[g]!.with(i, u);
    const a = costing.cost(one);
    looks.left -= 2 * one.length * (costing.weight ?? 1);
    if (h < 0) {
      if (a >= costs[g]! - 1e-12) return false;
      put(g, one, a);
      groupOf[v] = -1;
      return true;
    }
    if (a > order.limit) return false;
    const other = groups[h]!.with(groups[h]!.indexOf(u), v);
    const b = costing.cost(other);
    if (b > order.limit || a + b >= costs[g]! + costs[h]! - 1e-12) return false;
    put(g, one, a);
    put(h, other, b);
    return true;
  };
  for (let helped = true; helped; ) {
    helped = false;
    for (let g = 0; g < groups.length; g++) {
      if (isLate(order)) return groups;
      for (let i = 0; i < groups[g]!.length; i++) {
        for (const member of [...groups[g]!]) {
          for (const u of near[member]!) {
            if (looks.left <= 0) return groups;
            if (swap(g, i, u)) helped = true;
          }
        }
      }
    }
  }
  return groups;
}
