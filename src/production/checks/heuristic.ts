import { type CheckPlan, expectedCost, isAllowed } from "./plan.ts";

/**
 * A cheap allowed order of many checks: blocks of best cost/odds first, then single checks moved while that helps.
 *
 * @returns places in order; nothing where no order keeps the fixed places
 */
export function goodOrder(plan: CheckPlan): number[] | undefined {
  const start = byBlocks(plan);
  return start && improved(plan, start);
}

/**
 * Where nothing must come first, this is the ratio rule, and the cheapest order. Otherwise a check is worth the best
 * ratio of any block that it opens: itself or a later check together with all that must still precede that one.
 */
function byBlocks(plan: CheckPlan): number[] | undefined {
  const n = plan.cost.length;
  const ancestors = ancestorsOf(plan);
  const deadlines = deadlinesOf(plan, ancestors);
  const order: number[] = [];
  const left = new Set(plan.cost.keys());
  if (!canFinish(plan, deadlines, order, left)) return undefined;

  while (order.length < n) {
    const ready = [...left].filter((i) => mayStand(plan, i, order.length) && !plan.before[i]!.some((j) => left.has(j)));
    const worth = worthOf(plan, ancestors, left);
    ready.sort((a, b) => worth[a]! - worth[b]! || ratio(plan, [a]) - ratio(plan, [b]) || a - b);
    const next = ready.find((i) => {
      left.delete(i);
      const possible = canFinish(plan, deadlines, [...order, i], left);
      left.add(i);
      return possible;
    })!;
    order.push(next);
    left.delete(next);
  }
  return order;
}

function mayStand({ fixedAt }: CheckPlan, check: number, position: number): boolean {
  return fixedAt[position]! >= 0 ? fixedAt[position] === check : fixedAt[check]! < 0;
}

/** Expected cost over chance to stop the unit, of a block made in the order given. */
function ratio({ cost, odds }: CheckPlan, block: readonly number[]): number {
  let passes = 1;
  let spent = 0;
  for (const i of block) {
    spent += passes * cost[i]!;
    passes *= 1 - odds[i]!;
  }
  return spent === 0 ? 0 : spent / (1 - passes);
}

function worthOf(plan: CheckPlan, ancestors: readonly ReadonlySet<number>[], left: ReadonlySet<number>): number[] {
  const worth = plan.cost.map(() => Number.POSITIVE_INFINITY);
  for (const goal of left) {
    const block = [...ancestors[goal]!].filter((i) => left.has(i));
    const value = ratio(plan, [...block, goal]);
    for (const i of [...block, goal]) worth[i] = Math.min(worth[i]!, value);
  }
  return worth;
}

/** Each set in an order that may be followed: what must come first stands first. */
function ancestorsOf({ before }: CheckPlan): ReadonlySet<number>[] {
  const found: (ReadonlySet<number> | undefined)[] = before.map(() => undefined);
  const of = (i: number): ReadonlySet<number> => {
    found[i] ??= new Set(before[i]!.flatMap((j) => [...of(j), j]));
    return found[i];
  };
  return before.map((_, i) => of(i));
}

/** Last position that each check may take for the fixed checks behind it. */
function deadlinesOf({ cost, fixedAt }: CheckPlan, ancestors: readonly ReadonlySet<number>[]): number[] {
  const deadlines = cost.map((_, i) => (fixedAt[i]! >= 0 ? i : cost.length - 1));
  for (const held of fixedAt) {
    if (held >= 0) for (const i of ancestors[held]!) deadlines[i] = Math.min(deadlines[i]!, held - 1);
  }
  return deadlines;
}

/** Earliest deadline first finds an order whenever there is one: all checks take one place each. */
function canFinish(plan: CheckPlan, deadlines: readonly number[], begun: readonly number[], rest: ReadonlySet<number>) {
  const left = new Set(rest);
  for (let position = begun.length; left.size > 0; position++) {
    let next = -1;
    for (const i of left) {
      if (!mayStand(plan, i, position) || plan.before[i]!.some((j) => left.has(j))) continue;
      if (next < 0 || deadlines[i]! < deadlines[next]!) next = i;
    }
    if (next < 0 || deadlines[next]! < position) return false;
    left.delete(next);
  }
  return true;
}

/** Moves one check at a time to where it saves most, until nothing is saved or the time for it is spent. */
function improved(plan: CheckPlan, start: readonly number[]): number[] {
  const places = plan.fixedAt.flatMap((check, position) => (check < 0 ? [position] : []));
  let order = [...start];
  let cost = expectedCost(plan, order);
  let tries = 3_000_000 / plan.cost.length;
  for (let found = true; found && tries > 0; ) {
    found = false;
    for (let from = 0; from < places.length && tries > 0; from++) {
      for (let to = 0; to < places.length && tries > 0; to++) {
        if (from === to) continue;
        tries--;
        const moved = withMoved(order, places, from, to);
        const total = expectedCost(plan, moved);
        if (total >= cost * (1 - 1e-12) || !isAllowed(plan, moved)) continue;
        [order, cost, found] = [moved, total, true];
      }
    }
  }
  return order;
}

function withMoved(order: readonly number[], places: readonly number[], from: number, to: number): number[] {
  const free = places.map((position) => order[position]!);
  free.splice(to, 0, ...free.splice(from, 1));
  const moved = [...order];
  places.forEach((position, k) => {
    moved[position] = free[k]!;
  });
  return moved;
}
