import type { Random } from "../maths/random.ts";
import { bookOpened, later, on, tester_h, workingDays } from "./days.ts";
import { type DemoEntry, entry, shown, writtenAt } from "./entry.ts";
import { gm_mS, plate_mA } from "./physics/triode.ts";
import { type ValveType, valveType, valveTypes } from "./physics/valveTypes.ts";
import { roles } from "./shop.ts";
import type { SectionTruth, ValveTruth } from "./truth.ts";

/** One standard deviation of a reading of plate current, relative; the book states twice that. */
const scatter = 0.004;
export const reading_doubt_pct = 0.8;
const instrument = "valve-tester";

/**
 * What the tester reads over what is: steady to a few tenths of a percent for months; on 22 February its screen
 * supply begins to sag, and two days later it reads 3 % low and stays there.
 */
export function testerFactor(instant: string): number {
  const days = (Date.parse(instant) - Date.parse("2027-02-22T00:00:00Z")) / 86_400_000;
  const breathing = 0.0015 * Math.sin(days / 9);
  return 1 + breathing - 0.03 * Math.min(1, Math.max(0, days / 2));
}

/** The current of a type's reference valve, known from many readings and a second tester. */
export function referenceTrue_mA(type: ValveType): number {
  return shown(plateShare(type) * plate_mA(type.law, type.plate_V, type.grid_V) * 1.013, 2);
}

/** The law gives what leaves the cathode; the screen takes its share of that. */
function plateShare({ screenShare = 0 }: ValveType): number {
  return 1 - screenShare;
}

/** The tester with its limits for each type, and its reference valves read every morning for ninety days. */
export function testerBook(until: string, chance: Random): readonly DemoEntry[] {
  return [
    ...testerBought("2026-12-03"),
    ...workingDays(bookOpened, until).flatMap((day) => testerMorning(day, chance)),
  ];
}

/** The tester as it came to the shop, and what valves of each type are read at and held to. */
export function testerBought(day: string): readonly DemoEntry[] {
  const first = valveTypes[0]!;
  const true_mA = referenceTrue_mA(first);
  return [
    entry(on(day, "07:50"), roles.owner, {
      kind: "instrument",
      instrument,
      title: "Valve tester",
      trial: { reference: referenceOf(first), quantity: "plate_mA", true: true_mA, limit: shown(true_mA * 0.05, 2) },
    }),
    ...valveTypes.map((type) =>
      entry(on(day, "07:55"), roles.owner, {
        kind: "valve-limits",
        type: type.type,
        plate_V: type.plate_V,
        grid_V: type.grid_V,
        referenceTrue_mA: referenceTrue_mA(type),
        reading_doubt_pct,
        heatRun_h: 48,
        limits: type.limits,
      }),
    ),
  ];
}

/** The reference valves of a morning; the first of them is the tester's trial. */
export function testerMorning(day: string, chance: Random, misreads = testerFactor): readonly DemoEntry[] {
  const true_mA = referenceTrue_mA(valveTypes[0]!);
  const at = on(day, "08:12");
  const read = valveTypes.map((type, i) => referenceReading(type, later(at, 3 * i), chance, misreads));
  const trial_mA = read[0]!.kind === "reference-reading" ? read[0]!.plate_mA : true_mA;
  const trial = entry(later(at, 1), roles.bench, {
    kind: "trial",
    instrument,
    value: trial_mA,
    doubt: shown((true_mA * reading_doubt_pct) / 100, 3),
  });
  return writtenAt(later(at, 3 * valveTypes.length), [...read, trial]);
}

/** @param misreads  what the tester reads over what is */
export function referenceReading(type: ValveType, at: string, chance: Random, misreads = testerFactor): DemoEntry {
  const draw = chance.fork(`reference ${type.type} ${at}`);
  return entry(at, roles.bench, {
    kind: "reference-reading",
    valve: referenceOf(type),
    type: type.type,
    time_h: tester_h(at),
    plate_mA: shown(referenceTrue_mA(type) * misreads(at) * (1 + draw.normal(0, scatter)), 3),
    instrument,
  });
}

function referenceOf(type: ValveType): string {
  return `REF-${type.type}`;
}

export type Phase = "cold" | "hot" | "curve";

/**
 * One session at the tester: the reference, then every section of every valve, then the reference again, all written
 * down when the tray is through.
 */
export function session(
  valves: readonly ValveTruth[],
  phases: readonly Phase[],
  start: string,
  chance: Random,
  misreads = testerFactor,
): readonly DemoEntry[] {
  const type = valveType(valves[0]!.type);
  const entries: DemoEntry[] = [referenceReading(type, start, chance, misreads)];
  let at = later(start, 2);
  for (const valve of valves) {
    for (const [name, section] of Object.entries(valve.sections)) {
      const draw = chance.fork(`${valve.valve}${name} ${start}`);
      for (const phase of phases) {
        const points = phase === "curve" ? type.curve : [[type.plate_V, type.grid_V] as const];
        for (const [plate_V, grid_V] of points) {
          entries.push(sectionReading(valve, name, section, phase, plate_V, grid_V, { at, misreads, draw }));
        }
      }
      at = later(at, 2 + 3 * (phases.length - 1));
    }
  }
  entries.push(referenceReading(type, at, chance, misreads));
  return writtenAt(at, entries);
}

function sectionReading(
  valve: ValveTruth,
  name: string,
  section: SectionTruth,
  phase: Phase,
  plate_V: number,
  grid_V: number,
  { at, misreads, draw }: { readonly at: string; readonly misreads: typeof testerFactor; readonly draw: Random },
): DemoEntry {
  const run = phase === "cold" ? section.coldOverHot : 1;
  const misread = () => misreads(at) * (1 + draw.normal(0, scatter));
  const type = valveType(valve.type);
  const cathode_mA = run * plate_mA(section.law, plate_V, grid_V);
  const leakage_uA = phase === "cold" ? section.leakageCold_uA : section.leakage.atTester_uA;
  return entry(at, roles.bench, {
    kind: "valve-reading",
    valve: valve.valve,
    section: name,
    phase,
    time_h: tester_h(at),
    plate_V,
    grid_V,
    plate_mA: shown(plateShare(type) * cathode_mA * misread(), 3),
    ...(type.screenShare === undefined
      ? {}
      : { screen_V: plate_V, screen_mA: shown(type.screenShare * cathode_mA * misread(), 3) }),
    ...(phase === "curve"
      ? {}
      : {
          gm_mS: shown(plateShare(type) * run * gm_mS(section.law, plate_V, grid_V) * misread(), 2),
          gridCurrent_uA: shown(Math.abs(section.gridCurrent_uA * (1 + draw.normal(0, 0.05))), 2),
          leakage_uA: shown(Math.abs(leakage_uA * (1 + draw.normal(0, 0.03))), 2),
        }),
    instrument,
  });
}
