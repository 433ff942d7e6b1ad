import { firstWhere } from "../maths/firstWhere.ts";
import { reachedBy } from "./dates.ts";
import type { Plan } from "./plan.ts";
import { drawParts, simulation } from "./simulation.ts";

/** Share of the runs that ordering at the instant given may make later. */
const mayBeLater = 0.05;
/** Step executions that the search by trial may cost in all. */
const allowance = 3_000_000;
/** Halvings from twenty years down to a millisecond. */
const trials = 42;

/**
 * Finds the latest instants, in milliseconds from `now`, at which a part can be ordered without making an order later
 * than it is with the part ordered now.
 *
 * Ordered so that it comes when the first unit would begin the step anyhow, a part holds nothing: that much slack each
 * run shows, and with chance in the shop it is kept in 19 of 20 runs. Where nothing is left to chance, the shop is run
 * again with later orderings until the order itself becomes later, which finds the slack further down the route too.
 *
 * @returns a function of the part, the order and, per run, the first beginning of the step less the part's arrival when
 *   ordered now
 */
export function orderingSearch(
  shop: Plan,
  horizon_ms: number,
): (part: number, order: number, slack_ms: Float64Array) => number {
  if (shop.isRandom || shop.orderParts * trials * shop.cost > allowance) {
    return (_part, _order, slack_ms) => Math.max(0, reachedBy(slack_ms.slice().sort(), mayBeLater));
  }

  const floor = simulation(shop, horizon_ms, Number.POSITIVE_INFINITY);
  const arrivals = drawParts(shop, undefined);
  const doneWhenLater = (part: number, order: number, later_ms: number) => {
    const ready = arrivals.slice();
    ready[part]! += later_ms;
    return floor.run(undefined, ready) === "done" ? floor.trace.done[order]! : Number.POSITIVE_INFINITY;
  };

  return (part, order, slack_ms) => {
    const done = doneWhenLater(part, order, 0);
    const inTime = Math.max(0, slack_ms[0]!);
    if (doneWhenLater(part, order, inTime) > done) return 0;
    // The order can't be done before the part is there.
    const late = Math.max(inTime, done - arrivals[part]!) + 1;
    return firstWhere(inTime + 1, late, (later) => doneWhenLater(part, order, later) > done) - 1;
  };
}
