import { BadInput, quote } from "../maths/badInput.ts";
import { randomStream } from "../maths/random.ts";
import { boundsFromAbove, type OrderDates, orderDates } from "./dates.ts";
import { writeInstant } from "./instants.ts";
import { orderingSearch } from "./orderBy.ts";
import { day_ms, hour_ms, type Plan, plan } from "./plan.ts";
import type { OrderPromise, PromiseInput, PromiseResult } from "./shop.ts";
import { drawParts, type Simulation, simulation } from "./simulation.ts";
import { timeAtWork } from "./workingHours.ts";

/** Step executions over all runs that are simulated at most: some seconds of work. */
export const mostExecutions = 10_000_000;
/** Dates of orders and slacks of parts kept over all runs at most. */
const mostRemembered = 30_000_000;
const horizon_ms = 20 * 365.25 * day_ms;

export interface PromiseOptions {
  /** Told the share of the runs done, 0 to 1. */
  readonly progress?: (share: number) => void;
}

/**
 * When each open order will be done, by letting the shop run forward many times with drawn times, delays and fails.
 *
 *     pNN = k-th earliest of the n dates of an order, k = ⌈n·NN/100⌉
 *
 * @returns three dates an order with their doubt, what holds it, latest instants of ordering parts, and loads
 * @throws BadInput  a shop that can't work as described, with the order concerned; more runs than can be simulated
 * @remarks Units are taken greedily in order of urgency, as they are on a shop floor; the result is a forecast of that
 *   rule, not the best schedule. All luck is drawn independently. Each unit's luck comes from the seed, the run, the
 *   order's id and the unit's number alone, so that two questions about the same shop can be compared run by run.
 * @source  discrete-event simulation, common practice; doubt of a quantile from order statistics (binomial)
 */
export function promise(input: PromiseInput, options: PromiseOptions = {}): PromiseResult {
  const shop = plan(input);
  requireAffordable(shop, input.runs);

  const floor = simulation(shop, horizon_ms, 1.5 * mostExecutions);
  const chance = randomStream(input.seed);
  const runs = shop.isRandom ? input.runs : 1;
  const { orders, parts, people } = shop;
  const done = orders.map(() => new Float64Array(runs));
  const slack = Array.from({ length: shop.orderParts }, () => new Float64Array(runs));
  const held = orders.map(() => new Map<number, number>());
  const atWork = new Float64Array(people.length);
  let span = 0;

  for (let run = 0; run < runs; run++) {
    const luck = shop.isRandom ? chance.fork(run) : undefined;
    const ready = drawParts(shop, luck);
    requireFinished(floor.run(luck, ready), floor, shop, input);

    const { trace } = floor;
    orders.forEach((_, order) => {
      done[order]![run] = trace.done[order]!;
      const culprit = trace.waitedFor[order]!;
      held[order]!.set(culprit, (held[order]!.get(culprit) ?? 0) + 1);
    });
    for (const order of orders) {
      order.parts.forEach((part, i) => {
        slack[order.firstPart + i]![run] = trace.firstUse[order.firstPart + i]! - ready[part]!;
      });
    }
    const last = trace.lastDone();
    span += last;
    people.forEach(({ hours }, person) => {
      atWork[person]! += timeAtWork(hours, last);
    });
    if (run % 50 === 49) options.progress?.((run + 1) / runs);
  }

  const latestOrdering = orderingSearch(shop, horizon_ms);
  return {
    orders: orders.map((_, number) =>
      promiseOf(shop, number, orderDates(done[number]!), mostOften(held[number]!), floor),
    ),
    orderBy: orders.flatMap(({ id, parts: needed, firstPart }, order) =>
      needed.flatMap((number, i) => {
        const slack_ms = slack[firstPart + i]!;
        const isAskedFor = !parts[number]!.isOrdered && Number.isFinite(slack_ms[0]);
        if (!isAskedFor) return [];
        return [{ part: parts[number]!.id, order: id, by: writeDown(shop, latestOrdering(number, order, slack_ms)) }];
      }),
    ),
    load: shop.places.map(({ id, isBatch, capacity }, place) => ({
      place: id,
      share: share(floor.placeHeld[place]!, span * (isBatch ? 1 : capacity)),
    })),
    hands: people.map(({ id }, person) => ({
      person: id,
      share: share(floor.personWorked[person]!, atWork[person]!),
    })),
    notes: notes(shop, input),
  };
}

function promiseOf(
  shop: Plan,
  number: number,
  dates: OrderDates,
  holder: { readonly culprit: number; readonly share: number },
  floor: Simulation,
): OrderPromise {
  const order = shop.orders[number]!;
  return {
    id: order.id,
    p50: writeUp(shop, dates.p50_ms),
    p80: writeUp(shop, dates.p80_ms),
    p95: writeUp(shop, dates.p95_ms),
    heldBy: holder.culprit >= 0 ? floor.culprits.ids[holder.culprit]! : longestStep(shop, number),
    heldShare: holder.share,
    ...(order.due_ms === undefined ? {} : { onTime: dates.shareBy(order.due_ms) }),
    doubt_h: {
      p50: dates.p50Doubt_ms / hour_ms,
      p80: dates.p80Doubt_ms / hour_ms,
      p95: dates.p95Doubt_ms / hour_ms,
    },
  };
}

