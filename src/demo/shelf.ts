import type { Random } from "../maths/random.ts";
import { later, on, paperTypedIn, workingDays } from "./days.ts";
import { type DemoEntry, entry, writtenAt } from "./entry.ts";
import { plate_mA, type TriodeLaw } from "./physics/triode.ts";
import { type ValveType, valveType } from "./physics/valveTypes.ts";
import { roles } from "./shop.ts";
import { type Phase, session } from "./tester.ts";
import type { SectionTruth, ValveTruth } from "./truth.ts";

interface BatchPlan {
  readonly batch: string;
  readonly type: string;
  readonly seller: string;
  readonly first: number;
  readonly count: number;
  readonly arrived: string;
  readonly cold: string;
  /** When it was read after its heat run; left out while the run goes on. */
  readonly hot?: string;
  /** Bought before the book was opened here, and typed in from paper when it was. */
  readonly fromPaper?: boolean;
  /** How many valves in a hundred do not come well through their heat run. */
  readonly losses_pct?: number;
  /** The point at which the seller made sets of four, in the order of their numbers. */
  readonly soldInFours?: { readonly plate_V: number; readonly grid_V: number };
}

/** The dealer's point for his sets of four. */
const dealersPoint = { plate_V: 250, grid_V: -18 };

export const batches: readonly BatchPlan[] = [
  {
    batch: "B-21",
    type: "6SN7GT",
    seller: "Harbour radio, first lot",
    first: 169,
    count: 56,
    arrived: "2026-01-12",
    cold: "2026-01-15",
    hot: "2026-01-20",
    fromPaper: true,
    losses_pct: 5,
  },
  {
    batch: "B-22",
    type: "6AS7G",
    seller: "A power station's spares",
    first: 225,
    count: 20,
    arrived: "2026-01-12",
    cold: "2026-01-26",
    hot: "2026-01-29",
    fromPaper: true,
  },
  {
    batch: "B-23",
    type: "12AU7",
    seller: "Instrument maker, warehouse cleared",
    first: 245,
    count: 72,
    arrived: "2026-02-02",
    cold: "2026-02-05",
    hot: "2026-02-12",
    fromPaper: true,
    losses_pct: 4,
  },
  {
    batch: "B-24",
    type: "6N6P",
    seller: "Importer of military surplus",
    first: 317,
    count: 64,
    arrived: "2026-02-16",
    cold: "2026-02-19",
    hot: "2026-02-26",
    fromPaper: true,
    losses_pct: 4,
  },
  {
    batch: "B-25",
    type: "6SL7GT",
    seller: "Telephone exchange, dismantled",
    first: 381,
    count: 60,
    arrived: "2026-03-02",
    cold: "2026-03-05",
    hot: "2026-03-12",
    fromPaper: true,
    losses_pct: 5,
  },
  {
    batch: "B-26",
    type: "EL34",
    seller: "Dealer, sold as 20 matched quads at 250 V and -18 V, four by four in the order of their numbers",
    first: 441,
    count: 80,
    arrived: "2026-03-16",
    cold: "2026-03-19",
    hot: "2026-03-26",
    fromPaper: true,
    losses_pct: 3,
    soldInFours: dealersPoint,
  },
  {
    batch: "B-31",
    type: "6SN7GT",
    seller: "Harbour radio, closing down",
    first: 101,
    count: 12,
    arrived: "2027-01-14",
    cold: "2027-01-18",
    hot: "2027-01-21",
  },
  {
    batch: "B-32",
    type: "6AS7G",
    seller: "Lighthouse stores",
    first: 113,
    count: 20,
    arrived: "2027-02-04",
    cold: "2027-02-08",
    hot: "2027-02-11",
  },
  {
    batch: "B-33",
    type: "6SL7GT",
    seller: "A school laboratory",
    first: 133,
    count: 12,
    arrived: "2027-02-12",
    cold: "2027-02-17",
    hot: "2027-02-25",
  },
  {
    batch: "B-34",
    type: "EL34",
    seller: "New make, from the importer",
    first: 145,
    count: 16,
    arrived: "2027-01-22",
    cold: "2027-01-26",
    hot: "2027-01-29",
  },
  {
    batch: "B-35",
    type: "6SN7GT",
    seller: "Pilot boat, refitted",
    first: 161,
    count: 8,
    arrived: "2027-02-26",
    cold: "2027-03-01",
  },
];

/** Batches whose heat run goes on: nothing can be said of their valves yet. */
export const onHeatRun: ReadonlySet<string> = new Set(
  batches.filter(({ hot }) => hot === undefined).map(({ batch }) => batch),
);

/** Batches of the year before. */
export const fromPaper: ReadonlySet<string> = new Set(
  batches.filter((plan) => plan.fromPaper).map(({ batch }) => batch),
);

/** What makes one valve unlike the run of its batch. */
export type Peculiar = (sections: Record<string, SectionTruth>) => Record<string, SectionTruth>;

export function valveId(number: number): string {
  return `T-${number}`;
}

/**
 * Valves drawn around the printed curve of their type, bottle by bottle and section by section.
 *
 * A heat run of two days takes 0.8 ± 0.7 % of the current with it, and of a valve that does not come well through it
 * 6 to 14 % of one section's; insulation leaks as good insulation of the type does, within a factor of two or so.
 */
