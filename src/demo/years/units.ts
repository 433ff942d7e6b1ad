import type { BodyOf } from "../../claims/evidence.ts";
import type { Random } from "../../maths/random.ts";
import { account } from "../accounts.ts";
import { type BenchUnit, benchCircuit, benchReadings } from "../benchReadings.ts";
import { later, on } from "../days.ts";
import { type DemoEntry, entry, shown } from "../entry.ts";
import { carriage_cents, foundAt, sorts, stepsBetween } from "../faultsBefore.ts";
import type { Claim } from "../models/common.ts";
import { type ModelName, modelNamed } from "../models/models.ts";
import { slip_days } from "../ordersBefore.ts";
import type { Fault } from "../physics/fault.ts";
import { johnson_V_per_rtHz, triodeNoise_ohm } from "../physics/hiss.ts";
import { forms, probeSheet, type SheetForm } from "../probeSheets.ts";
import { besideFuse } from "../ratings.ts";
import { destinations, roles } from "../shop.ts";
import { session } from "../tester.ts";
import { BoardBook, throughTheShop } from "../timber/boards.ts";
import { caseBook } from "../timber/cases.ts";
import type { Weather } from "../timber/weather.ts";
import type { UnitTruth, ValveTruth } from "../truth.ts";
import { hissCorner_Hz, resistorsOf, wirings } from "../units.ts";
import { plusDays, type WorkingDays } from "./calendar.ts";
import { faultAtFirst } from "./faults.ts";
import { type Happening, written } from "./happening.ts";
import type { Numbers } from "./numbers.ts";
import type { Stock } from "./valves.ts";

/** One order, from the day it was taken. */
export interface OrderOfYears {
  readonly taken: string;
  readonly model: ModelName;
  readonly revision: string;
  readonly units: number;
  readonly customer: string;
  readonly to: keyof typeof destinations;
  /** Prices over those of the end of 2026. */
  readonly level: number;
}

export interface ShopOfYears {
  readonly days: WorkingDays;
  readonly numbers: Numbers;
  readonly stock: Stock;
  readonly weather: Weather;
  readonly misreads: (at: string) => number;
  readonly chance: Random;
  /** No unit is at work any more after this day. */
  readonly until: string;
}

interface Life extends OrderOfYears {
  readonly unit: string;
  readonly order: string;
  readonly draw: Random;
}

/** Days that the owner gives by the thumb. */
const thumb_days: Readonly<Record<ModelName, number>> = { Ebb: 84, Neap: 84, Flood: 91, Bore: 98 };
/** From taking an order to joining the panels of its case, at least: boards must dry. */
const dries_days = 42;
/** Bottles that are tried in the last place until both channels agree. */
const mostTried = 6;
const balanceRoom_dB = 0.1;
/** Share of good units whose first sheet is filled in whole. */
const wholeForms = 0.2;
const points: SheetForm = { gains: [], resistances: [] };

/** An order and the lives of its units; nothing where they would not have left in time. */
export function* orderYears(plan: OrderOfYears, shop: ShopOfYears): Generator<Happening> {
  const { taken, model, revision, customer, to } = plan;
  const order = shop.numbers.next("Q", taken, "-", 3);
  const draw = shop.chance.fork(`order ${order}`);
  const units = Array.from({ length: plan.units }, () => shop.numbers.next("", taken, "", 3));
  const due = later(on(taken, "17:00"), thumb_days[model] * 24 * 60);
  yield* written([
    entry(on(taken, "11:40"), roles.owner, {
      kind: "order",
      order,
      customer,
      model,
      revision,
      units,
      due,
      released: on(taken, "12:00"),
      destination: destinations[to],
    }),
    entry(on(taken, "11:50"), roles.owner, {
      kind: "promise",
      order,
      date: due,
      share_pct: 80,
      assumptions: "By the thumb of the year",
    }),
  ]);
  yield* written(bought(order, model, taken, draw));
  for (const unit of units) yield* life({ ...plan, unit, order, draw: draw.fork(unit) }, shop);
}

/** Iron is bought for each order; it comes before it is needed, more or less. */
function bought(order: string, model: ModelName, taken: string, draw: Random): readonly DemoEntry[] {
  const part = `${model} transformers for ${order}`;
  const came = plusDays(taken, Math.round(draw.fork("iron").triangle(9, 16, 26)));
  return [
    entry(on(taken, "12:10"), roles.owner, {
      kind: "part",
      part,
      model,
      step: "chassis",
      lead_days: { fast: 9, usual: 16, slow: 26 },
      ordered: on(taken, "12:10"),
      orders: [order],
    }),
    entry(on(came, "10:30"), roles.wiring, { kind: "arrival", part }),
  ];
}

