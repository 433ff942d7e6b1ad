import type { Random } from "../../maths/random.ts";
import { type JobShop, makespanOf, startsOf } from "./jobShop.ts";

/**
 * A first schedule: of the operations that could end first at their place, the one with most work left in its job goes
 * next; the best of some such rules.
 *
 * @source B. Giffler and G. L. Thompson, Operations Research 8 (1960) 487-503 (remembered)
 */
export function firstSchedule(shop: JobShop, random: Random): Int32Array[] {
  let best: Int32Array[] = [];
  let shortest = Number.POSITIVE_INFINITY;
  const tries = Math.max(3, Math.min(40, Math.floor(200_000 / Math.max(1, shop.size ** 2))));
  for (let n = 0; n < tries; n++) {
    const orders = dispatched(shop, n === 0 ? () => 1 : () => 0.8 + 0.4 * random.uniform());
    const makespan = makespanOf(startsOf(shop, orders, shop.lasts)!, shop.lasts);
    if (makespan < shortest) {
      shortest = makespan;
      best = orders;
    }
  }
  return best;
}

function dispatched({ size, lasts, after, placeOf, places, firstOf }: JobShop, weight: () => number): Int32Array[] {
  const left = new Float64Array(size);
  for (let i = size - 1; i >= 0; i--) left[i] = lasts[i]! + (after[i]! >= 0 ? left[after[i]!]! : 0);
  const orders = places.map((): number[] => []);
  const free = new Float64Array(places.length);
  const ready = new Map<number, number>();
  for (let j = 0; j + 1 < firstOf.length; j++) if (firstOf[j]! < firstOf[j + 1]!) ready.set(firstOf[j]!, 0);
  while (ready.size > 0) {
    let place = -1;
    let soonest = Number.POSITIVE_INFINITY;
    for (const [i, from] of ready) {
      const end = Math.max(from, free[placeOf[i]!]!) + lasts[i]!;
      if (end < soonest) [place, soonest] = [placeOf[i]!, end];
    }
    let next = -1;
    let most = Number.NEGATIVE_INFINITY;
    for (const [i, from] of ready) {
      if (placeOf[i] !== place || (Math.max(from, free[place]!) >= soonest && lasts[i]! > 0)) continue;
      const rank = left[i]! * weight();
      if (rank > most) [next, most] = [i, rank];
    }
    const end = Math.max(ready.get(next)!, free[place]!) + lasts[next]!;
    orders[place]!.push(next);
    free[place] = end;
    ready.delete(next);
    if (after[next]! >= 0) ready.set(after[next]!, end);
  }
  return orders.map((order) => Int32Array.from(order));
}
