import type { Boxes } from "./box.ts";

/** What a set must earn back: prices of its members and the worth of a set of its size. */
export interface Worths {
  /** By valve, and 0 for no valve at the end. */
  readonly valve: Float64Array;
  readonly size: ReadonlyMap<number, number>;
}

/** Sets worth looking at, filed by their first member. */
export interface Pool {
  readonly widest: number;
  readonly count: number;
  /** Sets of valve v stand from start[v] to start[v + 1]. */
  readonly start: Int32Array;
  /** Members of set j from j·widest on, filled up with the number of valves for none. */
  readonly members: Int32Array;
  readonly size: Uint8Array;
  readonly cost: Float64Array;
  /** By first member: no set that is left out has a lower cost less worth than this. */
  readonly leftOut: Float64Array;
}

/** Sets of unlike sizes in one pool; what is left out of either is left out of both. */
export function joined(some: Pool, more: Pool): Pool {
  const n = some.start.length - 1;
  const widest = Math.max(some.widest, more.widest);
  const start = new Int32Array(n + 1);
  const members: number[] = [];
  const size: number[] = [];
  const cost: number[] = [];
  for (let v = 0; v < n; v++) {
    for (const pool of [some, more]) {
      for (let j = pool.start[v]!; j < pool.start[v + 1]!; j++) {
        for (let k = 0; k < widest; k++) members.push(k < pool.widest ? pool.members[j * pool.widest + k]! : n);
        size.push(pool.size[j]!);
        cost.push(pool.cost[j]!);
      }
    }
    start[v + 1] = size.length;
  }
  return {
    widest,
    count: size.length,
    start,
    members: Int32Array.from(members),
    size: Uint8Array.from(size),
    cost: Float64Array.from(cost),
    leftOut: Float64Array.from({ length: n }, (_, v) => Math.min(some.leftOut[v]!, more.leftOut[v]!)),
  };
}

/** So many members of up to 2,000 valves fit one whole number. */
const IN_ONE = 4;

/** Sets being gathered, their members in order and written as whole numbers that sort by first member. */
class Gathered {
  readonly #valves: number;
  readonly #widest: number;
  readonly #keys: number[][];
  readonly #size: number[] = [];
  readonly #cost: number[] = [];

  constructor(valves: number, widest: number) {
    this.#valves = valves;
    this.#widest = widest;
    this.#keys = Array.from({ length: Math.ceil(widest / IN_ONE) }, () => []);
  }

