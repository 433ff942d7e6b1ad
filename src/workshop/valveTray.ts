import type { BodyOf, Evidence } from "../claims/evidence.ts";
import type { Shop } from "../claims/index.ts";
import { testerFrom } from "../valves/index.ts";
import type { ValveShelf } from "./valveShelf.ts";
import type { TypeReadings, ValveVerdict } from "./valveTable.ts";
import type { TrayCardView, TrayValveView, TrayView, ValveReadingView, ValveStanding } from "./views.ts";

type Reading = Evidence<"valve-reading">;
type Batch = Evidence<"batch">;

export interface TrayCase {
  readonly shop: Shop;
  readonly shelf: ValveShelf;
  readonly batch: Batch;
  readonly readings: TypeReadings | undefined;
  readonly verdicts: readonly ValveVerdict[];
  readonly now: string;
}

const hour_ms = 3_600_000;

/** A tray as it lies on the bench: every valve's sections before and after the heat run, the reference at the edge. */
export function valveTray(tray: TrayCase): TrayView {
  const { shop, shelf, batch, readings, verdicts, now } = tray;
  const { body } = batch;
  const reference = readings && referenceOf(readings);
  const judged = new Map(verdicts.map((verdict) => [verdict.id, verdict]));
  const valves = body.valves.map((valve) => trayValve(valve, tray, judged.get(valve)));
  const currents = valves.flatMap(({ sections }) => sections.flatMap(({ hot_mA, cold_mA }) => hot_mA ?? cold_mA ?? []));
  const middle_mA = median(currents);
  const heatRunEnds = heatRunEnd(body, shelf, readings?.limits);
  const wanting = wantingOf(tray);
  return {
    batch: body.batch,
    type: body.type,
    seller: body.seller,
    at: batch.at,
    now,
    sections: body.sections,
    ...(readings && { limits: limitsOf(readings.limits) }),
    ...(reference && { reference }),
    ...(middle_mA !== undefined && { middle_mA }),
    ...(heatRunEnds !== undefined && { heatRunEnds }),
    valves,
    ...(wanting !== undefined && { wanting }),
    clock_h: testerClock(shelf, now),
    instruments: [...shop.instruments.values()].map(({ body: { instrument, trial } }) => ({
      instrument,
      reference: trial.reference,
    })),
    notes: [],
  };
}

/** A tray in one line of the list of all trays. */
export function trayCard(batch: Batch, shelf: ValveShelf, shop: Shop, verdicts: readonly ValveVerdict[]): TrayCardView {
  const { body } = batch;
  const judged = new Map(verdicts.map((verdict) => [verdict.id, verdict]));
  const stands: Record<ValveStanding, number> = { use: 0, hold: 0, reject: 0, unread: 0 };
  for (const valve of body.valves) stands[standingOf(judged.get(valve), shelf.readingsOf(valve))] += 1;
  const heatRunEnds = heatRunEnd(body, shelf, shop.valveLimits.get(body.type)?.body);
  return {
    batch: body.batch,
    type: body.type,
    seller: body.seller,
    at: batch.at,
    valves: body.valves.length,
    stands,
    coldRead: body.valves.filter((valve) => isRead(shelf.readingsOf(valve), body.sections, "cold")).length,
    hotRead: body.valves.filter((valve) => isRead(shelf.readingsOf(valve), body.sections, "hot")).length,
    ...(heatRunEnds !== undefined && { heatRunEnds }),
  };
}

/** A valve of which nothing was read before or after the heat run can't be held back: it was not read yet. */
function standingOf(verdict: ValveVerdict | undefined, read: readonly Reading[]): ValveStanding {
  return read.some(({ body }) => body.phase !== "curve") && verdict ? verdict.verdict : "unread";
}

function isRead(read: readonly Reading[], sections: readonly string[], phase: "cold" | "hot"): boolean {
  return sections.every((section) => read.some(({ body }) => body.section === section && body.phase === phase));
}

