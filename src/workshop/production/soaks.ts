import { type ClaimState, nextChecks, type Run, type Shop, type ValveState } from "../../claims/index.ts";
import type { Saved, SurvivalPoint } from "../../production/index.ts";
import type { Calculate } from "../calculate.ts";
import { groupBy } from "../groupBy.ts";
import { freeSlot, slotsFree } from "./places.ts";
import { customer, type Records, recordsOf } from "./records.ts";
import type { RunningView, SoakChangeView, SoakSortView, SoaksView } from "./soakViews.ts";

const hour_ms = 3_600_000;

export interface SoakCase {
  readonly shop: Shop;
  readonly now: string;
  readonly statesOf: (unit: string) => readonly ClaimState[];
  /** Valves that were never read after a heat run, where that is known. */
  readonly unheated?: readonly ValveState[];
}

/** One thing that soaked: for how long, whether it then failed, and of what. */
interface Soaked {
  readonly hours: number;
  readonly failed: boolean;
  readonly fault?: string;
  readonly run: Run;
}

interface SoakAnswer {
  readonly curve: readonly SurvivalPoint[];
  readonly median_h?: number;
  readonly hoursThatPay?: number;
  readonly saving_cents?: number;
  readonly againstNone?: Saved;
  readonly againstToday?: Saved;
  readonly notes: readonly string[];
}

/** What goes on by itself now, beside what the shop's own hours say of each sort of soak. */
export async function soaksView(
  { shop, now, statesOf, unheated = neverHeated(shop) }: SoakCase,
  sorts: readonly SoakSortView[],
): Promise<SoaksView> {
  const open = shop.openUnits.filter(({ unit }) => !shop.runs.of(unit));
  return {
    now,
    ...(shop.rates && { currency: shop.rates.currency }),
    running: shop.runs.open.map((run) => runningView(run, shop)),
    sorts: sorts.toSorted((a, b) => b.failures - a.failures || b.pieces - a.pieces),
    units: open.flatMap(({ unit, done }) => {
      const model = shop.modelOf(unit)!;
      const step = model.build.find(({ step: name }) => !done.has(name));
      if (step && !step.unattended) return [];
      const steps = step
        ? [
            {
              step: step.step,
              title: step.step,
              hours: step.hours.usual,
              ...(step.place !== undefined && { place: step.place }),
            },
          ]
        : [];
      const checks = step ? [] : nextChecks(statesOf(unit), model).filter(({ wait_h }) => wait_h > 0);
      const claims = checks.map(({ claim, title, wait_h, danger, place }) => {
        const where = model.claims.find((spec) => spec.claim === claim)?.check.waitPlace ?? place;
        return { claim, title, hours: wait_h, danger, ...(where !== undefined && { place: where }) };
      });
      const waits = [...steps, ...claims];
      return waits.length > 0 ? [{ unit, waits }] : [];
    }),
    trays: [...groupBy(waitingForHeat(shop, unheated), ({ batch }) => batch)].map(([batch, valves]) => {
      const { type } = valves[0]!;
      const heatRun_h = shop.valveLimits.get(type)?.body.heatRun_h;
      return {
        batch,
        type,
        valves: valves.map(({ valve }) => valve),
        ...(heatRun_h !== undefined && { heatRun_h }),
      };
    }),
    places: (shop.shop?.places ?? []).map(({ id, capacity = 1 }) => {
      const slot = freeSlot(shop, id);
      return { place: id, capacity, free: slotsFree(shop, id) ?? capacity, ...(slot !== undefined && { slot }) };
    }),
  };
}

/** Valves that were never read after a heat run. */
export function neverHeated(shop: Shop): readonly ValveState[] {
  return [...shop.valves.values()].filter(({ valve }) => !shop.wasReadHot(valve));
}

