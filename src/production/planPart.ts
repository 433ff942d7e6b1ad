import { BadInput, quote } from "../maths/badInput.ts";
import { readInstant } from "./instants.ts";
import type { PlannedPart } from "./planned.ts";
import { routesOf } from "./planRoute.ts";
import type { Order, Part, PromiseInput } from "./shop.ts";
import { day_ms, most, requireSpread, spread_ms } from "./spreads.ts";

/** Parts that an order's units wait for: those of its model, unless they were bought for other orders. */
export function partsOf(
  order: { readonly id?: string; readonly model: string },
  parts: readonly PlannedPart[],
): readonly number[] {
  return [...parts.keys()].filter((i) => {
    const { model, orders } = parts[i]!;
    return model === order.model && (orders === undefined || (order.id !== undefined && orders.has(order.id)));
  });
}

function isFor(part: Part, order: Order): boolean {
  return order.model === part.model && (part.orders?.includes(order.id) ?? true);
}

/** A part with its times resolved. @throws BadInput  a part of no model, step or order given */
export function plannedPart(part: Part, i: number, input: PromiseInput, now_ms: number): PlannedPart {
  const path = `parts[${i}]`;
  const taker = input.orders.find((order) => isFor(part, order))?.id;
  const concerned = taker === undefined ? "no open order" : `order ${quote(taker)}`;
  requireOrdersOf(part, path, input);
  const takers = input.orders.filter((order) => isFor(part, order)).flatMap(routesOf);
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
    ...(part.orders && { orders: new Set(part.orders) }),
    label: `${part.id}/${part.model}/${part.step}`,
    isOrdered: part.ordered !== undefined,
    ordered_ms: part.ordered === undefined ? 0 : readInstant(part.ordered, `${path}.ordered`) - now_ms,
    lead_ms: spread_ms(part.lead_days, day_ms),
  };
}

function requireOrdersOf(part: Part, path: string, { orders }: PromiseInput): void {
  for (const [i, id] of (part.orders ?? []).entries()) {
    const order = orders.find((known) => known.id === id);
    if (order?.model === part.model) continue;
    throw new BadInput(
      `${path}.orders[${i}]`,
      `${quote(id)} for part ${quote(part.id)}`,
      order === undefined
        ? "an order that is open"
        : `an order of model ${quote(part.model)}; that one is of ${quote(order.model)}`,
      "name such an order, or leave the field out for every order of the model",
    );
  }
}