  /** @param from  where the set's members begin; they stand in order and are filled up with the number of valves */
  add(members: ArrayLike<number>, from: number, size: number, cost: number): void {
    this.#keys.forEach((keys, part) => {
      let key = 0;
      for (let k = part * IN_ONE; k < (part + 1) * IN_ONE; k++) {
        key = key * (this.#valves + 1) + (k < this.#widest ? members[from + k]! : this.#valves);
      }
      keys.push(key);
    });
    this.#size.push(size);
    this.#cost.push(cost);
  }

  /** Each set once. */
  pool(): Pool {
    const n = this.#valves;
    const widest = this.#widest;
    const order = sortedBy(this.#keys);
    const start = new Int32Array(n + 1);
    const members: number[] = [];
    const size: number[] = [];
    const cost: number[] = [];
    let last = -1;
    for (const i of order) {
      if (last >= 0 && this.#keys.every((keys) => keys[i] === keys[last])) continue;
      last = i;
      const own = new Array<number>(widest).fill(n);
      this.#keys.forEach((keys, part) => {
        let rest = keys[i]!;
        for (let k = (part + 1) * IN_ONE - 1; k >= part * IN_ONE; k--) {
          if (k < widest) own[k] = rest % (n + 1);
          rest = Math.floor(rest / (n + 1));
        }
      });
      members.push(...own);
      size.push(this.#size[i]!);
      cost.push(this.#cost[i]!);
      start[own[0]! + 1]!++;
    }
    for (let v = 0; v < n; v++) start[v + 1]! += start[v]!;
    return {
      widest,
      count: size.length,
      start,
      members: Int32Array.from(members),
      size: Uint8Array.from(size),
      cost: Float64Array.from(cost),
      leftOut: new Float64Array(n).fill(Number.NEGATIVE_INFINITY),
    };
  }
}

/** Numbers of the sets, sorted by the first key, among equals by the next. */
function sortedBy(keys: readonly (readonly number[])[]): Uint32Array {
  const order = Uint32Array.from({ length: keys[0]!.length }, (_, i) => i);
  return order.sort((a, b) => {
    for (const own of keys) {
      const difference = own[a]! - own[b]!;
      if (difference !== 0) return difference;
    }
    return 0;
  });
}

/** Both pools in one; of the first only sets whose cost less worth is below `within` and a quarter of the cost. */
export function merged(old: Pool, fresh: Pool, worths: Worths, within: number): Pool {
  const { widest } = fresh;
  const n = fresh.start.length - 1;
  const sets = new Gathered(n, widest);
  for (const pool of [fresh, old]) {
    for (let j = 0; j < pool.count; j++) {
      let figure = pool.cost[j]! - worths.size.get(pool.size[j]!)!;
      for (let k = j * widest; k < (j + 1) * widest; k++) figure -= worths.valve[pool.members[k]!]!;
      if (pool === old && figure >= within + 0.25 * pool.cost[j]!) continue;
      sets.add(pool.members, j * widest, pool.size[j]!, pool.cost[j]!);
    }
  }
  return sets.pool();
}

/** The given sets alone, at the cost that `costed` tells. */
export function poolOfSets(
  valves: number,
  widest: number,
  groups: readonly (readonly number[])[],
  costed: (set: readonly number[]) => { readonly cost: number },
): Pool {
  const sets = new Gathered(valves, widest);
  for (const group of groups) {
    const ordered = [...group].sort((a, b) => a - b);
    const { cost } = costed(group);
    while (ordered.length < widest) ordered.push(valves);
    sets.add(ordered, 0, group.length, cost);
  }
  return sets.pool();
}

/** The given sets alone. */
export function poolOf(boxes: Boxes, widest: number, groups: readonly (readonly number[])[]): Pool {
  const sets = new Gathered(boxes.count, widest);
  for (const group of groups) addTo(sets, boxes, widest, group, group.length, Number.MAX_VALUE);
  return sets.pool();
}

function addTo(
  sets: Gathered,
  { count: n, features, at }: Boxes,
  widest: number,
  set: ArrayLike<number>,
  size: number,
  limit: number,
): void {
  let cost = 0;
  for (let f = 0; f < features; f++) {
    let low = Number.POSITIVE_INFINITY;
    let high = Number.NEGATIVE_INFINITY;
    for (let i = 0; i < size; i++) {
      const x = at[set[i]! * features + f]!;
      if (x < low) low = x;
      if (x > high) high = x;
    }
    cost += high - low;
  }
  if (cost > limit) return;
  const ordered = new Int32Array(widest).fill(n);
  for (let i = 0; i < size; i++) {
    let to = i;
    for (; to > 0 && ordered[to - 1]! > set[i]!; to--) ordered[to] = ordered[to - 1]!;
    ordered[to] = set[i]!;
  }
  sets.add(ordered, 0, size, cost);
}

/** Sets of each valve with its nearest neighbours, so that none goes without, and the sets given. */
export function neighbourSets(
  boxes: Boxes,
  sizes: readonly number[],
  limit: number,
  perValve: number,
  given: readonly (readonly number[])[],
): Pool {
  const { count: n, features, at } = boxes;
  const widest = Math.max(...sizes);
  const sets = new Gathered(n, widest);
  const far = new Float64Array(n);
  for (const set of given) addTo(sets, boxes, widest, set, set.length, limit);
  const chosen = new Int32Array(widest);
  for (let v = 0; v < n; v++) {
    for (let a = 0; a < n; a++) {
      let sum = 0;
      for (let f = 0; f < features; f++) sum += Math.abs(at[a * features + f]! - at[v * features + f]!);
      far[a] = sum;
    }
    far[v] = Number.POSITIVE_INFINITY;
    const near = leastOf(far, Math.min(n - 1, 24));
    chosen[0] = v;
    for (const size of sizes) {
      let reach = Math.min(size - 1, near.length);
      while (reach < near.length && choose(reach + 1, size - 1) <= perValve) reach++;
      const grow = (depth: number, from: number): void => {
        if (depth === size) addTo(sets, boxes, widest, chosen, size, limit);
        else
          for (let i = from; i <= reach - (size - depth); i++) {
            chosen[depth] = near[i]!;
            grow(depth + 1, i + 1);
          }
      };
      grow(1, 0);
    }
  }
  return sets.pool();
}

/** Places of the smallest values, in order. */
export function leastOf(values: ArrayLike<number>, count: number): number[] {
  const kept: number[] = [];
  for (let i = 0; i < values.length; i++) {
    const value = values[i]!;
    if (kept.length === count && (count === 0 || value >= values[kept[count - 1]!]!)) continue;
    let at = kept.length;
    while (at > 0 && values[kept[at - 1]!]! > value) at--;
    kept.splice(at, 0, i);
    if (kept.length > count) kept.pop();
  }
  return kept;
}

function choose(n: number, k: number): number {
  let product = 1;
  for (let i = 1; i <= k; i++) product *= (n - k + i) / i;
  return product;
}

/** The number of a set in the pool. */
export function numbersIn(pool: Pool): (set: readonly number[]) => number {
  return (set) => {
    const sorted = [...set].sort((a, b) => a - b);
    for (let j = pool.start[sorted[0]!]!; j < pool.start[sorted[0]! + 1]!; j++) {
      if (pool.size[j] === sorted.length && sorted.every((v, k) => pool.members[j * pool.widest + k] === v)) return j;
    }
    throw new Error(`the set ${sorted.join(", ")} is not in the pool`);
  };
}