/** Of those, the ones that are in no run and stand in no unit. */
function waitingForHeat(shop: Shop, unheated: readonly ValveState[]): readonly ValveState[] {
  const { fittedIn } = shop;
  const running = new Set(shop.runs.open.flatMap((run) => run.running));
  return unheated.filter(({ valve }) => !fittedIn.has(valve) && !running.has(valve));
}

/** What the shop's own hours say of each sort of soak. */
export function soakSorts(
  shop: Shop,
  now: string,
  calculate: Calculate,
  records: Records = recordsOf(shop),
): Promise<readonly SoakSortView[]> {
  return Promise.all(
    [...soakedBySort(shop, now)].map(([what, pieces]) => sortView(what, pieces, shop, records, calculate)),
  );
}

/**
 * Lengths of soak that the shop's own hours say to change, for whoever asks where checks belong.
 *
 * @param told  places whose length is told already, by records of their own
 */
export async function soakChanges(
  shop: Shop,
  now: string,
  calculate: Calculate,
  told: ReadonlySet<string>,
  records: Records = recordsOf(shop),
): Promise<readonly SoakChangeView[]> {
  const untold = [...soakedBySort(shop, now)].filter(([, pieces]) =>
    pieces.some(({ run }) => run.body.place === undefined || !told.has(run.body.place)),
  );
  const sorts = await Promise.all(untold.map(([what, pieces]) => sortView(what, pieces, shop, records, calculate)));
  return sorts.flatMap(({ what, today_h, pieces, failures, change }) =>
    change === undefined ? [] : [{ what, from_h: today_h, pieces, failures, ...change }],
  );
}

/** Every piece that soaked, by sort; one that still soaks is good so far. */
function soakedBySort(shop: Shop, now: string): ReadonlyMap<string, readonly Soaked[]> {
  const sorted = new Map<string, Soaked[]>();
  for (const run of shop.runs.all.values()) {
    const what = sortOf(run, shop);
    if (what === undefined) continue;
    const pieces = sorted.get(what) ?? [];
    for (const thing of run.things) {
      const ending = run.endings.get(thing);
      // By the whole hour, so that the clock alone asks nothing anew.
      const hours = ending?.hours ?? Math.floor((Date.parse(now) - Date.parse(run.at)) / hour_ms);
      if (hours < 0) continue;
      const failed = ending?.outcome === "failed";
      pieces.push({ hours, failed, run, ...(ending?.fault !== undefined && { fault: ending.fault }) });
    }
    // A run begun this very moment, by a clock that is a little ahead, holds no piece yet.
    if (pieces.length > 0) sorted.set(what, pieces);
  }
  return sorted;
}

/** What may be pooled: valves of one type, units at one step or before one check. Timber has its own records. */
function sortOf({ body }: Run, shop: Shop): string | undefined {
  if (body.valves.length > 0) return `heat run of ${shop.valve(body.valves[0]!)?.type ?? "valves"}`;
  if (body.units.length === 0) return undefined;
  if (body.step !== undefined) return `${body.step} of units`;
  const model = shop.orderedAs(body.units[0]!);
  const title = model?.claims.find(({ claim }) => claim === body.claim)?.claim ?? body.claim!;
  return title.replaceAll("-", " ");
}

/** With fewer pieces on record no length is weighed against today's. */
const fewest = 12;

