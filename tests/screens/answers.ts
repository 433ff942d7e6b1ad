import * as checks from "../../src/screens/checks/examples.ts";
import * as costs from "../../src/screens/costs/examples.ts";
import type { Offers } from "../../src/screens/exchange/ask.ts";
import * as hum from "../../src/screens/hum/examples.ts";
import * as instruments from "../../src/screens/instruments/examples.ts";
import * as studies from "../../src/screens/instruments/studyExamples.ts";
import { listed, sits, switched } from "../../src/screens/listening/examples.ts";
import * as lookBack from "../../src/screens/lookback/examples.ts";
import * as morning from "../../src/screens/morning/examples.ts";
import * as notebook from "../../src/screens/notebook/examples.ts";
import * as people from "../../src/screens/people/examples.ts";
import * as probe from "../../src/screens/probe/examples.ts";
import * as promises from "../../src/screens/promises/examples.ts";
import * as whatIf from "../../src/screens/promises/whatIfExamples.ts";
import * as safety from "../../src/screens/safety/examples.ts";
import * as soaks from "../../src/screens/soaks/examples.ts";
import * as timber from "../../src/screens/timber/examples.ts";
import * as unit from "../../src/screens/unit/examples.ts";
import { workshop } from "../../src/screens/units/examples.ts";
import * as valves from "../../src/screens/valves/examples.ts";
import type { BenchSheetView } from "../../src/workshop/bench/views.ts";
import type { LinksView } from "../../src/workshop/instruments/linkViews.ts";
import type { WaitingView } from "../../src/workshop/views.ts";

/** What a workshop answers, by address; for the pages in their states, where no workshop is needed. */
export type Answers = Readonly<Record<string, unknown>>;

/** A screen by its address, with all that it asks for. */
export interface Screen {
  readonly path: string;
  readonly answers: Answers;
  /** More of the same than fits: years of a shop. */
  readonly many?: Answers;
  readonly one?: Answers;
}

const bench: BenchSheetView = {
  unit: "0231",
  channels: ["left", "right"],
  recordings: [],
  recorders: [],
  instruments: ["recorder"],
};
const offers: Offers = {
  lists: ["units", "valves"],
  kinds: [{ kind: "weighing", entries: 3, columns: [{ name: "piece", leaf: "string", isNeeded: true }] }],
};

const times = <T>(count: number, make: (i: number) => T): readonly T[] =>
  Array.from({ length: count }, (_, i) => make(i));
const named = (name: string, i: number) => `${name}-${String(i + 1).padStart(4, "0")}`;

const shelf = valves.shelf;
const [tray] = shelf.trays;
const drying = timber.many.pieces;

export const head = workshop;
const session = { people: false };
const ready = <T>(answer: T) => ({ ready: answer });
const unitAnswers = { "/api/units/0231": unit.manyGaps };

