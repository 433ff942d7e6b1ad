import type { BodyOf } from "../claims/evidence.ts";
import { type ClaimState, modelKey, type Shop } from "../claims/index.ts";
import type { Calculate } from "./calculate.ts";
import { remainingRoute, type Step } from "./remainingWork.ts";
import type { PromiseView } from "./views.ts";

/** Enough that the 80 % date stands still to about an hour in a shop of this size; the answer carries its doubt. */
const runs = 600;
const seed = 1;

interface OrderDates {
  readonly id: string;
  readonly p50: string;
  readonly p80: string;
  readonly p95: string;
  readonly heldBy: string;
}

/** The shop as the promise sees it; `instead` puts another route in place of a unit's own, to try a change out. */
export interface Bookkeeping {
  readonly shop: Shop;
  readonly now: string;
  statesOf(unit: string): readonly ClaimState[];
  readonly instead?: Readonly<Record<string, readonly Step[]>>;
}

type Order = BodyOf<"order">;

/** Simulated dates of every open order, from what is left to do on each of its units. */
export async function orderDates(book: Bookkeeping, calculate: Calculate): Promise<readonly OrderDates[]> {
  const { shop } = book;
  const orders = openOrders(shop);
  if (orders.length === 0 || !shop.shop) return [];
  const routes: Record<string, readonly Step[]> = {};
  const asked = orders.map((order) => {
    const route = openUnits(shop, order).map((unit) => {
      routes[unit] = routeOf(book, order, unit);
      return unit;
    });
    return {
      id: order.order,
      model: order.model,
      units: route.length,
      route,
      ...(order.due !== undefined && { due: order.due }),
      ...(order.released !== undefined && { released: order.released }),
    };
  });
  const { calendars, people, places, timeZone } = shop.shop;
  const steps = new Set(Object.values(routes).flatMap((route) => route.map(({ step }) => step)));
  const parts = [...shop.parts.values()]
    .map(({ body: { part, model, step, lead_days, ordered } }) => ({
      id: part,
      model,
      step,
      lead_days,
      ...(ordered !== undefined && { ordered }),
    }))
    .filter((part) => steps.has(part.step) && asked.some((order) => order.model === part.model));
  const answer = await calculate<{ orders: OrderDates[] }>("production.promise", {
    now: book.now,
    timeZone,
    calendars,
    people,
    places,
    routes,
    parts,
    orders: asked,
    runs,
    seed,
    allowOverdue: true,
  });
  return answer.orders;
}

/** The promise book: a line per open order, with the date given and the date the simulation now gives. */
export async function promiseBook(book: Bookkeeping, calculate: Calculate): Promise<readonly PromiseView[]> {
  const dates = await orderDates(book, calculate);
  return dates.map((found): PromiseView => {
    const order = book.shop.orders.get(found.id)!.body;
    const promised = book.shop.promises.get(found.id)?.body.date ?? order.due;
    const late = promised !== undefined && Date.parse(found.p80) > endOfDay_ms(promised);
    return {
      order: found.id,
      model: order.model,
      units: openUnits(book.shop, order),
      ...(promised !== undefined && { promised }),
      p50: found.p50,
      p80: found.p80,
      p95: found.p95,
      heldBy: found.heldBy,
      late,
      words: late
        ? `Four runs in five are done by then, after the date given; it waits longest for ${found.heldBy}.`
        : `Four runs in five are done by then; it waits longest for ${found.heldBy}.`,
    };
  });
}

/** Orders with a unit that is not released, in the order they were taken. */
function openOrders(shop: Shop): readonly Order[] {
  return [...shop.orders.values()].map(({ body }) => body).filter((order) => openUnits(shop, order).length > 0);
}

function openUnits(shop: Shop, order: Order): readonly string[] {
  return order.units.filter((unit) => !shop.isReleased(unit));
}

function routeOf({ shop, statesOf, instead }: Bookkeeping, order: Order, unit: string): readonly Step[] {
  if (instead?.[unit]) return instead[unit];
  const model = shop.modelOf(unit) ?? shop.models.get(modelKey(order.model, order.revision))!.body;
  const state = shop.units.get(unit);
  if (state) return remainingRoute(model, state, statesOf(unit));
  return remainingRoute(
    model,
    undefined,
    model.claims.map((claim) => ({ ...claim, state: "open", because: "not begun", figures: [] })),
  );
}

/** A promise names a day: it is kept until that day is over where it was given. */
function endOfDay_ms(instant: string): number {
  const offset = instant.match(/(Z|[+-]\d\d:\d\d)$/)?.[0] ?? "Z";
  return Date.parse(`${instant.slice(0, 10)}T23:59:59${offset}`);
}
