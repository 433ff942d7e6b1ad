import { BadInput, quote } from "../../maths/badInput.ts";
import type { BodyOf, Model, Thing } from "../evidence.ts";
import { modelKey, type Shop } from "../shop.ts";
import { wiredParts } from "../things.ts";
import { requireWired } from "./model.ts";
import { requireDistinct, requireKnown } from "./refuse.ts";

type Fitted = Readonly<Record<string, string>>;

export function admitOrder(order: BodyOf<"order">, shop: Shop): void {
  requireRevision(order, shop);
  requireDistinct("units", order.units, "unit");
  for (const [i, unit] of order.units.entries()) {
    const other = shop.orderNaming(unit);
    if (other === undefined || other === order.order) continue;
    throw new BadInput(`units[${i}]`, quote(unit), `it belongs to order ${other}`, "give it another serial number");
  }
  const older = shop.orders.get(order.order)?.body;
  if (!older) return;
  if (older.customer !== order.customer) {
    throw new BadInput("order", quote(order.order), "another customer's order has that number", "give it a new number");
  }
  const opened = older.units.filter((unit) => shop.units.has(unit));
  const dropped = opened.find((unit) => !order.units.includes(unit));
  if (dropped !== undefined) {
    throw new BadInput("units", quote(order.units), `unit ${dropped} is being built for this order`, "keep it in");
  }
  if (opened.length > 0 && (older.model !== order.model || older.revision !== order.revision)) {
    throw new BadInput(
      "revision",
      quote(`${order.model} ${order.revision}`),
      `unit ${opened[0]} is being built as ${older.model} ${older.revision}`,
      "keep model and revision, or enter a new order",
    );
  }
}

export function admitUnit(unit: BodyOf<"unit">, shop: Shop): void {
  if (shop.units.has(unit.unit)) {
    throw new BadInput("unit", quote(unit.unit), "a unit is opened once", "record what changed as a rework or step");
  }
  requireKnown("order", unit.order, shop.orders, "order");
  const order = shop.orders.get(unit.order)!.body;
  requireKnown("unit", unit.unit, order.units, `unit of order ${unit.order}`);
  for (const field of ["model", "revision"] as const) {
    if (unit[field] === order[field]) continue;
    throw new BadInput(field, quote(unit[field]), `order ${unit.order} says ${order[field]}`, "write the same");
  }
  const model = requireRevision(unit, shop);
  requireFitting(unit.fitted, {}, unit.unit, model, shop);
  for (const [i, step] of unit.built.entries()) requireStep(model, step, `built[${i}]`);
}

export function admitRework(rework: BodyOf<"rework"> & { readonly at: string }, shop: Shop): void {
  const model = requireUnit(rework.unit, shop);
  const { openedAt } = shop.units.get(rework.unit)!;
  if (Date.parse(rework.at) < Date.parse(openedAt)) {
    throw new BadInput("at", quote(rework.at), `unit ${rework.unit} was opened at ${openedAt}`, "check the date");
  }
  for (const [i, thing] of rework.touched.entries()) requireThing(model, thing, shop, `touched[${i}]`);
  if (rework.fitted) requireFitting(rework.fitted, shop.units.get(rework.unit)!.fitted, rework.unit, model, shop);
}

export function admitStep(done: BodyOf<"step">, shop: Shop): void {
  requireStep(requireUnit(done.unit, shop), done.step, "step");
}

/** @returns the model of a unit on record */
export function requireUnit(unit: string, shop: Shop, path = "unit"): Model {
  requireKnown(path, unit, shop.units, "unit");
  return shop.modelOf(unit)!;
}

function requireRevision({ model, revision }: { model: string; revision: string }, shop: Shop): Model {
  const found = shop.models.get(modelKey(model, revision));
  if (found) return found.body;
  const bodies = [...shop.models.values()].map(({ body }) => body);
  requireKnown("model", model, new Set(bodies.map((body) => body.model)), "model");
  const revisions = bodies.filter((body) => body.model === model).map((body) => body.revision);
  requireKnown("revision", revision, revisions, `revision of ${model}`);
  throw new Error("unreachable: a revision was found by name and not by key");
}

function requireStep(model: Model, step: string, path: string): void {
  const steps = [...model.build.map((work) => work.step), ...(model.shelf ? [model.shelf.step] : [])];
  requireKnown(path, step, steps, `step of ${model.model}`);
}

/**
 * Refuses a thing the model does not know. A slip here would leave a proof standing that should fall, so case and
 * supply too must be ones that a claim or a part names.
 */
function requireThing(model: Model, thing: Thing, shop: Shop, path: string): void {
  requireWired(model, thing, path);
  for (const aspect of ["supply", "case"] as const) {
    const name = thing[aspect];
    if (name === undefined) continue;
    const rested = model.claims.flatMap((claim) => claim.restsOn);
    const known = [...rested, ...wiredParts(model)].map((other) => other[aspect]).filter((n) => n !== undefined);
    requireKnown(`${path}.${aspect}`, name, new Set(known), aspect);
  }
  if (thing.instrument !== undefined) {
    requireKnown(`${path}.instrument`, thing.instrument, shop.instruments, "instrument");
  }
}

function requireFitting(fitted: Fitted, standing: Fitted, unit: string, model: Model, shop: Shop): void {
  const after: Fitted = { ...standing, ...fitted };
  for (const [position, valve] of Object.entries(fitted)) {
    const path = `fitted.${position}`;
    const place = model.positions.find((p) => p.position === position);
    requireKnown(
      path,
      position,
      model.positions.map((p) => p.position),
      "position",
    );
    const known = shop.valves.get(valve);
    if (!known) throw new BadInput(path, quote(valve), "no valve of that name is on record", "enter its batch first");
    if (known.type !== place!.type) {
      throw new BadInput(
        path,
        `${valve}, a ${known.type}`,
        `${position} takes a ${place!.type}`,
        "fit one of that type",
      );
    }
    const lacking = Object.keys(place!.sections).find((section) => !known.sections.includes(section));
    if (lacking !== undefined) {
      throw new BadInput(path, quote(valve), `${position} needs section ${lacking}`, "fit a valve that has it");
    }
    const twice = Object.entries(after).find(([other, v]) => v === valve && other !== position);
    if (twice) {
      throw new BadInput(path, quote(valve), `it stands at ${twice[0]} too`, `say what stands at ${twice[0]} now`);
    }
    const elsewhere = shop.fittedIn.get(valve);
    if (elsewhere && elsewhere.unit !== unit) {
      throw new BadInput(
        path,
        quote(valve),
        `it is fitted in unit ${elsewhere.unit} at ${elsewhere.position}`,
        "record its exchange there first, or fit another",
      );
    }
  }
}
