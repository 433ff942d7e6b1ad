import { boundsFromAbove } from "./dates.ts";
import type { Plan } from "./plan.ts";
import type { PromiseInput } from "./shop.ts";

/** What an answer rests on and what was read into the input, in words. */
export function promiseNotes(shop: Plan, input: PromiseInput): readonly string[] {
  const overdue = shop.orders.filter(({ due_ms }) => due_ms !== undefined && due_ms < 0).map(({ id }) => id);
  const oneSlot = input.places.filter(({ kind, capacity }) => kind === "batch" && capacity === undefined);
  const byClock = Object.entries(input.routes).flatMap(([model, route]) =>
    route
      .filter(({ skill, place, unattended }) => {
        const isBatch = input.places.some(({ id, kind }) => id === place && kind === "batch");
        return skill !== undefined && (unattended === true || isBatch);
      })
      .map(({ step }) => `${step} of ${model}`),
  );
  return [
    "A date is what the shop's own rule (most urgent first, nobody waits for who is not ready) leads to; sickness, new orders and returns are not in it.",
    shop.isRandom
      ? `${input.runs} runs; the doubt of each date comes from their number alone, not from how well times and odds are known.`
      : "Nothing is left to chance in this input: one run tells all, and the three dates are one.",
    ...(shop.isRandom && !boundsFromAbove(input.runs, 0.95)
      ? [`${input.runs} runs can't bound the 95 % date from above; its doubt reaches only to the latest run.`]
      : []),
    ...(shop.isRandom && shop.parts.some(({ isOrdered }) => !isOrdered)
      ? ["Ordering by then keeps 19 of 20 runs from becoming later, other parts not yet ordered being ordered now."]
      : []),
    ...(overdue.length > 0 ? [`Due before now, and so the most urgent: ${overdue.join(", ")}.`] : []),
    ...(oneSlot.length > 0
      ? [`Taken to hold one unit, no capacity being given: ${oneSlot.map(({ id }) => id).join(", ")}.`]
      : []),
    ...(shop.nightShifts.length > 0
      ? [`Read as running over midnight into the next day: ${shop.nightShifts.join(", ")}.`]
      : []),
    ...(byClock.length > 0
      ? [`Run by the clock, unattended or in a batch place, so that no person is asked for: ${byClock.join(", ")}.`]
      : []),
  ];
}
