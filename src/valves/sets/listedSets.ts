import { type GainSums, seatingBySums } from "./gainSums.ts";
import type { Pool, Worths } from "./pool.ts";
import { isLate, type Order } from "./question.ts";

/** Sets listed at most, and gains added up for them. */
const MOST_LISTED = 2.2e7;
const MOST_SUMS = 6e8;

/** Every set of one size with its cost, the order of members aside. */
export interface Listed {
  readonly count: number;
  readonly size: number;
  /**
   * The sets within the limit that cost the least beside their worth: for each smallest member at most `keep`, none
   * `within` or more above. In choosing, a cost counts as a little less than it is, so that what is proven by it holds.
   */
  worthy(worths: Worths, keep: number, within: number): Pool;
}

/**
 * Lists the least spread of every set over the ways to seat it.
 *
 * @param orders  ways to seat a set
 * @returns undefined where the sets are too many or time ends
 */
export function listedSets(
  { own, shift }: GainSums,
  size: number,
  orders: readonly (readonly number[])[],
  order: Pick<Order, "hasTime" | "limit">,
): Listed | undefined {
  const n = shift.length;
  let all = 1;
  for (let i = 1; i <= size; i++) all *= (n - size + i) / i;
  all = Math.round(all);
  if (all > MOST_LISTED || all * orders.length * size > MOST_SUMS) return undefined;
  const seat = seatingBySums({ own, shift }, orders);
  const costs = new Float32Array(all);
  const members = new Int32Array(size);
  const least = leastSpread({ own, shift }, orders, members);
  let listed = 0;
  let isStopped = false;
  /** The largest member first. */
  const list = (k: number, under: number): void => {
    for (let v = k; v < under && !isStopped; v++) {
      members[k] = v;
      if (k > 0) list(k - 1, v);
      else {
        const cost = least();
        costs[listed++] = cost > order.limit ? Number.POSITIVE_INFINITY : cost * (1 - 1e-7);
        if ((listed & 0xffff) === 0 && isLate(order)) isStopped = true;
      }
    }
  };
  list(size - 1, n);
  if (isStopped) return undefined;
  return {
    count: all,
    size,
    worthy: ({ valve, size: worth }, keep, within) => {
      const figures = Array.from({ length: n }, () => new Float64Array(keep));
      const kept = new Int32Array(n);
      const bar = new Float64Array(n).fill(within);
      const set = new Int32Array(size);
      const found = Array.from({ length: n }, () => new Int32Array(keep * size));
      const put = (first: number, figure: number): void => {
        const own = figures[first]!;
        const full = kept[first] === keep;
        let to = full ? keep - 1 : kept[first]!++;
        for (; to > 0 && own[to - 1]! > figure; to--) {
          own[to] = own[to - 1]!;
          found[first]!.copyWithin(to * size, (to - 1) * size, to * size);
        }
        own[to] = figure;
        for (let k = 0; k < size; k++) found[first]![to * size + k] = set[k]!;
        if (kept[first] === keep) bar[first] = Math.min(bar[first]!, own[keep - 1]!);
      };
      let at = 0;
      const weigh = (k: number, under: number, sum: number): void => {
        if (k > 0) {
          for (let v = k; v < under; v++) {
            set[k] = v;
            weigh(k - 1, v, sum + valve[v]!);
          }
          return;
        }
        for (let v = 0; v < under; v++) {
          const figure = costs[at]! - sum - valve[v]!;
          if (figure < bar[v]!) {
            set[0] = v;
            put(v, figure);
          }
          at++;
        }
      };
      weigh(size - 1, n, worth.get(size)!);
      const start = new Int32Array(n + 1);
      const members: number[] = [];
      const cost: number[] = [];
      for (let v = 0; v < n; v++) {
        for (let i = 0; i < kept[v]!; i++) {
          const own = [...found[v]!.subarray(i * size, (i + 1) * size)];
          members.push(...own);
          cost.push(seat(own).cost);
        }
        start[v + 1] = cost.length;
      }
      return {
        widest: size,
        count: cost.length,
        start,
        members: Int32Array.from(members),
        size: new Uint8Array(cost.length).fill(size),
        cost: Float64Array.from(cost),
        leftOut: bar,
      };
    },
  };
}

