import { annealed } from "./annealed.ts";
import type { Boxes } from "./box.ts";
import { merged, numbersIn, type Pool, poolOf } from "./pool.ts";
import { type Packing, reducedCosts } from "./prices.ts";
import type { Proof } from "./provenPrices.ts";
import { isLate, type Order } from "./question.ts";
import { regrouped } from "./regions.ts";
import { windowed } from "./windows.ts";

const GENERATIONS = 30;
/** Groupings drawn in a generation, and exchanges tried for each valve. */
const DRAWN = 3;
const MOVES_A_VALVE = 2500;
const MOST_MOVES = 5e6;
/** How hot each begins, in mean costs of a set. */
const HOT = [0.15, 0.1, 0.12] as const;
const LOOKS = 2e6;
/**
 * Sets of least reduced cost that join those of the groupings, for each valve: more and more of them as generations stop
 * helping, and branch and bound is given longer.
 */
const JOINING = [
  { sets: 2, seconds: 3 },
  { sets: 4, seconds: 6 },
  { sets: 8, seconds: 20 },
] as const;
const TOGETHER = 500;
const MOST_STALE = 1;
/** Between stages all sets worth looking at are weighed, in windows that are soon decided. */
const WINDOW = { valves: 240, weighed: 5, seconds: 2 };
/** Nearer to the bound than this share it is not worth going on. */
const NEAR_ENOUGH = 1e-3;

/**
 * Betters a grouping by putting together the best sets of several: groupings are drawn by annealing and bettered
 * region by region, and branch and bound chooses among all their sets and those of least cost beside their worth.
 *
 * @param pool  sets worth looking at
 */
export async function recombined(
  space: Boxes,
  pool: Pool,
  proof: Proof,
  packing: Packing,
  start: readonly (readonly number[])[],
  order: Order,
): Promise<readonly (readonly number[])[]> {
  const { prices, bound } = proof;
  const n = packing.valves;
  const moves = Math.min(MOST_MOVES, MOVES_A_VALVE * n);
  const reduced = reducedCosts(pool, n, prices);
  const cheapestFirst = Uint32Array.from(reduced.keys()).sort((a, b) => reduced[a]! - reduced[b]!);
  const joining = (from: number, to: number) =>
    [...cheapestFirst.subarray(from * n, to * n)].map((j) => [
      ...pool.members.subarray(j * pool.widest, j * pool.widest + pool.size[j]!),
    ]);
  const costIn = (sets: Pool, numbers: readonly number[]) => numbers.reduce((sum, j) => sum + sets.cost[j]!, 0);
  let shelf = poolOf(space, pool.widest, [...start, ...joining(0, JOINING[0].sets)]);
  const more = (sets: readonly (readonly number[])[]) =>
    merged(shelf, poolOf(space, pool.widest, sets), prices, Number.POSITIVE_INFINITY);
  let best = start;
  let cost = costIn(shelf, best.map(numbersIn(shelf)));
  let stage = 0;
  for (let generation = 0, stale = 0; generation < GENERATIONS && !isLate(order); generation++) {
    const before = cost;
    const drawn: (readonly number[])[] = [];
    for (let i = 0; i < DRAWN && !isLate(order); i++) {
      const seed = generation * DRAWN + i + 1;
      const own = annealed(space, best, order, moves, HOT[i % HOT.length]!, seed);
      drawn.push(...regrouped(space, pool, prices, own, { left: LOOKS }, order.hasTime));
    }
    shelf = more(drawn);
    const number = numbersIn(shelf);
    for (let i = 0; i < drawn.length; i += best.length) {
      const own = drawn.slice(i, i + best.length);
      if (costIn(shelf, own.map(number)) < costIn(shelf, best.map(number))) best = own;
    }
    const { sets, seconds } = JOINING[stage]!;
    const turns = [{ valves: TOGETHER, weighed: 3 + 2 * sets, seconds }];
    best = await windowed(space, shelf, proof, packing, best, turns, order);
    cost = costIn(shelf, best.map(number));
    if (cost <= bound * (1 + NEAR_ENOUGH)) break;
    stale = cost < before * (1 - 1e-6) ? 0 : stale + 1;
    if (stale < MOST_STALE) continue;
    stale = 0;
    stage++;
    const wide = merged(shelf, pool, prices, Number.POSITIVE_INFINITY);
    best = await windowed(space, wide, proof, packing, best, [{ ...WINDOW, weighed: WINDOW.weighed * stage }], order);
    shelf = more(best);
    cost = costIn(shelf, best.map(numbersIn(shelf)));
    if (stage === JOINING.length) break;
    shelf = more(joining(JOINING[stage - 1]!.sets, JOINING[stage]!.sets));
  }
  return best;
}
