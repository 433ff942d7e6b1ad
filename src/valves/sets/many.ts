import { ascend, holders, type Packing, type Prices } from "./ascent.ts";
import { type Boxes, boxes } from "./box.ts";
import { linearSolver, terms } from "./highs.ts";
import { merged, neighbourSets, type Pool, worthySets } from "./pool.ts";
import { boundOn } from "./provenBound.ts";
import { type Costing, isLate, type Order, totalCost } from "./question.ts";
import { regrouped } from "./regions.ts";
import { overheldTriples } from "./triples.ts";

/** Larger sets have too many neighbours to be listed. */
const LARGEST = 6;
/** Sets weighed in all turns of all rounds: some two seconds at worst. */
const MOST_WEIGHED = 3e7;
const MOST_LOOKS = 5e6;
const ROUNDS = 9;
const FIRST_TURNS = 260;
const TURNS = 240;
const NEIGHBOUR_SETS = 120;
/** So few sets are handed to branch and bound for the last word. */
const MOST_SEARCHED = 2500;
const SEARCH_s = 2;
/** With more left between bound and cost too many sets could matter. */
const MOST_ROOM = 0.015;

export interface Many {
  readonly groups: readonly (readonly number[])[];
  /** No grouping into as many sets of each size costs less. */
  readonly bound: number;
  readonly optimal: boolean;
}

/**
 * Betters a grouping of many valves, and proves how far from the best it can be at most.
 *
 * By turns: prices are raised to a bound on the relaxed problem, held against all sets; sets that the prices overlook
 * join; triples held more than once are cut off; and the grouping is bettered region by region under those prices.
 * Where few sets are left that could be in a better grouping, branch and bound decides.
 *
 * @returns undefined where cost is no box, or the sets are too large
 */
export async function manySets(
  costing: Costing,
  order: Order,
  found: readonly (readonly number[])[],
): Promise<Many | undefined> {
  const made = new Map<number, number>();
  for (const group of found) made.set(group.length, (made.get(group.length) ?? 0) + 1);
  const sizes = [...made.keys()].sort((a, b) => a - b);
  if (sizes.length === 0 || sizes.at(-1)! > LARGEST) return undefined;
  const space = boxes(costing);
  if (space === undefined) return undefined;
  const n = costing.count;
  const place = new Int32Array(n);
  space.own.forEach((v, i) => {
    place[v] = i;
  });
  let groups = found.map((group) => group.map((v) => place[v]!));
  const outside = (inner: readonly (readonly number[])[]) => inner.map((group) => group.map((v) => space.own[v]!));
  let cost = totalCost(costing, found);
  if (!(cost > 0)) return { groups: found, bound: 0, optimal: true };

  const start = neighbourSets(space, sizes, order.limit, NEIGHBOUR_SETS, groups);
  if (start === undefined) return undefined;
  let pool = start;
  let wide = start;
  const packing = packingOf(n, made, pool);
  const usual = cost / found.length;
  let prices = firstPrices(packing, groups, (group) => costing.cost(group.map((v) => space.own[v]!)));
  let bound = 0;
  let proof = prices;
  let weighed = 0;
  let pace = 0.3;
  const looks = { left: MOST_LOOKS };
  for (
    let round = 0;
    round < ROUNDS && weighed < MOST_WEIGHED && !isLate(order) && cost > bound * (1 + 1e-9);
    round++
  ) {
    const turns = Math.min(round === 0 ? FIRST_TURNS : TURNS, Math.ceil((MOST_WEIGHED - weighed) / pool.count));
    weighed += turns * pool.count;
    const before = [bound, cost];
    const ascent = ascend(packing, pool, prices, cost, turns, pace, order.hasTime);
    pace = Math.min(0.3, 3 * ascent.pace);
    prices = ascent.prices;
    const overlooked = worthySets(
      space,
      prices,
      order.limit,
      round < 3 ? 30 : 80,
      () => 0.02 * usual,
      2e7,
      order.hasTime,
    );
    if (overlooked === undefined) break;
    const proven = boundOn(overlooked, packing, prices);
    if (proven > bound) {
      bound = proven;
      proof = prices;
    }
    const known = new Set(prices.triples.map((triple) => triple.join(" ")));
    const triples = round === 0 ? [] : overheldTriples(pool, n, ascent.parts, known, n, 3);
    pool = merged(pool, overlooked, prices, 0.6 * usual);
    if (round < 4 || round % 4 === 0) {
      const share = { left: looks.left / (round < 4 ? 3 : 1) };
      looks.left -= share.left;
      wide = merged(wide, pool, prices, Number.POSITIVE_INFINITY);
      groups = regrouped(space, wide, prices, groups, share, order.hasTime);
      looks.left += Math.max(0, share.left);
      cost = totalCost(costing, outside(groups));
    }
    if (round > 1 && triples.length === 0 && bound === before[0] && cost === before[1]) break;
    prices = {
      ...prices,
      triples: [...prices.triples, ...triples],
      triple: [...prices.triple, ...triples.map(() => 0)],
    };
  }
  if (cost <= bound * (1 + 1e-9)) return { groups: outside(groups), bound: cost, optimal: true };
  const last = isLate(order) ? undefined : await searched(space, packing, proof, order, cost, bound);
  if (last === undefined) return { groups: outside(groups), bound, optimal: false };
  if (last.length > 0) groups = last;
  return { groups: outside(groups), bound: totalCost(costing, outside(groups)), optimal: true };
}