/** The step with the most hours to expect, a batch place's cycle counting as its own. */
function longestStep(shop: Plan, order: number): string {
  const steps = shop.units.filter((unit) => unit.order === order).flatMap(({ route }) => route);
  const hours = (step: (typeof steps)[number]) => {
    const cycle_ms = step.isBatch ? shop.places[step.place]!.cycle_ms : undefined;
    return cycle_ms ?? (step.work_ms.fast + step.work_ms.usual + step.work_ms.slow) / 3;
  };
  const longest = [...steps].sort((a, b) => hours(b) - hours(a))[0];
  return longest?.name ?? "nothing left to do";
}

function mostOften(counts: ReadonlyMap<number, number>): { readonly culprit: number; readonly share: number } {
  const sorted = [...counts].sort((a, b) => b[1] - a[1] || b[0] - a[0]);
  const [culprit, count] = sorted[0]!;
  return { culprit, share: count / sorted.reduce((sum, [, n]) => sum + n, 0) };
}

function share(part: number, whole: number): number {
  return whole > 0 ? part / whole : 0;
}

/** To the full second not before: by then it is done. */
function writeUp({ now_ms, zone }: Plan, at_ms: number): string {
  return writeInstant(Math.ceil((now_ms + at_ms) / 1000) * 1000, zone);
}

/** To the full second not after: ordered then, it is in time. */
function writeDown({ now_ms, zone }: Plan, at_ms: number): string {
  return writeInstant(Math.max(now_ms, Math.floor((now_ms + at_ms) / 1000) * 1000), zone);
}

function requireAffordable(shop: Plan, runs: number): void {
  if (!(Number.isInteger(runs) && runs >= 1)) {
    throw new BadInput("runs", quote(runs), "a whole number of at least 1", "ask for 2000 runs");
  }
  const steps = Math.max(1, shop.cost);
  const affordable = Math.floor(mostExecutions / steps);
  if (affordable < 1) {
    throw new BadInput(
      "orders",
      `about ${Math.round(steps).toLocaleString("en")} steps to be done in one run`,
      `at most ${mostExecutions.toLocaleString("en")}`,
      "lower the odds of failing, or ask for fewer orders or units",
    );
  }
  const rememberable = Math.floor(mostRemembered / Math.max(1, shop.orderParts + shop.orders.length));
  if (shop.isRandom && runs > Math.min(affordable, rememberable)) {
    throw new BadInput(
      "runs",
      quote(runs),
      `at most ${Math.min(affordable, rememberable)} runs of this shop, whose orders take about ${Math.round(shop.expectedSteps)} steps a run`,
      "ask for fewer runs",
    );
  }
}

function requireFinished(
  outcome: ReturnType<Simulation["run"]>,
  floor: Simulation,
  shop: Plan,
  input: PromiseInput,
): void {
  if (outcome === "done") return;
  const unfinished = floor.trace.done.indexOf(Number.POSITIVE_INFINITY);
  const id = quote(shop.orders[unfinished]!.id);
  if (outcome === "beyond-horizon") {
    throw new BadInput(
      `orders[${unfinished}]`,
      `order ${id} is not done within 20 years in the simulation`,
      "orders that can be done by then",
      "look at its release, its hours and the odds of failing in its route",
    );
  }
  throw new BadInput(
    "runs",
    quote(input.runs),
    `${mostExecutions.toLocaleString("en")} steps over all runs; order ${id} and others repeat steps far more often than odds lead to expect`,
    "ask for fewer runs",
  );
}

function notes(shop: Plan, input: PromiseInput): readonly string[] {
  const overdue = shop.orders.filter(({ due_ms }) => due_ms !== undefined && due_ms < 0).map(({ id }) => id);
  const oneSlot = input.places.filter(({ kind, capacity }) => kind === "batch" && capacity === undefined);
  const byClock = Object.entries(input.routes).flatMap(([model, route]) =>
    route
      .filter(({ skill, place, unattended }) => {
        const isBatch = input.places.some(({ id, kind }) => id === place && kind === "batch");
        return skill !== undefined && (unattended === true || isBatch);
      })
      .map(({ step }) => `${step} of ${model}`),
  );
  return [
    "A date is what the shop's own rule (most urgent first, nobody waits for who is not ready) leads to; sickness, new orders and returns are not in it.",
    shop.isRandom
      ? `${input.runs} runs; the doubt of each date comes from their number alone, not from how well times and odds are known.`
      : "Nothing is left to chance in this input: one run tells all, and the three dates are one.",
    ...(shop.isRandom && !boundsFromAbove(input.runs, 0.95)
      ? [`${input.runs} runs can't bound the 95 % date from above; its doubt reaches only to the latest run.`]
      : []),
    ...(shop.isRandom && shop.parts.some(({ isOrdered }) => !isOrdered)
      ? ["orderBy keeps 19 of 20 runs from becoming later, other parts not yet ordered being ordered now."]
      : []),
    ...(overdue.length > 0 ? [`Due before now, and so the most urgent: ${overdue.join(", ")}.`] : []),
    ...(oneSlot.length > 0
      ? [`Taken to hold one unit, no capacity being given: ${oneSlot.map(({ id }) => id).join(", ")}.`]
      : []),
    ...(byClock.length > 0
      ? [`Run by the clock, unattended or in a batch place, so that no person is asked for: ${byClock.join(", ")}.`]
      : []),
  ];
}
