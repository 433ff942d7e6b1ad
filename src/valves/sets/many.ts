import { annealed } from "./annealed.ts";
import { type Boxes, boxes } from "./box.ts";
import { dived } from "./dived.ts";
import { halved } from "./halves.ts";
import { PartsProgram } from "./partsProgram.ts";
import { merged, neighbourSets, numbersIn, type Pool, poolOf } from "./pool.ts";
import { type Packing, type Prices, reducedCosts } from "./prices.ts";
import { type Proof, provenPrices } from "./provenPrices.ts";
import { type Costing, isLate, type Order, totalCost } from "./question.ts";
import { recombined } from "./recombined.ts";
import { regrouped } from "./regions.ts";
import { wholeSets } from "./wholeSets.ts";
import { windowed } from "./windows.ts";
import { worthy } from "./worthy.ts";

/** Sets larger than this, and the bound by their halves, which are no larger. */
const LARGEST = 6;
const SOON_PRICED = 250;
/** Sets of a size with its nearest neighbours that each valve begins with. */
const NEIGHBOUR_SETS = 20;
/** Of all valves together no more than about so many. */
const MOST_NEIGHBOUR_SETS = 16_000;
/** Sets that begin with one valve and cost at most so many usual costs more than they are worth are looked at. */
const LOOKED_AT = 60;
const WITHIN = 0.25;
const FIRST_MOVES_A_VALVE = 2500;
/** With many valves the bound must not wait long. */
const MOST_FIRST_MOVES = 1.5e6;
const MOST_HEALING_MOVES = 5e6;
const HOT = 0.15;
/** What a dive leaves in disorder at its end is exchanged away without losing what it put in order. */
const LUKEWARM = 0.06;
/** Groupings of large sets that are drawn, exchanges tried in each, and how hot it begins. */
const LARGE_DRAWN = 6;
const LARGE_MOVES_A_VALVE = 5000;
const MOST_LARGE_MOVES = 4e5;
const LARGE_HOT = 0.2;
/** Nearer to the bound than this share, a first grouping is not dived for a better one. */
const NEAR_ENOUGH = 1e-3;
/** So few sets are handed to branch and bound for the last word. */
const KEPT = 1500;
const MOST_SEARCHED_FIRST = 1000;
const MOST_SEARCHED = 8000;
const SEARCH_s = 4;
const LOOKS_A_VALVE = 5000;
const TURNS = [
  { valves: 500, weighed: 2.4, seconds: 2 },
  { valves: 240, weighed: 4, seconds: 2 },
];
/** With more room than this between cost and bound, in usual costs, too many sets are left to be decided. */
const MOST_ROOM = 0.6;

export interface Many {
  readonly groups: readonly (readonly number[])[];
  /** No grouping into as many sets of each size costs less. */
  readonly bound: number;
  readonly optimal: boolean;
  /** True where `bound` comes from prices of whole sets. */
  readonly isPriced: boolean;
}

/**
 * Betters a grouping of many valves, and proves how far from the best it can be at most.
 *
 * Annealing gives a first grouping, prices prove a bound, and under them the best sets of several groupings are put
 * together. Where few sets are left that could be in a better grouping, branch and bound decides.
 *
 * Sets of more than LARGEST valves are priced box by box; where time ends before prices are found, the bound is that of
 * their halves.
 *
 * @returns undefined where cost is no box
 */
export async function manySets(
  costing: Costing,
  order: Order,
  found: readonly (readonly number[])[],
): Promise<Many | undefined> {
  const made = new Map<number, number>();
  for (const group of found) made.set(group.length, (made.get(group.length) ?? 0) + 1);
  const sizes = [...made.keys()].sort((a, b) => a - b);
  if (sizes.length === 0) return undefined;
  const space = boxes(costing);
  if (space === undefined) return undefined;
  const n = costing.count;
  const outside = (inner: readonly (readonly number[])[]) => inner.map((group) => group.map((v) => space.own[v]!));
  const costOf = (inner: readonly (readonly number[])[]) => totalCost(costing, outside(inner));
  if (!(totalCost(costing, found) > 0)) return { groups: found, bound: 0, optimal: true, isPriced: true };

  const place = new Int32Array(n);
  space.own.forEach((v, i) => {
    place[v] = i;
  });
  const used = [...made].reduce((sum, [size, count]) => sum + size * count, 0);
  const packing: Packing = { valves: n, made, isTight: used === n };
  const first = found.map((group) => group.map((v) => place[v]!));
  const moves = Math.min(MOST_FIRST_MOVES, FIRST_MOVES_A_VALVE * n);
  let groups: readonly (readonly number[])[] = annealed(space, first, order, moves, HOT, 0);
  const usual = costOf(groups) / groups.length;
  if (!(usual > 0)) return { groups: outside(groups), bound: 0, optimal: true, isPriced: true };
  const isLarge = sizes.at(-1)! > LARGEST;
  let sure = 0;
  if (isLarge) {
    const tried = Math.min(MOST_LARGE_MOVES, LARGE_MOVES_A_VALVE * n);
    for (let seed = 1; seed <= LARGE_DRAWN && !isLate(order); seed++) {
      const own = annealed(space, groups, order, tried, LARGE_HOT, seed);
      if (costOf(own) < costOf(groups)) groups = own;
    }
    // Prices of many large sets come late, and are worth little until then.
    if (n > SOON_PRICED) sure = Math.min(costOf(groups), await boundByHalves(space, packing, groups, order));
  }
  const start = neighbourSets(space, sizes, order.limit, begunWith(n), groups);
  const { proof, dive } = await linearPrices(space, packing, start, order, groups, costOf(groups), true);
  if (proof === undefined) {
    if (isLarge && sure === 0) sure = Math.min(costOf(groups), await boundByHalves(space, packing, groups, order));
    return { groups: outside(groups), bound: sure, optimal: false, isPriced: false };
  }
  const { prices } = proof;
  if (dive !== undefined) {
    const healing = Math.min(MOST_HEALING_MOVES, FIRST_MOVES_A_VALVE * n);
    const healed = annealed(space, dive, order, healing, LUKEWARM, 1);
    if (costOf(healed) < costOf(groups)) groups = healed;
  }
  const able = worthy(space, prices, order.limit, LOOKED_AT, () => WITHIN * usual, 4e7, order.hasTime);
  if (able !== undefined) {
    groups = regrouped(space, able, prices, groups, { left: LOOKS_A_VALVE * n }, order.hasTime);
    // Few sets of least reduced cost fit a window unless it holds all.
    const turns = n > TURNS[0]!.valves ? TURNS.slice(1) : TURNS;
    groups = await windowed(space, able, proof, packing, groups, turns, order);
  }
  const isNear = costOf(groups) - proof.bound < MOST_ROOM * usual;
  let last = isNear
    ? await lastWord(space, packing, proof, groups, order, costOf(groups), MOST_SEARCHED_FIRST)
    : { groups, bound: proof.bound };
  groups = last.groups;
  if (able !== undefined && costOf(groups) > last.bound * (1 + 1e-9) && !isLate(order)) {
    groups = await recombined(space, merged(start, able, prices, 0), proof, packing, groups, order);
    const bound = last.bound;
    last = await lastWord(space, packing, { ...proof, bound }, groups, order, costOf(groups), MOST_SEARCHED);
  }
  const cost = costOf(last.groups);
  const bound = Math.min(Math.max(last.bound, sure), cost);
  return { groups: outside(last.groups), bound, optimal: cost <= bound * (1 + 1e-9), isPriced: true };
}

