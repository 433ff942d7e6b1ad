import type { BodyOf, ClaimSpec } from "../../claims/evidence.ts";
import { type ClaimState, modelKey, type Shop } from "../../claims/index.ts";
import { waitOf } from "../production/waits.ts";
import { remainingRoute, type Step } from "../remainingWork.ts";
import { endOfDay } from "./days.ts";
import { stageOdds } from "./stageOdds.ts";

/** The shop as the promise sees it; `instead` puts another route in place of a unit's own, to try a change out. */
export interface Bookkeeping {
  readonly shop: Shop;
  /** By the clock, to the moment. */
  readonly now: string;
  /** When the runs begin, where not at this very moment. */
  readonly from?: string;
  statesOf(unit: string): readonly ClaimState[];
  readonly instead?: Readonly<Record<string, readonly Step[]>>;
}

type Order = BodyOf<"order">;
type Place = BodyOf<"shop">["places"][number] & {
  readonly busy?: readonly { readonly slots: number; readonly until: string }[];
};
type Part = BodyOf<"part">;

/** Enough that the 80 % date stands still to about an hour in a shop of this size; the answer carries its doubt. */
const runs = 600;
const seed = 1;

/** What `production.promise` is asked of the shop as it stands. */
export interface PromiseQuestion {
  readonly now: string;
  readonly timeZone: string;
  readonly calendars: BodyOf<"shop">["calendars"];
  readonly people: BodyOf<"shop">["people"];
  readonly places: readonly Place[];
  readonly routes: Readonly<Record<string, readonly Step[]>>;
  readonly parts: readonly (Omit<Part, "kind" | "part"> & { readonly id: string })[];
  readonly orders: readonly {
    readonly id: string;
    readonly model: string;
    readonly units: number;
    /** For each unit that has not left its route, named by its serial number. */
    readonly route: readonly string[];
    readonly due?: string;
  }[];
  readonly runs: number;
  readonly seed: number;
  readonly allowOverdue: true;
}

/**
 * Every open order with what is left to do on each of its units, the odds of failing as the shop's own book has them,
 * and the parts that have not come.
 *
 * @returns nothing where no order is open or people and places were never written down
 */
export function promiseQuestion(book: Bookkeeping): PromiseQuestion | undefined {
  const { shop, from = book.now } = book;
  const open = openOrders(shop);
  if (open.length === 0 || !shop.shop) return undefined;
  const odds = stageOdds(shop);
  const routes: Record<string, readonly Step[]> = {};
  const orders = open.map((order) => {
    const route = openUnits(shop, order);
    for (const unit of route) {
      routes[unit] = routeOf(book, order, unit).map((step) =>
        step.failOdds === undefined ? step : { ...step, failOdds: odds(order.model, step.step, step.failOdds) },
      );
    }
    const due = promisedFor(shop, order.order);
    return {
      id: order.order,
      model: order.model,
      units: route.length,
      route,
      ...(due !== undefined && { due: endOfDay(due) }),
      ...(order.released !== undefined && { released: order.released }),
    };
  });
  const { calendars, people, timeZone } = shop.shop;
  const places = shop.shop.places.map((place) => withWhatStandsIn(place, shop, from));
  const parts = [...shop.parts.values()].flatMap(({ body }) => {
    if (shop.arrivals.has(body.part)) return [];
    const takers = orders.filter(({ id, model }) => model === body.model && (body.orders?.includes(id) ?? true));
    const isWaitedFor = takers.some(({ route }) =>
      route.some((unit) => routes[unit]!.some(({ step }) => step === body.step)),
    );
    if (!isWaitedFor) return [];
    const { part: id, model, step, lead_days, ordered } = body;
    return [
      {
        id,
        model,
        step,
        lead_days,
        ...(ordered !== undefined && { ordered }),
        ...(body.orders && { orders: takers.map((order) => order.id) }),
      },
    ];
  });
  return { now: from, timeZone, calendars, people, places, routes, parts, orders, runs, seed, allowOverdue: true };
}

/** The date last given for an order, or the one asked for with it. */
export function promisedFor(shop: Shop, order: string): string | undefined {
  return shop.promises.get(order)?.body.date ?? shop.orders.get(order)?.body.due;
}

/** Orders with a unit that has not left, in the order they were taken. */
export function openOrders(shop: Shop): readonly Order[] {
  return [...shop.orders.values()].map(({ body }) => body).filter((order) => openUnits(shop, order).length > 0);
}

export function openUnits(shop: Shop, order: Order): readonly string[] {
  return order.units.filter((unit) => !shop.isReleased(unit));
}

/** A place with what stands in it by itself until it is ripe. */
function withWhatStandsIn(place: BodyOf<"shop">["places"][number], shop: Shop, from: string): Place {
  const capacity = place.capacity ?? 1;
  const busy = shop.runs.slotsOf(place.id).flatMap(({ run }) => {
    return Date.parse(run.ripe) > Date.parse(from) ? [{ slots: 1, until: run.ripe }] : [];
  });
  return busy.length === 0 ? place : { ...place, busy: busy.slice(0, capacity) };
}

function routeOf(book: Bookkeeping, order: Order, unit: string): readonly Step[] {
  const { shop, statesOf, instead } = book;
  if (instead?.[unit]) return instead[unit];
  const model = shop.modelOf(unit) ?? shop.models.get(modelKey(order.model, order.revision))!.body;
  const state = shop.unit(unit);
  if (state) {
    const states = statesOf(unit);
    const of = waitOf(shop, unit, states);
    return remainingRoute(model, state, states, [], of && { of, now: book.from ?? book.now });
  }
  return remainingRoute(model, undefined, model.claims.map(notBegun));
}

function notBegun(claim: ClaimSpec): ClaimState {
  return { ...claim, state: "open", because: "not begun", figures: [] };
}