function packingOf(valves: number, made: ReadonlyMap<number, number>, pool: Pool): Packing {
  const most = new Float64Array(valves).fill(Number.POSITIVE_INFINITY);
  for (let j = 0; j < pool.count; j++) {
    for (let k = j * pool.widest; k < j * pool.widest + pool.size[j]!; k++) {
      most[pool.members[k]!] = Math.min(most[pool.members[k]!]!, pool.cost[j]!);
    }
  }
  const used = [...made].reduce((sum, [size, count]) => sum + size * count, 0);
  return { valves, made, isTight: used === valves, most };
}

/** Where all valves are used each bears a share of its set; else sets are worth what they cost on the mean. */
function firstPrices(
  { valves, made, isTight, most }: Packing,
  groups: readonly (readonly number[])[],
  costOf: (group: readonly number[]) => number,
): Prices {
  const valve = new Float64Array(valves + 1);
  const size = new Map([...made.keys()].map((s) => [s, 0]));
  for (const group of groups) {
    const cost = costOf(group);
    if (isTight) for (const v of group) valve[v] = Math.min((0.97 * cost) / group.length, 0.9 * most[v]!);
    else size.set(group.length, size.get(group.length)! + cost / made.get(group.length)!);
  }
  return { valve, size, triples: [], triple: [] };
}

/**
 * The best grouping by branch and bound over the sets that could be in one better than that known.
 *
 * @returns an empty list where there is none better; undefined where it could not be decided
 */
async function searched(
  space: Boxes,
  packing: Packing,
  prices: Prices,
  { limit, hasTime }: Order,
  cost: number,
  bound: number,
): Promise<number[][] | undefined> {
  const n = packing.valves;
  const room = cost - bound + 1e-9 * cost;
  if (room > MOST_ROOM * cost) return undefined;
  const pool = worthySets(space, prices, limit, 400, () => room, 1e7, hasTime);
  if (pool === undefined || pool.leftOut.some((figure) => figure < room)) return undefined;
  const { widest, members, size } = pool;
  const reduced = new Float64Array(pool.count);
  for (let j = 0; j < pool.count; j++) {
    reduced[j] = pool.cost[j]! - prices.size.get(size[j]!)!;
    for (let k = j * widest; k < (j + 1) * widest; k++) reduced[j]! -= prices.valve[members[k]!]!;
  }
  holders(pool, n, prices.triples).forEach((sets, t) => {
    for (const j of sets) reduced[j]! += prices.triple[t]!;
  });
  const able = [...reduced.keys()].filter((j) => reduced[j]! <= room);
  if (able.length > MOST_SEARCHED) return undefined;
  const byValve: string[][] = Array.from({ length: n }, () => []);
  const bySize = new Map([...packing.made.keys()].map((s) => [s, [] as string[]]));
  for (const j of able) {
    for (let k = j * widest; k < j * widest + size[j]!; k++) byValve[members[k]!]!.push(`+ x${j}`);
    bySize.get(size[j]!)!.push(`+ x${j}`);
  }
  const text = [
    "Minimize",
    ` obj: ${terms(able.map((j) => `+ ${pool.cost[j]! / cost} x${j}`))}`,
    "Subject To",
    ...byValve.flatMap((sets, v) =>
      sets.length > 0 ? [` v${v}: ${terms(sets)} ${packing.isTight ? "=" : "<="} 1`] : [],
    ),
    ...[...bySize].flatMap(([s, sets]) => (sets.length > 0 ? [` s${s}: ${terms(sets)} = ${packing.made.get(s)}`] : [])),
    "Binary",
    ` ${terms(able.map((j) => `x${j}`))}`,
    "End",
  ].join("\n");
  const highs = await linearSolver();
  const result = highs.solve(text, { mip_rel_gap: 0, mip_abs_gap: 1e-9, time_limit: SEARCH_s, output_flag: false });
  if (result.Status === "Infeasible") return [];
  if (result.Status !== "Optimal") return undefined;
  const columns = result.Columns as Readonly<Record<string, { Primal?: number }>>;
  const taken = able.filter((j) => (columns[`x${j}`]?.Primal ?? 0) > 0.5);
  if (taken.reduce((sum, j) => sum + pool.cost[j]!, 0) >= cost) return [];
  return taken.map((j) => [...members.subarray(j * widest, j * widest + size[j]!)]);
}