function trayValve(valve: string, { shop, shelf, batch, readings }: TrayCase, verdict?: ValveVerdict): TrayValveView {
  const read = shelf.readingsOf(valve);
  const standsIn = shop.fittedIn.get(valve);
  const tester = testerOf(readings);
  return {
    valve,
    standing: standingOf(verdict, read),
    reasons: verdict?.reasons ?? [],
    advice: (verdict?.advice ?? []).map(adviceView),
    ...(standsIn && { standsIn }),
    sections: batch.body.sections.map((section) => {
      const found = verdict?.sections.find(({ name }) => name === section);
      const last = (quantity: "gm_mS" | "gridCurrent_uA" | "leakage_uA") =>
        read.findLast(({ body }) => body.section === section && body.phase !== "curve" && body[quantity] !== undefined)
          ?.body[quantity];
      const [gm_mS, gridCurrent_uA, leakage_uA] = [last("gm_mS"), last("gridCurrent_uA"), last("leakage_uA")];
      return {
        section,
        ...(found?.cold_mA !== undefined && { cold_mA: found.cold_mA }),
        ...(found?.hot_mA !== undefined && { hot_mA: found.hot_mA }),
        ...(found?.drift_pct !== undefined && { drift_pct: found.drift_pct }),
        ...(found?.doubt_pct !== undefined && { doubt_pct: found.doubt_pct }),
        ...(gm_mS !== undefined && { gm_mS }),
        ...(gridCurrent_uA !== undefined && { gridCurrent_uA }),
        ...(leakage_uA !== undefined && { leakage_uA }),
        words: found?.settling ? [found.settling.reason] : [],
      };
    }),
    ...(verdict?.sectionSpread_pct !== undefined && { sectionSpread_pct: verdict.sectionSpread_pct }),
    ...(verdict?.doubt && { sectionSpreadDoubt_pct: verdict.doubt.sectionSpread_pct }),
    readings: read.map((entry) => readingView(entry, tester)),
  };
}

function adviceView({ position, serves, reasons, shifts }: NonNullable<ValveVerdict["advice"]>[number]) {
  const moved = shifts
    .filter(({ biasShift_V, doubt }) => Math.abs(biasShift_V) > doubt.biasShift_V)
    .map(
      ({ section, biasShift_V, doubt }) =>
        `Section ${section}: its grid current moves the bias there by ${volts(biasShift_V)} ± ${volts(doubt.biasShift_V)} V.`,
    );
  return { place: position, serves, words: [...reasons, ...moved] };
}

const volts = (value: number) => String(Number(value.toPrecision(2)));

function readingView({ id, at, by, body }: Reading, tester: ReturnType<typeof testerOf>): ValveReadingView {
  return {
    evidence: id,
    section: body.section,
    phase: body.phase,
    at,
    by,
    instrument: body.instrument,
    time_h: body.time_h,
    plate_V: body.plate_V,
    grid_V: body.grid_V,
    plate_mA: body.plate_mA,
    ...(tester && { right_mA: body.plate_mA / tester.factorAt(body.time_h).value }),
    ...(body.gm_mS !== undefined && { gm_mS: body.gm_mS }),
    ...(body.gridCurrent_uA !== undefined && { gridCurrent_uA: body.gridCurrent_uA }),
    ...(body.leakage_uA !== undefined && { leakage_uA: body.leakage_uA }),
  };
}

function testerOf(readings: TypeReadings | undefined) {
  if (!readings || readings.reference.length === 0) return undefined;
  return testerFrom(
    readings.reference.map(({ body }) => ({ time_h: body.time_h, plate_mA: body.plate_mA })),
    readings.limits.referenceTrue_mA,
  );
}

