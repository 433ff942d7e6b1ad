import { BadInput, quote } from "../maths/badInput.ts";
import { dayBook } from "./dayBook.ts";
import { readInstant, readZone } from "./instants.ts";
import type { Order, Part, Place, PromiseInput, Spread } from "./shop.ts";
import { type WorkingHours, workingHours } from "./workingHours.ts";

export const hour_ms = 3_600_000;
export const day_ms = 24 * hour_ms;

/** A spread in milliseconds. */
export type Draw = Spread;

export interface PlannedStep {
  readonly name: string;
  /** Which waiting line it joins; −1 when it needs neither person nor place. */
  readonly line: number;
  readonly place: number;
  readonly isBatch: boolean;
  /** Runs by the clock and needs no hands: a repair then holds nothing. */
  readonly isUnattended: boolean;
  readonly work_ms: Draw;
  readonly failOdds: number;
  readonly back: number;
  readonly repair_ms: number;
  /** Parts that hold it, as places in the plan's list. */
  readonly parts: readonly number[];
  /** The same parts as places among those of the model. */
  readonly uses: readonly number[];
}

/** Units that need the same person's skill and the same place wait in one line. */
export interface Line {
  readonly place: number;
  /** People who can serve it, in the order of the input; none when no person is needed. */
  readonly people: readonly number[];
  readonly needsPerson: boolean;
  readonly isBatch: boolean;
}

export interface PlannedUnit {
  readonly order: number;
  /** Tells its stream of chance from those of all other units, whatever else is open. */
  readonly label: string;
  readonly route: readonly PlannedStep[];
  readonly start_ms: number;
}

export interface PlannedPart {
  readonly id: string;
  readonly model: string;
  readonly step: string;
  readonly label: string;
  readonly isOrdered: boolean;
  readonly ordered_ms: number;
  readonly lead_ms: Draw;
}

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
    readonly line: number;
  }[];
  readonly lines: readonly Line[];
  readonly parts: readonly PlannedPart[];
  /** Step executions to expect in one run, repeats included. */
  readonly expectedSteps: number;
  /** The same with what else a run costs, in step executions. */
  readonly cost: number;
  readonly isRandom: boolean;
}

const most = { hours: 10_000, lead_days: 3_650, unitsInAll: 20_000 } as const;

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

  const days = dayBook(zone, now_ms);
  const calendars = new Map(
    Object.entries(input.calendars).map(([name, calendar]) => [
      name,
      workingHours(calendar, `calendars.${name}`, days),
    ]),
  );
  const people = input.people.map((person, i) => {
    const hours = calendars.get(person.calendar);
    if (!hours) {
      const known = [...calendars.keys()].map((name) => quote(name)).join(", ") || "none yet";
      throw new BadInput(
        `people[${i}].calendar`,
        quote(person.calendar),
        `calendars given are ${known}`,
        "name one of them, or add it to calendars",
      );
    }
    return { id: person.id, hours };
  });
  for (const [i, place] of input.places.entries()) requirePlace(place, i, input);

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
  const routeFor = (route: string, model: string): readonly PlannedStep[] => {
    const key = JSON.stringify([route, model]);
    const known = planned.get(key) ?? plannedRoute(route, model, { input, placeNumbers, lineFor, parts });
    planned.set(key, known);
    return known;
  };
  for (const name of Object.keys(input.routes)) routeFor(name, name);

  const orders = input.orders.map((order, i) => {
    requireRoutes(order, i, input);
    if (!(Number.isInteger(order.units) && order.units >= 1 && order.units <= most.unitsInAll)) {
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
    return { id: order.id, model: order.model, units: order.units, route: order.route, due_ms, released_ms };
  });
  const unitsInAll = orders.reduce((sum, order) => sum + order.units, 0);
  if (unitsInAll > most.unitsInAll) {
    throw new BadInput(
      "orders",
      `${unitsInAll} units in all`,
      `at most ${most.unitsInAll} units`,
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
      route: routeFor(order.route?.[number] ?? order.model, order.model),
      start_ms: Math.max(0, order.released_ms),
    })),
  );

  const expectedSteps = units.reduce((sum, unit) => sum + expectedExecutions(unit.route), 0);
  let orderParts = 0;
  const plannedOrders = orders.map(({ id, model, due_ms }) => {
    const own = partsOf(model, parts);
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
  };
}

export function isFixed({ fast, slow }: Spread): boolean {
  return fast === slow;
}

/**
 * Executions of all steps until a unit has passed the last one.
 *
 *     Fⱼ = (1 + pⱼ·Σ F_k over back(j) ≤ k < j)/(1 − pⱼ)
 *
 * @remarks Fⱼ counts executions from first reaching step j until it is passed, with those of the earlier steps that a
 *   fail at j makes to be done again.
 */
