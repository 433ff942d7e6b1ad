import { BadInput, quote } from "../maths/badInput.ts";
import { readInstant, readZone } from "./instants.ts";
import type { Line, PlannedPart, PlannedStep, PlannedUnit } from "./planned.ts";
import { partsOf, plannedPart } from "./planPart.ts";
import { planPeople } from "./planPeople.ts";
import { busyOf, requirePlace } from "./planPlace.ts";
import { expectedExecutions, plannedRoute, requireRoutes } from "./planRoute.ts";
import type { PromiseInput } from "./shop.ts";
import { hour_ms, isFixed } from "./spreads.ts";
import type { WorkingHours } from "./workingHours.ts";

/** The input checked, with names resolved and all times in whole milliseconds from `now`. */
export interface Plan {
  readonly zone: string;
  readonly now_ms: number;
  /** In order of urgency: a unit's place in this list is its rank. */
  readonly units: readonly PlannedUnit[];
  readonly orders: readonly {
    readonly id: string;
    readonly due_ms?: number;
    /** Parts of its model, as places in the plan's list. */
    readonly parts: readonly number[];
    /** Where its parts begin in a row of all orders' parts. */
    readonly firstPart: number;
  }[];
  /** How many parts of all orders together, each counted once an order. */
  readonly orderParts: number;
  readonly people: readonly { readonly id: string; readonly hours: WorkingHours }[];
  readonly places: readonly {
    readonly id: string;
    readonly isBatch: boolean;
    readonly capacity: number;
    readonly cycle_ms?: number;
    /** Slots taken at the start, each until then. */
    readonly busy: readonly { readonly slots: number; readonly until_ms: number }[];
    readonly line: number;
  }[];
  readonly lines: readonly Line[];
  readonly parts: readonly PlannedPart[];
  /** Step executions to expect in one run, repeats included. */
  readonly expectedSteps: number;
  /** The same with what else a run costs, in step executions. */
  readonly cost: number;
  readonly isRandom: boolean;
  /** Shifts over midnight, in words. */
  readonly nightShifts: readonly string[];
}

const mostUnits = 20_000;

/**
 * Checks the shop and resolves its names.
 *
 * @throws BadInput  whatever can't be simulated as it stands, with the order concerned
 */
