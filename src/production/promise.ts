import { orderDates } from "./dates.ts";
import { type Forecast, forecast, horizon_ms } from "./forecast.ts";
import { writeInstant } from "./instants.ts";
import { orderingSearch } from "./orderBy.ts";
import type { Plan } from "./plan.ts";
import { promiseNotes } from "./promiseNotes.ts";
import type { OrderPromise, PromiseInput, PromiseResult } from "./shop.ts";
import { hour_ms } from "./spreads.ts";

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
  const work = promiseWork(input);
  while (!work.isDone) {
    work.step();
    options.progress?.(work.share);
  }
  return work.answer();
}

/** The same, some runs at a time. */
export interface PromiseWork {
  readonly share: number;
  readonly isDone: boolean;
  step(): void;
  answer(): PromiseResult;
}

/** @throws BadInput  as `promise`; from `step` too */
export function promiseWork(input: PromiseInput): PromiseWork {
  const work = forecast(input);
  return {
    get share() {
      return work.share;
    },
    get isDone() {
      return work.isDone;
    },
    step: () => work.step(),
    answer: () => resultOf(work.answer(), input),
  };
}

function resultOf(seen: Forecast, input: PromiseInput): PromiseResult {
  const { shop, slack } = seen;
  const latestOrdering = orderingSearch(shop, horizon_ms);
  return {
    orders: shop.orders.map((_, number) => promiseOf(seen, number)),
    orderBy: shop.orders.flatMap(({ id, parts: needed, firstPart }, order) =>
      needed.flatMap((number, i) => {
        const slack_ms = slack[firstPart + i]!;
        const isAskedFor = !shop.parts[number]!.isOrdered && Number.isFinite(slack_ms[0]);
        if (!isAskedFor) return [];
        return [
          { part: shop.parts[number]!.id, order: id, by: writeDown(shop, latestOrdering(number, order, slack_ms)) },
        ];
      }),
    ),
    load: shop.places.map(({ id, isBatch, capacity }, place) => ({
      place: id,
      share: share(seen.placeHeld[place]!, seen.span * (isBatch ? 1 : capacity)),
    })),
    hands: shop.people.map(({ id }, person) => ({
      person: id,
      share: share(seen.personWorked[person]!, seen.atWork[person]!),
    })),
    notes: promiseNotes(shop, input),
  };
}

function promiseOf({ shop, done, held, culprits }: Forecast, number: number): OrderPromise {
  const order = shop.orders[number]!;
  const dates = orderDates(done[number]!);
  const holder = mostOften(held[number]!);
  return {
    id: order.id,
    p50: writeUp(shop, dates.p50_ms),
    p80: writeUp(shop, dates.p80_ms),
    p95: writeUp(shop, dates.p95_ms),
    heldBy: holder.culprit >= 0 ? culprits.ids[holder.culprit]! : longestStep(shop, number),
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
export function writeUp({ now_ms, zone }: Plan, at_ms: number): string {
  return writeInstant(Math.ceil((now_ms + at_ms) / 1000) * 1000, zone);
}

/** To the full second not after: ordered then, it is in time. */
function writeDown({ now_ms, zone }: Plan, at_ms: number): string {
  return writeInstant(Math.max(now_ms, Math.floor((now_ms + at_ms) / 1000) * 1000), zone);
}
