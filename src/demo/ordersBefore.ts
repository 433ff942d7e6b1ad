import type { Random } from "../maths/random.ts";
import { later, on, paperTypedIn, workingDays } from "./days.ts";
import { type DemoEntry, entry, writtenAt } from "./entry.ts";
import type { ModelName } from "./models/models.ts";
import { type OrderPlan, orderBook } from "./orders.ts";
import { customers, destinations, roles } from "./shop.ts";

/** An order of the years before, of which the book kept the date given and the day it left. */
export interface OrderBefore extends OrderPlan {
  readonly left: string;
}

/** Numbers before those of the units whose sheets were kept. */
const firstOrder = 35;
const lastOrder = 150;
/** Serial numbers of the first units whose sheets were kept; units before them count down. */
const firstKept: Readonly<Record<ModelName, number>> = { Ebb: 401, Neap: 231, Flood: 577, Bore: 711 };
const share: readonly ModelName[] = ["Ebb", "Flood", "Ebb", "Neap", "Ebb", "Bore", "Neap", "Flood"];
/** Days that the owner gave by the thumb, and those that he added once too many dates had slipped. */
const thumb_days: Readonly<Record<ModelName, number>> = { Ebb: 49, Neap: 56, Flood: 63, Bore: 77 };
const added = { from: "2026-01-12", days: 10 } as const;

/** How many days beyond the thumb's an order really took: mostly a few fewer, with a late part or a fault far more. */
export function slip_days(chance: Random): number {
  const usual = chance.triangle(-12, -4, 9);
  const part = chance.uniform() < 0.18 ? chance.triangle(4, 9, 30) : 0;
  const fault = chance.uniform() < 0.22 ? chance.triangle(2, 4, 12) : 0;
  return usual + part + fault;
}

/** The order book of the years before. */
export function ordersBefore(chance: Random): readonly OrderBefore[] {
  const count = lastOrder - firstOrder + 1;
  const days = workingDays("2025-02-10", "2026-05-29");
  const serial: Record<ModelName, number> = { ...firstKept };
  for (let i = 0; i < count; i++) serial[share[i % share.length]!]--;
  const places = Object.keys(destinations) as readonly (keyof typeof destinations)[];
  return Array.from({ length: count }, (_, i): OrderBefore => {
    const draw = chance.fork(i);
    const model = share[i % share.length]!;
    const taken = days[Math.floor((i * days.length) / count)]!;
    const given_days = thumb_days[model] + (taken >= added.from ? added.days : 0);
    const took_days = thumb_days[model] + slip_days(draw);
    return {
      order: `Q-${String(firstOrder + i).padStart(3, "0")}`,
      customer: customers[draw.integer(customers.length)]!.id,
      model,
      units: [String(serial[model]++).padStart(4, "0")],
      taken,
      due: later(on(taken, "17:00"), given_days * 24 * 60),
      to: places[draw.integer(places.length)]!,
      assumptions: taken >= added.from ? "By the thumb, ten days added" : "By the thumb",
      left: later(on(taken, "15:30"), Math.round(took_days) * 24 * 60),
    };
  });
}

/** As it was typed in, ten orders at a sitting. */
export function bookOfBefore(orders: readonly OrderBefore[]): readonly DemoEntry[] {
  return orders.flatMap((plan, i) =>
    writtenAt(later(on(paperTypedIn, "14:46"), Math.floor(i / 10)), [
      ...orderBook([plan]),
      entry(plan.left, roles.owner, { kind: "delivery", order: plan.order }),
    ]),
  );
}
