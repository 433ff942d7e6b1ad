import type { Submission } from "../claims/evidence.ts";
import { randomStream } from "../maths/random.ts";
import { accountsBefore, ratesAndLimits } from "./accounts.ts";
import type { BenchUnit } from "./benchReadings.ts";
import { later, now, on, paperTypedIn } from "./days.ts";
import { type DemoEntry, entry, writtenAt } from "./entry.ts";
import { faultsBefore } from "./faultsBefore.ts";
import { headphones } from "./headphones.ts";
import { instrumentBook } from "./instruments.ts";
import { modelNamed, modelNames } from "./models/models.ts";
import { notebookBook } from "./notebook.ts";
import { officeTruth } from "./officeTruth.ts";
import { orderBook, plans as ordersInHand } from "./orders.ts";
import { ordersAhead } from "./ordersAhead.ts";
import { bookOfBefore, ordersBefore } from "./ordersBefore.ts";
import { partsOnOrder } from "./partsOnOrder.ts";
import { buildPastUnits, paperBook } from "./pastUnits.ts";
import { recordingDiary, silences } from "./recordingDiary.ts";
import { htWhile, record } from "./recordings.ts";
import { cameBack, returnedUnits } from "./returnedUnits.ts";
import { drawValves, shelfBook } from "./shelf.ts";
import { customers, roles, shop } from "./shop.ts";
import { goingOn, heatRunsBefore } from "./soaks.ts";
import {
  balancingBottle,
  bestBottle,
  expectedBalance,
  expectedHum,
  expectedTaps,
  expectedVerdicts,
  fours,
  peculiarValves,
  recordedUnits,
  runInBottles,
  unfairRecordings,
  unfitForPlaces,
} from "./stories.ts";
import { testerBook } from "./tester.ts";
import { timberBook } from "./timber/timberBook.ts";
import type { Truth, ValveTruth } from "./truth.ts";
import { diaries, unitBook } from "./unitBook.ts";
import { buildUnit, valvesAt } from "./units.ts";

export interface Demo {
  /** The date the demo keeps. */
  readonly now: string;
  readonly seed: number;
  /** When the paper of the year before was all typed in, and the units in it could be released. */
  readonly paperClosed: string;
  readonly releases: readonly { readonly unit: string; readonly at: string; readonly by: string }[];
  /** In the order in which they were written down. */
  readonly entries: readonly (Submission & { readonly recordedAt: string })[];
  /** WAV files by their SHA-256. */
  readonly recordings: ReadonlyMap<string, Uint8Array>;
  readonly customers: readonly { readonly id: string; readonly name: string; readonly address: string }[];
  readonly truth: Truth;
}

/**
 * The invented workshop: what its people wrote down, the files their recorder made, and apart from both, the truth.
 *
 * Everything is drawn from the seed, each thing from a stream of its own, so that what is added later moves nothing.
 *
 * @returns the same bytes every time for the same seed
 */
