import { type Costing, type Grouping, type Order, totalCost } from "./question.ts";

/** The most states the table may have; beyond, another way is taken. */
const MOST_STATES = 2e7;

/**
 * Best sets where a set's cost is the length of line it spans, by dynamic programming over the sorted valves.
 *
 * Two sets whose spans overlap can exchange members so that neither span grows beyond the longer of the two and
 * their sum does not grow, and a valve left out inside a span can replace its end; so some best grouping consists of
 * runs of neighbours, and trying all runs is enough. Most sets first, then least cost; the limit is kept.
 *
 * @returns undefined where the table would be too large
 */
export function alongLine(costing: Costing, order: Order): Grouping | undefined {
  const line = costing.line;
  if (line === undefined) return undefined;
  const sorted = [...line.keys()].sort((a, b) => line[a]! - line[b]!);
  const sizes = [...order.sizes.keys()];
  const caps = sizes.map((size) => Math.min(order.sizes.get(size)!, Math.floor(costing.count / size)));
  const strides = caps.map((_, t) => caps.slice(0, t).reduce((product, cap) => product * (cap + 1), 1));
  const states = caps.reduce((product, cap) => product * (cap + 1), 1);
  const n = sorted.length;
  if ((n + 1) * states > MOST_STATES) return undefined;

  const best = new Float64Array((n + 1) * states).fill(Number.POSITIVE_INFINITY);
  const choice = new Int8Array((n + 1) * states).fill(-1);
  best[0] = 0;
  for (let i = 1; i <= n; i++) {
    best.copyWithin(i * states, (i - 1) * states, i * states);
    sizes.forEach((size, t) => {
      if (i < size) return;
      const span = costing.cost(sorted.slice(i - size, i));
      if (span > order.limit) return;
      for (let state = strides[t]!; state < states; state++) {
        if (Math.floor(state / strides[t]!) % (caps[t]! + 1) === 0) continue;
        const cost = best[(i - size) * states + state - strides[t]!]! + span;
        if (cost < best[i * states + state]!) {
          best[i * states + state] = cost;
          choice[i * states + state] = t;
        }
      }
    });
  }
  const setsIn = (state: number) =>
    caps.reduce((sum, cap, t) => sum + (Math.floor(state / strides[t]!) % (cap + 1)), 0);
  let at = 0;
  for (let state = 0; state < states; state++) {
    const cost = best[n * states + state]!;
    if (cost === Number.POSITIVE_INFINITY) continue;
    const more = setsIn(state) - setsIn(at);
    if (more > 0 || (more === 0 && cost < best[n * states + at]!)) at = state;
  }
  const groups: number[][] = [];
  for (let i = n; i > 0; ) {
    const t = choice[i * states + at]!;
    if (t < 0 || best[i * states + at]! === best[(i - 1) * states + at]!) {
      i--;
      continue;
    }
    groups.push(sorted.slice(i - sizes[t]!, i));
    i -= sizes[t]!;
    at -= strides[t]!;
  }
  const cost = totalCost(costing, groups);
  return { groups, cost, bound: cost, mostSets: true, optimal: true, how: "all runs along the one feature tried" };
}
