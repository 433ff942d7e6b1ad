import type { JobShop } from "./jobShop.ts";

/**
 * What is known of every schedule not longer than `limit`: the least head and tail of each operation, and the order of
 * pairs at one place as far as it is settled. All changes go on a trail, so that a branch can be taken back.
 */
export interface Knowledge {
  readonly limit: number;
  readonly heads: Float64Array;
  /** Least time from an operation's end to the end of all. */
  readonly tails: Float64Array;
  /** Makes all that follows known; false when no schedule within the limit is left. */
  propagate(): boolean;
  /** Makes one operation come before another at the same place. */
  decide(first: number, second: number): void;
  raiseHead(operation: number, head: number): void;
  raiseTail(operation: number, tail: number): void;
  /** 1 when the k-th operation of a place is known to come before its l-th. */
  isBefore(place: number, k: number, l: number): boolean;
  mark(): number;
  undoTo(mark: number): void;
}

/**
 * @source immediate selection and edge finding after J. Carlier and E. Pinson, Management Science 35 (1989) 164-176;
 *   the quadratic form after P. Baptiste, C. Le Pape and W. Nuijten, Constraint-Based Scheduling, Kluwer 2001 (remembered)
 */
export function knowledge(shop: JobShop, limit: number): Knowledge {
  const { size, lasts, before, after, placeOf, places } = shop;
  const heads = new Float64Array(size);
  const tails = new Float64Array(size);
  const local = new Int32Array(size);
  const settled = places.map((members) => {
    members.forEach((i, k) => {
      local[i] = k;
    });
    return new Uint8Array(members.length * members.length);
  });
  const stale = new Uint8Array(places.length).fill(1);
  const edgeStale = new Uint8Array(places.length).fill(1);
  const touch = (place: number): void => {
    stale[place] = 1;
    edgeStale[place] = 1;
  };
  let isPossible = true;

  // The trail: kind and place in one number, and the value before.
  let trail = 0;
  let trailKey = new Int32Array(4096);
  let trailValue = new Float64Array(4096);
  function remember(key: number, value: number): void {
    if (trail === trailKey.length) {
      const longer = new Int32Array(trail * 2);
      longer.set(trailKey);
      trailKey = longer;
      const wider = new Float64Array(trail * 2);
      wider.set(trailValue);
      trailValue = wider;
    }
    trailKey[trail] = key;
    trailValue[trail++] = value;
  }
  const pairOffset: number[] = [];
  let pairs = 2 * size;
  for (const members of places) {
    pairOffset.push(pairs);
    pairs += members.length ** 2;
  }
  const ownerOf = (key: number): number => {
    let place = places.length - 1;
    while (pairOffset[place]! > key) place--;
    return place;
  };

  function raiseHead(i: number, head: number): void {
    for (let at = i, least = head; at >= 0 && least > heads[at]!; at = after[at]!) {
      remember(at, heads[at]!);
      heads[at] = least;
      touch(placeOf[at]!);
      if (least + lasts[at]! + tails[at]! > limit) isPossible = false;
      least += lasts[at]!;
    }
  }
  function raiseTail(i: number, tail: number): void {
    for (let at = i, least = tail; at >= 0 && least > tails[at]!; at = before[at]!) {
      remember(size + at, tails[at]!);
      tails[at] = least;
      touch(placeOf[at]!);
      if (heads[at]! + lasts[at]! + least > limit) isPossible = false;
      least += lasts[at]!;
    }
  }
  function settle(place: number, k: number, l: number): void {
    const n = places[place]!.length;
    const flags = settled[place]!;
    if (flags[k * n + l] === 1) return;
    if (flags[l * n + k] === 1) {
      isPossible = false;
      return;
    }
    flags[k * n + l] = 1;
    remember(pairOffset[place]! + k * n + l, 0);
    stale[place] = 1;
    const [first, second] = [places[place]![k]!, places[place]![l]!];
    raiseHead(second, heads[first]! + lasts[first]!);
    raiseTail(first, tails[second]! + lasts[second]!);
  }

  const widest = places.reduce((most, members) => Math.max(most, members.length), 0);
  const byHead = new Int32Array(widest);
  const byTail = new Int32Array(widest);
  const ends = new Float64Array(widest);
  const raised = new Float64Array(widest);

  /** Members by rising key; insertion, because they are nearly in order from the last time. */
  function sortBy(order: Int32Array, members: Int32Array, key: Float64Array): void {
    const n = members.length;
    for (let k = 0; k < n; k++) {
      const value = key[members[k]!]!;
      let at = k - 1;
      while (at >= 0 && key[members[order[at]!]!]! > value) {
        order[at + 1] = order[at]!;
        at--;
      }
      order[at + 1] = k;
    }
  }

  /** Pairs of which only one order keeps the limit. */
  function selectPairs(place: number): void {
    const members = places[place]!;
    const flags = settled[place]!;
    const n = members.length;
    for (let k = 0; k < n && isPossible; k++) {
      const i = members[k]!;
      for (let l = k + 1; l < n; l++) {
        if (flags[k * n + l] === 1 || flags[l * n + k] === 1) continue;
        const j = members[l]!;
        const both = lasts[i]! + lasts[j]!;
        const iFirst = heads[i]! + both + tails[j]! <= limit;
        const jFirst = heads[j]! + both + tails[i]! <= limit;
        if (iFirst && jFirst) continue;
        if (!iFirst && !jFirst) {
          isPossible = false;
          return;
        }
        if (iFirst) settle(place, k, l);
        else settle(place, l, k);
      }
    }
  }

  /** An operation waits for all that are known to come before it, one after another. */
  function followOrder(place: number): void {
    const members = places[place]!;
    const flags = settled[place]!;
    const n = members.length;
    sortBy(byHead, members, heads);
    sortBy(byTail, members, tails);
    for (let k = 0; k < n && isPossible; k++) {
      let end = 0;
      let tail = 0;
      for (let s = 0; s < n; s++) {
        const l = byHead[s]!;
        if (flags[l * n + k] === 1) end = Math.max(end, heads[members[l]!]!) + lasts[members[l]!]!;
        const m = byTail[s]!;
        if (flags[k * n + m] === 1) tail = Math.max(tail, tails[members[m]!]!) + lasts[members[m]!]!;
      }
      raiseHead(members[k]!, end);
      raiseTail(members[k]!, tail);
    }
  }

  /**
   * Edge finding: an operation that can't be done before the end of a group goes after the whole of it.
   *
   * `from` and `to` are heads and tails, or the other way round for the mirrored question.
   */
  function findEdges(
    members: Int32Array,
    from: Float64Array,
    to: Float64Array,
    raise: (i: number, value: number) => void,
  ): void {
    const n = members.length;
    sortBy(byHead, members, from);
    for (let k = 0; k < n; k++) raised[k] = from[members[k]!]!;
    for (let t = 0; t < n; t++) {
      const tail = to[members[t]!]!;
      const deadline = limit - tail;
      let work = 0;
      let end = Number.NEGATIVE_INFINITY;
      for (let s = n - 1; s >= 0; s--) {
        const i = members[byHead[s]!]!;
        if (to[i]! >= tail) {
          work += lasts[i]!;
          end = Math.max(end, from[i]! + work);
        }
        ends[s] = end;
      }
      if (end > deadline) {
        isPossible = false;
        return;
      }
      let earlier = Number.NEGATIVE_INFINITY;
      for (let s = 0; s < n; s++) {
        const k = byHead[s]!;
        const i = members[k]!;
        if (to[i]! >= tail) {
          earlier = Math.max(earlier, from[i]! + work);
          work -= lasts[i]!;
        } else {
          if (work > 0 && from[i]! + work + lasts[i]! > deadline && ends[s]! > raised[k]!) raised[k] = ends[s]!;
          if (earlier + lasts[i]! > deadline && end > raised[k]!) raised[k] = end;
        }
      }
    }
    for (let k = 0; k < n; k++) raise(members[k]!, raised[k]!);
  }

  const known: Knowledge = {
    limit,
    heads,
    tails,
    propagate() {
      for (;;) {
        if (!isPossible) return false;
        // Edges cost most; they are looked for when nothing simpler moves any more.
        const place = stale.indexOf(1);
        if (place >= 0) {
          stale[place] = 0;
          selectPairs(place);
          if (isPossible) followOrder(place);
          continue;
        }
        const edgy = edgeStale.indexOf(1);
        if (edgy < 0) return true;
        edgeStale[edgy] = 0;
        findEdges(places[edgy]!, heads, tails, raiseHead);
        if (isPossible) findEdges(places[edgy]!, tails, heads, raiseTail);
      }
    },
    decide(first, second) {
      settle(placeOf[first]!, local[first]!, local[second]!);
    },
    raiseHead,
    raiseTail,
    isBefore: (place, k, l) => settled[place]![k * places[place]!.length + l] === 1,
    mark: () => trail,
    undoTo(mark) {
      while (trail > mark) {
        trail--;
        const key = trailKey[trail]!;
        if (key < size) heads[key] = trailValue[trail]!;
        else if (key < 2 * size) tails[key - size] = trailValue[trail]!;
        else {
          const place = ownerOf(key);
          settled[place]![key - pairOffset[place]!] = 0;
        }
      }
      isPossible = true;
      stale.fill(0);
      edgeStale.fill(0);
    },
  };
  for (let i = 0; i < size; i++) {
    if (before[i]! < 0) raiseChain(i);
  }
  function raiseChain(first: number): void {
    let head = 0;
    let last = first;
    for (let at = first; at >= 0; at = after[at]!) {
      heads[at] = head;
      head += lasts[at]!;
      last = at;
    }
    let tail = 0;
    for (let at = last; at >= 0; at = before[at]!) {
      tails[at] = tail;
      tail += lasts[at]!;
    }
    if (head > limit) isPossible = false;
    for (let at = first; at >= 0; at = after[at]!) {
      for (let later = after[at]!; later >= 0; later = after[later]!) {
        if (placeOf[later] === placeOf[at]) {
          const n = places[placeOf[at]!]!.length;
          settled[placeOf[at]!]![local[at]! * n + local[later]!] = 1;
        }
      }
    }
  }
  return known;
}
