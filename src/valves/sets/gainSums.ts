/** Gains in dB that add up: what each valve, in each position, does to the gain of each channel. */
export interface GainSums {
  /** By channel, with the starting set. */
  readonly own: readonly number[];
  /** By valve, position and channel. */
  readonly shift: readonly (readonly (readonly number[])[])[];
}

export interface Seating {
  readonly seated: readonly number[];
  readonly cost: number;
}

/** Positions whose every figure is alike within this may change places, in dB. */
const ALIKE_dB = 1e-8;

/** Orders of `count` members that differ: of positions alike only one order counts. */
export function seatings(count: number, alike: readonly number[] = [...Array(count).keys()]): number[][] {
  const orders: number[][] = [];
  const grow = (order: readonly number[]): void => {
    if (order.length === count) orders.push([...order]);
    for (let i = 0; i < count && order.length < count; i++) {
      const before = alike.lastIndexOf(alike[order.length]!, order.length - 1);
      if (order.includes(i) || (before >= 0 && order.length > 0 && i < order[before]!)) continue;
      grow([...order, i]);
    }
  };
  grow([]);
  return orders;
}

/** For each position the first one that shifts every channel alike. */
export function alikePositions({ shift }: GainSums): number[] {
  const positions = shift[0]!.length;
  return Array.from({ length: positions }, (_, k) => {
    for (let other = 0; other < k; other++) {
      if (shift.every((own) => own[k]!.every((dB, c) => Math.abs(dB - own[other]![c]!) < ALIKE_dB))) return other;
    }
    return k;
  });
}

/** The seating whose added gains lie closest together. */
export function seatingBySums({ own, shift }: GainSums, orders: readonly (readonly number[])[]) {
  const channels = own.length;
  return (members: readonly number[]): Seating => {
    let best = orders[0]!;
    let bestCost = Number.POSITIVE_INFINITY;
    for (const order of orders) {
      let high = Number.NEGATIVE_INFINITY;
      let low = Number.POSITIVE_INFINITY;
      for (let c = 0; c < channels; c++) {
        let gain = own[c]!;
        for (let k = 0; k < order.length; k++) gain += shift[members[order[k]!]!]![k]![c]!;
        if (gain > high) high = gain;
        if (gain < low) low = gain;
      }
      if (high - low < bestCost) {
        bestCost = high - low;
        best = order;
      }
    }
    return { seated: best.map((i) => members[i]!), cost: bestCost };
  };
}

/**
 * Places on one line such that a set costs the length of line it spans: where each position feeds a channel of its own
 * and a valve shifts every one of them alike.
 *
 * @returns undefined where it is not so
 */
export function lineOf({ own, shift }: GainSums): number[] | undefined {
  const channels = own.length;
  const positions = shift[0]!.length;
  if (positions !== channels || own.some((dB) => Math.abs(dB - own[0]!) > ALIKE_dB)) return undefined;
  const fed = shift[0]!.map((_, k) => own.findIndex((_, c) => shift.some((by) => Math.abs(by[k]![c]!) > ALIKE_dB)));
  if (new Set(fed).size < positions || fed.includes(-1)) return undefined;
  const isLine = shift.every((by) =>
    by.every((gains, k) => gains.every((dB, c) => Math.abs(dB - (c === fed[k] ? by[0]![fed[0]!]! : 0)) < ALIKE_dB)),
  );
  return isLine ? shift.map((by) => by[0]![fed[0]!]!) : undefined;
}