export function makeDemo(seed = 1, progress: (share: number, what: string) => void = () => undefined): Demo {
  const chance = randomStream(`Quarrin Ness ${seed}`);
  progress(0, "filling the valve shelf");
  const { valves, units } = buildWorkshop(seed);
  const shelf = [...valves.values()];
  const verdicts = expectedVerdicts(shelf);
  progress(0.05, "typing in the paper of the year before");
  const pastUnits = buildPastUnits(valves, verdicts, new Set(Object.keys(peculiarValves)), chance.fork("past units"));
  const paper = paperBook(pastUnits, valves, chance.fork("paper"));
  const heard = new Map([
    ...recordedUnits.map(({ unit, fitted }) => [unit, { truth: units.get(unit)!, fitted }] as const),
    ...pastUnits.map(({ unit, truth, fitted }) => [unit, { truth, fitted }] as const),
  ]);
  const lastDays = pastUnits.map(({ unit, probed }) => ({ unit, tried: later(on(probed, "15:40"), 3 * 24 * 60) }));

  const before = ordersBefore(chance.fork("orders before"));
  const ahead = ordersAhead(chance.fork("orders ahead"));
  const faults = faultsBefore(
    [
      ...before.map(({ units: [unit], model, left }) => ({ unit: unit!, model, left })),
      ...pastUnits.map(({ unit, model, left }) => ({ unit, model, left })),
    ],
    cameBack,
    new Set(pastUnits.flatMap(({ unit, fault }) => (fault === undefined ? [] : [unit]))),
    chance.fork("faults before"),
  );
  const timber = timberBook(pastUnits, chance.fork("timber"));

  const shelves = [...shelfBook(shelf, chance.fork("shelf"))];

  const books: DemoEntry[][] = [
    [
      entry(on("2026-12-03", "07:30"), roles.owner, shop),
      ...headphones.map((headphone) => entry(on("2026-12-03", "07:35"), roles.owner, headphone)),
      ...modelNames.map((model) => entry(on("2026-12-03", "07:40"), roles.owner, modelNamed(model))),
    ],
    [...instrumentBook(now, chance.fork("instruments"))],
    [...testerBook(now, chance.fork("tester"))],
    shelves,
    [...goingOn(shelves)],
    [...paper.entries],
    [...bookOfBefore(before)],
    [...faults.entries],
    [
      ...heatRunsBefore(
        [
          ...before.map(({ units: [unit], model, left }) => ({ unit: unit!, model, left })),
          ...pastUnits.map(({ unit, model, left }) => ({ unit, model, left })),
        ],
        chance.fork("heat runs before"),
      ),
    ],
    [...ratesAndLimits()],
    [
      ...accountsBefore(
        [
          ...before.map(({ units: [unit], model, left, to }) => ({ unit: unit!, model, left, to })),
          ...pastUnits.map(({ unit, model, left, order }) => ({ unit, model, left, to: order.to })),
        ],
        chance.fork("accounts before"),
      ),
    ],
    [...timber.entries],
    [...notebookBook()],
    [...orderBook(), ...orderBook(ahead)],
    partsOnOrder(ahead, chance.fork("parts on order")).map((part) =>
      entry(part.ordered ?? on("2027-03-02", "16:50"), roles.owner, part),
    ),
  ];
  for (const diary of diaries) {
    const truth = units.get(diary.unit);
    const model = modelNamed(diary.model);
    const bench: BenchUnit | undefined = truth && { model, truth, fitted: valvesAt(diary.fitted, valves) };
    books.push([...unitBook(diary, model, bench, chance.fork("benches"))]);
  }

  const recordings = new Map<string, Uint8Array>();
  const diary = [...silences(lastDays.slice(-silent)), ...recordingDiary];
  for (const [i, { unit, exchanged, at, recordedAt = at, metersHt, ...plan }] of diary.entries()) {
    progress(0.1 + (0.9 * i) / diary.length, `recording unit ${unit}`);
    const { truth, fitted } = heard.get(unit)!;
    const made = {
      ...plan,
      unit: truth,
      fitted: valvesAt({ ...fitted, ...exchanged }, valves),
      building_Hz: shop.building_Hz,
    };
    const draw = chance.fork(`recording ${plan.recording}`);
    const { body, wav } = record(made, draw);
    recordings.set(body.file_sha256, wav);
    const noted = [entry(at, roles.bench, body)];
    if (metersHt) noted.push(entry(at, roles.bench, htWhile(made, draw)));
    books.push(writtenAt(recordedAt, noted));
  }
  progress(1, "the demo workshop stands");

  return {
    now,
    seed,
    paperClosed: on(paperTypedIn, "17:00"),
    releases: paper.releases.map((release) => ({ ...release, by: roles.owner })),
    entries: inOrder(books.flat()),
    recordings,
    customers,
    truth: {
      hum: expectedHum,
      unfair: unfairRecordings,
      balance: expectedBalance,
      taps: expectedTaps,
      valves: verdicts,
      sheets: paper.sheets,
      places: unfitForPlaces,
      fours,
      timber: timber.truth,
      office: officeTruth(before, ahead, ordersInHand, faults, new Set(recordedUnits.map(({ unit }) => unit))),
      proposals: [bestBottle("0417", "V2", valves, units)],
      physics: {
        seed,
        building_Hz: shop.building_Hz,
        units: [
          ...units.values(),
          ...pastUnits.flatMap(({ unit, truth }) => (returnedUnits.includes(unit) ? [truth] : [])),
        ],
        valves: shelf,
      },
    },
  };
}

/** Of so many units of the year before, the last, there is a silence on the recorder's card. */
const silent = 32;

/** Valves and units as they really are. */
function buildWorkshop(seed: number): {
  valves: ReadonlyMap<string, ValveTruth>;
  units: ReadonlyMap<string, Truth["physics"]["units"][number]>;
} {
  const chance = randomStream(`Quarrin Ness ${seed}`);
  const valves = new Map(
    drawValves(chance.fork("valves"), { ...runInBottles, ...peculiarValves }).map((valve) => [valve.valve, valve]),
  );
  const units = new Map(recordedUnits.map((plan) => [plan.unit, buildUnit(plan, valves, chance.fork("units"))]));
  const { resistors } = units.get("0417")!;
  const stays = valvesAt({ V1: recordedUnits.find(({ unit }) => unit === "0417")!.fitted.V1! }, valves);
  valves.set("T-118", balancingBottle(valves.get("T-118")!, "V2", stays, resistors));
  return { valves, units };
}

/** By the clock; what was written in the same minute keeps its order. */
function inOrder(entries: readonly DemoEntry[]): readonly DemoEntry[] {
  return entries.toSorted((a, b) => Date.parse(a.recordedAt) - Date.parse(b.recordedAt));
}