function begunWith(valves: number): number {
  return Math.min(NEIGHBOUR_SETS, Math.ceil(MOST_NEIGHBOUR_SETS / valves));
}

/** What halves of the sets must cost, or quarters, tells what the sets must. */
async function boundByHalves(
  space: Boxes,
  { valves, isTight }: Packing,
  groups: readonly (readonly number[])[],
  order: Order,
): Promise<number> {
  const { groups: parts, factor } = halved(space, groups, LARGEST);
  const made = new Map<number, number>();
  for (const part of parts) made.set(part.length, (made.get(part.length) ?? 0) + 1);
  const better = annealed(space, parts, order, Math.min(MOST_FIRST_MOVES, FIRST_MOVES_A_VALVE * valves), HOT, 0);
  const all = poolOf(space, Math.max(...made.keys()), better);
  const reachable = all.cost.reduce((a, b) => a + b, 0);
  if (!(reachable > 0)) return 0;
  const start = neighbourSets(
    space,
    [...made.keys()].sort((a, b) => a - b),
    order.limit,
    begunWith(valves),
    better,
  );
  const { proof } = await linearPrices(space, { valves, made, isTight }, start, order, better, reachable, false);
  return (proof?.bound ?? 0) / factor;
}

async function linearPrices(
  space: Boxes,
  packing: Packing,
  start: Pool,
  order: Order,
  groups: readonly (readonly number[])[],
  reachable: number,
  dives: boolean,
) {
  const usual = reachable / [...packing.made.values()].reduce((a, b) => a + b, 0);
  const program = await PartsProgram.create(packing, start.widest, usual);
  try {
    const proof = provenPrices(program, space, packing, start, order, reachable, sharesOf(space, packing, groups));
    const isNear = !dives || proof === undefined || reachable <= proof.bound * (1 + NEAR_ENOUGH);
    return { proof, dive: isNear ? undefined : dived(program, space, packing, usual, order) };
  } finally {
    program.dispose();
  }
}

/** Each valve at its share of the set that it is in. */
function sharesOf(space: Boxes, { valves, made }: Packing, groups: readonly (readonly number[])[]): Prices {
  const valve = new Float64Array(valves + 1);
  const { cost } = poolOf(space, Math.max(...made.keys()), groups);
  groups.forEach((group, j) => {
    for (const v of group) valve[v] = cost[j]! / group.length;
  });
  return { valve, size: new Map([...made.keys()].map((size) => [size, 0])), triples: [], triple: [] };
}

/** Branch and bound over all sets that could be in a better grouping, where they are few. */
async function lastWord(
  space: Boxes,
  packing: Packing,
  { prices, bound }: Proof,
  groups: readonly (readonly number[])[],
  order: Order,
  cost: number,
  most: number,
): Promise<{ readonly groups: readonly (readonly number[])[]; readonly bound: number }> {
  const room = cost - bound + 1e-9 * cost;
  if (room <= 2e-9 * cost || isLate(order)) return { groups, bound };
  const pool = worthy(space, prices, order.limit, KEPT, () => room, 1e7, order.hasTime);
  if (pool === undefined || pool.leftOut.some((figure) => figure < room)) return { groups, bound };
  const all = merged(pool, poolOf(space, pool.widest, groups), prices, Number.POSITIVE_INFINITY);
  const known = groups.map(numbersIn(all));
  const reduced = reducedCosts(all, packing.valves, prices);
  const able = [...new Set([...known, ...[...reduced.keys()].filter((j) => reduced[j]! <= room)])];
  if (able.length > most) return { groups, bound };
  const valves = [...Array(packing.valves).keys()];
  const found = await wholeSets(all, able, known, valves, !packing.isTight, prices, SEARCH_s, order);
  return { groups: found.groups ?? groups, bound: Math.max(bound, found.bound) };
}