function* life(life: Life, shop: ShopOfYears): Generator<Happening> {
  const { unit, order, model: name, revision, taken, to, draw } = life;
  const { days } = shop;
  const model = modelNamed(name);
  const late_days = Math.max(0, Math.round(slip_days(draw.fork("slip"))));
  const joined = fridayAfter(plusDays(taken, dries_days + late_days));
  const day = (after: number) => days.onOrAfter(plusDays(joined, 3), after)!;
  const opened = days.onOrAfter(plusDays(joined, -14))!;
  const bench = built(life, on(opened, "08:00"), shop);
  const at = (after: number, clock: string) => on(day(after), clock);
  const { fitted } = bench;

  yield* written(caseOf(life, joined, at(5, "16:00"), shop.weather));
  const opening: BodyOf<"unit"> = {
    kind: "unit",
    unit,
    order,
    model: name,
    revision,
    fitted: Object.fromEntries(Object.entries(fitted).map(([position, { valve }]) => [position, valve])),
    tap: `${destinations[to].nominal_V} V`,
    built: [],
  };
  const step = (when: string, by: string, done: string) => entry(when, by, { kind: "step", unit, step: done });
  const rack = `${unit} heat run`;
  yield* written([
    entry(on(opened, "08:30"), roles.wiring, opening),
    step(on(opened, "14:10"), roles.wiring, "chassis"),
    step(on(days.onOrAfter(opened, 2)!, "16:05"), roles.wiring, "wiring"),
    step(on(joined, "08:15"), roles.wood, "plate"),
    step(at(0, "12:10"), roles.wood, "case"),
    step(at(3, "15:20"), roles.wood, "coats"),
    ...(model.build.some((one) => one.step === "heat run")
      ? [
          entry(at(6, "09:00"), roles.wiring, {
            kind: "begun",
            run: rack,
            units: [unit],
            step: "heat run",
            place: "heat-run rack",
            hours: 24,
          }),
          entry(at(7, "09:10"), roles.wiring, { kind: "ended", run: rack, outcome: "good", hours: 24 }),
          step(at(7, "09:12"), roles.wiring, "heat run"),
        ]
      : []),
  ]);

  const fault = faultAtFirst(name, draw.fork("fault"));
  yield* written(sheet(fault ? { ...bench, fault } : bench, at(8, "09:10"), draw));
  if (fault) {
    const mended: BodyOf<"rework"> = {
      kind: "rework",
      unit,
      touched: [placeOf(name, fault)],
      why: "put right after its probe sheet",
    };
    yield* written([entry(at(8, "15:00"), roles.wiring, mended), ...sheet(bench, at(9, "09:10"), draw)]);
  }
  yield* written(checks(life, bench, (sheetOf) => at(10, clockOf[sheetOf] ?? "14:00"), draw));
  yield* written(soak(life, bench, { begun: at(10, "16:40"), ended: at(11, "08:25") }, draw));
  const left = at(11 + draw.fork("leaves").integer(4), "11:00");
  const leaves = (recordedAt: string): Happening => ({
    kind: "release",
    recordedAt,
    unit,
    by: roles.owner,
    concedes: "One in a hundred good units reads beside its window; it was played for a day and keeps its place",
  });
  yield leaves(left);
  const told = faultsOf(life, left, shop, draw);
  yield* written([account({ unit, model: name, left, to }, draw.fork("account"), life.level), ...told.entries]);
  if (told.back === undefined) return;
  const backAt = days.onOrAfter(told.back.slice(0, 10), 1)!;
  yield* cameBack(life, bench, backAt, shop);
  yield leaves(on(days.onOrAfter(backAt, 4)!, "15:30"));
}

/** The unit comes back to the bench: its valves are read as they were at birth, a hand is laid on it, all is proven anew. */
function* cameBack(life: Life, bench: BenchUnit, day: string, shop: ShopOfYears): Generator<Happening> {
  const { unit, model: name, draw } = life;
  const on_ = (after: number, clock: string) => on(shop.days.onOrAfter(day, after)!, clock);
  const types = new Map<string, ValveTruth[]>();
  for (const truth of Object.values(bench.fitted)) {
    types.set(truth.type, [...(types.get(truth.type) ?? []), truth]);
  }
  let clock = on_(0, "14:00");
  for (const [type, valves] of types) {
    const read = session(valves, ["hot"], clock, draw.fork(`back ${type}`), shop.misreads);
    yield* written(read);
    clock = later(read.at(-1)!.recordedAt, 2);
    yield { kind: "judge", recordedAt: later(clock, -1), type, valves: valves.map(({ valve }) => valve) };
  }
  const stage = (modelNamed(name).netlist as { parts: readonly { stage?: string }[] }).parts.find(
    (part) => part.stage !== undefined && part.stage !== "heaters",
  )!.stage!;
  const mended: BodyOf<"rework"> = {
    kind: "rework",
    unit,
    touched: [{ stage }, { case: "closure" }],
    why: "put right on its return",
  };
  yield* written([
    entry(on_(1, "10:00"), roles.wiring, mended),
    ...sheet(bench, on_(2, "09:10"), draw.fork("back")),
    ...checks(life, bench, (sheetOf) => on_(3, clockOf[sheetOf] ?? "14:00"), draw.fork("back")),
    ...soak(life, bench, { begun: on_(3, "16:40"), ended: on_(4, "08:25") }, draw.fork("back")),
  ]);
}