export function plan(input: PromiseInput): Plan {
  const now_ms = readInstant(input.now, "now");
  const zone = readZone(input.timeZone, input.now);
  requireDistinct(input.people, "people");
  requireDistinct(input.places, "places");
  requireDistinct(input.orders, "orders");

  const { people, nightShifts } = planPeople(input, zone, now_ms);
  for (const [i, place] of input.places.entries()) requirePlace(place, i, input, now_ms);

  const parts = (input.parts ?? []).map((part, i) => plannedPart(part, i, input, now_ms));
  const lines: Line[] = [];
  const lineNumbers = new Map<string, number>();
  const lineFor = (place: number, skill: string | undefined): number => {
    const isBatch = place >= 0 && input.places[place]!.kind === "batch";
    if (place < 0 && skill === undefined) return -1;
    const key = `${place}\n${skill ?? ""}\n${skill === undefined}`;
    const known = lineNumbers.get(key);
    if (known !== undefined) return known;
    const able = input.people.flatMap((person, i) => (skill !== undefined && person.skills.includes(skill) ? [i] : []));
    lines.push({ place, people: able, needsPerson: skill !== undefined, isBatch });
    lineNumbers.set(key, lines.length - 1);
    return lines.length - 1;
  };

  const placeNumbers = new Map(input.places.map((place, i) => [place.id, i]));
  const placeLines = input.places.map((place, i) => (place.kind === "batch" ? lineFor(i, undefined) : -1));
  const planned = new Map<string, readonly PlannedStep[]>();
  const routeFor = (route: string, own: readonly number[]): readonly PlannedStep[] => {
    const key = JSON.stringify([route, own]);
    const known = planned.get(key) ?? plannedRoute(route, own, { input, placeNumbers, lineFor, parts });
    planned.set(key, known);
    return known;
  };
  for (const name of Object.keys(input.routes)) routeFor(name, partsOf({ model: name }, parts));

  const orders = input.orders.map((order, i) => {
    requireRoutes(order, i, input);
    if (!(Number.isInteger(order.units) && order.units >= 1 && order.units <= mostUnits)) {
      throw new BadInput(
        `orders[${i}].units`,
        `${quote(order.units)} in order ${quote(order.id)}`,
        "a whole number of units of at least 1",
        "give how many units the order has, or leave the order out",
      );
    }
    const due_ms = order.due === undefined ? undefined : readInstant(order.due, `orders[${i}].due`) - now_ms;
    if (due_ms !== undefined && due_ms < 0 && input.allowOverdue !== true) {
      throw new BadInput(
        `orders[${i}].due`,
        `${quote(order.due)} of order ${quote(order.id)}`,
        `a due date not before now, ${input.now}`,
        "agree on a new date with the customer and give that, or leave it out",
      );
    }
    const released_ms =
      order.released === undefined ? 0 : readInstant(order.released, `orders[${i}].released`) - now_ms;
    return { ...order, parts: partsOf(order, parts), due_ms, released_ms };
  });
  const unitsInAll = orders.reduce((sum, order) => sum + order.units, 0);
  if (unitsInAll > mostUnits) {
    throw new BadInput(
      "orders",
      `${unitsInAll} units in all`,
      `at most ${mostUnits} units`,
      "split the question into fewer orders or units",
    );
  }

  const byUrgency = orders
    .map((order, i) => ({ order, i }))
    .sort(
      (a, b) =>
        (a.order.due_ms ?? Number.POSITIVE_INFINITY) - (b.order.due_ms ?? Number.POSITIVE_INFINITY) ||
        a.order.released_ms - b.order.released_ms ||
        a.i - b.i,
    );
  const units = byUrgency.flatMap(({ order, i }) =>
    Array.from({ length: order.units }, (_, number) => ({
      order: i,
      label: `${order.id}/${number}`,
      route: routeFor(order.route?.[number] ?? order.model, order.parts),
      start_ms: Math.max(0, order.released_ms),
    })),
  );

  const expectedSteps = units.reduce((sum, unit) => sum + expectedExecutions(unit.route), 0);
  let orderParts = 0;
  const plannedOrders = orders.map(({ id, parts: own, due_ms }) => {
    orderParts += own.length;
    return { id, due_ms, parts: own, firstPart: orderParts - own.length };
  });
  return {
    zone,
    now_ms,
    units,
    orders: plannedOrders,
    orderParts,
    people,
    places: input.places.map((place, i) => ({
      id: place.id,
      isBatch: place.kind === "batch",
      capacity: place.capacity ?? 1,
      cycle_ms: place.cycle_h === undefined ? undefined : Math.round(place.cycle_h * hour_ms),
      busy: busyOf(place, i, now_ms),
      line: placeLines[i]!,
    })),
    lines,
    parts,
    expectedSteps,
    // Every instant looks along all lines; every unit and part is set up anew each run.
    cost: expectedSteps * (1 + lines.length / 200) + units.length + parts.length + orderParts / 10,
    isRandom:
      units.some(({ route }) => route.some((step) => step.failOdds > 0 || !isFixed(step.work_ms))) ||
      parts.some((part) => !isFixed(part.lead_ms)),
    nightShifts,
  };
}

function requireDistinct(list: readonly { readonly id: string }[], name: string): void {
  const seen = new Set<string>();
  list.forEach(({ id }, i) => {
    if (seen.has(id)) {
      throw new BadInput(`${name}[${i}].id`, `${quote(id)} a second time`, "each id stands once", "rename one of them");
    }
    seen.add(id);
  });
}
