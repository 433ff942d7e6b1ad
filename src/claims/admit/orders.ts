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
    requireKnown(`orders[${i}]`, order, shop.orders, "order");
  }
}

/** An order with a unit in hand leaves by that unit's release, which asks for every proof, and by nothing else. */
export function admitDelivery({ order }: BodyOf<"delivery">, shop: Shop): void {
  requireKnown("order", order, shop.orders, "order");
  const inHand = shop.orders.get(order)!.body.units.filter((unit) => shop.units.has(unit) && !shop.isReleased(unit));
  if (inHand.length === 0) return;
  throw new BadInput(
    "order",
    quote(order),
    `an order whose units have left; unit ${inHand[0]} is in hand and not released`,
    "release its units instead: the last release is the delivery",
  );
}

/** What leaves has its release, a label that says what its order asks for, and no valve that nobody spoke of. */
export function admitPacked({ unit, label, valvesApart, leftIn }: BodyOf<"packed">, shop: Shop): void {
  requireKnown("unit", unit, shop.units.keys(), "unit");
  if (!shop.isReleased(unit)) {
    throw new BadInput("unit", quote(unit), "a unit that was released", "release it first, then pack it");
  }
  const { order, fitted } = shop.units.get(unit)!;
  const { destination } = shop.orders.get(order)!.body;
  for (const field of ["nominal_V", "frequency_Hz"] as const) {
    if (label[field] === destination[field]) continue;
    throw new BadInput(
      `label.${field}`,
      quote(label[field]),
      `order ${order} goes to ${destination[field]}`,
      "leave it unpacked: set tap and label right, and test again what that voids",
    );
  }
  for (const [position, valve] of Object.entries(valvesApart)) {
    requireKnown(`valvesApart.${position}`, position, Object.keys(fitted), "position with a valve");
    if (fitted[position] === valve) continue;
    throw new BadInput(
      `valvesApart.${position}`,
      quote(valve),
      `${fitted[position]} was proven at ${position}`,
      "wrap that one, or record the exchange as a rework",
    );
  }
  for (const [i, position] of leftIn.entries()) {
    requireKnown(`leftIn[${i}]`, position, Object.keys(fitted), "position with a valve");
  }
  const unsaid = Object.keys(fitted).find((position) => !(position in valvesApart) && !leftIn.includes(position));
  if (unsaid === undefined) return;
  throw new BadInput(
    "valvesApart",
    `nothing on ${unsaid}`,
    "each valve wrapped apart, or left in its socket on purpose",
    `say where ${fitted[unsaid]} is`,
  );
}

/** What comes back was ordered here. */
export function admitReturn({ unit }: BodyOf<"return">, shop: Shop): void {
  if (shop.orderNaming(unit) !== undefined) return;
  throw new BadInput("unit", quote(unit), "a unit that was ordered here", "check the serial number on its plate");
}
