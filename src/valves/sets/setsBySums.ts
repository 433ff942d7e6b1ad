import { whole32 } from "./annealed.ts";
import { type GainSums, seatingBySums } from "./gainSums.ts";
import { type Listed, leastSpread, listedSets } from "./listedSets.ts";
import { PartsProgram } from "./partsProgram.ts";
import { merged, numbersIn, poolOfSets } from "./pool.ts";
import { boundOn, type Packing, type Prices, reducedCosts } from "./prices.ts";
import { isLate, type Order } from "./question.ts";
import { regroupedTwos } from "./regroupedTwos.ts";
import { reseated } from "./seated.ts";
import { transportBound } from "./transportBound.ts";
import { wholeSets } from "./wholeSets.ts";

const MOVES_A_SEAT = 20_000;
const MOST_MOVES = 2e6;
const DRAWN = 2;
const ROUNDS = 100;
/** Sets of each first member that begin, and that join in a round. */
const BEGUN = 30;
const JOINING = 20;
const KEPT = 600;
/** So many sets are searched at first, and in the end. */
const SEARCHED = [1000, 3000, 9000] as const;
const SEARCH_s = 4;
/** Where no other sets could matter, the search is worth what time is left. */
const LAST_SEARCH_s = 600;

export interface BySums {
  readonly groups: readonly (readonly number[])[];
  /** No grouping into as many sets costs less by added gains. */
  readonly bound: number;
}

/**
 * Sets of many valves by added gains. Exchanges give a first grouping; where every set can be listed, prices prove a
 * bound, and branch and bound puts together those that could be in a better grouping: all of them at last, where they
 * are few, so that the grouping is proven.
 *
 * @param orders  ways to seat a set
 * @param found   sets within the limit
 */
export async function setsBySums(
  sums: GainSums,
  orders: readonly (readonly number[])[],
  order: Order,
  found: readonly (readonly number[])[],
): Promise<BySums> {
  const n = sums.shift.length;
  const [[size, wanted]] = [...order.sizes] as [[number, number]];
  const seat = seatingBySums(sums, orders);
  const costOf = (sets: readonly (readonly number[])[]) => sets.reduce((sum, set) => sum + seat(set).cost, 0);
  let groups = exchanged(sums, seat, orders, order, found, Math.min(wanted, Math.floor(n / size)));
  if (groups.length === 0) return { groups, bound: 0 };
  const reached = costOf(groups);
  const listed = isLate(order) ? undefined : listedSets(sums, size, orders, order);
  if (listed === undefined) return { groups, bound: Math.min(reached, await transportBound(sums, groups.length)) };
  const made = new Map([[size, groups.length]]);
  const packing: Packing = { valves: n, made, isTight: n === size * groups.length };
  const proof = await listedPrices(listed, seat, packing, reached, groups, order);
  if (proof === undefined) return { groups, bound: 0 };
  const { prices } = proof;
  let { bound } = proof;
  for (const most of SEARCHED) {
    const cost = costOf(groups);
    const room = cost - bound;
    if (room <= 1e-9 * cost || isLate(order)) break;
    const pool = listed.worthy(prices, KEPT, room * (1 + 1e-6) + 1e-12);
    const known = poolOfSets(n, size, groups, seat);
    const all = merged(pool, known, prices, Number.POSITIVE_INFINITY);
    const reduced = reducedCosts(all, n, prices);
    const cheapestFirst = [...reduced.keys()].sort((a, b) => reduced[a]! - reduced[b]!);
    const own = groups.map(numbersIn(all));
    const able = [...new Set([...own, ...cheapestFirst.slice(0, most)])];
    const isAll = able.length === all.count && pool.leftOut.every((figure) => figure >= room);
    const valves = [...Array(n).keys()];
    const better = await wholeSets(
      all,
      able,
      own,
      valves,
      !packing.isTight,
      prices,
      isAll ? LAST_SEARCH_s : SEARCH_s,
      order,
    );
    if (better.groups !== undefined) groups = better.groups;
    if (isAll) {
      bound = Math.max(bound, Math.min(better.bound, costOf(groups)));
      break;
    }
  }
  return { groups, bound: Math.min(bound, costOf(groups)) };
}

/** As many sets as are wanted where exchanges bring them all within the limit, else those found, exchanged. */
function exchanged(
  sums: GainSums,
  seat: ReturnType<typeof seatingBySums>,
  orders: readonly (readonly number[])[],
  order: Order,
  found: readonly (readonly number[])[],
  most: number,
): readonly (readonly number[])[] {
  const size = sums.shift[0]!.length;
  const used = new Set(found.flat());
  const left = [...sums.shift.keys()].filter((v) => !used.has(v));
  const all = [...found];
  while (all.length < most) all.push(left.splice(0, size));
  const asked = new Int32Array(size);
  const spread = leastSpread(sums, orders, asked);
  const quick = (set: readonly number[]) => {
    asked.set(set);
    return spread();
  };
  let best = found;
  let least = found.reduce((sum, set) => sum + seat(set).cost, 0);
  const starts = all.length > found.length ? [all, found] : [found];
  for (let seed = 1; seed <= DRAWN * starts.length; seed++) {
    if (isLate(order)) break;
    const start = starts[seed % starts.length]!;
    if (start.length === 0) continue;
    const random = whole32(seed);
    const moves = Math.min(MOST_MOVES, MOVES_A_SEAT * size * start.length);
    const seated = start.map((set) => seat(set).seated);
    const drawn = reseated(sums, seated, order, moves, () => (random() + 0.5) / 2 ** 32);
    const inSet = new Set(drawn.flat());
    const spare = [...sums.shift.keys()].filter((v) => !inSet.has(v));
    const own = regroupedTwos(drawn, spare, quick, order)
      .map((set) => ({ set, cost: seat(set).cost }))
      .filter(({ cost }) => cost <= order.limit);
    const cost = own.reduce((sum, { cost }) => sum + cost, 0);
    if (own.length < best.length || (own.length === best.length && cost >= least)) continue;
    best = own.map(({ set }) => set);
    least = cost;
  }
  return best;
}

/** Prices under which the sets prove how little so many can cost. */
async function listedPrices(
  listed: Listed,
  seat: ReturnType<typeof seatingBySums>,
  packing: Packing,
  reached: number,
  groups: readonly (readonly number[])[],
  order: Order,
): Promise<{ readonly prices: Prices; readonly bound: number } | undefined> {
  const { valves: n } = packing;
  const { size } = listed;
  const usual = reached / groups.length;
  if (!(usual > 0)) return undefined;
  const worths = {
    valve: new Float64Array(n + 1),
    size: new Map([[size, 0]]),
  };
  const begun = listed.worthy(worths, BEGUN, Number.POSITIVE_INFINITY);
  const program = await PartsProgram.create(packing, size, usual);
  try {
    program.add(begun, Array(begun.count).keys());
    program.add(poolOfSets(n, size, groups, seat), Array(groups.length).keys());
    let proof: { prices: Prices; bound: number } | undefined;
    for (let round = 0; round < ROUNDS && !isLate(order); round++) {
      const taken = program.solve(order);
      if (taken === undefined) break;
      const pool = listed.worthy(taken.prices, JOINING, -1e-9 * usual);
      const bound = boundOn(pool, reducedCosts(pool, n, taken.prices), packing, taken.prices);
      if (proof === undefined || bound > proof.bound) proof = { prices: taken.prices, bound };
      if (program.add(pool, Array(pool.count).keys()) === 0) break;
    }
    return proof;
  } finally {
    program.dispose();
  }
}
