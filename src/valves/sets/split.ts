import { type Costing, isLate, type Order, totalCost, wantedSets } from "./question.ts";

/** Boxes opened before another way is taken, by the number of sets: with more of them the tree is wider than the list of sets. */
const MOST_LOOKS = [0, 1e6, 1e6, 1e6, 1e5] as const;
const MOST_SETS = 4;

/**
 * The best division of valves into a few large sets, valve by valve: always the one whose cheapest place
 * costs most, which opens the boxes early and leaves little choice for the rest.
 *
 * @param found  a grouping into all sets wanted
 * @returns undefined where it is not a matter of few sets, or was given up
 */
export function bestSplit(
  costing: Costing,
  order: Order,
  found: readonly (readonly number[])[],
): readonly (readonly number[])[] | undefined {
  if (costing.box === undefined || wantedSets(order) > MOST_SETS || found.length < wantedSets(order)) return undefined;
  const { features, at } = costing.box;
  const n = costing.count;
  const sizes = [...order.sizes].flatMap(([size, count]) => new Array<number>(count).fill(size)).sort((a, b) => b - a);
  const sets = sizes.length;
  let best = totalCost(costing, found);
  let answer: readonly (readonly number[])[] = found;
  const low = new Float64Array(sets * features).fill(Number.POSITIVE_INFINITY);
  const high = new Float64Array(sets * features).fill(Number.NEGATIVE_INFINITY);
  const held: number[][] = sizes.map(() => []);
  const costs = new Float64Array(sets);
  let spare = n - sizes.reduce((a, b) => a + b, 0);
  let looks: number = MOST_LOOKS[sets]!;

  const placed = new Uint8Array(n);
  const rises = new Float64Array(n);
  const countOf = new Int32Array(1 << sets);
  const starts = new Float64Array(sets);
  const ends = new Float64Array(sets);
  const sorted = Int32Array.from({ length: n * features }, (_, i) => i % n);
  for (let f = 0; f < features; f++) {
    sorted.subarray(f * n, (f + 1) * n).sort((a, b) => at[a * features + f]! - at[b * features + f]!);
  }

  const boxWith = (s: number, v: number): number => {
    let own = 0;
    for (let f = 0; f < features; f++) {
      const x = at[v * features + f]!;
      own += Math.max(high[s * features + f]!, x) - Math.min(low[s * features + f]!, x);
    }
    return own;
  };
  /**
   * The valve with the fewest sets that it could still join, among such the one whose cheapest place costs most; with
   * `spare` valves to leave out, that many may escape their cost. None where some sets cannot be filled any more.
   */
  const hardest = (room: number): { v: number; rise: number } | undefined => {
    let v = -1;
    let fewest = sets + 1;
    let rise = 0;
    let most = 0;
    let unplaced = 0;
    countOf.fill(0);
    for (let u = 0; u < n; u++) {
      if (placed[u]) continue;
      let least = Number.POSITIVE_INFINITY;
      let mask = 0;
      let open = 0;
      for (let s = 0; s < sets; s++) {
        if (held[s]!.length === sizes[s]!) continue;
        const own = held[s]!.length === 0 ? 0 : boxWith(s, u) - costs[s]!;
        if (own < least) least = own;
        if (own < room) {
          mask |= 1 << s;
          open++;
        }
      }
      rises[unplaced++] = least;
      countOf[mask]!++;
      if (least > most) most = least;
      if (v < 0 || open < fewest || (open === fewest && least > rise)) {
        v = u;
        fewest = open;
        rise = least;
      }
    }
    if (spare === 0) {
      // Valves that can only join some of the sets must find room in those.
      for (let some = 1; some < countOf.length; some++) {
        let free = 0;
        for (let s = 0; s < sets; s++) if ((some >> s) & 1) free += sizes[s]! - held[s]!.length;
        let bound = 0;
        for (let mask = 0; mask < countOf.length; mask++) if ((mask & ~some) === 0) bound += countOf[mask]!;
        if (bound > free) return undefined;
      }
    }
    const sure = spare === 0 ? most : (rises.slice(0, unplaced).sort()[unplaced - 1 - spare] ?? 0);
    return { v, rise: sure };
  };
  /**
   * What the valves not yet placed add at least, feature by feature: some open box must reach the lowest and the
   * highest of them, and of a gap between boxes all but the widest stretch without a valve is covered.
   */
  const byFeature = (enough: number): number => {
    let sum = 0;
    for (let f = 0; f < features; f++) {
      let open = 0;
      for (let s = 0; s < sets; s++) {
        if (held[s]!.length === sizes[s]!) continue;
        if (held[s]!.length === 0) return 0;
        let to = open++;
        const from = low[s * features + f]!;
        for (; to > 0 && starts[to - 1]! > from; to--) {
          starts[to] = starts[to - 1]!;
          ends[to] = ends[to - 1]!;
        }
        starts[to] = from;
        ends[to] = high[s * features + f]!;
      }
      if (open === 0) return 0;
      let end = Number.NEGATIVE_INFINITY;
      let next = 0;
      let last = 0;
      let widest = 0;
      for (let i = 0; i < n; i++) {
        const u = sorted[f * n + i]!;
        if (placed[u]) continue;
        const x = at[u * features + f]!;
        while (next < open && starts[next]! <= x) {
          if (starts[next]! > end) {
            // A gap ends, or all that lay below the first box.
            if (end === Number.NEGATIVE_INFINITY) sum += widest < 0 ? starts[next]! - last : 0;
            else sum += starts[next]! - end - Math.max(widest, starts[next]! - last);
          }
          end = Math.max(end, ends[next++]!);
          last = end;
          widest = 0;
        }
        if (end === Number.NEGATIVE_INFINITY) {
          if (widest === 0) {
            last = x;
            widest = -1;
          }
        } else if (x > end) {
          widest = Math.max(widest, x - last);
          last = x;
        }
      }
      if (end === Number.NEGATIVE_INFINITY) {
        if (widest < 0) sum += starts[0]! - last;
        end = ends[0]!;
        next = 1;
        last = end;
        widest = 0;
      }
      for (; next < open; next++) {
        if (starts[next]! > end) sum += starts[next]! - end - Math.max(widest, starts[next]! - last);
        end = Math.max(end, ends[next]!);
        last = end;
        widest = 0;
      }
      if (last > end) sum += last - end;
      if (sum >= enough) return sum;
    }
    return sum;
  };

  const place = (left: number, total: number): void => {
    if (total >= best - 1e-12 * (1 + best) || --looks < 0) return;
    if (looks % 4096 === 0 && isLate(order)) looks = -1;
    if (left === 0) {
      best = total;
      answer = held.map((set) => [...set]);
      return;
    }
    const enough = best - 1e-12 * (1 + best) - total;
    const next = hardest(enough);
    if (next === undefined) return;
    const { v, rise: sure } = next;
    if (sure >= enough || (spare === 0 && byFeature(enough) >= enough)) return;
    const kept = { low: low.slice(), high: high.slice() };
    const options: { s: number; own: number }[] = [];
    for (let s = 0; s < sets; s++) {
      if (held[s]!.length === sizes[s]!) continue;
      // Empty sets of one size are alike.
      if (held[s]!.length === 0 && s > 0 && sizes[s - 1] === sizes[s] && held[s - 1]!.length === 0) continue;
      const own = boxWith(s, v);
      if (own <= order.limit) options.push({ s, own });
    }
    options.sort((a, b) => a.own - costs[a.s]! - (b.own - costs[b.s]!));
    placed[v] = 1;
    for (const { s, own } of options) {
      const before = costs[s]!;
      for (let f = 0; f < features; f++) {
        const x = at[v * features + f]!;
        low[s * features + f] = Math.min(low[s * features + f]!, x);
        high[s * features + f] = Math.max(high[s * features + f]!, x);
      }
      held[s]!.push(v);
      costs[s] = own;
      place(left - 1, total - before + own);
      costs[s] = before;
      held[s]!.pop();
      low.set(kept.low);
      high.set(kept.high);
    }
    if (spare > 0) {
      spare--;
      place(left - 1, total);
      spare++;
    }
    placed[v] = 0;
  };
  place(n, 0);
  return looks < 0 ? undefined : answer;
}
