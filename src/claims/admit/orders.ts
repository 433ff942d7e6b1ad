import { BadInput, quote } from "../../maths/badInput.ts";
import type { BodyOf } from "../evidence.ts";
import type { Shop } from "../shop.ts";
import { requireKnown } from "./refuse.ts";

export function admitPart(part: BodyOf<"part">, shop: Shop): void {
  const models = [...shop.models.values()].map(({ body }) => body);
  requireKnown("model", part.model, new Set(models.map(({ model }) => model)), "model");
  const steps = models
    .filter(({ model }) => model === part.model)
    .flatMap(({ build, shelf }) => [...build.map(({ step }) => step), ...(shelf ? [shelf.step] : [])]);
  requireKnown("step", part.step, new Set(steps), `step of ${part.model}`);
  for (const [i, order] of (part.orders ?? []).entries()) {
    requireKnown(`orders[${i}]`, order, shop.orders.keys(), "order");
  }
}

/** An order with a unit in hand leaves by that unit's release, which asks for every proof, and by nothing else. */
export function admitDelivery({ order }: BodyOf<"delivery">, shop: Shop): void {
  requireKnown("order", order, shop.orders.keys(), "order");
  const inHand = shop.orders.get(order)!.body.units.filter((unit) => shop.units.has(unit) && !shop.isReleased(unit));
  if (inHand.length === 0) return;
  throw new BadInput(
    "order",
    quote(order),
    `an order whose units have left; unit ${inHand[0]} is in hand and not released`,
    "release its units instead: the last release is the delivery",
  );
}

/** What comes back was ordered here. */
export function admitReturn({ unit }: BodyOf<"return">, shop: Shop): void {
  if (shop.orderNaming(unit) !== undefined) return;
  throw new BadInput("unit", quote(unit), "a unit that was ordered here", "check the serial number on its plate");
}
