import type { BodyOf } from "../../claims/evidence.ts";
import { type ClaimState, modelKey, releaseDecision, type Shop } from "../../claims/index.ts";
import { BadInput, quote } from "../../maths/badInput.ts";
import type { OrderLine, OrdersView, OrderView, PackView, RouteStep, ShopView } from "./views.ts";

/** The workshop as set up so far, for the page where it is set up. */
export function shopView(shop: Shop, now: string, zone: string): ShopView {
  const models = [...shop.models.values()].map(({ body }) => body);
  const skills = models.flatMap(({ claims, build }) => [
    ...claims.map(({ check }) => check.skill),
    ...build.flatMap(({ skill }) => skill ?? []),
  ]);
  const set = shop.shop;
  return {
    now,
    ...(set && { shop: set }),
    instruments: [...shop.instruments.values()].map(({ body }) => body),
    headphones: [...shop.headphones.values()].map(({ body }) => body),
    skills: [...new Set(skills)].sort(),
    zone,
  };
}

/** Of orders that left the latest so many are listed. */
const mostLeft = 200;

/**
 * Orders, the newest first, with what the form of the next one can fill in by itself.
 *
 * @param sought  part of an order's number, model, customer, place or of a unit's number; all where it is empty
 */
export function ordersView(shop: Shop, now: string, sought = ""): OrdersView {
  const newest = [...shop.orders.values()]
    .map((entry) => ({ entry, at_ms: Date.parse(entry.at) }))
    .sort((a, b) => b.at_ms - a.at_ms || b.entry.seq - a.entry.seq)
    .map(({ entry }) => entry);
  const bodies = newest.map(({ body }) => body);
  const places = new Map<string, BodyOf<"order">["destination"]>();
  for (const { destination } of bodies) if (!places.has(destination.place)) places.set(destination.place, destination);
  const options = new Map<string, Set<string>>();
  for (const body of bodies) {
    for (const [option, choice] of Object.entries(body.options ?? {})) {
      options.set(option, (options.get(option) ?? new Set()).add(choice));
    }
  }
  return {
    now,
    orders: newest
      .filter(({ body }) => sought === "" || wordsOf(body).includes(sought.toLowerCase()))
      .filter(({ body }, i) => i < mostLeft || (sought === "" && isInHand(shop, body)))
      .map((entry) => lineOf(shop, entry.body, entry.at)),
    ordersInAll: newest.length,
    models: [...shop.models.values()].map(({ body: { model, revision, title } }) => ({ model, revision, title })),
    places: [...places.values()],
    customers: [...new Set(bodies.map(({ customer }) => customer))],
    ...(shop.shop && { building_Hz: shop.shop.building_Hz }),
    options: [...options].map(([option, choices]) => ({ option, choices: [...choices] })),
    nextOrder: following(bodies.map(({ order }) => order)) ?? "W-1",
    nextUnit: following(bodies.flatMap(({ units }) => units)) ?? "0001",
  };
}

function wordsOf({ order, model, customer, destination, units }: BodyOf<"order">): string {
  return [order, model, customer, destination.place, ...units].join(" ").toLowerCase();
}

function isInHand(shop: Shop, { order, units }: BodyOf<"order">): boolean {
  return !shop.isDelivered(order) || units.some((unit) => shop.cameBackAfter(unit) !== undefined);
}