/** The reference valve while this tray was read, and how far the tester moved between its cold and its hot session. */
function referenceOf(readings: TypeReadings): TrayView["reference"] {
  const tester = testerOf(readings);
  const { limits, reference, byValve } = readings;
  const last = reference.at(-1);
  if (!tester || !last) return undefined;
  const shift_pct = (phase: "cold" | "hot") => {
    const times = [...byValve.values()].flatMap((read) =>
      read.filter(({ body }) => body.phase === phase).map(({ body }) => body.time_h),
    );
    const middle_h = median(times);
    return middle_h === undefined ? undefined : 100 * (tester.factorAt(middle_h).value - 1);
  };
  const cold_pct = shift_pct("cold");
  const hot_pct = shift_pct("hot");
  return {
    valve: last.body.valve,
    true_mA: limits.referenceTrue_mA,
    readings: reference.map(({ id, at, body }) => ({
      evidence: id,
      at,
      time_h: body.time_h,
      plate_mA: body.plate_mA,
      shift_pct: 100 * (body.plate_mA / limits.referenceTrue_mA - 1),
    })),
    ...(cold_pct !== undefined && { cold_pct }),
    ...(hot_pct !== undefined && { hot_pct }),
    ...(cold_pct !== undefined &&
      hot_pct !== undefined && { lean_pct: 100 * ((1 + hot_pct / 100) / (1 + cold_pct / 100) - 1) }),
    doubt_pct: limits.reading_doubt_pct,
  };
}

/** When the heat run of a tray ends that was read cold and not yet hot. */
function heatRunEnd(
  { valves }: Batch["body"],
  shelf: ValveShelf,
  limits: BodyOf<"valve-limits"> | undefined,
): string | undefined {
  if (limits?.heatRun_h === undefined) return undefined;
  const read = valves.flatMap((valve) => shelf.readingsOf(valve));
  if (read.some(({ body }) => body.phase !== "cold") || read.length === 0) return undefined;
  const last_ms = read.map(({ at }) => Date.parse(at)).reduce((a, b) => Math.max(a, b));
  return new Date(last_ms + limits.heatRun_h * hour_ms).toISOString();
}

/** What is missing before anything can be judged, with its mend. */
function wantingOf({ batch, readings }: TrayCase): string | undefined {
  const { type } = batch.body;
  if (!readings)
    return `No test point or limits of the ${type} are on record. Set them first; then its valves can be read.`;
  if (readings.byValve.size === 0)
    return "No valve of this tray was read yet. Begin with the reference valve, then read each section cold.";
  if (readings.reference.length === 0)
    return `The reference valve of the ${type} was never read, so nobody knows what the tester was worth. Read it now, then the tray is judged.`;
  return undefined;
}

function limitsOf({ plate_V, grid_V, referenceTrue_mA, reading_doubt_pct, heatRun_h, limits }: BodyOf<"valve-limits">) {
  return {
    plate_V,
    grid_V,
    referenceTrue_mA,
    reading_doubt_pct,
    ...(heatRun_h !== undefined && { heatRun_h }),
    drift_pct: limits.drift_pct,
    sectionSpread_pct: limits.sectionSpread_pct,
    ...(limits.gridCurrent_uA !== undefined && { gridCurrent_uA: limits.gridCurrent_uA }),
    ...(limits.leakage_uA !== undefined && { leakage_uA: limits.leakage_uA }),
    ...(limits.gm_min_pct !== undefined && { gm_min_pct: limits.gm_min_pct }),
  };
}

/** Hours on the tester's clock now: it runs on from the newest reading, and starts at 0 with the first. */
export function testerClock(shelf: ValveShelf, now: string): number {
  const newest = shelf.newest;
  if (!newest) return 0;
  const hours = newest.body.time_h + (Date.parse(now) - Date.parse(newest.at)) / hour_ms;
  return Math.round(hours * 1000) / 1000;
}

function median(values: readonly number[]): number | undefined {
  if (values.length === 0) return undefined;
  const sorted = values.toSorted((a, b) => a - b);
  const half = Math.floor(sorted.length / 2);
  return sorted.length % 2 === 1 ? sorted[half] : (sorted[half - 1]! + sorted[half]!) / 2;
}