/** The least spread of the members that stand in `members` at the time of asking, over the ways to seat them. */
export function leastSpread(
  { own, shift }: GainSums,
  orders: readonly (readonly number[])[],
  members: ArrayLike<number>,
): () => number {
  const size = members.length;
  const channels = own.length;
  const seats = Int32Array.from(orders.flat());
  if (channels === 2) {
    const apart = Float64Array.from(shift.flatMap((by) => by.map((gains) => gains[0]! - gains[1]!)));
    const begun = own[0]! - own[1]!;
    return () => {
      let best = Number.POSITIVE_INFINITY;
      for (let o = 0; o < seats.length; o += size) {
        let sum = begun;
        for (let k = 0; k < size; k++) sum += apart[members[seats[o + k]!]! * size + k]!;
        const spread = Math.abs(sum);
        if (spread < best) best = spread;
      }
      return best;
    };
  }
  const channelOf = onlyChannels({ own, shift });
  if (channelOf !== undefined) {
    const gain = Float64Array.from(
      shift.flatMap((by) => by.map((gains, k) => own[channelOf[k]!]! + gains[channelOf[k]!]!)),
    );
    const here = new Float64Array(size * size);
    return () => {
      for (let i = 0; i < size; i++) {
        const from = members[i]! * size;
        for (let k = 0; k < size; k++) here[i * size + k] = gain[from + k]!;
      }
      let best = Number.POSITIVE_INFINITY;
      for (let o = 0; o < seats.length; o += size) {
        let low = here[seats[o]! * size]!;
        let high = low;
        for (let k = 1; k < size && high - low < best; k++) {
          const dB = here[seats[o + k]! * size + k]!;
          if (dB < low) low = dB;
          else if (dB > high) high = dB;
        }
        if (high - low < best) best = high - low;
      }
      return best;
    };
  }
  // Most positions feed one channel; the others' sums are left alone.
  const fed = shift[0]!.flatMap((_, k) =>
    own.flatMap((_, c) => (shift.some((by) => by[k]![c] !== 0) ? [{ k, c }] : [])),
  );
  const position = Int32Array.from(fed, ({ k }) => k);
  const channel = Int32Array.from(fed, ({ c }) => c);
  const figures = Float64Array.from(shift.flatMap((by) => fed.map(({ k, c }) => by[k]![c]!)));
  const begun = Float64Array.from(own);
  const gains = new Float64Array(channels);
  return () => {
    let best = Number.POSITIVE_INFINITY;
    for (let o = 0; o < seats.length; o += size) {
      for (let c = 0; c < channels; c++) gains[c] = begun[c]!;
      for (let i = 0; i < position.length; i++) {
        gains[channel[i]!]! += figures[members[seats[o + position[i]!]!]! * position.length + i]!;
      }
      let low = gains[0]!;
      let high = low;
      for (let c = 1; c < channels; c++) {
        const gain = gains[c]!;
        if (gain < low) low = gain;
        else if (gain > high) high = gain;
      }
      if (high - low < best) best = high - low;
    }
    return best;
  };
}

/** The channel of each position, where every channel has one position of its own and no other feeds it. */
function onlyChannels({ own, shift }: GainSums): number[] | undefined {
  const positions = shift[0]!.length;
  if (positions !== own.length) return undefined;
  const fed = shift[0]!.map((_, k) => [...own.keys()].filter((c) => shift.some((by) => by[k]![c] !== 0)));
  if (fed.some((channels) => channels.length !== 1)) return undefined;
  const only = fed.map(([c]) => c!);
  return new Set(only).size === positions ? only : undefined;
}