export const screens: readonly Screen[] = [
  { path: "/", answers: { "/api/morning": morning.usual }, many: { "/api/morning": morning.busy } },
  {
    path: "/promises",
    answers: { "/api/promises": promises.few },
    one: { "/api/promises": promises.one },
    many: {
      "/api/promises": times(300, (i) => ({ ...promises.many[i % promises.many.length]!, order: named("O", i) })),
    },
  },
  {
    path: "/promises/what-if",
    answers: { "/api/promises/what-if": whatIf.options, "/api/promises/ordering": ready(whatIf.ordering) },
  },
  { path: "/promises/kept", answers: { "/api/promises/kept": whatIf.kept } },
  { path: "/look-back", answers: { "/api/look-back": ready(lookBack.many) } },
  { path: "/units", answers: {} },
  { path: "/unit/0231", answers: unitAnswers, many: { "/api/units/0231": { ...unit.veryLong, unit: "0231" } } },
  {
    path: "/unit/0231/hum",
    answers: { ...unitAnswers, "/api/units/0231/hum": hum.decided },
    many: { ...unitAnswers, "/api/units/0231/hum": hum.manyLines },
  },
  { path: "/unit/0231/bench", answers: { ...unitAnswers, "/api/units/0231/bench": bench } },
  {
    path: "/unit/0231/probe",
    answers: {
      "/api/units/0231/probe": probe.faulty,
      "/api/units/0231/probe/windows": probe.windows,
      "/api/units/0231/probe/suspects": probe.accused,
    },
    one: {
      "/api/units/0231/probe": probe.oneOnly,
      "/api/units/0231/probe/windows": probe.windows,
      "/api/units/0231/probe/suspects": probe.unread,
    },
  },
  { path: "/unit/0231/supply", answers: unitAnswers },
  { path: "/unit/0231/case", answers: { ...unitAnswers, "/api/units/0231/case": timber.refuted } },
  { path: "/unit/0231/safety", answers: { "/api/units/0231/safety": safety.half } },
  { path: "/safety", answers: { "/api/safety-limits": safety.limits } },
  {
    path: "/instruments",
    answers: { "/api/instruments": instruments.usual },
    many: { "/api/instruments": instruments.many },
  },
  { path: "/instruments/gauge", answers: { "/api/gauge-studies": studies.gaugeUsual } },
  { path: "/instruments/units", answers: { "/api/unit-charts": studies.chartsUsual } },
  { path: "/instruments/budget", answers: {} },
  { path: "/costs", answers: { "/api/costs": costs.usual } },
  { path: "/checks", answers: { "/api/checks": checks.usual } },
  { path: "/listening", answers: { "/api/listening": listed } },
  { path: `/listening/${sits.series}`, answers: { [`/api/listening/${sits.series}`]: sits } },
  { path: `/listening/${sits.series}/answer`, answers: { [`/api/listening/${sits.series}`]: sits } },
  {
    path: `/listening/${sits.series}/switch`,
    answers: {
      [`/api/listening/${sits.series}`]: sits,
      [`/api/listening/${sits.series}/switching/${sits.progress[0]!.listener}`]: switched,
    },
  },
  { path: "/soaks", answers: { "/api/soaks": soaks.usual } },
  {
    path: "/timber",
    answers: { "/api/timber": timber.shelf },
    one: { "/api/timber": timber.one },
    many: {
      "/api/timber": {
        ...timber.many,
        pieces: times(400, (i) => ({ ...drying[i % drying.length]!, piece: named("P", i) })),
        places: timber.many.places.map((place, at, { length }) => ({
          ...place,
          pieces: times(400, (i) => named("P", i)).filter((_, i) => i % length === at),
        })),
      },
    },
  },
  { path: "/timber/weigh", answers: { "/api/timber": timber.shelf } },
  {
    path: "/timber/places",
    answers: {
      "/api/timber": timber.shelf,
      "/api/timber/runs": ready(timber.runs),
      "/api/timber/cracks": timber.cracks,
      "/api/timber/early-weighing": ready(timber.early),
    },
  },
  { path: "/timber/cuts", answers: { "/api/timber/cuts": ready(timber.cuts) } },
  {
    path: `/timber/piece/${timber.piece.card.piece}`,
    answers: { "/api/timber": timber.shelf, [`/api/timber/pieces/${timber.piece.card.piece}`]: timber.piece },
  },
  {
    path: "/valves",
    answers: { "/api/trays": shelf },
    one: { "/api/trays": { ...shelf, trays: [tray!] } },
    many: {
      "/api/trays": {
        ...shelf,
        trays: times(1000, (i) => ({ ...shelf.trays[i % shelf.trays.length]!, batch: named("B", i) })),
      },
    },
  },
  {
    path: `/valves/${valves.leaning.batch}`,
    answers: { [`/api/trays/${valves.leaning.batch}`]: valves.leaning },
    one: { [`/api/trays/${valves.leaning.batch}`]: { ...valves.one, batch: valves.leaning.batch } },
    many: { [`/api/trays/${valves.leaning.batch}`]: { ...valves.many, batch: valves.leaning.batch } },
  },
  {
    path: `/valves/${valves.leaning.batch}/seller`,
    answers: { [`/api/trays/${valves.leaning.batch}`]: valves.leaning },
  },
  { path: "/notebook", answers: { "/api/notebook": notebook.index } },
  {
    path: `/notebook/${notebook.three.model}`,
    answers: {
      [`/api/notebook/${notebook.three.model}`]: notebook.three,
      [`/api/notebook/${notebook.three.model}/outlook`]: notebook.outlooks,
    },
    many: {
      [`/api/notebook/${notebook.three.model}`]: { ...notebook.many, model: notebook.three.model },
      [`/api/notebook/${notebook.three.model}/outlook`]: notebook.outlooks,
    },
  },
  { path: "/people", answers: {} },
  {
    path: "/customers",
    answers: { "/api/customers": { customers: people.customers, inAll: people.customers.length } },
    many: {
      "/api/customers": {
        customers: times(60, (i) => ({ ...people.customers[i % people.customers.length]!, customer: named("K", i) })),
        inAll: 4_000,
      },
    },
  },
  { path: "/exchange", answers: { "/api/exchange": offers } },
];

/** Screens that tests/screens walk with a workshop of their own; here only an empty one is shown on them. */
export const walkedElsewhere: readonly string[] = [
  "/shop",
  "/orders",
  "/order/O-1",
  "/unit/0231/work",
  "/unit/0231/pack",
  "/unit/0231/return",
];

/** What every screen asks for beside its own. */
export const everywhere: Answers = {
  "/api/session": session,
  "/api/instruments/links": { now: head.now, linked: [], ended: [] } satisfies LinksView,
  "/api/waiting": { files: [], refused: [] } satisfies WaitingView,
  "/api/evidence": { entries: [] },
};
