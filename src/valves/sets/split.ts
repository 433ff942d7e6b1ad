import { type Costing, isLate, type Order, totalCost, wantedSets } from "./question.ts";

const MOST_LOOKS = 1.5e6;
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
  let looks = MOST_LOOKS;

  const placed = new Uint8Array(n);
  const rises = new Float64Array(n);

  const boxWith = (s: number, v: number): number => {
    let own = 0;
    for (let f = 0; f < features; f++) {
      const x = at[v * features + f]!;
      own += Math.max(high[s * features + f]!, x) - Math.min(low[s * features + f]!, x);
    }
    return own;
  };
  /** The valve whose cheapest place costs most; with `spare` valves to leave out, that many may escape their cost. */
  const hardest = (): { v: number; rise: number } => {
    let v = -1;
    let rise = 0;
    let unplaced = 0;
    for (let u = 0; u < n; u++) {
      if (placed[u]) continue;
      let least = Number.POSITIVE_INFINITY;
      for (let s = 0; s < sets; s++) {
        if (held[s]!.length === sizes[s]!) continue;
        least = Math.min(least, held[s]!.length === 0 ? 0 : boxWith(s, u) - costs[s]!);
      }
      rises[unplaced++] = least;
      if (v < 0 || least > rise) {
        v = u;
        rise = least;
      }
    }
    const sure = spare === 0 ? rise : (rises.slice(0, unplaced).sort()[unplaced - 1 - spare] ?? 0);
    return { v, rise: sure };
  };

  const place = (left: number, total: number): void => {
    if (total >= best - 1e-12 * (1 + best) || --looks < 0) return;
    if (looks % 4096 === 0 && isLate(order)) looks = -1;
    if (left === 0) {
      best = total;
      answer = held.map((set) => [...set]);
      return;
    }
    const { v, rise: sure } = hardest();
    if (total + sure >= best - 1e-12 * (1 + best)) return;
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
