import { type Costing, type Order, totalCost } from "./question.ts";

/**
 * A good grouping by hand's rule: runs of neighbours along each feature (and along their sum), then exchanges of one
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
  const deadline = Math.max(1, Math.round(3e5 / Math.max(costing.count, 1) ** 2));
  return tries.map((groups) => exchange(costing, order, groups, deadline)).sort(rank)[0]!;
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

function exchange(costing: Costing, order: Order, start: readonly (readonly number[])[], rounds: number): number[][] {
  const groups = start.map((group) => [...group]);
  const used = new Set(groups.flat());
  const spare = [...Array(costing.count).keys()].filter((v) => !used.has(v));
  const costs = groups.map((group) => costing.cost(group));
  for (let round = 0; round < rounds; round++) {
    let helped = false;
    for (let g = 0; g < groups.length; g++) {
      for (let i = 0; i < groups[g]!.length; i++) {
        for (let s = 0; s < spare.length; s++) {
          const tried = groups[g]!.with(i, spare[s]!);
          const cost = costing.cost(tried);
          if (cost < costs[g]! - 1e-12) {
            spare[s] = groups[g]![i]!;
            groups[g] = tried;
            costs[g] = cost;
            helped = true;
          }
        }
        for (let h = g + 1; h < groups.length; h++) {
          for (let j = 0; j < groups[h]!.length; j++) {
            const [one, other] = [groups[g]!.with(i, groups[h]![j]!), groups[h]!.with(j, groups[g]![i]!)];
            const [a, b] = [costing.cost(one), costing.cost(other)];
            if (a <= order.limit && b <= order.limit && a + b < costs[g]! + costs[h]! - 1e-12) {
              groups[g] = one;
              groups[h] = other;
              costs[g] = a;
              costs[h] = b;
              helped = true;
            }
          }
        }
      }
    }
    if (!helped) break;
  }
  return groups;
}