/** When on the day the checks of a sheet are made. */
const clockOf: Readonly<Partial<Record<Claim["sheet"], string>>> = {
  safety: "09:20",
  supply: "10:25",
  timber: "11:30",
  voltages: "13:20",
  sound: "13:40",
  hum: "15:10",
};

/** Valves from the shelf, the last of them tried until the channels agree, and the unit that they make. */
function built({ unit, model: name, draw }: Life, by: string, { stock }: ShopOfYears): BenchUnit {
  const model = modelNamed(name);
  const places = model.positions;
  const last = places.at(-1)!;
  const fitted: Record<string, ValveTruth> = {};
  for (const { position, type } of places.slice(0, -1)) {
    const next = stock.ready(type, by, 1)[0];
    if (next === undefined) throw new RangeError(`the shelf holds no ${type} for unit ${unit} on ${by}`);
    stock.take(type, next.valve);
    fitted[position] = next;
  }
  const tried = stock.ready(last.type, by, mostTried);
  const resistors = resistorsOf(wirings[name], draw.fork("resistors"));
  for (const candidate of tried) {
    const made: BenchUnit = {
      model,
      fitted: { ...fitted, [last.position]: candidate },
      truth: { unit, model: name, resistors, channels: [] },
      byDivider: true,
    };
    if (!balances(made) && candidate !== tried.at(-1)) continue;
    stock.take(last.type, candidate.valve);
    // Nothing of it is ever recorded, so that of its channels only their hiss is worked out.
    return Object.assign(made, { truth: { ...made.truth, channels: hissOf(made, draw.fork("channels")) } });
  }
  throw new RangeError(`the shelf holds no ${last.type} for unit ${unit} on ${by}`);
}

function hissOf(made: BenchUnit, draw: Random): UnitTruth["channels"] {
  const { circuit, currents, response } = benchCircuit(made);
  return made.model.channels.map((channel) => {
    const own = draw.fork(channel);
    const first = circuit.parts.find((part) => part.kind === "triode" && (part.channel ?? channel) === channel)!;
    const gain = 10 ** (response(channel).gain_dB[0]! / 20);
    return {
      channel,
      field: [],
      ripple: [],
      winding_Vrms: 0,
      cathodes: [],
      hiss_V_per_rtHz: own.normal(1.1, 0.03) * gain * johnson_V_per_rtHz(triodeNoise_ohm(currents[first.id]!.gm_mS!)),
      hissCorner_Hz: hissCorner_Hz[made.truth.model as ModelName] * own.normal(1, 0.15),
    };
  });
}

function balances(made: BenchUnit): boolean {
  const { model } = made;
  const [left, right] = model.channels.map((channel) => benchCircuit(made).response(channel).gain_dB[0]!);
  return Math.abs(left! - right!) < model.balanceLimit_dB - balanceRoom_dB;
}

/** Its boards, their way through the shop, and the case that they become. */
function caseOf({ unit, model, draw, taken }: Life, joined: string, given: string, weather: Weather) {
  const book = new BoardBook(weather, draw.fork("boards"));
  const plan = {
    case: `C-${unit}`,
    unit,
    model,
    joined,
    chamber_h: draw.fork("hurry").uniform() < 0.2 ? 15 : 63,
    plated: true,
    top: "centre",
    coats: [1, 3].map((days) => later(on(joined, "15:00"), days * 24 * 60)),
    given,
    paper: false,
  } as const;
  const boards = throughTheShop(book, plan, draw.fork("cases"));
  for (const [i, board] of boards.entries()) board.piece = `A${taken.slice(2, 4)}-${unit.slice(2)}${"ab"[i]}`;
  const cases = caseBook(plan, boards, draw.fork("joining"));
  return [...book.close(), ...cases]
    .map((one) => one.entry)
    .toSorted((a, b) => Date.parse(a.recordedAt) - Date.parse(b.recordedAt));
}

/** A form filled in whole where something is looked for, and now and then; else its test points alone. */
function sheet(bench: BenchUnit, at: string, draw: Random): readonly DemoEntry[] {
  const { unit, model } = bench.truth;
  const form = bench.fault !== undefined || draw.fork("whole form").uniform() < wholeForms ? forms[model]! : points;
  return probeSheet(bench, form, draw.fork(`${unit} sheet ${at}`)).map((body) => entry(at, roles.wiring, body));
}

