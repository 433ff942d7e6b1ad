import { BadInput, quote } from "../maths/badInput.ts";
import { bestOrder } from "./checks/exact.ts";
import { goodOrder } from "./checks/heuristic.ts";
import { type CheckPlan, expectedCost, isAllowed } from "./checks/plan.ts";

export interface Check {
  readonly id: string;
  /** Minutes, money or whatever is to be spared; the same for all. */
  readonly cost: number;
  /** Chance that a unit which has passed so far fails here. */
  readonly failOdds: number;
  /** Checks that must have been made before. */
  readonly after?: readonly string[];
  /** Keeps the position that it has in the list. */
  readonly fixed?: boolean;
}

export interface CheckOrder {
  readonly order: readonly string[];
  readonly expectedCost: number;
  /** No allowed order costs less. */
  readonly optimal: boolean;
  /** What the list costs as it was given; left out where `after` forbids that order. */
  readonly givenCost?: number;
}

/** Most checks for which every order is weighed. */
export const mostExact = 20;
/** Most checks that are put in order at all. */
export const mostChecks = 200;

/**
 * The order of checks that costs least when work stops at the first fail.
 *
 *     E = c₁ + (1 − p₁)·c₂ + (1 − p₁)(1 − p₂)·c₃ + …
 *
 * @returns the order, its expected cost in the unit of `cost`, and whether it is proven to be the cheapest
 * @throws BadInput  unknown, repeated or circular ids, numbers out of range, fixed places that can't be kept
 * @remarks Exact up to 20 checks by dynamic programming over the sets of checks made; and for any number where
 *   nothing must come first, by the ratio cost/odds. Beyond, the order is improved until no single move helps.
 *   Fails are taken as independent: odds are those after passing what stands before.
 * @source  L. G. Mitten, J. Industrial Engineering 11 (1960) 17; R. Boothroyd, Operational Research Quarterly 11
 *   (1960) 137-138 (both from memory; the recursion is proved in a line)
 * @example orderChecks([{ id: "a", cost: 10, failOdds: 0.1 }, { id: "b", cost: 1, failOdds: 0.5 }]) // b, a: 6
 */
export function orderChecks(checks: readonly Check[]): CheckOrder {
  const plan = planOf(checks);
  const isFree = plan.before.every((set) => set.length === 0) && plan.fixedAt.every((check) => check < 0);
  const isSmall = checks.length <= mostExact;
  const order = isSmall ? bestOrder(plan) : goodOrder(plan);
  if (order === undefined) throw unkeepable(checks, plan);

  const given = checks.map((_, i) => i);
  return {
    order: order.map((i) => checks[i]!.id),
    expectedCost: expectedCost(plan, order),
    optimal: isSmall || isFree,
    ...(isAllowed(plan, given) ? { givenCost: expectedCost(plan, given) } : {}),
  };
}

function planOf(checks: readonly Check[]): CheckPlan {
  if (checks.length === 0 || checks.length > mostChecks) {
    throw new BadInput(
      "checks",
      `${checks.length} checks`,
      `1 to ${mostChecks}`,
      "plan the checks of one unit at a time",
    );
  }
  const placeOf = new Map<string, number>();
  checks.forEach(({ id, cost, failOdds }, i) => {
    if (placeOf.has(id)) throw new BadInput(`checks[${i}].id`, quote(id), "each id once", "give it another id");
    if (!(cost >= 0 && cost < Number.POSITIVE_INFINITY)) {
      throw new BadInput(`checks[${i}].cost`, quote(cost), "0 or more", "give its cost in the unit of the others");
    }
    if (!(failOdds >= 0 && failOdds <= 1)) {
      throw new BadInput(`checks[${i}].failOdds`, quote(failOdds), "0 to 1", "give a share, 0.05 for one in twenty");
    }
    placeOf.set(id, i);
  });
  const before = checks.map(({ after = [] }, i) => [
    ...new Set(
      after.map((id, k) => {
        const place = placeOf.get(id);
        if (place === undefined) {
          throw new BadInput(
            `checks[${i}].after[${k}]`,
            quote(id),
            "the id of a check in the list",
            "correct it or add the check",
          );
        }
        return place;
      }),
    ),
  ]);
  refuseLoops(checks, before);
  return {
    cost: checks.map((check) => check.cost),
    odds: checks.map((check) => check.failOdds),
    before,
    fixedAt: checks.map((check, i) => (check.fixed ? i : -1)),
  };
}

/** Takes away what waits for nothing, again and again; what is left waits for itself. */
function refuseLoops(checks: readonly Check[], before: readonly (readonly number[])[]): void {
  const left = new Set(before.keys());
  for (let found = true; found; ) {
    found = false;
    for (const i of left) {
      if (before[i]!.some((j) => left.has(j))) continue;
      left.delete(i);
      found = true;
    }
  }
  if (left.size === 0) return;
  const inLoop = walkIntoLoop(before, left);
  throw new BadInput(
    `checks[${inLoop[0]}].after`,
    inLoop.map((i) => checks[i]!.id).join(" after "),
    "an order without a loop",
    "take one of these out of `after`",
  );
}

function walkIntoLoop(before: readonly (readonly number[])[], left: ReadonlySet<number>): number[] {
  const path: number[] = [];
  let at = Math.min(...left);
  while (!path.includes(at)) {
    path.push(at);
    at = before[at]!.find((j) => left.has(j))!;
  }
  return [...path.slice(path.indexOf(at)), at];
}

function unkeepable(checks: readonly Check[], plan: CheckPlan): BadInput {
  const given = plan.fixedAt.filter((i) => i >= 0);
  const culprit = given.find((i) => checks[i]!.after?.length) ?? given[0]!;
  return new BadInput(
    `checks[${culprit}].fixed`,
    `${checks[culprit]!.id} at position ${culprit + 1}`,
    "places that leave room for what must come first",
    "move the fixed checks in the list, or take one out of `after`",
  );
}
