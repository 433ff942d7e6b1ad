import type { BodyOf } from "../claims/evidence.ts";
import { type Random, randomStream } from "../maths/random.ts";
import { type BenchUnit, benchReadings } from "./benchReadings.ts";
import { later, on, paperTypedIn, workingDays } from "./days.ts";
import { type DemoEntry, entry, shown, writtenAt } from "./entry.ts";
import { type ModelName, modelNamed } from "./models/models.ts";
import { type OrderPlan, orderBook, revisions } from "./orders.ts";
import type { Fault } from "./physics/fault.ts";
import { channelResponse, unitCircuit } from "./physics/workingPoint.ts";
import { forms, probeSheet } from "./probeSheets.ts";
import { besideFuse } from "./ratings.ts";
import { heardOf } from "./returnedUnits.ts";
import { fromPaper } from "./shelf.ts";
import { customers, destinations, roles } from "./shop.ts";
import type { SheetTruth, Truth, UnitTruth, ValveTruth } from "./truth.ts";
import { buildUnit, valvesAt } from "./units.ts";

/** A unit of the year before, finished and gone, with the sheets that were kept of it. */
interface PastUnit {
  readonly unit: string;
  readonly model: ModelName;
  readonly order: OrderPlan;
  /** The day its first probe sheet was begun. */
  readonly probed: string;
  /** When it went to its customer, on the day that was given or about it. */
  readonly left: string;
  readonly fault?: Fault;
  readonly story?: string;
}

/** Serial numbers: first of the year, and how many of the model were built. */
const built: Readonly<Record<ModelName, readonly [first: number, count: number]>> = {
  Ebb: [401, 16],
  Neap: [231, 12],
  Flood: [577, 10],
  Bore: [711, 6],
};

/** What the first sheet of a unit was taken of, where that was not a good unit. */
const faults: Readonly<Record<string, Fault & { readonly story?: string }>> = {
  "0402": { part: "R4L", kind: "high", size: 1.35 },
  "0405": { part: "C1R", kind: "leaky", size: 47_000 },
  "0408": { part: "V1b", kind: "weak", size: 0.45 },
  "0411": { part: "R9R", kind: "high", size: 12 },
  "0414": { part: "R7L", kind: "high", size: 1.5 },
  "0232": { part: "R3L", kind: "high", size: 1.6 },
  "0235": { part: "C1R", kind: "leaky", size: 330_000 },
  "0238": { part: "V1a", kind: "weak", size: 0.45 },
  "0241": { part: "R13", kind: "open" },
  "0578": { part: "C1L", kind: "open", story: "an open cathode bypass: every voltage is right, the gain is not" },
  "0580": { part: "C2R", kind: "leaky", size: 6_800_000 },
  "0582": { part: "R8L", kind: "high", size: 1.7 },
  "0584": { part: "R4R", kind: "low", size: 0.55 },
  "0586": { part: "V3", kind: "weak", size: 0.4 },
  "0712": { part: "C1nR", kind: "leaky", size: 4_700_000 },
  "0715": { part: "R10pL", kind: "high", size: 1.25 },
};

const places = Object.keys(destinations) as readonly (keyof typeof destinations)[];

const pastUnits: readonly PastUnit[] = (() => {
  const serials = (Object.keys(built) as ModelName[]).flatMap((model) => {
    const [first, count] = built[model];
    return Array.from({ length: count }, (_, i) => ({
      model,
      unit: String(first + i).padStart(4, "0"),
      when: (i + 0.5) / count,
    }));
  });
  const days = workingDays("2026-04-13", "2026-11-20");
  return serials
    .toSorted((a, b) => a.when - b.when)
    .map(({ model, unit }, i, all): PastUnit => {
      const probed = days[Math.floor((i * days.length) / all.length)]!;
      const { story, ...fault } = faults[unit] ?? {};
      const order: OrderPlan = {
        order: `Q-${151 + i}`,
        customer: customers[i % customers.length]!.id,
        model,
        units: [unit],
        taken: later(on(probed, "12:00"), -63 * 24 * 60).slice(0, 10),
        due: later(on(probed, "17:00"), 10 * 24 * 60),
        to: places[i % places.length]!,
        assumptions: "From the paper book",
      };
      return {
        unit,
        model,
        order,
        probed,
        left: leftAbout(order.due, unit),
        ...("part" in fault && { fault: fault as Fault }),
        ...(story !== undefined && { story }),
      };
    });
})();

