/** Checks by their place in the list. */
export interface CheckPlan {
  readonly cost: readonly number[];
  readonly odds: readonly number[];
  /** Which checks must have been made before each. */
  readonly before: readonly (readonly number[])[];
  /** The check held at each position, or −1 where the position is free. */
  readonly fixedAt: readonly number[];
}

/** c₁ + (1 − p₁)·c₂ + (1 − p₁)(1 − p₂)·c₃ + … */
export function expectedCost({ cost, odds }: CheckPlan, order: readonly number[]): number {
  return order.reduceRight((after, check) => cost[check]! + (1 - odds[check]!) * after, 0);
}

/** Whether every check comes after what must precede it. */
export function isAllowed({ before }: CheckPlan, order: readonly number[]): boolean {
  const made = new Uint8Array(order.length);
  for (const check of order) {
    for (const first of before[check]!) if (made[first] === 0) return false;
    made[check] = 1;
  }
  return true;
}
