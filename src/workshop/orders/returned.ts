import type { Evidence, Model } from "../../claims/evidence.ts";
import type { ClaimState, Shop, UnitState } from "../../claims/index.ts";
import type { Calculate } from "../calculate.ts";
import { type FittedNetlist, kindAt, withCurves } from "../fittedCurves.ts";
import { standingBalance } from "../standingBalance.ts";
import { forCircuit } from "../valveSets.ts";
import type { TypeReadings, ValveVerdict } from "../valveTable.ts";
import type { ReserveFit, ReserveView, ReturnView, ThenAndNow } from "./views.ts";

/** A unit that came back: what it left with beside what it reads now, and what was found. */
export function returnView(shop: Shop, unit: string, now: string, states: readonly ClaimState[]): ReturnView {
  const { model, revision, order } = shop.units.get(unit)!;
  const made = shop.modelOf(unit)!;
  const returns = shop.returns.filter(({ body }) => body.unit === unit).toReversed();
  const releases = shop.ledger.about("release", unit);
  const [back] = returns;
  // What it left with before it came back; released again since, that is its newest birth.
  const left = back && shop.cameBackAfter(unit) ? releases.findLast(({ seq }) => seq < back.seq) : releases.at(-1);
  return {
    now,
    unit,
    model,
    revision,
    order,
    place: shop.orders.get(order)!.body.destination.place,
    returns: returns.map(({ id, at, by, body }) => ({ id, at, by, says: body.says })),
    isHere: shop.cameBackAfter(unit) !== undefined,
    ...(left && { left: { at: left.at, by: left.by, version: left.body.version } }),
    figures: left ? beside(left, states) : [],
    stages: [
      ...made.build.map(({ step }) => ({ stage: step, title: step })),
      ...made.claims.map(({ claim, title }) => ({ stage: claim, title })),
    ],
    faults: shop.faults
      .filter(({ body }) => body.unit === unit)
      .map(({ at, body: { fault, what, found, possible } }) => ({ at, fault, what, found, possible })),
  };
}

interface KeptFigure {
  readonly quantity?: unknown;
  readonly where?: unknown;
  readonly value?: unknown;
  readonly doubt?: unknown;
  readonly evidence?: unknown;
}

/** Figures of a release beside the newest of the same; one still resting on the same evidence was not read again. */
function beside(left: Evidence<"release">, states: readonly ClaimState[]): readonly ThenAndNow[] {
  return states.flatMap(({ claim, title, figures }) => {
    const kept = (left.body.claims.find((one) => one.claim === claim)?.figures ?? []) as readonly KeptFigure[];
    return figures.map((figure): ThenAndNow => {
      const { quantity, where, low, high, value, doubt, at, evidence } = figure;
      const then = kept.find((one) => one.quantity === quantity && one.where === where);
      const was = measured(then?.value, then?.doubt);
      const isNew = evidence !== undefined && evidence !== then?.evidence && at !== undefined;
      const is = isNew ? measured(value, doubt) : undefined;
      return {
        claim,
        title,
        quantity,
        where,
        ...(low !== undefined && { low }),
        ...(high !== undefined && { high }),
        ...(was && { left: was }),
        ...(is && { now: { ...is, at: at! } }),
        ...(was && is && { change: changeOf(was, is) }),
      };
    });
  });
}

type Measured = { readonly value: number; readonly doubt: number };

function measured(value: unknown, doubt: unknown): Measured | undefined {
  return typeof value === "number" && typeof doubt === "number" ? { value, doubt } : undefined;
}

/**
 * What a figure moved by, the doubts of both readings taken together: √(doubt² + doubt²). Within one of these nothing
 * is said to have moved; two exact counts that agree are as they were.
 */
function changeOf(then: Measured, now: Measured): NonNullable<ThenAndNow["change"]> {
  const value = now.value - then.value;
  const doubt = Math.hypot(then.doubt, now.doubt);
  const state = Math.abs(value) > doubt ? "moved" : value === 0 && doubt === 0 ? "as it left" : "can't be told apart";
  return { value, doubt, state };
}

