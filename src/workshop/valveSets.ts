import type { Model } from "../claims/evidence.ts";
import { modelKey, type Shop } from "../claims/index.ts";
import type { Calculate } from "./calculate.ts";
import { kindAt, type ValveCurves, withCurves } from "./fittedCurves.ts";
import type { TypeReadings, ValveVerdict } from "./valveTable.ts";
import type { ValveSetsView } from "./views.ts";

type ModelSets = ValveSetsView["models"][number];

/** A place for valves of the type in a unit of an open order. */
interface Wanted {
  readonly unit: string;
  readonly order: string;
  readonly due?: string;
  readonly positions: readonly string[];
}

export interface SetsCase {
  readonly shop: Shop;
  readonly batch: string;
  readonly type: string;
  readonly from: "tray" | "shelf";
  readonly readings: TypeReadings | undefined;
  readonly verdicts: readonly ValveVerdict[];
}

interface SetsAnswer {
  readonly sets: readonly {
    readonly unit: string;
    readonly positions: Readonly<Record<string, string>>;
    readonly cost: number;
    readonly doubt_dB?: number;
  }[];
  readonly unplaced: readonly string[];
  readonly optimal: boolean;
  readonly gap: number;
  readonly notes: readonly string[];
}

/** A circuit is matched from so many valves at most; of more, those nearest to the middle. */
const mostInCircuit = 400;
/** By likeness of currents, as many as `valves.sets` takes. */
const mostByCurrent = 2000;
/** Reserve sets looked for, beside those for the open orders. */
const mostReserve = 4;

/**
 * Sets for the open orders, from valves that may be used and stand nowhere: by the channels' imbalance in the model's
 * own circuit where curves were read, else by likeness at the test point. Models with the earliest date choose first.
 */
export async function valveSets(wanted: SetsCase, calculate: Calculate): Promise<ValveSetsView> {
  const { shop, batch, type, from, readings } = wanted;
  const free = wanted.verdicts.filter(({ id, verdict }) => verdict === "use" && !shop.fittedIn.has(id));
  const models = [...shop.models.values()]
    .map(({ body }) => ({ model: body, demand: openDemand(shop, body, type) }))
    .filter(({ model }) => model.positions.some((position) => position.type === type));
  const byDate = models.toSorted((a, b) => earliest(a.demand) - earliest(b.demand));

  let pool = free;
  const chosen: ModelSets[] = [];
  for (const { model, demand } of byDate) {
    if (pool.length === 0 || readings === undefined) break;
    const found = await setsOfModel(model, demand, type, pool, readings, calculate);
    const used = new Set([...found.sets, ...found.reserve].flatMap(({ positions }) => Object.values(positions)));
    pool = pool.filter(({ id }) => !used.has(id));
    chosen.push(found);
  }
  return {
    batch,
    type,
    from,
    considered: free.length,
    models: chosen,
    left: nearestToMiddle(pool).map(({ id }) => id),
    notes: notesOf(free.length, models),
  };
}

/** Where valves of a type are still wanted: units on order not opened yet, and positions left empty in opened ones. */
function openDemand(shop: Shop, model: Model, type: string): readonly Wanted[] {
  const positions = model.positions.filter((position) => position.type === type).map(({ position }) => position);
  const orders = [...shop.orders.values()].filter(
    ({ body }) => modelKey(body.model, body.revision) === modelKey(model.model, model.revision),
  );
  return orders.flatMap(({ body }) => {
    const due = shop.promises.get(body.order)?.body.date ?? body.due;
    return body.units.flatMap((unit): Wanted[] => {
      const fitted = shop.units.get(unit)?.fitted ?? {};
      const empty = positions.filter((position) => fitted[position] === undefined);
      if (empty.length === 0 || shop.isReleased(unit)) return [];
      return [{ unit, order: body.order, ...(due !== undefined && { due }), positions: empty }];
    });
  });
}

