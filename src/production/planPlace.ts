import { BadInput, quote } from "../maths/badInput.ts";
import { readInstant } from "./instants.ts";
import { routesOf } from "./planRoute.ts";
import type { Place, PromiseInput } from "./shop.ts";
import { most } from "./spreads.ts";

/** @throws BadInput  a place that holds nothing or runs for no length of time, with the order that needs it */
export function requirePlace(place: Place, i: number, { orders, routes }: PromiseInput, now_ms: number): void {
  const { id, capacity, cycle_h } = place;
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
  const standing = busyOf(place, i, now_ms).reduce((sum, { slots }) => sum + slots, 0);
  if (standing > (capacity ?? 1)) {
    throw new BadInput(
      `places[${i}].busy`,
      `${standing} slots taken at ${called}`,
      `at most its ${capacity ?? 1}`,
      "leave out what has come out of it",
    );
  }
}

/** What stands in a place when the runs begin, in milliseconds from now; what was to come out before is out. */
export function busyOf({ id, busy = [] }: Place, i: number, now_ms: number) {
  return busy.flatMap(({ slots, until }, k) => {
    if (!(Number.isInteger(slots) && slots >= 1)) {
      throw new BadInput(
        `places[${i}].busy[${k}].slots`,
        `${quote(slots)} at place ${quote(id)}`,
        "a whole number of at least 1",
        "count what stands in it",
      );
    }
    const until_ms = readInstant(until, `places[${i}].busy[${k}].until`) - now_ms;
    return until_ms > 0 ? [{ slots, until_ms }] : [];
  });
}
