import { type Costing, isLate, type Order } from "./question.ts";

/** Up to so many valves every set that could matter is listed; a set is then the bits of one whole number. */
export const PROVEN_SETS = 24;
/** Enough for any sizes that 24 valves can fill at once. */
const MOST_LISTED = 5.5e6;
const MOST_STEPS = 3e7;

/** Sets by number; bit v of a mask is set where valve v is a member. */
export interface EverySet {
  readonly count: number;
  readonly mask: Int32Array;
  readonly cost: Float64Array;
  /** Sets of one size stand together. */
  readonly bySize: readonly { readonly size: number; readonly from: number; readonly to: number }[];
}

/**
 * All sets of the sizes wanted that cost no more than the ceiling of their size.
 *
 * @returns undefined where they are too many or time ends
 */
export function everySet(costing: Costing, order: Order, ceilings: ReadonlyMap<number, number>): EverySet | undefined {
  let mask = new Int32Array(1 << 14);
  let cost = new Float64Array(1 << 14);
  let listed = 0;
  let steps = 0;
  let ceiling = 0;
  let calls = 0;
  const weight = costing.weight ?? 1;
  const members: number[] = [];
  const add = (bits: number, own: number): void => {
    if (listed === mask.length) {
      mask = doubled(mask, new Int32Array(2 * listed));
      cost = doubled(cost, new Float64Array(2 * listed));
    }
    mask[listed] = bits;
    cost[listed++] = own;
  };
  const oneMore = costing.oneMore ?? ((others: readonly number[]) => (v: number) => costing.cost([...others, v]));
  const grow = (bits: number, from: number, missing: number): boolean => {
    steps += weight;
    if (steps > MOST_STEPS || listed > MOST_LISTED) return false;
    if (++calls % 4096 === 0 && isLate(order)) return false;
    if (costing.grows && members.length > 1 && costing.cost(members) > ceiling) return true;
    if (missing === 1) {
      const costWith = oneMore(members);
      for (let v = from; v < costing.count; v++) {
        const own = costWith(v);
        steps += weight - 1;
        if (own <= ceiling) add(bits | (1 << v), own);
      }
      return true;
    }
    for (let v = from; v <= costing.count - missing; v++) {
      members.push(v);
      const goesOn = grow(bits | (1 << v), v + 1, missing - 1);
      members.pop();
      if (!goesOn) return false;
    }
    return true;
  };
  const bySize: { size: number; from: number; to: number }[] = [];
  for (const size of order.sizes.keys()) {
    const from = listed;
    ceiling = ceilings.get(size)!;
    if (size <= costing.count && !grow(0, 0, size)) return undefined;
    bySize.push({ size, from, to: listed });
  }
  return { count: costing.count, mask: mask.subarray(0, listed), cost: cost.subarray(0, listed), bySize };
}

function doubled<T extends Int32Array | Float64Array>(old: T, larger: T): T {
  larger.set(old);
  return larger;
}

/** The cost of the cheapest set of so many valves; `known` is one that can be had. */
export function leastCost(costing: Costing, size: number, known: number): number {
  if (!costing.grows || size < 2) return 0;
  const oneMore = costing.oneMore ?? ((others: readonly number[]) => (v: number) => costing.cost([...others, v]));
  const members: number[] = [];
  let best = known;
  const grow = (from: number, missing: number): void => {
    if (members.length > 1 && costing.cost(members) >= best) return;
    if (missing === 1) {
      const costWith = oneMore(members);
      for (let v = from; v < costing.count; v++) best = Math.min(best, costWith(v));
      return;
    }
    for (let v = from; v <= costing.count - missing; v++) {
      members.push(v);
      grow(v + 1, missing - 1);
      members.pop();
    }
  };
  if (size <= costing.count) grow(0, size);
  return best;
}

export function membersOf(mask: number): number[] {
  const members: number[] = [];
  for (let rest = mask; rest !== 0; rest &= rest - 1) members.push(31 - Math.clz32(rest & -rest));
  return members;
}

/** Sums of a valve's number over the members of a set, by three look-ups. */
export function sumsOver(values: ArrayLike<number>): (mask: number) => number {
  const table = (shift: number): Float64Array => {
    const sums = new Float64Array(256);
    for (let bits = 1; bits < 256; bits++) {
      const lowest = 31 - Math.clz32(bits & -bits);
      sums[bits] = sums[bits & (bits - 1)]! + (values[shift + lowest] ?? 0);
    }
    return sums;
  };
  const [low, middle, high] = [table(0), table(8), table(16)];
  return (mask) => low[mask & 255]! + middle[(mask >> 8) & 255]! + high[mask >> 16]!;
}
