import { bestPairings } from "../../maths/matching.ts";
import { nearestBound } from "./nearestBound.ts";
import { type Costing, type Grouping, type Order, totalCost } from "./question.ts";
import { sharesBound } from "./shares.ts";

/** Up to so many valves all pairs are weighed at once. */
export const PROVEN_PAIRS = 400;
const CLUSTER = 120;

/** The best pairs by matching in the whole graph of allowed pairs: most pairs first, then least cost. */
export function pairsProven(costing: Costing, order: Order): Grouping {
  const wanted = order.sizes.get(2)!;
  const all = [...Array(costing.count).keys()];
  const { sequence } = pairUp(costing, order, all, wanted);
  const groups = pairsOf(sequence.at(-1)!, all);
  const cost = totalCost(costing, groups);
  return { groups, cost, bound: cost, mostSets: true, optimal: true, how: "best matching of all pairs" };
}

/**
 * Pairs among too many valves for one matching: neighbours are gathered in clusters, each is matched for every number
 * of pairs, and pairs are taken from the clusters in the order of what one more costs.
 *
 * @param places  where a valve stands, one number a feature; only used to gather neighbours
 */
export function pairsByClusters(costing: Costing, order: Order, places: readonly (readonly number[])[]): Grouping {
  const wanted = order.sizes.get(2)!;
  let best: number[][] = [];
  let bestCost = Number.POSITIVE_INFINITY;
  // A second way of splitting gives pairs across the first one's borders a chance.
  for (const turn of [0, 1]) {
    const clusters = split([...Array(costing.count).keys()], places, turn);
    const matched = clusters.map((members) => ({ members, ...pairUp(costing, order, members, wanted) }));
    const steps = matched
      .flatMap(({ costs }, c) => costs.slice(1).map((cost, k) => ({ c, more: cost - costs[k]! })))
      .sort((a, b) => a.more - b.more)
      .slice(0, wanted);
    const taken = matched.map((_, c) => steps.filter((s) => s.c === c).length);
    const groups = matched.flatMap(({ sequence, members }, c) => pairsOf(sequence[taken[c]!]!, members));
    const cost = totalCost(costing, groups);
    if (groups.length > best.length || (groups.length === best.length && cost < bestCost)) {
      best = groups;
      bestCost = cost;
    }
  }
  const bound = Math.max(
    nearestBound(costing, 2, best.length),
    sharesBound(costing, order, new Map([[2, best.length]])),
  );
  const mostSets = best.length === Math.min(wanted, Math.floor(costing.count / 2));
  return {
    groups: best,
    cost: bestCost,
    bound,
    mostSets,
    optimal: mostSets && bestCost <= bound,
    how: "matched in clusters of neighbours",
  };
}

function pairUp(costing: Costing, { limit }: Order, members: readonly number[], most: number) {
  const n = members.length;
  const costs = new Float64Array(n * n);
  let greatest = 0;
  for (let a = 0; a < n; a++) {
    for (let b = a + 1; b < n; b++) {
      const cost = costing.cost([members[a]!, members[b]!]);
      costs[a * n + b] = cost;
      if (cost <= limit) greatest = Math.max(greatest, cost);
    }
  }
  // Whole numbers keep the matching exact; 2^44 steps leave a rounding far below any reading.
  const scale = greatest > 0 ? 2 ** 44 / greatest : 1;
  const { bySize } = bestPairings(
    n,
    (a, b) => (costs[a * n + b]! <= limit ? Math.round((greatest - costs[a * n + b]!) * scale) : undefined),
    most,
  );
  const costOf = (mate: Int32Array) => mate.reduce((sum, b, a) => sum + (b > a ? costs[a * n + b]! : 0), 0);
  return { sequence: bySize, costs: bySize.map(costOf) };
}

function pairsOf(mate: Int32Array, members: readonly number[]): number[][] {
  return [...mate].flatMap((b, a) => (b > a ? [[members[a]!, members[b]!]] : []));
}

/** Halves along the widest feature until each part is small enough. */
function split(members: number[], places: readonly (readonly number[])[], turn: number): number[][] {
  if (members.length <= CLUSTER) return [members];
  const widths = places[0]!.map((_, f) => {
    const values = members.map((m) => places[m]![f]!);
    return Math.max(...values) - Math.min(...values);
  });
  const ranked = [...widths.keys()].sort((a, b) => widths[b]! - widths[a]!);
  const feature = ranked[Math.min(turn, ranked.length - 1)]!;
  const sorted = [...members].sort((a, b) => places[a]![feature]! - places[b]![feature]!);
  const half = 2 * Math.round(sorted.length / 4);
  return [...split(sorted.slice(0, half), places, 0), ...split(sorted.slice(half), places, 0)];
}