/** Some days before or after the day given, in the working day, and not after the paper was typed in. */
function leftAbout(due: string, unit: string): string {
  const slip_days = Math.round(randomStream(`left ${unit}`).triangle(-6, -1, 5));
  const left = Math.min(Date.parse(due) + slip_days * 86_400_000 - 90 * 60_000, Date.parse(on("2026-12-03", "15:30")));
  return new Date(left).toISOString().replace(".000Z", "Z");
}

export interface BuiltUnit extends PastUnit {
  readonly truth: UnitTruth;
  readonly fitted: Readonly<Record<string, string>>;
}

/** The year's units with sound valves of the old batches in them, each valve once, in the order they were built. */
export function buildPastUnits(
  valves: ReadonlyMap<string, ValveTruth>,
  verdicts: Truth["valves"],
  kept: ReadonlySet<string>,
  chance: Random,
): readonly BuiltUnit[] {
  const sound = new Set(verdicts.filter(({ allowed }) => allowed.join() === "use").map(({ valve }) => valve));
  let free = [...valves.values()].filter(
    ({ valve, batch }) => fromPaper.has(batch) && sound.has(valve) && !kept.has(valve),
  );
  return pastUnits.map((past) => {
    const { positions } = modelNamed(past.model);
    const last = positions.at(-1)!;
    const build = (choice: number): BuiltUnit => {
      const taken: string[] = [];
      const fitted = Object.fromEntries(
        positions.map(({ position, type }) => {
          const left = free.filter((one) => one.type === type && !taken.includes(one.valve));
          const next = left[position === last.position ? Math.min(choice, left.length - 1) : 0];
          if (next === undefined) throw new RangeError(`the old batches hold no ${type} for unit ${past.unit}`);
          taken.push(next.valve);
          return [position, next.valve];
        }),
      );
      const plan = { unit: past.unit, model: past.model, fitted, ...heardOf(past.unit) };
      return { ...past, fitted, truth: buildUnit(plan, valves, chance) };
    };
    // What did not balance got another valve in its last place before it left, as at any bench.
    let unit = build(0);
    for (let choice = 1; choice <= mostExchanges && !balances(unit, valves); choice++) unit = build(choice);
    const used = new Set(Object.values(unit.fitted));
    free = free.filter(({ valve }) => !used.has(valve));
    return unit;
  });
}

const mostExchanges = 12;
/** Inside the limit by more than the bench's doubt and scatter of a balance. */
const balanceRoom_dB = 0.1;

function balances({ model: name, truth, fitted }: BuiltUnit, valves: ReadonlyMap<string, ValveTruth>): boolean {
  const model = modelNamed(name);
  const circuit = unitCircuit(model, truth.resistors, valvesAt(fitted, valves));
  const [left, right] = model.channels.map(
    (channel) => channelResponse(circuit, model.input[channel]!, model.output[channel]!, [1000]).gain_dB[0]!,
  );
  return Math.abs(left! - right!) < model.balanceLimit_dB - balanceRoom_dB;
}

/** Sheets begin in the morning; what was found is put right that afternoon, and all is read again on the next day. */
function sheetsOf({ unit, probed, fault, story }: PastUnit): readonly SheetTruth[] {
  const first = on(probed, "09:10");
  const second = later(first, 24 * 60);
  if (fault === undefined) return [{ unit, at: first }];
  return [
    { unit, at: first, fault, ...(story !== undefined && { story }) },
    { unit, at: second },
  ];
}