export function drawValves(chance: Random, peculiar: Readonly<Record<string, Peculiar>>): readonly ValveTruth[] {
  return batches.flatMap((plan) =>
    Array.from({ length: plan.count }, (_, i) => {
      const valve = valveId(plan.first + i);
      const sections = bottle(valveType(plan.type), chance.fork(valve));
      const drawn = tired(plan, inItsFour(plan, i, sections, chance), chance.fork(`${valve} in the heat run`));
      return { valve, type: plan.type, batch: plan.batch, sections: peculiar[valve]?.(drawn) ?? drawn };
    }),
  );
}

type Sections = Record<string, SectionTruth>;

/** One bottle of a type, its sections alike as those of one bottle are. */
export function bottle(type: ValveType, draw: Random): Sections {
  const mu = type.law.mu * (1 + draw.normal(0, type.spread.mu));
  const perveance = type.law.perveance_mA_per_V1p5 * (1 + draw.normal(0, type.spread.current));
  const sections: Sections = {};
  for (const name of type.sections) {
    const hot_uA = type.leakage_uA * Math.exp(draw.normal(0, 0.4));
    sections[name] = {
      law: {
        mu: mu * (1 + draw.normal(0, type.spread.sectionMu)),
        perveance_mA_per_V1p5: perveance * (1 + draw.normal(0, type.spread.sectionCurrent)),
      },
      coldOverHot: 1.008 + draw.normal(0, 0.007),
      leakageCold_uA: hot_uA * (0.9 + draw.normal(0, 0.08)),
      leakage: { atTester_uA: hot_uA, bend_V: 100, offCentre: Math.abs(draw.normal(0, 0.02)) },
      gridCurrent_uA: 0.15 * Math.exp(draw.normal(0, 0.4)),
    };
  }
  return sections;
}

/** One in so many loses more of one section in its heat run than a good valve does. */
export function tired({ losses_pct = 0 }: Pick<BatchPlan, "losses_pct">, sections: Sections, draw: Random): Sections {
  if (draw.uniform() * 100 >= losses_pct) return sections;
  const names = Object.keys(sections);
  const name = names[draw.integer(names.length)]!;
  return { ...sections, [name]: { ...sections[name]!, coldOverHot: 1 / (0.94 - 0.08 * draw.uniform()) } };
}

/** A dealer's four draw the same current at his point, each by a mu of its own. */
function inItsFour({ soldInFours, first, type: name }: BatchPlan, i: number, sections: Sections, chance: Random) {
  if (soldInFours === undefined) return sections;
  const type = valveType(name);
  const { plate_V, grid_V } = soldInFours;
  const four = first + i - (i % 4);
  const current_mA =
    plate_mA(type.law, plate_V, grid_V) * (1 + chance.fork(`four of ${valveId(four)}`).normal(0, type.spread.current));
  const draw = chance.fork(`${valveId(first + i)} in its four`);
  const mu = type.law.mu * (1 + draw.normal(0, 1.4 * type.spread.mu));
  const law = lawThrough(mu, plate_V, grid_V, current_mA * (1 + draw.normal(0, 0.003)));
  return Object.fromEntries(Object.entries(sections).map(([section, truth]) => [section, { ...truth, law }]));
}

/** The curve of a given mu that draws a given current at a point. */
export function lawThrough(mu: number, plate_V: number, grid_V: number, current_mA: number): TriodeLaw {
  return { mu, perveance_mA_per_V1p5: current_mA / (grid_V + plate_V / mu) ** 1.5 };
}

/** As many as a tray holds, and as one session at the tester reads. */
export const traySize = 24;

/** Each batch as it came in and as it was read, cold from the carton and again after two days of heat. */
export function shelfBook(valves: readonly ValveTruth[], chance: Random): readonly DemoEntry[] {
  return batches.flatMap((plan, nth) => {
    const ofBatch = valves.filter((v) => v.batch === plan.batch);
    const type = valveType(plan.type);
    const trays = Array.from({ length: Math.ceil(ofBatch.length / traySize) }, (_, k) =>
      ofBatch.slice(k * traySize, (k + 1) * traySize),
    );
    const read = (phases: readonly Phase[], from: string, clock: string) => {
      const days = workingDays(from, later(on(from, "12:00"), 21 * 24 * 60));
      return trays.flatMap((tray, k) => session(tray, phases, on(days[k]!, clock), chance));
    };
    const arrived = entry(on(plan.arrived, "11:20"), roles.owner, {
      kind: "batch",
      batch: plan.batch,
      type: plan.type,
      seller: plan.seller,
      valves: ofBatch.map((v) => v.valve),
      sections: [...type.sections],
    });
    const entries = [
      arrived,
      ...read(["cold"], plan.cold, "09:30"),
      ...(plan.hot === undefined ? [] : read(type.curve.length > 0 ? ["hot", "curve"] : ["hot"], plan.hot, "13:20")),
    ];
    return plan.fromPaper ? writtenAt(later(on(paperTypedIn, "09:00"), 10 * nth), entries) : entries;
  });
}
