import type { Evidence } from "../claims/evidence.ts";
import type { Shop } from "../claims/index.ts";
import type { Answers } from "../demo/score.ts";
import { BadInput } from "../maths/badInput.ts";
import { openStore } from "../store/index.ts";
import type { Calculate } from "../workshop/calculate.ts";
import { type FittedNetlist, fittedNetlist } from "../workshop/fittedCurves.ts";
import { groupBy } from "../workshop/groupBy.ts";
import { quantityOf } from "../workshop/probeCard.ts";
import { probeSuspects } from "../workshop/probeJudged.ts";
import { ValveShelf } from "../workshop/valveShelf.ts";
import type { Workshop } from "../workshop/workshop.ts";
import { officeAnswers } from "./demoOffice.ts";
import { type AskedOfTimber, timberAnswers } from "./demoTimber.ts";

type Tell = (what?: string) => void;

/** What the keeper of the truth asks about besides: single valves for a place, and a dealer's fours. */
export interface Asked {
  readonly places: readonly { readonly valve: string; readonly position: string }[];
  readonly fours: readonly { readonly fours: readonly (readonly string[])[] }[];
  readonly timber?: AskedOfTimber | undefined;
  readonly office?: { readonly before: readonly [first: string, last: string] } | undefined;
}

/** Orders of the years before are asked about by their numbers, the first and the last. */
function isBefore(order: string, asked: Asked["office"]): boolean {
  return asked !== undefined && asked.before[0] <= order && order <= asked.before[1];
}

/** What the tool says of every unit, valve and probe sheet, from evidence alone. */
export async function answersOf(workshop: Workshop, folder: string, asked: Asked, tell: Tell): Promise<Answers> {
  const hum: Answers["hum"][number][] = [];
  const unfair: NonNullable<Answers["unfair"]>[number][] = [];
  const taps: NonNullable<Answers["taps"]>[number][] = [];
  const balance: NonNullable<Answers["balance"]>[number][] = [];
  const proposals: { unit: string; position: string; in: string }[] = [];
  const recorded = await recordedUnits(folder);
  for (const [index, [unit, purposes]] of recorded.entries()) {
    tell(`hearing unit ${unit} (${index + 1} of ${recorded.length})`);
    if (purposes.has("hum") || purposes.has("tap")) {
      const heard = await workshop.humHearing(unit);
      for (const [channel, verdict] of Object.entries(heard.verdict)) hum.push({ unit, channel, ...verdict });
      for (const { recording, state } of heard.supplies) if (state === "not believed") unfair.push({ unit, recording });
      const { microphony } = heard;
      if (microphony)
        taps.push({ unit, state: microphony.state, ...(microphony.valve && { valve: microphony.valve }) });
    }
    const overVolume = purposes.has("tone") ? (await workshop.bench(unit)).balance : undefined;
    if (overVolume) balance.push({ unit, cause: overVolume.cause });
    const { proposal } = await workshop.unit(unit);
    if (proposal) proposals.push({ unit, position: proposal.position, in: proposal.in });
  }
  const verdicts = await workshop.allVerdicts();
  const store = await openStore(folder, { write: false });
  try {
    const evidence = store.evidence();
    const calculate: Calculate = async <T>(name: string, input: unknown) => {
      const given = await workshop.answer(name, input);
      if (!given.ok) throw new BadInput(given.error.path, name, given.error.message, "see the demo's net list");
      return given.output as T;
    };
    const shelf = new ValveShelf(store.shop);
    const sheets = await sheetAnswers(calculate, store.shop, shelf, evidence, tell);
    const places = await placeAnswers(calculate, store.shop, shelf, asked.places);
    const fours = await Promise.all(asked.fours.map((four) => pairsOfFours(calculate, shelf, four.fours)));
    tell();
    return {
      hum,
      unfair,
      taps,
      balance,
      proposals,
      sheets,
      places,
      fours,
      timber: await timberAnswers(workshop, asked.timber, tell),
      office: await officeAnswers(workshop, (order) => isBefore(order, asked.office), tell),
      valves: verdicts.map(({ id, verdict }) => ({ valve: id, verdict })),
    };
  } finally {
    await store.close();
  }
}

/** Units of which there is more than a silence, and what was recorded of each. */
async function recordedUnits(
  folder: string,
): Promise<readonly (readonly [unit: string, purposes: ReadonlySet<string>])[]> {
  const store = await openStore(folder, { write: false });
  try {
    const purposes = new Map<string, Set<string>>();
    for (const { body } of store.evidence()) {
      if (body.kind !== "recording" || body.purpose === "noise") continue;
      purposes.set(body.unit, (purposes.get(body.unit) ?? new Set()).add(body.purpose));
    }
    return [...purposes];
  } finally {
    await store.close();
  }
}

/** Fewer voltages than these are a check of one stage, not a sheet. */
const leastPoints = 8;

/** The place of a power valve in a Bore: its grid leak with what feeds it, its bias held by the tail of the pair. */
const powerPlace = { type: "EL34", gridLeak_ohm: 323_000 };

