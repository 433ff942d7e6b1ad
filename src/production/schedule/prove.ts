import type { JobShop } from "./jobShop.ts";
import { type Knowledge, knowledge } from "./propagate.ts";

/** A search through all schedules not longer than a limit, which can be halted and taken up again. */
export interface Proof {
  /**
   * Looks at up to `branches` more.
   *
   * @returns "open" when not through yet, "none" when proved that there is no such schedule, else one, as orders
   */
  search(branches: number): "open" | "none" | readonly Int32Array[];
}

/**
 * Depth first over the order of pairs at one place; every decision is followed up by propagation. Pairs that ended in
 * contradictions before are decided early.
 *
 * @source branching on pairs: Carlier and Pinson 1989; weights of past contradictions: F. Boussemart et al., ECAI 2004;
 *   D. Grimes and E. Hebrard, INFORMS J. Computing 27 (2015) 268-284 (remembered)
 */
export function proof(shop: JobShop, limit: number, known: Knowledge = knowledge(shop, limit)): Proof {
  const { lasts, places } = shop;
  const { heads, tails } = known;
  const weights = places.map((members) => new Float64Array(members.length ** 2).fill(1));
  const stack: { mark: number; first: number; second: number; place: number; at: number; isLast: boolean }[] = [];
  let done: "none" | readonly Int32Array[] | undefined;

  function choose(): { first: number; second: number; place: number; at: number } | undefined {
    let chosen: { first: number; second: number; place: number; at: number } | undefined;
    let least = Number.POSITIVE_INFINITY;
    for (let place = 0; place < places.length; place++) {
      const members = places[place]!;
      const n = members.length;
      for (let k = 0; k < n; k++) {
        for (let l = k + 1; l < n; l++) {
          if (known.isBefore(place, k, l) || known.isBefore(place, l, k)) continue;
          const [i, j] = [members[k]!, members[l]!];
          const both = lasts[i]! + lasts[j]!;
          const spareFirst = limit - (heads[i]! + both + tails[j]!);
          const spareSecond = limit - (heads[j]! + both + tails[i]!);
          const score = (spareFirst + spareSecond + 1) / weights[place]![k * n + l]!;
          if (score >= least) continue;
          least = score;
          const inOrder = spareFirst >= spareSecond;
          chosen = { first: inOrder ? i : j, second: inOrder ? j : i, place, at: k * n + l };
        }
      }
    }
    return chosen;
  }

  function backtrack(): boolean {
    for (let top = stack.at(-1); top !== undefined; top = stack.at(-1)) {
      known.undoTo(top.mark);
      if (!top.isLast) {
        top.isLast = true;
        known.decide(top.second, top.first);
        return true;
      }
      stack.pop();
    }
    return false;
  }

  return {
    search(branches) {
      if (done !== undefined) return done;
      for (let n = 0; n < branches; n++) {
        if (!known.propagate()) {
          const top = stack.at(-1);
          if (top !== undefined) weights[top.place]![top.at]! += 1;
          if (!backtrack()) {
            done = "none";
            return done;
          }
          continue;
        }
        const pair = choose();
        if (pair === undefined) {
          done = ordersBy(places, heads, tails);
          return done;
        }
        stack.push({ mark: known.mark(), ...pair, isLast: false });
        known.decide(pair.first, pair.second);
      }
      return "open";
    },
  };
}

/** Every pair settled: heads are then a schedule; operations of no length that start together go by their tails. */
function ordersBy(places: readonly Int32Array[], heads: Float64Array, tails: Float64Array): Int32Array[] {
  return places.map((members) =>
    members.slice().sort((a, b) => heads[a]! - heads[b]! || tails[b]! - tails[a]! || a - b),
  );
}

/**
 * Tries both orders of every pair that is still open, and keeps the other where one leads to a contradiction, until
 * nothing moves any more. Pauses after every pair tried; what was found till then stays.
 *
 * @returns false when no schedule within the limit is left
 */
export function* shave({ places }: JobShop, known: Knowledge): Generator<void, boolean> {
  const isRefuted = (first: number, second: number): boolean => {
    const mark = known.mark();
    known.decide(first, second);
    const isPossible = known.propagate();
    known.undoTo(mark);
    return !isPossible;
  };
  if (!known.propagate()) return false;
  for (let moved = true; moved; ) {
    moved = false;
    for (const [place, k, l] of pairsOf(places)) {
      if (known.isBefore(place, k, l) || known.isBefore(place, l, k)) continue;
      const [i, j] = [places[place]![k]!, places[place]![l]!];
      const isSecond = isRefuted(i, j);
      if (isSecond || isRefuted(j, i)) {
        if (isSecond) known.decide(j, i);
        else known.decide(i, j);
        if (!known.propagate()) return false;
        moved = true;
      }
      yield;
    }
  }
  return true;
}

function* pairsOf(places: readonly Int32Array[]): Generator<readonly [place: number, k: number, l: number]> {
  for (let place = 0; place < places.length; place++) {
    const n = places[place]!.length;
    for (let k = 0; k < n; k++) for (let l = k + 1; l < n; l++) yield [place, k, l];
  }
}
