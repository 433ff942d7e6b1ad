import type { Boxes } from "./box.ts";
import { leastOf, type Pool } from "./pool.ts";
import type { Prices } from "./prices.ts";

/** Valves of one region; a set is then the bits of one whole number. */
const TOGETHER = 28;
/** The same where valves in no set may be brought in, and with those. */
const TOGETHER_WITH_SPARE = 24;
const MOST_BITS = 31;
const MOST_LOOKS_A_REGION = 20_000;
/** Sets of each valve that say with which other sets it might be grouped anew. */
const WISHED = 6;
const MOST_PASSES = 12;

/**
 * Betters a grouping by regions: a few sets that lie together are undone and their valves grouped anew in the best way
 * that the pool's sets allow, region by region, until none helps or the looks are used up.
 *
 * Prices near the best ones make every set's cost less worth about 0 or more, so that most choices are cut off at
 * once. They also tell what to undo together: the sets that one well-priced set of the pool would take valves from.
 */
export function regrouped(
  boxes: Boxes,
  pool: Pool,
  prices: Prices,
  groups: readonly (readonly number[])[],
  looks: { left: number },
  hasTime?: () => boolean,
): number[][] {
  const sets = groups.map((group) => [...group]);
  const n = boxes.count;
  const inSet = new Int32Array(n).fill(-1);
  sets.forEach((set, i) => {
    for (const v of set) inSet[v] = i;
  });
  const place = new Int32Array(n).fill(-1);
  const centres = sets.map((set) => centreOf(boxes, set));
  const reduced = new Float64Array(pool.count);
  for (let j = 0; j < pool.count; j++) {
    let figure = pool.cost[j]! - prices.size.get(pool.size[j]!)!;
    for (let k = j * pool.widest; k < (j + 1) * pool.widest; k++) figure -= prices.valve[pool.members[k]!]!;
    reduced[j] = figure;
  }
  const wished = wishedSets(pool, n, reduced);
  const figureOf = (set: readonly number[]): number =>
    set.reduce((sum, v) => sum - prices.valve[v]!, costOf(boxes, set) - prices.size.get(set.length)!);
  const hasSpare = inSet.includes(-1);
  const together = hasSpare ? TOGETHER_WITH_SPARE : TOGETHER;
  const tryRegion = (region: readonly number[], wish = -1): boolean => {
    if (region.reduce((sum, i) => sum + sets[i]!.length, 0) > MOST_BITS) return false;
    const spare = hasSpare ? wishedSpare(pool, region, sets, inSet, wished, wish) : [];
    const before = region.map((i) => sets[i]!);
    const better = bestInRegion(boxes, pool, prices, reduced, place, before, spare, looks);
    if (better === undefined) return false;
    for (const set of before) for (const v of set) inSet[v] = -1;
    const bySize = [...region].sort((a, b) => sets[a]!.length - sets[b]!.length);
    const fresh = better.sort((a, b) => a.length - b.length);
    bySize.forEach((i, k) => {
      sets[i] = fresh[k]!;
      centres[i] = centreOf(boxes, fresh[k]!);
      for (const v of fresh[k]!) inSet[v] = i;
    });
    return true;
  };
  const inOrder = Uint32Array.from({ length: n * WISHED }, (_, i) => i)
    .filter((i) => wished[i]! >= 0)
    .sort((a, b) => reduced[wished[a]!]! - reduced[wished[b]!]!);
  const done = new Uint8Array(pool.count);
  const goesOn = () => looks.left > 0 && hasTime?.() !== false;
  for (let pass = 0, helped = true; helped && pass < MOST_PASSES && goesOn(); pass++) {
    helped = false;
    for (let g = 0; g < sets.length && goesOn(); g++) {
      if (tryRegion(regionOf(sets, centres, g, pass, together))) helped = true;
    }
    const worst = hasSpare ? dearestFirst(sets, figureOf) : [];
    done.fill(0);
    for (const i of inOrder) {
      if (!goesOn()) break;
      const wish = wished[i]!;
      if (done[wish]) continue;
      done[wish] = 1;
      const region = touched(pool, wish, inSet, wished, sets, together);
      // A set of valves left over may take the place of a dear one elsewhere.
      const far = worst.find((w) => sets[w]!.length === pool.size[wish]! && !region.includes(w));
      if (far !== undefined) region.push(far);
      if (region.length > (hasSpare ? 0 : 1) && tryRegion(region, wish)) {
        helped = true;
        if (far !== undefined) worst.splice(0, worst.length, ...dearestFirst(sets, figureOf));
      }
    }
  }
  return sets;
}

