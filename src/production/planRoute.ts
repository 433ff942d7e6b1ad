import { BadInput, quote } from "../maths/badInput.ts";
import type { PlannedPart, PlannedStep } from "./planned.ts";
import type { Order, PromiseInput } from "./shop.ts";
import { hour_ms, most, requireSpread, spread_ms } from "./spreads.ts";

export interface Names {
  readonly input: PromiseInput;
  readonly placeNumbers: ReadonlyMap<string, number>;
  readonly lineFor: (place: number, skill: string | undefined) => number;
  readonly parts: readonly PlannedPart[];
}

/** The routes of an order's units; one entry, its model, where they all take the model's own. */
export function routesOf(order: Order): readonly string[] {
  return order.route ?? [order.model];
}

export function requireRoutes(order: Order, i: number, { routes }: PromiseInput): void {
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

/**
 * A route with its names resolved.
 *
 * @param own  parts that may hold it, as places in the plan's list
 * @throws BadInput  a step that can't be done as described, with the order that takes the route
 */
export function plannedRoute(
  name: string,
  own: readonly number[],
  { input, placeNumbers, lineFor, parts }: Names,
): readonly PlannedStep[] {
  const route = input.routes[name]!;
  const taker = input.orders.find((order) => routesOf(order).includes(name))?.id;
  const concerned = taker === undefined ? "no open order" : `order ${quote(taker)}`;
  const positions = new Map([...route.entries()].reverse().map(([i, { step }]) => [step, i]));

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
      failsOnce: step.failsOnce === true,
      back,
      repair_ms: Math.round(repair_h * hour_ms),
      parts: own.filter((part) => parts[part]!.step === step.step),
      uses: [...own.keys()].filter((use) => parts[own[use]!]!.step === step.step),
    };
  });
}

/**
 * Executions of all steps until a unit has passed the last one.
 *
 *     Fⱼ = (1 + pⱼ·Σ F_k over back(j) ≤ k < j)/(1 − pⱼ)
 *
 * @remarks Fⱼ counts executions from first reaching step j until it is passed, with those of the earlier steps that a
 *   fail at j makes to be done again.
 */
export function expectedExecutions(route: readonly PlannedStep[]): number {
  const sums = [0];
  route.forEach(({ failOdds, back }, j) => {
    const again = sums[j]! - sums[back]!;
    sums.push(sums[j]! + (1 + failOdds * again) / (1 - failOdds));
  });
  return sums[route.length]!;
}
