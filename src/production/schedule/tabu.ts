import type { Random } from "../../maths/random.ts";
import type { JobShop } from "./jobShop.ts";

/** Improves a schedule step by step; what it holds at any time is the best so far. */
export interface Improver {
  /** Does some steps. */
  improve(steps: number): void;
  /** Starts again from another schedule, a better one found elsewhere. */
  adopt(orders: readonly Int32Array[]): void;
  readonly best: Schedule;
}

/** Steps without a better schedule before the search goes back to a good one and leaves it another way. */
const patience = 1500;
const mostKept = 8;

/**
 * Tabu search: along a longest path, one operation of a block on one place is moved to its end or its start (or an end
 * into it), the move whose estimate is shortest, unless it would restore an order given up a short while ago.
 *
 * @source E. Nowicki and C. Smutnicki, Management Science 42 (1996) 797-813; E. Balas and A. Vazacopoulos, Management
 *   Science 44 (1998) 262-275 (conditions and estimates); C. Zhang et al., Computers & Operations Research 34 (2007)
 *   3229-3242 (all remembered)
 */
export function tabuSearch(shop: JobShop, start: readonly Int32Array[], random: Random): Improver {
  const { size, lasts, before, after, placeOf, places } = shop;
  const orders = start.map((order) => order.slice());
  const spot = new Int32Array(size);
  const heads = new Float64Array(size);
  /** Longest way from an operation's end to the end of all. */
  const tails = new Float64Array(size);
  const sequence = new Int32Array(size);
  const waits = new Int32Array(size);
  /** Step until which `a before b` on one place must not be restored, by the operations' numbers within the place. */
  const local = new Int32Array(size);
  const banned = places.map((members) => new Int32Array(members.length * members.length));
  for (const members of places)
    members.forEach((i, k) => {
      local[i] = k;
    });

  let makespan = 0;
  let step = 0;
  let lastBetter = 0;
  let best: Schedule = { orders: start, makespan: Number.POSITIVE_INFINITY };
  /** Best of the walk since it last left a good schedule. */
  let walk = best;
  const pool: Schedule[] = [];

  function place(order: Int32Array): void {
    for (let k = 0; k < order.length; k++) spot[order[k]!] = k;
  }
  const previous = (i: number): number => (spot[i]! > 0 ? orders[placeOf[i]!]![spot[i]! - 1]! : -1);
  const following = (i: number): number => orders[placeOf[i]!]![spot[i]! + 1] ?? -1;
  const headAfter = (i: number): number => (i < 0 ? 0 : heads[i]! + lasts[i]!);
  const tailBefore = (i: number): number => (i < 0 ? 0 : tails[i]! + lasts[i]!);

  /** Heads and tails anew; false when the orders go round in a circle. */
  function measure(): boolean {
    let count = 0;
    for (let i = 0; i < size; i++) {
      waits[i] = (before[i]! >= 0 ? 1 : 0) + (spot[i]! > 0 ? 1 : 0);
      if (waits[i] === 0) sequence[count++] = i;
    }
    makespan = 0;
    for (let k = 0; k < count; k++) {
      const i = sequence[k]!;
      heads[i] = Math.max(headAfter(before[i]!), headAfter(previous(i)));
      makespan = Math.max(makespan, heads[i]! + lasts[i]!);
      const inJob = after[i]!;
      if (inJob >= 0 && --waits[inJob]! === 0) sequence[count++] = inJob;
      const atPlace = following(i);
      if (atPlace >= 0 && --waits[atPlace]! === 0) sequence[count++] = atPlace;
    }
    if (count < size) return false;
    for (let k = size - 1; k >= 0; k--) {
      const i = sequence[k]!;
      tails[i] = Math.max(tailBefore(after[i]!), tailBefore(following(i)));
    }
    return true;
  }

  /** A longest path by chance among several, as blocks of neighbours in one place. */
  function blocks(): number[][] {
    const isLongest = (i: number): boolean => heads[i]! + lasts[i]! + tails[i]! === makespan;
    let at = -1;
    let seen = 0;
    for (let i = 0; i < size; i++) {
      if (heads[i] === 0 && isLongest(i) && random.integer(++seen) === 0) at = i;
    }
    const found: number[][] = [];
    let block: number[] = [];
    while (at >= 0) {
      block.push(at);
      const end = heads[at]! + lasts[at]!;
      const inJob = after[at]!;
      const atPlace = following(at);
      const viaJob = inJob >= 0 && heads[inJob] === end && isLongest(inJob);
      const viaPlace = atPlace >= 0 && heads[atPlace] === end && isLongest(atPlace);
      const stays = viaPlace && (!viaJob || random.integer(2) === 0);
      const next = stays ? atPlace : viaJob ? inJob : -1;
      if (next < 0 || placeOf[next] !== placeOf[at] || !stays) {
        if (block.length > 1) found.push(block);
        block = [];
      }
      at = next;
    }
    return found;
  }

  /** Estimated longest path through the moved operations when the one at `from` goes to `to`. */
  function estimate(order: Int32Array, from: number, to: number): number {
    const moved = order[from]!;
    const ahead = from < to;
    const [low, high] = ahead ? [from, to] : [to, from];
    let length = 0;
    let end = low > 0 ? headAfter(order[low - 1]!) : 0;
    const newHead = scratchHeads;
    const newOrder = scratchOrder;
    let n = 0;
    if (!ahead) newOrder[n++] = moved;
    for (let k = low; k <= high; k++) if (k !== from) newOrder[n++] = order[k]!;
    if (ahead) newOrder[n++] = moved;
    for (let k = 0; k < n; k++) {
      const i = newOrder[k]!;
      newHead[k] = Math.max(headAfter(before[i]!), end);
      end = newHead[k]! + lasts[i]!;
    }
    let tail = high + 1 < order.length ? tailBefore(order[high + 1]!) : 0;
    for (let k = n - 1; k >= 0; k--) {
      const i = newOrder[k]!;
      tail = Math.max(tailBefore(after[i]!), tail);
      length = Math.max(length, newHead[k]! + lasts[i]! + tail);
      tail += lasts[i]!;
    }
    return length;
  }
  const longestOrder = places.reduce((most, members) => Math.max(most, members.length), 1);
  const scratchHeads = new Float64Array(longestOrder);
  const scratchOrder = new Int32Array(longestOrder);

  /** A path through the job's neighbour would close a circle; enough by lengths, checked after for operations of no length. */
  function isSafe(order: Int32Array, from: number, to: number): boolean {
    const moved = order[from]!;
    const other = order[to]!;
    if (from < to) return after[moved]! < 0 || tailBefore(other) >= tailBefore(after[moved]!);
    return before[moved]! < 0 || headAfter(other) >= headAfter(before[moved]!);
  }

  function isBanned(order: Int32Array, from: number, to: number): boolean {
    const bans = banned[placeOf[order[from]!]!]!;
    const n = order.length;
    const moved = local[order[from]!]!;
    if (from < to) {
      for (let k = from + 1; k <= to; k++) if (bans[local[order[k]!]! * n + moved]! <= step) return false;
    } else {
      for (let k = to; k < from; k++) if (bans[moved * n + local[order[k]!]!]! <= step) return false;
    }
    return true;
  }

  function shift(order: Int32Array, from: number, to: number): void {
    const moved = order[from]!;
    if (from < to) order.copyWithin(from, from + 1, to + 1);
    else order.copyWithin(to + 1, to, from);
    order[to] = moved;
    place(order);
  }

  function ban(order: Int32Array, from: number, to: number): void {
    const bans = banned[placeOf[order[from]!]!]!;
    const n = order.length;
    const moved = local[order[from]!]!;
    const least = 10 + Math.floor(size / (places.length * Math.max(1, places.length)));
    const until = step + least + random.integer(Math.ceil(least * 0.5) + 1);
    if (from < to) for (let k = from + 1; k <= to; k++) bans[moved * n + local[order[k]!]!] = until;
    else for (let k = to; k < from; k++) bans[local[order[k]!]! * n + moved] = until;
  }

  /** Moves of one step that the conditions allow, the shortest by estimate first found among equals by chance. */
  function takeStep(): boolean {
    let chosen: { order: Int32Array; from: number; to: number } | undefined;
    let chosenLength = Number.POSITIVE_INFINITY;
    let equals = 0;
    let anyBanned: { order: Int32Array; from: number; to: number } | undefined;
    let bannedSeen = 0;
    const consider = (order: Int32Array, from: number, to: number): void => {
      if (from === to || !isSafe(order, from, to)) return;
      const length = estimate(order, from, to);
      if (isBanned(order, from, to) && length >= best.makespan) {
        if (random.integer(++bannedSeen) === 0) anyBanned = { order, from, to };
        return;
      }
      if (length > chosenLength) return;
      if (length < chosenLength) equals = 0;
      chosenLength = length;
      if (random.integer(++equals) === 0) chosen = { order, from, to };
    };
    for (const block of blocks()) {
      const order = orders[placeOf[block[0]!]!]!;
      const first = spot[block[0]!]!;
      const last = first + block.length - 1;
      for (let k = first; k < last; k++) consider(order, k, last);
      for (let k = first + 2; k <= last; k++) consider(order, k, first);
      for (let k = first + 1; k < last; k++) {
        consider(order, first, k);
        if (last - k > 1) consider(order, last, k);
      }
    }
    const move = chosen ?? anyBanned;
    if (move === undefined) return false;
    ban(move.order, move.from, move.to);
    shift(move.order, move.from, move.to);
    if (!measure()) {
      shift(move.order, move.to, move.from);
      measure();
    }
    return true;
  }

  function keep(): void {
    walk = { orders: orders.map((order) => order.slice()), makespan };
    if (makespan < best.makespan) best = walk;
    lastBetter = step;
  }

  function load(from: readonly Int32Array[]): void {
    from.forEach((order, m) => {
      orders[m]!.set(order);
      place(orders[m]!);
    });
    measure();
  }

  /** From one good schedule part of the way to another, neighbour by neighbour, so that the way on is a new one. */
  function relink(): void {
    const one = pool[random.integer(pool.length)]!;
    let other = pool[random.integer(pool.length)]!;
    if (one === other) other = { orders: shuffled(), makespan: 0 };
    load(one.orders);
    for (const bans of banned) bans.fill(0);
    const rank = new Int32Array(size);
    for (const order of other.orders) for (let k = 0; k < order.length; k++) rank[order[k]!] = k;
    const swaps: { order: Int32Array; at: number }[] = [];
    let left = Math.max(5, Math.floor(distance(orders, rank) * (0.3 + 0.4 * random.uniform())));
    while (left > 0) {
      swaps.length = 0;
      for (const order of orders) {
        for (let k = 1; k < order.length; k++)
          if (rank[order[k - 1]!]! > rank[order[k]!]!) swaps.push({ order, at: k });
      }
      if (swaps.length === 0) return;
      let tries = swaps.length;
      for (;;) {
        const { order, at } = swaps[random.integer(swaps.length)]!;
        shift(order, at - 1, at);
        if (measure()) break;
        shift(order, at, at - 1);
        measure();
        if (--tries === 0) return;
      }
      left--;
    }
  }

  /** The best schedule with some neighbours on its longest paths exchanged. */
  function shuffled(): Int32Array[] {
    load(best.orders);
    for (let n = 0; n < size; n++) {
      const found = blocks();
      if (found.length === 0) break;
      const block = found[random.integer(found.length)]!;
      const at = spot[block[random.integer(block.length - 1)]!]!;
      const order = orders[placeOf[block[0]!]!]!;
      shift(order, at, at + 1);
      if (!measure()) {
        shift(order, at + 1, at);
        measure();
      }
    }
    return orders.map((order) => order.slice());
  }

  /** The best of this walk joins the pool in the place of the worst, unless it is there already. */
  function join(): void {
    const known = pool.some((p) => p.makespan === walk.makespan && sameOrders(p.orders, walk.orders));
    if (known) return;
    pool.push(walk);
    if (pool.length <= mostKept) return;
    let worst = 0;
    pool.forEach((p, k) => {
      if (p.makespan > pool[worst]!.makespan) worst = k;
    });
    pool.splice(worst, 1);
  }

  load(start);
  keep();
  return {
    improve(steps) {
      for (let n = 0; n < steps; n++) {
        step++;
        const moved = takeStep();
        if (makespan < walk.makespan) keep();
        if (moved && step - lastBetter < patience) continue;
        join();
        relink();
        keep();
      }
    },
    adopt(better) {
      load(better);
      keep();
    },
    get best() {
      return best;
    },
  };
}

interface Schedule {
  readonly orders: readonly Int32Array[];
  readonly makespan: number;
}

function sameOrders(a: readonly Int32Array[], b: readonly Int32Array[]): boolean {
  return a.every((order, m) => order.every((i, k) => b[m]![k] === i));
}

/** Pairs that two schedules have in opposite order. */
function distance(orders: readonly Int32Array[], rank: Int32Array): number {
  let pairs = 0;
  for (const order of orders) {
    for (let k = 0; k < order.length; k++) {
      for (let l = k + 1; l < order.length; l++) if (rank[order[k]!]! > rank[order[l]!]!) pairs++;
    }
  }
  return pairs;
}