function expectedExecutions(route: readonly PlannedStep[]): number {
  const sums = [0];
  route.forEach(({ failOdds, back }, j) => {
    const again = sums[j]! - sums[back]!;
    sums.push(sums[j]! + (1 + failOdds * again) / (1 - failOdds));
  });
  return sums[route.length]!;
}

interface Names {
  readonly input: PromiseInput;
  readonly placeNumbers: ReadonlyMap<string, number>;
  readonly lineFor: (place: number, skill: string | undefined) => number;
  readonly parts: readonly PlannedPart[];
}

function partsOf(model: string, parts: readonly PlannedPart[]): readonly number[] {
  return [...parts.keys()].filter((part) => parts[part]!.model === model);
}

/** The routes of an order's units; one entry, its model, where they all take the model's own. */
function routesOf(order: Order): readonly string[] {
  return order.route ?? [order.model];
}

function requireRoutes(order: Order, i: number, { routes }: PromiseInput): void {
  const names = Object.keys(routes);
  const known = names.map((name) => quote(name)).join(", ") || "none yet";
  if (order.route === undefined && !names.includes(order.model)) {
    throw new BadInput(
      `orders[${i}].model`,
      `${quote(order.model)} of order ${quote(order.id)}`,
      `routes are given for ${known}`,
      "name one of them, or add a route for this model",
    );
  }
  if (order.route !== undefined && order.route.length !== order.units) {
    throw new BadInput(
      `orders[${i}].route`,
      `${order.route.length} routes for ${quote(order.units)} units of order ${quote(order.id)}`,
      "one route for each unit",
      "name a route for each unit, or leave the field out for the model's own",
    );
  }
  for (const [unit, name] of (order.route ?? []).entries()) {
    if (names.includes(name)) continue;
    throw new BadInput(
      `orders[${i}].route[${unit}]`,
      `${quote(name)} in order ${quote(order.id)}`,
      `routes are given for ${known}`,
      "name one of them, or add that route",
    );
  }
}

function plannedRoute(
  name: string,
  model: string,
  { input, placeNumbers, lineFor, parts }: Names,
): readonly PlannedStep[] {
  const route = input.routes[name]!;
  const taker = input.orders.find((order) => routesOf(order).includes(name))?.id;
  const concerned = taker === undefined ? "no open order" : `order ${quote(taker)}`;
  const positions = new Map([...route.entries()].reverse().map(([i, { step }]) => [step, i]));

  const own = partsOf(model, parts);

  return route.map((step, i) => {
    const path = `routes.${name}[${i}]`;
    const called = `step ${quote(step.step)}, which ${concerned} takes`;
    if (positions.get(step.step) !== i) {
      throw new BadInput(
        `${path}.step`,
        `${quote(step.step)} a second time, in the route that ${concerned} takes`,
        "each step of a route has a name of its own",
        "rename one of them; a step done again after a fail is given by onFail.back",
      );
    }
    requireSpread(step.hours, `${path}.hours`, most.hours, `hours of ${called}`);

    const failOdds = step.failOdds ?? 0;
    if (!(failOdds >= 0 && failOdds <= 1)) {
      throw new BadInput(
        `${path}.failOdds`,
        `${quote(failOdds)} at ${called}`,
        "odds from 0 to below 1",
        "give the share of units that fail here, 0.05 for one in twenty",
      );
    }
    if (failOdds === 1) {
      throw new BadInput(
        `${path}.failOdds`,
        `1 at ${called}`,
        "odds from 0 to below 1: a unit that always fails goes in a circle and is never done",
        "give the share of units that fail here, or leave out the step",
      );
    }
    const repair_h = step.onFail?.repair_h ?? 0;
    if (!(repair_h >= 0 && repair_h <= most.hours)) {
      throw new BadInput(
        `${path}.onFail.repair_h`,
        `${quote(repair_h)} at ${called}`,
        `0 to ${most.hours} hours`,
        "give the hours of a repair",
      );
    }
    const back = step.onFail?.back === undefined ? i : positions.get(step.onFail.back);
    if (back === undefined || back > i) {
      const earlier = route.slice(0, i + 1).map((known) => quote(known.step));
      throw new BadInput(
        `${path}.onFail.back`,
        `${quote(step.onFail?.back)} from ${called}`,
        back === undefined
          ? `a step of this route: ${earlier.join(", ")}`
          : "a step that comes before, or the step itself",
        "name the step from which work is done again",
      );
    }

    const place = step.place === undefined ? -1 : (placeNumbers.get(step.place) ?? -2);
    if (place === -2) {
      const known = [...placeNumbers.keys()].map((name) => quote(name)).join(", ") || "none yet";
      throw new BadInput(
        `${path}.place`,
        `${quote(step.place)} at ${called}`,
        `places given are ${known}`,
        "name one of them, or add it to places",
      );
    }
    const isBatch = place >= 0 && input.places[place]!.kind === "batch";
    const isUnattended = isBatch || step.unattended === true;
    const skill = isUnattended ? undefined : step.skill;
    if (skill !== undefined && taker !== undefined && !input.people.some((person) => person.skills.includes(skill))) {
      throw new BadInput(
        `${path}.skill`,
        `${quote(skill)} at ${called}`,
        "a skill that at least one person has",
        "add the skill to a person, or correct its spelling",
      );
    }

    return {
      name: step.step,
      line: lineFor(place, skill),
      place,
      isBatch,
      isUnattended,
      work_ms: spread_ms(step.hours, hour_ms),
      failOdds,
      back,
      repair_ms: Math.round(repair_h * hour_ms),
      parts: own.filter((part) => parts[part]!.step === step.step),
      uses: [...own.keys()].filter((use) => parts[own[use]!]!.step === step.step),
    };
  });
}