/** The best-priced sets that hold each valve, WISHED places a valve, −1 where there are fewer. */
function wishedSets(pool: Pool, valves: number, reduced: Float64Array): Int32Array {
  const wished = new Int32Array(valves * WISHED).fill(-1);
  for (let j = 0; j < pool.count; j++) {
    for (let k = j * pool.widest; k < j * pool.widest + pool.size[j]!; k++) {
      const from = pool.members[k]! * WISHED;
      let at = from + WISHED - 1;
      if (wished[at]! >= 0 && reduced[wished[at]!]! <= reduced[j]!) continue;
      for (; at > from && (wished[at - 1]! < 0 || reduced[wished[at - 1]!]! > reduced[j]!); at--) {
        wished[at] = wished[at - 1]!;
      }
      wished[at] = j;
    }
  }
  return wished;
}

/** The sets that a wished set takes valves from, then those that the wishes of their valves do, as far as there is room. */
function touched(
  pool: Pool,
  wish: number,
  inSet: Int32Array,
  wished: Int32Array,
  sets: readonly (readonly number[])[],
  together: number,
): number[] {
  const region: number[] = [];
  let valves = 0;
  const take = (j: number): void => {
    for (let k = j * pool.widest; k < j * pool.widest + pool.size[j]!; k++) {
      const i = inSet[pool.members[k]!]!;
      if (i < 0 || region.includes(i) || valves + sets[i]!.length > together) continue;
      region.push(i);
      valves += sets[i]!.length;
    }
  };
  take(wish);
  for (let rank = 0; rank < WISHED && valves < together; rank++) {
    for (const i of [...region]) {
      for (const v of sets[i]!) if (wished[v * WISHED + rank]! >= 0) take(wished[v * WISHED + rank]!);
    }
  }
  return region;
}

export function centreOf({ features, at }: Boxes, set: readonly number[]): Float64Array {
  const centre = new Float64Array(features);
  for (const v of set) for (let f = 0; f < features; f++) centre[f]! += at[v * features + f]! / set.length;
  return centre;
}

/** A set and those nearest to it; on later passes some are passed over, so that regions overlap in other ways. */
function regionOf(
  sets: readonly (readonly number[])[],
  centres: readonly Float64Array[],
  g: number,
  pass: number,
  together: number,
): number[] {
  const far = Float64Array.from(centres, (centre) => {
    let sum = 0;
    for (let f = 0; f < centre.length; f++) sum += Math.abs(centre[f]! - centres[g]![f]!);
    return sum;
  });
  far[g] = -1;
  const region: number[] = [];
  let valves = 0;
  for (const [rank, i] of leastOf(far, 16).entries()) {
    if (rank > 0 && pass > 0 && Math.imul(g * 31 + rank, 0x9e3779b1 + pass * 0x85ebca6b) >>> 30 === 0) continue;
    if (valves + sets[i]!.length > together) break;
    region.push(i);
    valves += sets[i]!.length;
  }
  return region;
}

/** Valves left over that the wish, or the wishes of the region's valves, would bring in. */
function wishedSpare(
  pool: Pool,
  region: readonly number[],
  sets: readonly (readonly number[])[],
  inSet: Int32Array,
  wished: Int32Array,
  wish: number,
): number[] {
  const most = MOST_BITS - region.reduce((sum, i) => sum + sets[i]!.length, 0);
  const spare: number[] = [];
  const take = (j: number): void => {
    for (let k = j * pool.widest; k < j * pool.widest + pool.size[j]!; k++) {
      const v = pool.members[k]!;
      if (inSet[v] === -1 && spare.length < most && !spare.includes(v)) spare.push(v);
    }
  };
  if (wish >= 0) take(wish);
  for (let rank = 0; rank < WISHED && spare.length < most; rank++) {
    for (const i of region) {
      for (const v of sets[i]!) if (wished[v * WISHED + rank]! >= 0) take(wished[v * WISHED + rank]!);
    }
  }
  return spare;
}

function dearestFirst(sets: readonly (readonly number[])[], figureOf: (set: readonly number[]) => number): number[] {
  const figures = sets.map(figureOf);
  return [...figures.keys()].sort((a, b) => figures[b]! - figures[a]!);
}