/** The life of a past unit, as its paper was typed in. */
function pastBook(past: BuiltUnit, valves: ReadonlyMap<string, ValveTruth>, chance: Random): readonly DemoEntry[] {
  const { unit, model: name, order, truth, fitted, fault } = past;
  const model = modelNamed(name);
  const good: BenchUnit = { model, truth, fitted: valvesAt(fitted, valves) };
  const opening: BodyOf<"unit"> = {
    kind: "unit",
    unit,
    order: order.order,
    model: name,
    revision: revisions[name],
    fitted: { ...fitted },
    tap: `${destinations[order.to].nominal_V} V`,
    built: model.build.map(({ step }) => step),
  };
  const sheets = sheetsOf(past);
  const probes = sheets.flatMap(({ at, fault: wrong }) =>
    probeSheet(wrong ? { ...good, fault: wrong } : good, forms[name]!, chance.fork(`${unit} sheet ${at}`)).map((body) =>
      entry(at, roles.wiring, body),
    ),
  );
  const last = sheets.at(-1)!.at;
  const rest = model.claims.flatMap((claim) => {
    const requires = claim.requires.filter(({ quantity }) => quantity !== "level_V");
    return benchReadings(good, { requires }, chance.fork(`${unit} ${claim.claim}`)).map((reading) =>
      besideFuse(name, destinations[order.to].nominal_V, reading),
    );
  });
  const heard = model.claims.flatMap(({ requires }) => requires).filter(({ quantity }) => quantity === "hum_margin_dB");
  const hearing = heard.map(
    ({ quantity, channel }): BodyOf<"reading"> => ({
      kind: "reading",
      subject: { unit, ...(channel !== undefined && { channel }) },
      quantity,
      value: shown(chance.fork(`${unit} heard ${channel}`).normal(-15, 1.5), 1),
      doubt: 3,
      instrument: "audio-recorder",
      conditions: { by: "ear and meter, on the shop's headphones" },
    }),
  );
  return [
    entry(later(on(past.probed, "08:30"), -7 * 24 * 60), roles.wiring, opening),
    ...probes.filter(({ at }) => at !== last),
    ...(fault === undefined ? [] : [entry(later(last, -18 * 60), roles.wiring, putRight(past))]),
    ...probes.filter(({ at }) => at === last),
    ...[...rest, ...hearing].map((body) => entry(later(last, 60), roles.bench, body)),
  ];
}

/** The paper says where hands were, not what they found. */
function putRight({ unit, model, fault }: BuiltUnit): BodyOf<"rework"> {
  const netlist = modelNamed(model).netlist as { parts: readonly { id: string; stage?: string; channel?: string }[] };
  const { stage, channel } = netlist.parts.find(({ id }) => id === fault!.part)!;
  return {
    kind: "rework",
    unit,
    touched: [{ stage: stage!, channel: channel! }],
    why: "put right after its probe sheet",
  };
}

export interface PastBook {
  readonly entries: readonly DemoEntry[];
  /** Released once what was read of the unit has been judged. */
  readonly releases: readonly { readonly unit: string; readonly at: string }[];
  readonly sheets: readonly SheetTruth[];
}

/** The paper of the year before, unit by unit as it was typed in. */
export function paperBook(
  units: readonly BuiltUnit[],
  valves: ReadonlyMap<string, ValveTruth>,
  chance: Random,
): PastBook {
  return {
    entries: units.flatMap((past, i) =>
      writtenAt(later(on(paperTypedIn, "11:00"), 5 * i), [
        ...orderBook([past.order]),
        ...pastBook(past, valves, chance),
      ]),
    ),
    releases: units.map(({ unit, left }) => ({ unit, at: left })),
    sheets: units.flatMap(sheetsOf),
  };
}
