import { annealed } from "./annealed.ts";
import { boxes } from "./box.ts";
import { cheapestCover } from "./cover.ts";
import { type EverySet, everySet, leastCost, membersOf } from "./everySet.ts";
import { type Costing, type Order, totalCost, wantedSets } from "./question.ts";
import { relaxed } from "./relaxed.ts";
import { bestSplit } from "./split.ts";

/** From this size on sets are many, and few fit into 24 valves. */
const LARGE = 8;
const ANNEALINGS = 4;
/** Exchanges for each pair of valves. */
const MOVES = 140;
const HOT = 0.2;

export interface Proven {
  readonly groups: readonly (readonly number[])[];
  /** No grouping into as many sets costs less. */
  readonly bound: number;
  /** True when no more sets can be made. */
  readonly mostSets: boolean;
  readonly optimal: boolean;
}

/**
 * The best grouping of up to 24 valves into sets of any sizes, with its proof: all sets that could matter are listed,
 * priced by the relaxed problem, and searched under those prices. Most sets first, then least cost.
 *
 * @param known  a grouping to begin with
 * @returns undefined where the sets are too many to list
 */
export async function provenSets(
  costing: Costing,
  order: Order,
  known: readonly (readonly number[])[],
): Promise<Proven | undefined> {
  const found = likelyBest(costing, order, known);
  const wanted = wantedSets(order);
  const cost = totalCost(costing, found);
  const isFull = found.length === mostPossible(costing.count, order);
  const split = Math.max(...order.sizes.keys()) >= LARGE ? bestSplit(costing, order, found) : undefined;
  if (split !== undefined) return { groups: split, bound: totalCost(costing, split), mostSets: true, optimal: true };
  const every = everySet(
    costing,
    order,
    isFull ? ceilings(costing, order, found) : new Map([...order.sizes.keys()].map((size) => [size, order.limit])),
  );
  if (every === undefined) return undefined;
  const unit = every.cost.reduce((a, b) => Math.max(a, b), 0) || 1;
  const costOf = (set: number) => every.cost[set]! / unit;
  const begun = numbersOf(every, found);

  let most = Math.min(wanted, mostPossible(costing.count, order));
  if (!isFull) {
    const count = await relaxed(every, order, most, begun, 1, () => 0);
    if (count === undefined) return undefined;
    most -= Math.ceil(count.short - 1e-6);
  }
  for (let sets = most; sets > found.length; sets--) {
    const prices = await relaxed(every, order, sets, begun, 1e3, costOf);
    if (prices === undefined) return undefined;
    const { cover, searched } = cheapestCover(every, order, sets, prices, costOf, Number.POSITIVE_INFINITY);
    if (cover !== undefined) return answer(every, cover.sets, searched, prices.bound * unit);
    if (!searched) return { groups: found, bound: 0, mostSets: false, optimal: false };
  }
  if (found.length === 0) return { groups: [], bound: 0, mostSets: true, optimal: true };
  const prices = await relaxed(every, order, found.length, begun, 1e3, costOf);
  if (prices === undefined) return undefined;
  const { cover, searched } = cheapestCover(every, order, found.length, prices, costOf, cost / unit);
  if (cover !== undefined && cover.cost * unit < cost) return answer(every, cover.sets, searched, prices.bound * unit);
  return {
    groups: found,
    bound: searched ? cost : Math.min(cost, prices.bound * unit),
    mostSets: true,
    optimal: searched,
  };
}

/** The nearer the first grouping is to the best, the fewer others need to be looked at. */
function likelyBest(
  costing: Costing,
  order: Order,
  known: readonly (readonly number[])[],
): readonly (readonly number[])[] {
  const space = boxes(costing);
  if (space === undefined || known.length < 2) return known;
  const place = new Int32Array(costing.count);
  space.own.forEach((v, i) => {
    place[v] = i;
  });
  let best = known;
  let cost = totalCost(costing, known);
  const moves = (MOVES * costing.count * (costing.count - 1)) / 2;
  for (let seed = 1; seed <= ANNEALINGS; seed++) {
    const inner = known.map((group) => group.map((v) => place[v]!));
    const own = annealed(space, inner, order, moves, HOT, seed).map((group) => group.map((v) => space.own[v]!));
    const total = totalCost(costing, own);
    if (total < cost) {
      best = own;
      cost = total;
    }
  }
  return best;
}

function answer(every: EverySet, sets: readonly number[], optimal: boolean, bound: number): Proven {
  const groups = sets.map((set) => membersOf(every.mask[set]!));
  return { groups, bound, mostSets: true, optimal };
}

/** As many sets as wanted, smallest first, while valves last. */
export function mostPossible(valves: number, order: Order): number {
  let left = valves;
  let sets = 0;
  for (const [size, count] of [...order.sizes].sort(([a], [b]) => a - b)) {
    const made = Math.min(count, Math.floor(left / size));
    sets += made;
    left -= made * size;
  }
  return sets;
}

/** What one set of each size may cost: the limit, or what the cheapest others leave of a grouping already known. */
function ceilings(costing: Costing, order: Order, found: readonly (readonly number[])[]): Map<number, number> {
  const cost = totalCost(costing, found);
  const least = new Map(
    [...order.sizes.keys()].map((size) => {
      const known = found.filter((g) => g.length === size).map((g) => costing.cost(g));
      return [size, leastCost(costing, size, Math.min(order.limit, cost, ...known))] as const;
    }),
  );
  return new Map(
    [...order.sizes.keys()].map((size) => {
      const others = [...order.sizes]
        .flatMap(([s, count]) => Array.from({ length: count - (s === size ? 1 : 0) }, () => least.get(s)!))
        .sort((a, b) => a - b)
        .slice(0, Math.max(found.length - 1, 0));
      const left = cost - others.reduce((sum, x) => sum + x, 0);
      return [size, Math.min(order.limit, left + 1e-9 * (1 + cost))] as const;
    }),
  );
}

function numbersOf(every: EverySet, groups: readonly (readonly number[])[]): number[] {
  const wanted = new Set(groups.map((members) => members.reduce((bits, v) => bits | (1 << v), 0)));
  const numbers: number[] = [];
  every.mask.forEach((mask, set) => {
    if (wanted.has(mask)) numbers.push(set);
  });
  return numbers;
}
