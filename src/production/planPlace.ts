import { BadInput, quote } from "../maths/badInput.ts";
import { routesOf } from "./planRoute.ts";
import type { Place, PromiseInput } from "./shop.ts";
import { most } from "./spreads.ts";

/** @throws BadInput  a place that holds nothing or runs for no length of time, with the order that needs it */
export function requirePlace({ id, capacity, cycle_h }: Place, i: number, { orders, routes }: PromiseInput): void {
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
