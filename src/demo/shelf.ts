import type { Random } from "../maths/random.ts";
import { on } from "./days.ts";
import { type DemoEntry, entry } from "./entry.ts";
import { valveType } from "./physics/valveTypes.ts";
import { roles } from "./shop.ts";
import { session } from "./tester.ts";
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
}

export const batches: readonly BatchPlan[] = [
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

/** What makes one valve unlike the run of its batch. */
export type Peculiar = (sections: Record<string, SectionTruth>) => Record<string, SectionTruth>;

export function valveId(number: number): string {
  return `T-${number}`;
}

/**
 * Valves drawn around the printed curve of their type, bottle by bottle and section by section.
 *
 * A heat run of two days takes 0.8 ± 0.7 % of the current with it; insulation leaks as good insulation of the type
 * does, within a factor of two or so.
 */
export function drawValves(chance: Random, peculiar: Readonly<Record<string, Peculiar>>): readonly ValveTruth[] {
  return batches.flatMap((plan) =>
    Array.from({ length: plan.count }, (_, i) => {
      const valve = valveId(plan.first + i);
      const type = valveType(plan.type);
      const draw = chance.fork(valve);
      const mu = type.law.mu * (1 + draw.normal(0, type.spread.mu));
      const perveance = type.law.perveance_mA_per_V1p5 * (1 + draw.normal(0, type.spread.current));
      const sections: Record<string, SectionTruth> = {};
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
      return { valve, type: plan.type, batch: plan.batch, sections: peculiar[valve]?.(sections) ?? sections };
    }),
  );
}

/** Each batch as it came in and as it was read, cold from the carton and again after two days of heat. */
export function shelfBook(valves: readonly ValveTruth[], chance: Random): readonly DemoEntry[] {
  return batches.flatMap((plan) => {
    const tray = valves.filter((v) => v.batch === plan.batch);
    return [
      entry(on(plan.arrived, "11:20"), roles.owner, {
        kind: "batch",
        batch: plan.batch,
        type: plan.type,
        seller: plan.seller,
        valves: tray.map((v) => v.valve),
        sections: [...valveType(plan.type).sections],
      }),
      ...session(tray, ["cold"], on(plan.cold, "09:30"), chance),
      ...(plan.hot === undefined
        ? []
        : session(
            tray,
            valveType(plan.type).curve.length > 0 ? ["hot", "curve"] : ["hot"],
            on(plan.hot, "13:20"),
            chance,
          )),
    ];
  });
}
