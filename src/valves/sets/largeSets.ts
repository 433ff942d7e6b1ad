import type { Boxes } from "./box.ts";
import type { Pool, Worths } from "./pool.ts";

/**
 * The same as `worthySets` for large sets, box by box: for each first member every box that could hold a set worth its
 * cost, and of the valves inside it the worthiest.
 *
 *     cost(S) − Σ valve(v in S) − size(|S|)
 *
 * Feature by feature a box is bounded by two members; what lies between them are the candidates of the next feature. In
 * the last feature the candidates fill the set in order of worth. A box is left once its sides cost more than the
 * worthiest valves in it can earn.
 *
 * @returns undefined where it would take more than `steps` or time ends
 */
export function worthyBoxes(
  boxes: Boxes,
  worths: Worths,
  limit: number,
  keep: number,
  within: (first: number) => number,
  steps = 6e7,
  hasTime?: () => boolean,
): Pool | undefined {
  const { count: n, features, at } = boxes;
  const { valve } = worths;
  const sizes = [...worths.size.keys()];
  const widest = Math.max(...sizes);
  const along = sortedFeature(boxes);
  const order = [along, ...[...Array(features).keys()].filter((f) => f !== along)];
  const start = new Int32Array(n + 1);
  const members: number[] = [];
  const sizeOf: number[] = [];
  const costs: number[] = [];
  const leftOut = Float64Array.from({ length: n }, (_, v) => within(v));
  let left = steps;

  for (let v = 0; v < n; v++) {
    if (v % 4 === 3 && hasTime?.() === false) return undefined;
    for (const size of sizes) {
      const free = worths.size.get(size)!;
      let bar = within(v);
      const kept: { figure: number; cost: number; set: number[] }[] = [];
      const file = (set: number[], cost: number, figure: number): void => {
        let to = kept.length;
        while (to > 0 && kept[to - 1]!.figure > figure) to--;
        kept.splice(to, 0, { figure, cost, set: set.sort((a, b) => a - b) });
        if (kept.length > keep) kept.pop();
        if (kept.length === keep) bar = Math.min(bar, kept[keep - 1]!.figure);
      };
      /** Fills a box whose sides cost `cost` with `rest` of the candidates, each set that is worth its cost once. */
      const fill = (bound: readonly number[], candidates: readonly number[], rest: number, cost: number): void => {
        if (cost > limit || candidates.length < rest) return;
        const sorted = [...candidates].sort((a, b) => valve[b]! - valve[a]!);
        const chosen: number[] = [];
        const choose = (from: number, missing: number, figure: number): void => {
          if (missing === 0) {
            if (figure < bar) file([...bound, ...chosen], cost, figure);
            return;
          }
          for (let i = from; i <= sorted.length - missing; i++) {
            if (--left < 0) return;
            let least = figure;
            for (let k = i; k < i + missing; k++) least -= valve[sorted[k]!]!;
            if (least >= bar) return;
            chosen.push(sorted[i]!);
            choose(i + 1, missing - 1, figure - valve[sorted[i]!]!);
            chosen.pop();
          }
        };
        choose(
          0,
          rest,
          bound.reduce((sum, u) => sum - valve[u]!, cost - free),
        );
      };
      /** Candidates beside those forced, all within the box so far, whose sides cost `cost`. */
      const narrow = (depth: number, forced: readonly number[], candidates: readonly number[], cost: number): void => {
        left -= candidates.length + 1;
        if (left < 0) return;
        const missing = size - forced.length;
        if (candidates.length < missing || cost > limit) return;
        const sure = forced.reduce((sum, u) => sum + valve[u]!, free);
        if (cost - sure - topSum(candidates, valve, missing) >= bar) return;
        const f = order[depth]!;
        const x = (u: number) => at[u * features + f]!;
        const low = Math.min(...forced.map(x));
        const high = Math.max(...forced.map(x));
        const sorted = [...candidates].sort((a, b) => x(a) - x(b));
        // Those between the forced ones are free of cost; below and above one more member each bounds the box.
        let from = 0;
        while (from < sorted.length && x(sorted[from]!) < low) from++;
        let to = from;
        while (to < sorted.length && x(sorted[to]!) <= high) to++;
        const earned = sure + topSum(sorted, valve, missing);
        for (let bottom = from; bottom >= 0; bottom--) {
          const below = bottom < from ? [sorted[bottom]!] : [];
          const under = cost + high - (below.length > 0 ? x(below[0]!) : low);
          if (under - earned >= bar) break;
          const reach = sorted.slice(bottom + below.length);
          if (under - sure - topSum(sorted.slice(bottom), valve, missing) >= bar) continue;
          for (let top = to - 1; top < sorted.length; top++) {
            const above = top >= to ? [sorted[top]!] : [];
            const own = above.length > 0 ? under + x(above[0]!) - high : under;
            if (own - earned >= bar || --left < 0) break;
            const bound = [...forced, ...below, ...above];
            const inner = reach.slice(0, (above.length > 0 ? top : to) - bottom - below.length);
            if (bound.length > size || bound.length + inner.length < size) continue;
            if (depth + 1 < features) narrow(depth + 1, bound, inner, own);
            else fill(bound, inner, size - bound.length, own);
          }
        }
      };
      const xv = at[v * features + along]!;
      const all: number[] = [];
      for (let u = v + 1; u < n; u++) {
        const side = at[u * features + along]! - xv;
        if (all.length + 2 >= size) {
          if (features === 1) fill([v, u], all, size - 2, side);
          else narrow(1, [v, u], all, side);
        }
        all.push(u);
        if (left < 0) return undefined;
      }
      leftOut[v] = Math.min(leftOut[v]!, bar);
      for (const { cost, set } of kept) {
        members.push(...set);
        for (let k = size; k < widest; k++) members.push(n);
        sizeOf.push(size);
        costs.push(cost);
      }
    }
    start[v + 1] = sizeOf.length;
  }
  return {
    widest,
    count: sizeOf.length,
    start,
    members: Int32Array.from(members),
    size: Uint8Array.from(sizeOf),
    cost: Float64Array.from(costs),
    leftOut,
  };
}

function sortedFeature({ count: n, features, at }: Boxes): number {
  for (let f = 0; f < features; f++) {
    let v = 1;
    while (v < n && at[v * features + f]! >= at[(v - 1) * features + f]!) v++;
    if (v >= n) return f;
  }
  throw new Error("the valves are not in the order of any feature");
}

/** Sum of the `count` largest worths. */
function topSum(of: readonly number[], worth: Float64Array, count: number): number {
  const top = new Float64Array(count);
  let kept = 0;
  for (const u of of) {
    const own = worth[u]!;
    if (kept === count && (count === 0 || own <= top[count - 1]!)) continue;
    let to = kept < count ? kept++ : count - 1;
    for (; to > 0 && top[to - 1]! < own; to--) top[to] = top[to - 1]!;
    top[to] = own;
  }
  let sum = 0;
  for (let i = 0; i < kept; i++) sum += top[i]!;
  return sum;
}