/** The cheapest grouping of a region into sets of the sizes it had; undefined when there is none cheaper. */
function bestInRegion(
  boxes: Boxes,
  pool: Pool,
  prices: Prices,
  reduced: Float64Array,
  place: Int32Array,
  sets: readonly (readonly number[])[],
  spare: readonly number[],
  looks: { left: number },
): number[][] | undefined {
  const valves = [...sets.flat(), ...spare].sort((a, b) => a - b);
  const count = valves.length;
  valves.forEach((v, i) => {
    place[v] = i;
  });
  const { widest, members, start } = pool;
  const byFirst: { mask: number; figure: number; set: number; size: number }[][] = valves.map((v) => {
    const own = [];
    for (let j = start[v]!; j < start[v + 1]!; j++) {
      let mask = 0;
      let k = j * widest;
      for (; k < (j + 1) * widest; k++) {
        const member = members[k]!;
        if (member === boxes.count) continue;
        const at = place[member]!;
        if (at < 0) break;
        mask |= 1 << at;
      }
      if (k === (j + 1) * widest) own.push({ mask, figure: reduced[j]!, set: j, size: pool.size[j]! });
    }
    return own.sort((a, b) => a.figure - b.figure);
  });
  looks.left -= 20 * count;
  for (const v of valves) place[v] = -1;
  // Left out, a valve takes its price with it.
  const passedOver = valves.map((v) => -prices.valve[v]!);
  const least = byFirst.map((own, i) => Math.min(0, own[0]?.figure ?? 0, spare.length > 0 ? passedOver[i]! : 0));
  const ahead = new Float64Array(count + 1);
  for (let i = count - 1; i >= 0; i--) ahead[i] = ahead[i + 1]! + least[i]!;

  const worth = (set: readonly number[]): number =>
    set.reduce((sum, v) => sum + prices.valve[v]!, prices.size.get(set.length)!);
  const everyPrice = valves.reduce((sum, v) => sum + prices.valve[v]!, 0);
  const usedWorth = sets.reduce((sum, set) => sum + worth(set), 0);
  const setsWorth = sets.reduce((sum, set) => sum + prices.size.get(set.length)!, 0);
  const now = sets.reduce((sum, set) => sum + costOf(boxes, set), 0);
  // Cost is the sum of reduced figures, and of what is passed over, above all that the region is worth.
  let best = now - everyPrice - setsWorth - 1e-10 * (1 + Math.abs(usedWorth));
  let found: number[] | undefined;
  const left = new Int32Array(widest + 1);
  for (const set of sets) left[set.length]!++;
  let setsLeft = sets.length;
  let skips = count - sets.reduce((sum, set) => sum + set.length, 0);
  const chosen: number[] = [];
  let budget = MOST_LOOKS_A_REGION;
  const go = (used: number, spent: number): void => {
    if (setsLeft === 0) {
      let total = spent;
      for (let i = 0; i < count; i++) if (!((used >> i) & 1)) total += passedOver[i]!;
      if (total < best) {
        best = total;
        found = [...chosen];
      }
      return;
    }
    const first = 31 - Math.clz32(~used & -~used);
    if (first >= count || budget <= 0) return;
    for (const { mask, figure, set, size } of byFirst[first]!) {
      budget--;
      if (spent + figure + ahead[first + 1]! >= best) break;
      if ((mask & used) !== 0 || left[size] === 0) continue;
      left[size]!--;
      setsLeft--;
      chosen.push(set);
      go(used | mask, spent + figure);
      chosen.pop();
      setsLeft++;
      left[size]!++;
    }
    if (skips > 0 && spent + passedOver[first]! + ahead[first + 1]! < best) {
      skips--;
      go(used | (1 << first), spent + passedOver[first]!);
      skips++;
    }
  };
  go(0, 0);
  looks.left -= MOST_LOOKS_A_REGION - budget;
  return found?.map((j) => [...members.subarray(j * widest, j * widest + pool.size[j]!)]);
}

function costOf({ features, at }: Boxes, set: readonly number[]): number {
  let sum = 0;
  for (let f = 0; f < features; f++) {
    let low = Number.POSITIVE_INFINITY;
    let high = Number.NEGATIVE_INFINITY;
    for (const v of set) {
      low = Math.min(low, at[v * features + f]!);
      high = Math.max(high, at[v * features + f]!);
    }
    sum += high - low;
  }
  return sum;
}
