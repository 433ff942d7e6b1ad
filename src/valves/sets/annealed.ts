import type { Boxes } from "./box.ts";
import { leastOf } from "./pool.ts";
import { isLate, type Order } from "./question.ts";

const MOST_NEAR = 20;
/** Heat at the end, in mean costs of a set. */
const COLD = 0.01;

/**
 * Betters a grouping by exchanges of two valves, at first also some that cost more, ever fewer of those as it cools.
 *
 * A valve near a set's member comes in for another member; one for one, so that sizes stay. No set over the limit.
 *
 * @param moves  exchanges tried
 * @param hot    heat at the beginning, in mean costs of a set
 * @source S. Kirkpatrick, C. Gelatt and M. Vecchi, Optimization by simulated annealing, Science 220, 1983 (remembered)
 */
export function annealed(
  boxes: Boxes,
  groups: readonly (readonly number[])[],
  { limit, hasTime }: Pick<Order, "limit" | "hasTime">,
  moves: number,
  hot: number,
  seed: number,
): number[][] {
  const { count: n, features, at } = boxes;
  const sets = groups.length;
  const widest = Math.max(...groups.map((group) => group.length));
  const members = new Int32Array(sets * widest);
  const size = Int32Array.from(groups, (group) => group.length);
  const inSet = new Int32Array(n).fill(-1);
  const seat = new Int32Array(n);
  const costs = new Float64Array(sets);
  /** Cost of set g with valve `into` in the seat i. */
  const costWith = (g: number, i: number, into: number): number => {
    const from = g * widest;
    const last = from + size[g]!;
    let sum = 0;
    for (let f = 0; f < features; f++) {
      let low = at[into * features + f]!;
      let high = low;
      for (let k = from; k < last; k++) {
        if (k === from + i) continue;
        const x = at[members[k]! * features + f]!;
        if (x < low) low = x;
        else if (x > high) high = x;
      }
      sum += high - low;
    }
    return sum;
  };
  groups.forEach((group, g) => {
    group.forEach((v, i) => {
      members[g * widest + i] = v;
      inSet[v] = g;
      seat[v] = i;
    });
    costs[g] = costWith(g, 0, group[0]!);
  });
  const near = nearest(boxes);
  const perValve = near.length / n;
  const inPlace = Int32Array.from(groups.flat());
  const usual = costs.reduce((a, b) => a + b, 0) / sets;
  const random = whole32(n + seed);
  const cooling = (COLD / hot) ** (1 / Math.max(1, moves >> 8));
  let heat = hot * usual;
  for (let move = 0; move < moves; move++) {
    if ((move & 255) === 255) {
      heat *= cooling;
      if ((move & 16383) === 16383 && isLate({ hasTime })) break;
    }
    // Valves left over move when a set takes them in.
    const v = inPlace[random() % inPlace.length]!;
    const g = inSet[v]!;
    if (g < 0) continue;
    const u = near[v * perValve + (random() % perValve)]!;
    const h = inSet[u]!;
    if (h === g || size[g] === 1) continue;
    let i = random() % (size[g]! - 1);
    if (i >= seat[v]!) i++;
    const out = members[g * widest + i]!;
    const a = costWith(g, i, u);
    const most = -heat * Math.log((random() + 1) / 4294967297);
    if (a > limit || a - costs[g]! - (h < 0 ? 0 : costs[h]!) > most) continue;
    let b = 0;
    let rise = a - costs[g]!;
    if (h >= 0) {
      b = costWith(h, seat[u]!, out);
      if (b > limit) continue;
      rise += b - costs[h]!;
    }
    if (rise > most) continue;
    members[g * widest + i] = u;
    costs[g] = a;
    inSet[u] = g;
    inSet[out] = h;
    if (h >= 0) {
      members[h * widest + seat[u]!] = out;
      costs[h] = b;
      seat[out] = seat[u]!;
    } else inPlace[inPlace.indexOf(out)] = u;
    seat[u] = i;
  }
  return groups.map((group, g) => [...members.subarray(g * widest, g * widest + group.length)]);
}

function nearest(boxes: Boxes): Int32Array {
  const { count: n, features, at } = boxes;
  const most = Math.min(MOST_NEAR, n - 1);
  const near = new Int32Array(n * most);
  const far = new Float64Array(n);
  for (let v = 0; v < n; v++) {
    for (let a = 0; a < n; a++) {
      let sum = 0;
      for (let f = 0; f < features; f++) sum += Math.abs(at[a * features + f]! - at[v * features + f]!);
      far[a] = sum;
    }
    far[v] = Number.POSITIVE_INFINITY;
    near.set(leastOf(far, most), v * most);
  }
  return near;
}

/** Whole numbers below 2^32, the same ones on every run. @source G. Marsaglia, Xorshift RNGs, 2003 (remembered) */
export function whole32(seed: number): () => number {
  let state = Math.imul(seed, 0x9e3779b1) || 1;
  return () => {
    state ^= state << 13;
    state ^= state >>> 17;
    state ^= state << 5;
    return state >>> 0;
  };
}
