import type { Random } from "../maths/random.ts";
import { later, on, workingDays } from "./days.ts";
import type { ModelName } from "./models/models.ts";
import type { OrderPlan } from "./orders.ts";
import { customers, destinations } from "./shop.ts";

/** Taken before and after those whose units are in hand; nothing of them is begun. */
const spans = [
  { first: 216, count: 13, from: "2026-12-07", to: "2027-01-08" },
  { first: 240, count: 15, from: "2027-02-16", to: "2027-03-02" },
] as const;
const share: readonly ModelName[] = ["Neap", "Flood", "Ebb", "Bore", "Ebb", "Neap", "Flood", "Ebb"];
const firstSerial: Readonly<Record<ModelName, number>> = { Ebb: 423, Neap: 243, Flood: 593, Bore: 717 };
/** What the owner adds for transformers that take long to come. */
const iron_days: Readonly<Record<ModelName, number>> = { Ebb: 0, Neap: 0, Flood: 4, Bore: 11 };
/** Every so many orders is of two units. */
const pairEvery = 7;

/** Orders that wait for their turn, each with the date that was given for it. */
export function ordersAhead(chance: Random): readonly OrderPlan[] {
  const serial: Record<ModelName, number> = { ...firstSerial };
  const places = Object.keys(destinations) as readonly (keyof typeof destinations)[];
  let nth = 0;
  return spans.flatMap(({ first, count, from, to }) => {
    const days = workingDays(from, to);
    return Array.from({ length: count }, (_, i): OrderPlan => {
      const draw = chance.fork(first + i);
      const model = share[nth % share.length]!;
      const units = Array.from({ length: nth % pairEvery === 4 ? 2 : 1 }, () =>
        String(serial[model]++).padStart(4, "0"),
      );
      // The owner counts the orders in front of a new one, half a week for each, and more for long-lead iron.
      const days_ahead = Math.round(3.75 * nth + iron_days[model] + draw.triangle(-5, 0, 7));
      const due = later(on("2027-04-13", "17:00"), days_ahead * 24 * 60);
      nth++;
      return {
        order: `Q-${first + i}`,
        customer: customers[draw.integer(customers.length)]!.id,
        model,
        units,
        taken: days[Math.floor((i * days.length) / count)]!,
        due,
        to: places[draw.integer(places.length)]!,
        assumptions: "Half a week for each order in front of it, and the parts in time",
      };
    });
  });
}