/** Every proof but those of the probe sheet, the valves and the soak. */
function checks(
  { unit, model: name, to }: Life,
  bench: BenchUnit,
  when: (sheet: Claim["sheet"]) => string,
  draw: Random,
): readonly DemoEntry[] {
  const { model } = bench;
  return model.claims
    .filter(({ claim }) => claim !== "case-soak")
    .flatMap((claim) => {
      const at = when(claim.sheet);
      const requires = claim.requires.filter(({ quantity }) => quantity !== "level_V");
      const heard = requires
        .filter(({ quantity }) => quantity === "hum_margin_dB")
        .map(
          ({ quantity, channel }): BodyOf<"reading"> => ({
            kind: "reading",
            subject: { unit, ...(channel !== undefined && { channel }) },
            quantity,
            value: shown(draw.fork(`${unit} heard ${channel} ${at}`).normal(-15, 1.5), 1),
            doubt: 3,
            instrument: "audio-recorder",
            conditions: { by: "ear and meter, on the shop's headphones" },
          }),
        );
      const read = benchReadings(bench, { requires }, draw.fork(`${unit} ${claim.claim} ${at}`)).map((reading) =>
        besideFuse(name, destinations[to].nominal_V, reading),
      );
      return [...read, ...heard].map((body) => entry(at, claim.sheet === "timber" ? roles.wood : roles.bench, body));
    })
    .toSorted((a, b) => Date.parse(a.recordedAt) - Date.parse(b.recordedAt));
}

function soak(
  { unit }: Life,
  bench: BenchUnit,
  { begun, ended }: { readonly begun: string; readonly ended: string },
  draw: Random,
): readonly DemoEntry[] {
  const claim = bench.model.claims.find((one) => one.claim === "case-soak");
  if (!claim) return [];
  const run = `${unit} case soak ${begun.slice(0, 10)}`;
  return [
    entry(begun, roles.bench, {
      kind: "begun",
      run,
      units: [unit],
      claim: claim.claim,
      place: "soak shelf",
      hours: 12,
    }),
    entry(ended, roles.bench, { kind: "ended", run, outcome: "good" }),
    ...benchReadings(bench, claim, draw.fork(`${unit} soak ${ended}`)).map((body) => entry(ended, roles.bench, body)),
  ];
}

/** What the book of faults is told of the unit, and when it came back for it. */
function faultsOf({ unit, model, level }: Life, left: string, { until }: ShopOfYears, draw: Random) {
  const found = sorts.flatMap((sort) => {
    const own = draw.fork(`fault ${sort.fault}`);
    return own.uniform() < sort.odds ? [{ ...sort, found: foundAt(sort, model, own), own }] : [];
  });
  const atCustomers = found.find((one) => one.found === "customer");
  const comes =
    atCustomers && later(left, Math.round(atCustomers.own.fork("back").triangle(20, 60, 240)) * 24 * 60 + 60);
  // What comes back later than is told here is another story.
  const back = comes !== undefined && plusDays(comes.slice(0, 10), 20) <= until ? comes : undefined;
  const entries = found
    .filter((one) => one.found !== "customer" || (one === atCustomers && back !== undefined))
    .map(({ fault, arose, possible, found: stage, repair_h, parts_cents, own }) => {
      const isBack = stage === "customer";
      const hours = repair_h * own.triangle(0.7, 1, 1.8) * (1 + 0.35 * stepsBetween(model, possible, stage));
      const cents = parts_cents * own.triangle(0.8, 1, 1.3) + (isBack ? carriage_cents * own.triangle(0.6, 1, 1.8) : 0);
      return entry(isBack ? later(back!, 24 * 60) : later(left, 45), isBack ? roles.bench : roles.wiring, {
        kind: "fault",
        unit,
        fault,
        arose,
        possible,
        found: stage,
        repair_h: Number((hours + (isBack ? 2.5 : 0)).toFixed(1)),
        cost_cents: Math.round(level * cents),
      });
    });
  return {
    back,
    entries: back ? [...entries, entry(back, roles.owner, { kind: "return", unit, says: atCustomers!.says })] : entries,
  };
}

/** Paper says where hands were, not what they found. */
function placeOf(model: ModelName, { part: id }: Fault): { stage: string; channel?: string } {
  const { parts } = modelNamed(model).netlist as {
    readonly parts: readonly { readonly id: string; readonly stage?: string; readonly channel?: string }[];
  };
  const { stage, channel } = parts.find((part) => part.id === id)!;
  return { stage: stage!, ...(channel !== undefined && { channel }) };
}

function fridayAfter(date: string): string {
  const weekday = new Date(`${date}T12:00:00Z`).getUTCDay();
  return plusDays(date, (12 - weekday) % 7);
}