export function orderView(
  shop: Shop,
  order: string,
  now: string,
  statesOf: (unit: string) => readonly ClaimState[],
): OrderView {
  const entry = shop.orders.get(order);
  if (!entry) {
    const known = [...shop.orders.keys()];
    const some = known.slice(-20).join(", ");
    throw new BadInput(
      "order",
      quote(order),
      known.length === 0 ? "no order was taken yet" : `orders here: ${some}`,
      "check the number, or take the order first",
    );
  }
  const { body } = entry;
  const model = shop.models.get(modelKey(body.model, body.revision))!.body;
  return {
    now,
    ...lineOf(shop, body, entry.at),
    title: model.title,
    destination: body.destination,
    ...(body.language !== undefined && { language: body.language }),
    options: body.options ?? {},
    climate: shop.timber.climates.has(body.destination.place),
    route: model.build.map(routeStep),
    claims: model.claims.map(({ claim, title, safety }) => ({ claim, title, safety })),
    parts: [...shop.parts.values()]
      .map(({ body: part }) => part)
      .filter((part) => part.model === body.model && (part.orders === undefined || part.orders.includes(order)))
      .map(({ part, step, lead_days, ordered }) => {
        const arrived = shop.arrivals.get(part)?.at;
        return {
          part,
          step,
          lead_days,
          ...(ordered !== undefined && { ordered }),
          ...(arrived !== undefined && { arrived }),
        };
      }),
    folders: body.units.map((unit) => {
      const state = shop.units.get(unit);
      const released = shop.isReleased(unit);
      return {
        unit,
        opened: state !== undefined,
        done: model.build.filter(({ step }) => state?.done.has(step)).length,
        missing: state === undefined || released ? 0 : releaseDecision(statesOf(unit)).missing.length,
        released,
        packed: shop.packed(unit) !== undefined,
      };
    }),
    taps: [...new Set([...shop.units.values()].filter((one) => one.model === body.model).map(({ tap }) => tap))],
  };
}

/** What must be in a unit's parcel, and what was said to be in it. */
export function packView(shop: Shop, unit: string, now: string): PackView {
  const { model, revision, order, tap, fitted } = shop.units.get(unit)!;
  const { customer, destination, language = "en", options = {} } = shop.orders.get(order)!.body;
  const left = shop.isReleased(unit) ? shop.ledger.about("release", unit).at(-1) : undefined;
  const packed = shop.packed(unit);
  return {
    now,
    unit,
    model,
    revision,
    order,
    customer,
    tap,
    destination,
    language,
    options,
    ...(left && shop.cameBackAfter(unit) === undefined && { released: { at: left.at, by: left.by } }),
    hasCase: shop.timber.caseOfUnit(unit) !== undefined,
    valves: Object.entries(fitted).map(([position, valve]) => ({
      position,
      valve,
      type: shop.valve(valve)?.type ?? "",
    })),
    ...(packed && { packed: { ...bodyOf(packed.body), id: packed.id, at: packed.at, by: packed.by } }),
  };
}

export function routeStep({
  step,
  skill,
  place,
  hours,
  unattended = false,
}: {
  readonly step: string;
  readonly skill?: string | undefined;
  readonly place?: string | undefined;
  readonly hours: RouteStep["hours"];
  readonly unattended?: boolean | undefined;
}): RouteStep {
  return { step, ...(skill !== undefined && { skill }), ...(place !== undefined && { place }), hours, unattended };
}

function bodyOf({ kind: _, unit: __, ...rest }: BodyOf<"packed">) {
  return rest;
}

function lineOf(shop: Shop, body: BodyOf<"order">, at: string): OrderLine {
  const { order, customer, model, revision, units, due } = body;
  const promised = shop.promises.get(order)?.body.date;
  return {
    order,
    customer,
    model,
    revision,
    units,
    place: body.destination.place,
    stage: stageOf(shop, body),
    at,
    ...(due !== undefined && { due }),
    ...(promised !== undefined && { promised }),
  };
}

function stageOf(shop: Shop, { order, units }: BodyOf<"order">): OrderLine["stage"] {
  if (units.some((unit) => shop.units.has(unit) && shop.cameBackAfter(unit) !== undefined)) return "back";
  if (shop.isDelivered(order)) {
    return units.every((unit) => !shop.units.has(unit) || shop.packed(unit) !== undefined) ? "left" : "ready";
  }
  return units.some((unit) => shop.units.has(unit)) ? "built" : "taken";
}

/** The number after the greatest of those that end in one: `W-12` after `W-11`, `0802` after `0801`. */
function following(names: readonly string[]): string | undefined {
  const ended = names.flatMap((name) => {
    const found = /^(.*?)(\d{1,12})$/.exec(name);
    return found ? [{ stem: found[1]!, digits: found[2]! }] : [];
  });
  const [first] = ended;
  if (!first) return undefined;
  const alike = ended.filter(({ stem }) => stem === first.stem);
  const next = Math.max(...alike.map(({ digits }) => Number(digits))) + 1;
  return `${first.stem}${String(next).padStart(first.digits.length, "0")}`;
}