async function setsOfModel(
  model: Model,
  demand: readonly Wanted[],
  type: string,
  pool: readonly ValveVerdict[],
  readings: TypeReadings,
  calculate: Calculate,
): Promise<ModelSets> {
  const places = model.positions.filter((position) => position.type === type);
  const positions = places.map(({ position }) => position);
  const isWhole = ({ positions: empty }: Wanted) => empty.length === positions.length;
  const asked = demand.filter(isWhole).map(({ unit, due }) => ({ unit, positions, ...(due !== undefined && { due }) }));
  const curves = await withCurves(
    forCircuit(pool).map(({ id }) => id),
    places[0]!.sections,
    readings,
    calculate,
    kindAt(model, places[0]!.sections),
  );
  const isInCircuit = curves.length >= positions.length && model.channels.length > 1;
  const nearest = nearestToMiddle(pool).slice(0, mostByCurrent);
  const choose = async (units: readonly { readonly unit: string }[], taken: ReadonlySet<string>) => {
    const isFree = ({ id }: { readonly id: string }) => !taken.has(id);
    const free = isInCircuit ? curves.filter(isFree) : nearest.filter(isFree);
    if (units.length === 0 || free.length < positions.length) return nothingChosen(units);
    const question = isInCircuit
      ? circuitQuestion(model, units, curves.filter(isFree))
      : currentQuestion(units, nearest.filter(isFree));
    return calculate<SetsAnswer>("valves.sets", question);
  };
  const orders = await choose(asked, new Set());
  const used = new Set(orders.sets.flatMap((set) => Object.values(set.positions)));
  const kept = await choose(
    Array.from({ length: mostReserve }, (_, i) => ({ unit: `reserve ${i + 1}`, positions })),
    used,
  );
  const orderOf = new Map(demand.map((wanted) => [wanted.unit, wanted]));
  const drawn = (set: SetsAnswer["sets"][number]) => ({
    positions: set.positions,
    cost: set.cost,
    ...(set.doubt_dB !== undefined && { doubt: set.doubt_dB }),
  });
  return {
    model: model.model,
    revision: model.revision,
    by: isInCircuit ? "circuit" : "current",
    ...(isInCircuit && { limit: model.balanceLimit_dB }),
    sets: orders.sets.map((set) => {
      const { order, due } = orderOf.get(set.unit)!;
      return { unit: set.unit, order, ...(due !== undefined && { due }), ...drawn(set) };
    }),
    unplaced: [...orders.unplaced, ...demand.filter((wanted) => !isWhole(wanted)).map(({ unit }) => unit)],
    reserve: kept.sets.map(drawn),
    optimal: orders.optimal,
    gap: orders.gap,
    notes: orders.notes,
  };
}

function nothingChosen(units: readonly { readonly unit: string }[]): SetsAnswer {
  return { sets: [], unplaced: units.map(({ unit }) => unit), optimal: true, gap: 0, notes: [] };
}

function circuitQuestion(model: Model, demand: readonly object[], curves: readonly ValveCurves[]): object {
  return {
    valves: curves,
    demand,
    netlist: model.netlist,
    input: model.channels.map((channel) => model.input[channel]),
    output: model.channels.map((channel) => model.output[channel]),
    limit: model.balanceLimit_dB,
  };
}

/** Each section's current in per cent of the middle, so that the cost of a set reads in per cent. */
function currentQuestion(demand: readonly object[], pool: readonly ValveVerdict[]): object {
  const middle = middleOf(pool);
  return {
    valves: pool.map(({ id, sections }) => ({
      id,
      features: Object.fromEntries(sections.map(({ name, hot_mA = middle }) => [name, (100 * hot_mA) / middle])),
    })),
    demand,
    cost: {
      kind: "spread",
      weights: Object.fromEntries((pool[0]?.sections ?? []).map(({ name }) => [name, 1])),
    },
  };
}

function middleOf(pool: readonly ValveVerdict[]): number {
  const all = pool.flatMap(({ sections }) => sections.flatMap(({ hot_mA }) => hot_mA ?? [])).sort((a, b) => a - b);
  return all[Math.floor(all.length / 2)] ?? 1;
}

/** Those of the shelf that are tried in a circuit. */
export function forCircuit(free: readonly ValveVerdict[]): readonly ValveVerdict[] {
  return nearestToMiddle(free).slice(0, mostInCircuit);
}

function nearestToMiddle(pool: readonly ValveVerdict[]): readonly ValveVerdict[] {
  const middle = middleOf(pool);
  const away = ({ sections }: ValveVerdict) =>
    Math.max(0, ...sections.map(({ hot_mA = middle }) => Math.abs(hot_mA / middle - 1)));
  return pool.toSorted((a, b) => away(a) - away(b));
}

function earliest(demand: readonly Wanted[]): number {
  return Math.min(
    Number.POSITIVE_INFINITY,
    ...demand.map(({ due }) => (due === undefined ? Number.MAX_VALUE : Date.parse(due))),
  );
}

function notesOf(free: number, models: readonly { readonly demand: readonly Wanted[] }[]): string[] {
  if (free === 0)
    return [
      "No valve here may be used and stands nowhere. Valves are proven by reading them before and after the heat run.",
    ];
  if (models.length === 0) return ["No model on record has a place for valves of this type."];
  if (models.every(({ demand }) => demand.length === 0)) return ["No open order waits for valves of this type."];
  return [];
}