async function placeAnswers(calculate: Calculate, shop: Shop, shelf: ValveShelf, asked: Asked["places"]) {
  return Promise.all(
    asked.map(async ({ valve, position }) => {
      const { type } = shop.valves.get(valve)!;
      const { limits, reference, byValve } = shelf.readingsOfValves(type, [valve])!;
      const sections = groupBy(
        (byValve.get(valve) ?? []).filter(({ body }) => body.phase !== "curve"),
        ({ body }) => body.section,
      );
      const answer = await calculate<{
        valves: { advice?: { position: string; serves: "yes" | "no" | "undecided" }[] }[];
      }>("valves.verdict", {
        limits: limits.limits,
        reference: reference.map(({ body: { time_h, plate_mA } }) => ({ time_h, plate_mA })),
        referenceTrue_mA: limits.referenceTrue_mA,
        reading_doubt_pct: limits.reading_doubt_pct,
        positions: [{ position, ...powerPlace }],
        valves: [
          {
            id: valve,
            type,
            sections: [...sections].map(([name, read]) => ({
              name,
              readings: read.map(({ body: { time_h, phase, plate_mA, gm_mS, gridCurrent_uA, leakage_uA } }) => ({
                time_h,
                phase,
                plate_mA,
                gm_mS,
                gridCurrent_uA,
                leakage_uA,
              })),
            })),
          },
        ],
      });
      return { valve, position, serves: answer.valves[0]?.advice?.[0]?.serves ?? ("undecided" as const) };
    }),
  );
}

/** Two pairs out of both fours, and out of the first alone, by their currents at our point after the heat run. */
async function pairsOfFours(calculate: Calculate, shelf: ValveShelf, fours: Asked["fours"][number]["fours"]) {
  const choose = (valves: readonly string[]) =>
    calculate<{ sets: { positions: Record<string, string> }[]; totalCost: number }>("valves.sets", {
      valves: valves.map((id) => ({
        id,
        features: { plate_mA: shelf.readingsOf(id).findLast(({ body }) => body.phase === "hot")!.body.plate_mA },
      })),
      demand: ["one channel", "other channel"].map((unit) => ({ unit, positions: ["plus", "minus"] })),
      cost: { kind: "spread", weights: { plate_mA: 1 } },
      limit: 1000,
    });
  const [ours, dealers] = [await choose(fours.flat()), await choose(fours[0]!)];
  return {
    pairs: ours.sets.map(({ positions }) => Object.values(positions)),
    cost: ours.totalCost,
    dealersCost: dealers.totalCost,
  };
}

/** Every probe sheet by itself: all that one pair of hands read of a unit in one go. */
async function sheetAnswers(
  calculate: Calculate,
  shop: Shop,
  shelf: ValveShelf,
  evidence: readonly Evidence[],
  tell: Tell,
) {
  const drawn = new Map<string, FittedNetlist>();
  const sheets = sheetsIn(evidence);
  const answers: NonNullable<Answers["sheets"]>[number][] = [];
  for (const [index, { unit, at, readings }] of sheets.entries()) {
    tell(`reading probe sheet ${index + 1} of ${sheets.length} (unit ${unit})`);
    const model = shop.modelOf(unit)!;
    const fitted =
      drawn.get(unit) ??
      (await fittedNetlist(
        model,
        shop.units.get(unit)!.fitted,
        (type, valve) => shelf.readingsOfValves(type, [valve]),
        calculate,
      ));
    drawn.set(unit, fitted);
    const meter = readings.find(({ body }) => body.quantity === quantityOf.dc)?.body.conditions.meter_Mohm;
    const { state, suspects, trouble } = await probeSuspects(model, fitted, readings, Number(meter ?? 10), calculate);
    answers.push({
      unit,
      at,
      state: trouble === undefined && state !== "unread" ? state : "undecided",
      suspects: suspects.map(({ part, fault, alike, odds }) => ({ part, fault, alike, odds })),
    });
  }
  return answers;
}

interface Sheet {
  readonly unit: string;
  readonly at: string;
  readonly readings: readonly Evidence<"reading">[];
}

function sheetsIn(evidence: readonly Evidence[]): readonly Sheet[] {
  const sittings = new Map<string, { unit: string; at: string; readings: Evidence<"reading">[] }>();
  for (const entry of evidence) {
    if (entry.body.kind !== "reading") continue;
    const { unit, point } = entry.body.subject;
    if (unit === undefined || point === undefined || !Object.values(quantityOf).includes(entry.body.quantity)) continue;
    const key = `${unit} ${entry.at}`;
    const sitting = sittings.get(key) ?? { unit, at: entry.at, readings: [] };
    sitting.readings.push(entry as Evidence<"reading">);
    sittings.set(key, sitting);
  }
  return [...sittings.values()].filter(
    ({ readings }) => readings.filter(({ body }) => body.quantity === quantityOf.dc).length >= leastPoints,
  );
}
