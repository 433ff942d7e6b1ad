import type { Boxes } from "./box.ts";
import type { Pool, Worths } from "./pool.ts";

/**
 * For each valve the sets that begin with it and cost the least beside what they are worth, at most `keep` of a size
 * and none that costs `within(v)` more than its worth.
 *
 *     cost(S) − Σ valve(v in S) − size(|S|)
 *
 * A set is built from its first member and the member farthest from that, inwards: its box can only grow, and what
 * the members still missing may be worth is bounded by the worthiest valve nearer than those taken.
 *
 * @returns undefined where it would take more than `steps` or time ends
 */
export function worthySets(
  boxes: Boxes,
  worths: Worths,
  limit: number,
  keep: number,
  within: (first: number) => number,
  steps = 6e7,
  hasTime?: () => boolean,
): Pool | undefined {
  const { count: n, features, at, after, far } = boxes;
  const { valve } = worths;
  const sizes = [...worths.size.keys()];
  const widest = Math.max(...sizes);
  const dearest = valve.subarray(0, n).reduce((a, b) => Math.max(a, b), Number.NEGATIVE_INFINITY);
  const start = new Int32Array(n + 1);
  const members: number[] = [];
  const sizeOf: number[] = [];
  const costs: number[] = [];
  const leftOut = Float64Array.from({ length: n }, (_, v) => within(v));
  const low = new Float64Array((widest + 1) * features);
  const high = new Float64Array((widest + 1) * features);
  const chosen = new Int32Array(widest);
  const worthiest = new Float64Array(n);
  const figures = new Float64Array(keep);
  const rows = new Int32Array(keep * widest);
  const rowCosts = new Float64Array(keep);
  const order = new Int32Array(keep);
  let left = steps;

  for (let v = 0; v < n; v++) {
    if (v % 16 === 15 && hasTime?.() === false) return undefined;
    const others = after[v]!;
    const distance = far[v]!;
    let most = Number.NEGATIVE_INFINITY;
    for (let i = 0; i < others.length; i++) {
      worthiest[i] = most;
      most = Math.max(most, valve[others[i]!]!);
    }
    for (const size of sizes) {
      const free = worths.size.get(size)!;
      let kept = 0;
      let bar = within(v);
      const file = (cost: number, figure: number): void => {
        const row = kept < keep ? kept : order[keep - 1]!;
        let to = kept < keep ? kept++ : keep - 1;
        for (; to > 0 && figures[order[to - 1]!]! > figure; to--) order[to] = order[to - 1]!;
        order[to] = row;
        figures[row] = figure;
        rowCosts[row] = cost;
        for (let i = 0; i < size; i++) rows[row * widest + i] = chosen[i]!;
        if (kept === keep) bar = Math.min(bar, figures[order[keep - 1]!]!);
      };
      const widen = (depth: number, member: number): number => {
        let sum = 0;
        for (let f = 0; f < features; f++) {
          const x = at[member * features + f]!;
          const a = Math.min(low[(depth - 1) * features + f]!, x);
          const b = Math.max(high[(depth - 1) * features + f]!, x);
          low[depth * features + f] = a;
          high[depth * features + f] = b;
          sum += b - a;
        }
        return sum;
      };
      /** Adds members nearer than place `under` to the `depth` taken, whose worth is `worth`. */
      const grow = (depth: number, under: number, worth: number): void => {
        const missing = size - depth;
        for (let i = under - 1; i >= missing - 1; i--) {
          if (--left < 0) return;
          const member = others[i]!;
          const now = worth + valve[member]!;
          const cost = widen(depth, member);
          if (cost > limit) continue;
          if (missing === 1) {
            if (cost - now < bar) {
              chosen[depth] = member;
              file(cost, cost - now);
            }
          } else if (cost - now - (missing - 1) * worthiest[i]! < bar) {
            chosen[depth] = member;
            grow(depth + 1, i, now);
          }
        }
      };
      chosen[0] = v;
      for (let f = 0; f < features; f++) {
        low[f] = at[v * features + f]!;
        high[f] = low[f]!;
      }
      const first = free + valve[v]!;
      if (size === 1) {
        if (-first < bar) file(0, -first);
      } else {
        for (let i = size - 2; i < others.length; i++) {
          if (distance[i]! > limit || distance[i]! - first - (size - 1) * dearest >= bar) break;
          const member = others[i]!;
          const now = first + valve[member]!;
          if (distance[i]! - now - (size > 2 ? (size - 2) * worthiest[i]! : 0) >= bar) continue;
          widen(1, member);
          chosen[1] = member;
          if (size === 2) file(distance[i]!, distance[i]! - now);
          else grow(2, i, now);
        }
      }
      if (left < 0) return undefined;
      leftOut[v] = Math.min(leftOut[v]!, bar);
      for (let i = 0; i < kept; i++) {
        const row = order[i]!;
        members.push(...rows.subarray(row * widest, row * widest + size).sort());
        for (let k = size; k < widest; k++) members.push(n);
        sizeOf.push(size);
        costs.push(rowCosts[row]!);
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
