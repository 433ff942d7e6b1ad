import { BadInput, quote } from "../maths/badInput.ts";
import { routesOf } from "./planRoute.ts";
import type { Calendar, Order, Part, Person, Place, PromiseInput, Spread, Step } from "./shop.ts";

/** One thing that is otherwise than the shop's data say. */
export type Change =
  /** More or fewer slots, or another length of run, at a place: another plate is one slot more. */
  | { readonly kind: "place"; readonly place: string; readonly slots?: number; readonly cycle_h?: number }
  /** A day on which nobody works, or nobody of one calendar. */
  | { readonly kind: "holiday"; readonly date: string; readonly calendar?: string }
  | { readonly kind: "rush"; readonly order: Order }
  /** Another due date moves an open order up or down in urgency. */
  | { readonly kind: "due"; readonly order: string; readonly due?: string }
  /** A unit fails for certain, once, at a step of its route. */
  | { readonly kind: "fail"; readonly order: string; readonly unit?: number; readonly step: string }
  | { readonly kind: "late"; readonly part: string; readonly days: number }
  | { readonly kind: "away"; readonly person: string; readonly from: string; readonly to: string }
  | { readonly kind: "hands"; readonly person: Person }
  /** Other hours for a step, in one route or in all that have it. */
  | { readonly kind: "hours"; readonly step: string; readonly hours: Spread; readonly route?: string }
  | { readonly kind: "odds"; readonly step: string; readonly failOdds: number; readonly route?: string };

/**
 * The shop's data with changes made to them, one after the other.
 *
 * @throws BadInput  a change of something that is not there, with what is
 * @remarks Nothing but the input is changed, so that anyone can put the changed shop to the promise again.
 */
export function changedShop(input: PromiseInput, changes: readonly Change[]): PromiseInput {
  return changes.reduce((shop, change, i) => changed(shop, change, `changes[${i}]`), input);
}

function changed(shop: PromiseInput, change: Change, path: string): PromiseInput {
  switch (change.kind) {
    case "place":
      return { ...shop, places: atPlace(shop, change, path) };
    case "holiday":
      return { ...shop, calendars: withHoliday(shop.calendars, change, path) };
    case "rush":
      return { ...shop, orders: [...shop.orders, change.order] };
    case "due": {
      known(shop.orders, change.order, `${path}.order`, "order");
      const { due } = change;
      return {
        ...shop,
        orders: shop.orders.map((order) => {
          if (order.id !== change.order) return order;
          const { due: _before, ...rest } = order;
          return due === undefined ? rest : { ...rest, due };
        }),
      };
    }
    case "fail":
      return withFail(shop, change, path);
    case "late":
      return { ...shop, parts: withLate(shop.parts ?? [], change, path) };
    case "away": {
      known(shop.people, change.person, `${path}.person`, "person");
      const { person: who, from, to } = change;
      return {
        ...shop,
        people: shop.people.map((person) =>
          person.id === who ? { ...person, away: [...(person.away ?? []), { from, to }] } : person,
        ),
      };
    }
    case "hands":
      return { ...shop, people: [...shop.people, change.person] };
    case "hours":
      return { ...shop, routes: inRoutes(shop, change, path, (step) => ({ ...step, hours: change.hours })) };
    case "odds":
      return { ...shop, routes: inRoutes(shop, change, path, (step) => ({ ...step, failOdds: change.failOdds })) };
  }
}

function known<T extends { readonly id: string }>(list: readonly T[], id: string, path: string, what: string): T {
  const found = list.find((one) => one.id === id);
  if (found) return found;
  const ids = list.map((one) => quote(one.id)).join(", ") || "none yet";
  throw new BadInput(path, quote(id), `known: ${ids}`, `name such a ${what}`);
}

function atPlace(
  shop: PromiseInput,
  { place: id, slots, cycle_h }: Extract<Change, { kind: "place" }>,
  path: string,
): readonly Place[] {
  const place = known(shop.places, id, `${path}.place`, "place");
  const capacity = (place.capacity ?? 1) + (slots ?? 0);
  if (!(Number.isInteger(capacity) && capacity >= 1)) {
    throw new BadInput(
      `${path}.slots`,
      `${quote(slots)} more at place ${quote(id)}, which has ${place.capacity ?? 1}${neededBy(shop, id)}`,
      "a whole number that leaves at least one slot",
      "give how many slots more or, below zero, fewer",
    );
  }
  return shop.places.map((one) => {
    if (one.id !== id) return one;
    const { busy, ...rest } = one;
    // A slot that is taken away is empty, or becomes so: what stands in it goes on elsewhere.
    const kept = busy?.slice(0, capacity ?? 1);
    return { ...rest, capacity, ...(kept && { busy: kept }), ...(cycle_h !== undefined && { cycle_h }) };
  });
}