interface SetsAnswer {
  readonly sets: readonly {
    readonly positions: Readonly<Record<string, string>>;
    readonly cost: number;
    readonly doubt_dB?: number;
  }[];
}

export interface ReserveCase {
  readonly shop: Shop;
  readonly model: Model;
  readonly unit: UnitState;
  readonly states: readonly ClaimState[];
  readonly readings: (type: string, valves: readonly string[]) => TypeReadings | undefined;
  readonly verdicts: (type: string) => Promise<readonly ValveVerdict[]>;
  readonly fitted: () => Promise<FittedNetlist>;
}

/**
 * For each type of valve in a unit the set from the shelf that would balance it best: in its own circuit, with the
 * curves of the valves that stay and what its measured balance says of its own resistors; where no curves were read,
 * by likeness of currents.
 */
export async function reserveFits(asked: ReserveCase, calculate: Calculate): Promise<ReserveView> {
  const { shop, model, unit } = asked;
  const fits: ReserveFit[] = [];
  const none: string[] = [];
  for (const type of new Set(model.positions.map((position) => position.type))) {
    const shelf = (await asked.verdicts(type)).filter(({ id, verdict }) => verdict === "use" && !shop.fittedIn.has(id));
    const free = forCircuit(shelf);
    const fit = await fitOf(type, free, asked, calculate);
    if (fit) fits.push(fit);
    else none.push(type);
  }
  return { unit: unit.unit, fits, none };
}

async function fitOf(
  type: string,
  free: readonly ValveVerdict[],
  { model, unit, states, readings, fitted }: ReserveCase,
  calculate: Calculate,
): Promise<ReserveFit | undefined> {
  const places = model.positions.filter((position) => position.type === type);
  const positions = places.map(({ position }) => position);
  const ids = free.map(({ id }) => id);
  const read = readings(type, ids);
  if (!read || free.length < positions.length) return undefined;
  const demand = [{ unit: unit.unit, positions }];
  const sections = places[0]!.sections;
  const curves = await withCurves(ids, sections, read, calculate, kindAt(model, sections));
  if (curves.length >= positions.length && model.channels.length > 1) {
    const { netlist } = await fitted();
    const standing = await standingBalance(states, model, netlist, calculate);
    const { sets } = await calculate<SetsAnswer>("valves.sets", {
      valves: curves,
      demand,
      netlist,
      input: model.channels.map((channel) => model.input[channel]),
      output: model.channels.map((channel) => model.output[channel]),
      ...(standing && { above_dB: standing.above_dB }),
      limit: model.balanceLimit_dB,
    });
    const [best] = sets;
    if (!best) return undefined;
    const doubt = standing ? Math.hypot(Math.SQRT2 * (best.doubt_dB ?? 0), standing.doubt_dB) : best.doubt_dB;
    return {
      type,
      positions: best.positions,
      by: "circuit",
      cost: best.cost,
      ...(doubt !== undefined && { doubt }),
      limit_dB: model.balanceLimit_dB,
      ownParts: standing !== undefined,
      considered: curves.length,
    };
  }
  const middle = middleOf(free);
  const features = ({ sections: known }: ValveVerdict) =>
    Object.fromEntries(known.map(({ name, hot_mA = middle }) => [name, (100 * hot_mA) / middle]));
  const { sets } = await calculate<SetsAnswer>("valves.sets", {
    valves: free.map((valve) => ({ id: valve.id, features: features(valve) })),
    demand,
    cost: { kind: "spread", weights: Object.fromEntries(Object.keys(features(free[0]!)).map((name) => [name, 1])) },
  });
  const [best] = sets;
  return (
    best && {
      type,
      positions: best.positions,
      by: "current",
      cost: best.cost,
      ownParts: false,
      considered: free.length,
    }
  );
}

function middleOf(pool: readonly ValveVerdict[]): number {
  const all = pool.flatMap(({ sections }) => sections.flatMap(({ hot_mA }) => hot_mA ?? [])).sort((a, b) => a - b);
  return all[Math.floor(all.length / 2)] ?? 1;
}