function plannedPart(part: Part, i: number, input: PromiseInput, now_ms: number): PlannedPart {
  const path = `parts[${i}]`;
  const taker = input.orders.find((order) => order.model === part.model)?.id;
  const concerned = taker === undefined ? "no open order" : `order ${quote(taker)}`;
  const takers = input.orders.filter((order) => order.model === part.model).flatMap(routesOf);
  const names = [...new Set([part.model, ...takers])].filter((name) => Object.hasOwn(input.routes, name));
  if (names.length === 0) {
    throw new BadInput(
      `${path}.model`,
      `${quote(part.model)} of part ${quote(part.id)}`,
      "a model that has a route",
      "name such a model, or add its route",
    );
  }
  const steps = new Set(names.flatMap((name) => input.routes[name]!.map(({ step }) => step)));
  if (!steps.has(part.step)) {
    throw new BadInput(
      `${path}.step`,
      `${quote(part.step)} of part ${quote(part.id)}, which ${concerned} needs`,
      `a step of that model's routes: ${[...steps].map((step) => quote(step)).join(", ")}`,
      "name the step that waits for the part",
    );
  }
  requireSpread(part.lead_days, `${path}.lead_days`, most.lead_days, `days of part ${quote(part.id)}`);
  return {
    id: part.id,
    model: part.model,
    step: part.step,
    label: `${part.id}/${part.model}/${part.step}`,
    isOrdered: part.ordered !== undefined,
    ordered_ms: part.ordered === undefined ? 0 : readInstant(part.ordered, `${path}.ordered`) - now_ms,
    lead_ms: spread_ms(part.lead_days, day_ms),
  };
}

/** Whole milliseconds, so that instants reached on different ways compare as equal. */
function spread_ms({ fast, usual, slow }: Spread, unit_ms: number): Draw {
  return { fast: Math.round(fast * unit_ms), usual: Math.round(usual * unit_ms), slow: Math.round(slow * unit_ms) };
}

function requireSpread({ fast, usual, slow }: Spread, path: string, limit: number, what: string): void {
  for (const [name, value] of Object.entries({ fast, usual, slow })) {
    if (value >= 0 && value <= limit) continue;
    throw new BadInput(`${path}.${name}`, `${quote(value)}, ${what}`, `0 to ${limit}`, "give a time inside the limit");
  }
  if (fast <= usual && usual <= slow) return;
  throw new BadInput(
    `${path}.usual`,
    `fast ${fast}, usual ${usual}, slow ${slow}: ${what}`,
    "fast is at most usual, usual at most slow",
    "put the three in rising order, or make them equal for a fixed time",
  );
}

function requirePlace({ id, capacity, cycle_h }: Place, i: number, { orders, routes }: PromiseInput): void {
  const uses = (name: string) => Object.hasOwn(routes, name) && routes[name]!.some(({ place }) => place === id);
  const taker = orders.find((order) => routesOf(order).some(uses))?.id;
  const called = `place ${quote(id)}, which ${taker === undefined ? "no open order" : `order ${quote(taker)}`} needs`;
  if (capacity !== undefined && !(Number.isInteger(capacity) && capacity >= 1)) {
    throw new BadInput(
      `places[${i}].capacity`,
      `${quote(capacity)} at ${called}`,
      "a whole number of at least 1: a place without a slot holds every unit for ever",
      "give how many units it holds, or leave the field out for one",
    );
  }
  if (cycle_h !== undefined && !(cycle_h >= 0 && cycle_h <= most.hours)) {
    throw new BadInput(
      `places[${i}].cycle_h`,
      `${quote(cycle_h)} at ${called}`,
      `0 to ${most.hours} hours`,
      "give the hours of one run, or leave the field out to run as long as the longest of its units",
    );
  }
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