/** The first order whose work goes over a place. */
function neededBy({ orders, routes }: PromiseInput, place: string): string {
  const taker = orders.find((order) =>
    routesOf(order).some((name) => (routes[name] ?? []).some((step) => step.place === place)),
  );
  return taker === undefined ? "" : ` and which order ${quote(taker.id)} needs`;
}

function withHoliday(
  calendars: Readonly<Record<string, Calendar>>,
  { date, calendar: only }: Extract<Change, { kind: "holiday" }>,
  path: string,
): Readonly<Record<string, Calendar>> {
  if (only !== undefined)
    known(
      Object.keys(calendars).map((id) => ({ id })),
      only,
      `${path}.calendar`,
      "calendar",
    );
  return Object.fromEntries(
    Object.entries(calendars).map(([name, calendar]) =>
      only === undefined || only === name
        ? [name, { ...calendar, closed: [...(calendar.closed ?? []), date] }]
        : [name, calendar],
    ),
  );
}

function withLate(
  parts: readonly Part[],
  { part: id, days }: Extract<Change, { kind: "late" }>,
  path: string,
): readonly Part[] {
  known(parts, id, `${path}.part`, "part");
  return parts.map((part) => {
    if (part.id !== id) return part;
    const { fast, usual, slow } = part.lead_days;
    return { ...part, lead_days: { fast: fast + days, usual: usual + days, slow: slow + days } };
  });
}

function inRoutes(
  { routes }: PromiseInput,
  { step: name, route: only }: { readonly step: string; readonly route?: string },
  path: string,
  change: (step: Step) => Step,
): PromiseInput["routes"] {
  const concerned = Object.entries(routes).filter(
    ([route, steps]) => (only === undefined || only === route) && steps.some(({ step }) => step === name),
  );
  if (concerned.length === 0) {
    const steps = new Set(
      (only === undefined ? Object.values(routes).flat() : (routes[only] ?? [])).map(({ step }) => step),
    );
    throw new BadInput(
      `${path}.step`,
      `${quote(name)}${only === undefined ? "" : ` in route ${quote(only)}`}`,
      `steps are ${[...steps].map((step) => quote(step)).join(", ") || "none yet"}`,
      "name one of them",
    );
  }
  const names = new Set(concerned.map(([route]) => route));
  return Object.fromEntries(
    Object.entries(routes).map(([route, steps]) => [
      route,
      names.has(route) ? steps.map((step) => (step.step === name ? change(step) : step)) : steps,
    ]),
  );
}

/** The unit gets a route of its own, the same but for the step that will fail. */
function withFail(
  shop: PromiseInput,
  { order: id, unit = 0, step: name }: Extract<Change, { kind: "fail" }>,
  path: string,
): PromiseInput {
  const order = known(shop.orders, id, `${path}.order`, "order");
  if (!(Number.isInteger(unit) && unit >= 0 && unit < order.units)) {
    throw new BadInput(
      `${path}.unit`,
      `${quote(unit)} of order ${quote(id)}`,
      `0 to ${order.units - 1}`,
      "give which unit of the order fails, counted from 0",
    );
  }
  const taken = order.route ?? Array.from({ length: order.units }, () => order.model);
  const route = shop.routes[taken[unit]!] ?? [];
  if (!route.some(({ step }) => step === name)) {
    throw new BadInput(
      `${path}.step`,
      `${quote(name)} in what unit ${unit} of order ${quote(id)} has to do`,
      `its steps are ${route.map(({ step }) => quote(step)).join(", ") || "none"}`,
      "name one of them",
    );
  }
  const own = `${taken[unit]}, unit ${unit} of ${id} failing at ${name}`;
  return {
    ...shop,
    routes: { ...shop.routes, [own]: route.map((step) => (step.step === name ? { ...step, failsOnce: true } : step)) },
    orders: shop.orders.map((one) =>
      one.id === id ? { ...one, route: taken.map((route, i) => (i === unit ? own : route)) } : one,
    ),
  };
}