async function sortView(
  what: string,
  pieces: readonly Soaked[],
  shop: Shop,
  records: Records,
  calculate: Calculate,
): Promise<SoakSortView> {
  const failures = pieces.filter(({ failed }) => failed);
  const today_h = middle(pieces.map(({ run }) => run.body.hours));
  const costs = costsOf(pieces, failures, shop, records);
  const { curve, median_h, hoursThatPay, saving_cents, againstNone, againstToday, notes } = await calculate<SoakAnswer>(
    "production.soak",
    {
      pieces: pieces.map(({ hours, failed }) => ({ hours, failed })),
      ...(costs && { costs: { ...costs, today_h } }),
    },
  );
  const changed =
    failures.length > 0 && pieces.length >= fewest && hoursThatPay !== undefined && hoursThatPay !== today_h
      ? againstToday
      : undefined;
  return {
    what,
    pieces: pieces.length,
    failures: failures.length,
    soaked_h: pieces.reduce((sum, { hours }) => sum + hours, 0),
    today_h,
    curve,
    // With no failure among n pieces, a share that would give at least one in 19 of 20 such series.
    ...(failures.length === 0 && { atMost: 1 - 0.05 ** (1 / Math.max(1, pieces.length)) }),
    ...(median_h !== undefined && { median_h }),
    ...(costs && { costs }),
    ...(hoursThatPay !== undefined && { hoursThatPay }),
    ...(saving_cents !== undefined && { saving_cents }),
    ...(againstNone && { againstNone }),
    ...(againstToday && { againstToday }),
    ...(changed && {
      change: {
        kind: changed.hours < today_h ? ("shorten" as const) : ("lengthen" as const),
        to_h: changed.hours,
        saving_cents: changed.saving_cents,
        low_cents: changed.low_cents,
        high_cents: changed.high_cents,
        state: changed.state,
      },
    }),
    faults: [...groupBy(failures, ({ fault = "not said" }) => fault)].map(([fault, all]) => ({
      fault,
      count: all.length,
      hours: all.map(({ hours }) => hours).toSorted((a, b) => a - b),
    })),
    notes,
  };
}

/** A fault that gets past the soak comes back from a customer; so many such faults of the common kind steady few. */
const guessed = 2;

/**
 * What an hour costs, and a fault that gets past: units stand, each by itself, while a run of valves holds up one unit's
 * worth of hands whatever it holds.
 *
 * @returns nothing until rates are written down
 */
function costsOf(
  pieces: readonly Soaked[],
  failures: readonly Soaked[],
  shop: Shop,
  records: Records,
): SoakSortView["costs"] {
  const { rates } = shop;
  if (!rates || records.hour_cents === undefined) return undefined;
  const late = records.faults.filter(({ body }) => body.found === customer);
  if (late.length === 0) return undefined;
  const sorts = new Set(failures.flatMap(({ fault }) => fault ?? []));
  const cents = (all: typeof late) => all.map((fault) => records.cost_h(fault) * records.hour_cents!);
  const sum = (list: readonly number[]) => list.reduce((a, b) => a + b, 0);
  const overall = sum(cents(late)) / late.length;
  const alike = cents(late.filter(({ body }) => sorts.has(body.fault)));
  const { units, valves } = pieces[0]!.run.body;
  const inOne = valves.length > units.length ? sum(pieces.map(({ run }) => run.things.length)) / pieces.length : 1;
  return {
    hour_cents: rates.waiting_cents_per_h / inOne,
    escape_cents: Math.round((sum(alike) + guessed * overall) / (alike.length + guessed)),
    returns: alike.length,
  };
}

function middle(values: readonly number[]): number {
  const sorted = values.toSorted((a, b) => a - b);
  return sorted[Math.floor((sorted.length - 1) / 2)]!;
}

function runningView({ body, at, by, ripe, running, things }: Run, shop: Shop): RunningView {
  const model = body.units[0] === undefined ? undefined : shop.orderedAs(body.units[0]);
  const spec = model?.claims.find(({ claim }) => claim === body.claim);
  return {
    run: body.run,
    what: body.step ?? spec?.title ?? body.claim ?? (body.valves.length > 0 ? "heat run" : "drying"),
    at,
    by,
    ripe,
    hours: body.hours,
    place: body.place,
    danger: spec?.check.danger ?? (body.valves.length > 0 || /heat|plate/.test(body.step ?? "") ? "hot" : "none"),
    things: running.map((thing) => ({
      thing,
      ...(body.slot !== undefined && { slot: body.slot + things.indexOf(thing) }),
    })),
    ended: things.length - running.length,
  };
}
