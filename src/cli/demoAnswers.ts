import type { Evidence } from "../claims/evidence.ts";
import type { Shop } from "../claims/index.ts";
import type { Answers } from "../demo/score.ts";
import { BadInput } from "../maths/badInput.ts";
import { openStore } from "../store/index.ts";
import { type FittedNetlist, fittedNetlist } from "../workshop/fittedCurves.ts";
import { quantityOf } from "../workshop/probeCard.ts";
import { probeSuspects } from "../workshop/probeJudged.ts";
import { ValveShelf } from "../workshop/valveShelf.ts";
import type { Workshop } from "../workshop/workshop.ts";

type Tell = (what?: string) => void;

/** What the tool says of every unit, valve and probe sheet, from evidence alone. */
export async function answersOf(workshop: Workshop, folder: string, tell: Tell): Promise<Answers> {
  const hum: Answers["hum"][number][] = [];
  const proposals: { unit: string; position: string; in: string }[] = [];
  const open = workshop.overview().units.filter(({ state }) => state !== "released");
  for (const [index, { unit }] of open.entries()) {
    tell(`hearing unit ${unit} (${index + 1} of ${open.length})`);
    const heard = await workshop.humHearing(unit);
    for (const [channel, verdict] of Object.entries(heard.verdict)) hum.push({ unit, channel, ...verdict });
    const { proposal } = await workshop.unit(unit);
    if (proposal) proposals.push({ unit, position: proposal.position, in: proposal.in });
  }
  const verdicts = await workshop.allVerdicts();
  const store = openStore(folder, { write: false });
  try {
    const evidence = store.evidence();
    const sheets = await sheetAnswers(workshop, store.shop, evidence, tell);
    tell();
    return { hum, proposals, sheets, valves: verdicts.map(({ id, verdict }) => ({ valve: id, verdict })) };
  } finally {
    store.close();
  }
}

/** Fewer voltages than these are a check of one stage, not a sheet. */
const leastPoints = 8;

/** Every probe sheet by itself: all that one pair of hands read of a unit in one go. */
async function sheetAnswers(workshop: Workshop, shop: Shop, evidence: readonly Evidence[], tell: Tell) {
  const shelf = new ValveShelf();
  shelf.take(evidence);
  const calculate = async <T>(name: string, input: unknown): Promise<T> => {
    const given = await workshop.answer(name, input);
    if (!given.ok) throw new BadInput(given.error.path, name, given.error.message, "see the demo's net list");
    return given.output as T;
  };
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
        (type, valve) => shelf.readingsOfValves(shop, type, [valve]),
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
