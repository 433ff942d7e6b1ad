import { expand, netlistParts, type Shop, type ValveState } from "../../claims/index.ts";
import type { ValveStanding } from "../views.ts";
import { routeStep } from "./desk.ts";
import type { WorkView } from "./views.ts";

const rank: Readonly<Record<ValveStanding, number>> = { use: 0, unread: 1, hold: 2, reject: 3 };
/** More free valves than these no hand chooses from. */
const mostFree = 60;

/** Valves of a type that stand in no unit. */
function freeOfType(shop: Shop, type: string): readonly ValveState[] {
  const { fittedIn, valves } = shop;
  return [...shop.batches.values()].flatMap(({ body }) =>
    body.type !== type
      ? []
      : body.valves.flatMap((valve) => {
          const state = fittedIn.has(valve) ? undefined : valves.get(valve);
          return state?.batch === body.batch ? [state] : [];
        }),
  );
}

/** A unit under hands: what is built of it, which valves stand in it and could, and what else a rework may touch. */
export function workView(
  shop: Shop,
  unit: string,
  now: string,
  standingOf: (valve: string) => ValveStanding,
): WorkView {
  const state = shop.units.get(unit)!;
  const model = shop.modelOf(unit)!;
  const doneAt = new Map(shop.stepsDone(unit).map(({ at, by, body }) => [body.step, { at, by }]));
  const run = shop.runs.of(unit);
  const named = [...model.claims.flatMap(({ restsOn }) => restsOn), ...netlistParts(model).flatMap(thingsOf(model))];
  const names = (aspect: "stage" | "supply" | "case") =>
    [...new Set(named.map((thing) => thing[aspect]).filter((name) => name !== undefined))].map((name) => ({
      aspect,
      name,
    }));
  return {
    now,
    unit,
    model: state.model,
    revision: state.revision,
    order: state.order,
    tap: state.tap,
    options: shop.orders.get(state.order)?.body.options ?? {},
    released: shop.isReleased(unit),
    steps: model.build.map((step) => {
      const done = state.done.has(step.step) ? (doneAt.get(step.step) ?? { at: state.openedAt, by: "" }) : undefined;
      return {
        ...routeStep(step),
        ...(done && { done }),
        ...(!done && run?.body.step === step.step && { runs: { place: run.body.place, ripe: run.ripe } }),
      };
    }),
    places: (shop.shop?.places ?? []).map(({ id }) => id),
    positions: model.positions.map(({ position, type, sections }) => {
      const valve = state.fitted[position];
      const free = freeOfType(shop, type)
        .filter((one) => Object.keys(sections).every((section) => one.sections.includes(section)))
        .map((one) => ({ valve: one.valve, standing: standingOf(one.valve) }))
        .sort((a, b) => rank[a.standing] - rank[b.standing]);
      return { position, type, ...(valve !== undefined && { valve }), free: free.slice(0, mostFree) };
    }),
    things: [
      ...names("stage"),
      ...names("supply"),
      ...names("case"),
      ...netlistParts(model).map(({ id }) => ({ aspect: "part" as const, name: id })),
    ],
    reworks: shop.ledger
      .about("rework", unit)
      .map(({ at, by, body }) => ({ at, by, why: body.why }))
      .reverse(),
  };
}

const thingsOf = (model: Parameters<typeof expand>[0]) => (part: { readonly id: string }) =>
  expand(model, { part: part.id });
