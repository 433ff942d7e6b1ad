import type { CheckPlan } from "./plan.ts";

/**
 * Cheapest allowed order, by dynamic programming over the sets S of checks already made.
 *
 *     f(S) = min over allowed i outside S of  cᵢ + (1 − pᵢ)·f(S + i),   f(all) = 0
 *
 * @returns places in order, the earlier in the list first among equals; nothing where no order keeps the fixed places
 */
export function bestOrder({ cost, odds, before, fixedAt }: CheckPlan): number[] | undefined {
  const n = cost.length;
  const all = 2 ** n - 1;
  const needs = before.map((set) => set.reduce((bits, i) => bits | (1 << i), 0));
  const isHeld = fixedAt.map((check) => check >= 0);
  const rest = new Float64Array(all + 1).fill(Number.POSITIVE_INFINITY);
  const next = new Int8Array(all + 1).fill(-1);
  rest[all] = 0;

  for (let made = all - 1; made >= 0; made--) {
    const held = fixedAt[bitsIn(made)]!;
    const [from, to] = held < 0 ? [0, n] : [held, held + 1];
    for (let i = from; i < to; i++) {
      if (held < 0 && isHeld[i]) continue;
      if ((made >> i) & 1 || (needs[i]! & ~made) !== 0) continue;
      const total = cost[i]! + (1 - odds[i]!) * rest[made | (1 << i)]!;
      if (next[made]! < 0 ? total < Number.POSITIVE_INFINITY : total < rest[made]! * (1 - 1e-13)) {
        rest[made] = total;
        next[made] = i;
      }
    }
  }

  const order: number[] = [];
  for (let made = 0; made !== all; made |= 1 << order.at(-1)!) {
    if (next[made]! < 0) return undefined;
    order.push(next[made]!);
  }
  return order;
}

function bitsIn(set: number): number {
  let count = 0;
  for (let left = set; left !== 0; left &= left - 1) count++;
  return count;
}
