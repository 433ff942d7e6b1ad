import type { BodyOf } from "../claims/evidence.ts";
import type { Random } from "../maths/random.ts";
import { type BenchUnit, benchReadings } from "./benchReadings.ts";
import { later, on } from "./days.ts";
import { type DemoEntry, entry } from "./entry.ts";
import type { ModelBody } from "./models/common.ts";
import { orderOf, revisions } from "./orders.ts";
import { besideFuse } from "./ratings.ts";
import { roles } from "./shop.ts";

/** The life of one unit so far, as the people at the benches wrote it down. */
export interface UnitDiary {
  readonly unit: string;
  readonly model: keyof typeof revisions;
  readonly opened: string;
  readonly fitted: Readonly<Record<string, string>>;
  readonly built?: readonly string[];
  readonly steps: readonly (readonly [step: string, date: string, clock: string])[];
  readonly checks: readonly (readonly [claim: string, date: string, clock: string])[];
}

const ebbBuilt = (chassis: string, wiring: string, wood: string, coats: string, heat: string): UnitDiary["steps"] => [
  ["chassis", chassis, "14:10"],
  ["wiring", wiring, "16:05"],
  ["plate", wood, "08:15"],
  ["case", wood, "12:10"],
  ["coats", coats, "15:20"],
  ["heat run", heat, "08:50"],
];

const supplyChecks = (date: string): UnitDiary["checks"] => [
  ["earth-bond", date, "09:20"],
  ["insulation", date, "09:32"],
  ["touch-current", date, "09:45"],
  ["discharge", date, "09:58"],
  ["heaters", date, "10:25"],
  ["ht", date, "10:40"],
  ["flux", date, "10:52"],
  ["fuse", date, "11:05"],
  ["label", date, "11:10"],
];

export const diaries: readonly UnitDiary[] = [
  {
    unit: "0417",
    model: "Ebb",
    opened: on("2027-02-15", "08:30"),
    fitted: { V1: "T-104", V2: "T-117" },
    steps: ebbBuilt("2027-02-15", "2027-02-17", "2027-02-18", "2027-02-19", "2027-02-23"),
    checks: [
      ["case-moisture", "2027-02-18", "11:15"],
      ["case-gap", "2027-02-22", "10:05"],
      ...supplyChecks("2027-02-23"),
      ["test-points-input", "2027-02-24", "08:40"],
      ["test-points-output", "2027-02-24", "09:15"],
      ["dc-at-jack", "2027-02-24", "13:40"],
      ["balance", "2027-02-24", "14:05"],
      ["response", "2027-02-24", "14:30"],
      ["noise", "2027-02-24", "14:50"],
      ["case-soak", "2027-02-26", "08:25"],
    ],
  },
  {
    unit: "0418",
    model: "Ebb",
    opened: on("2027-02-15", "08:35"),
    fitted: { V1: "T-102", V2: "T-121" },
    steps: ebbBuilt("2027-02-16", "2027-02-18", "2027-02-19", "2027-02-22", "2027-02-24"),
    checks: [
      ["case-moisture", "2027-02-19", "11:30"],
      ["case-gap", "2027-02-23", "10:15"],
      ...supplyChecks("2027-02-24"),
      ["test-points-input", "2027-02-25", "08:45"],
      ["test-points-output", "2027-02-25", "09:20"],
      ["dc-at-jack", "2027-02-25", "13:20"],
      ["balance", "2027-02-25", "13:40"],
      ["noise", "2027-02-25", "14:10"],
    ],
  },
  {
    unit: "0419",
    model: "Ebb",
    opened: on("2027-02-17", "08:30"),
    fitted: { V1: "T-107", V2: "T-123" },
    steps: ebbBuilt("2027-02-17", "2027-02-19", "2027-02-22", "2027-02-24", "2027-02-26"),
    checks: [
      ["case-moisture", "2027-02-22", "11:10"],
      ["case-gap", "2027-02-25", "10:40"],
      ...supplyChecks("2027-02-26"),
      ["test-points-input", "2027-03-01", "08:35"],
      ["test-points-output", "2027-03-01", "09:10"],
      ["dc-at-jack", "2027-03-01", "13:25"],
    ],
  },
  {
    unit: "0588",
    model: "Flood",
    opened: on("2027-02-26", "08:20"),
    fitted: { V1: "T-136", V2: "T-149", V3: "T-152" },
    built: ["chassis", "wiring", "plate", "case", "coats"],
    steps: [["heat run", "2027-03-01", "08:20"]],
    checks: [
      ["case-moisture", "2027-02-26", "11:00"],
      ["case-gap", "2027-02-26", "11:20"],
      ...supplyChecks("2027-03-01"),
      ["test-points-input", "2027-03-02", "08:40"],
      ["test-points-output", "2027-03-02", "09:15"],
      ["balance", "2027-03-02", "11:40"],
    ],
  },
  {
    unit: "0589",
    model: "Flood",
    opened: on("2027-02-26", "08:25"),
    fitted: { V1: "T-134", V2: "T-147", V3: "T-148" },
    built: ["chassis", "wiring", "plate", "case", "coats"],
    steps: [["heat run", "2027-03-01", "08:25"]],
    checks: [
      ["case-moisture", "2027-02-26", "11:40"],
      ["case-gap", "2027-02-26", "11:55"],
      ...supplyChecks("2027-03-01").map(
        ([claim, date, clock]) => [claim, date, later(on(date, clock), 150).slice(11, 16)] as const,
      ),
      ["test-points-input", "2027-03-02", "09:50"],
      ["test-points-output", "2027-03-02", "10:20"],
    ],
  },
  {
    unit: "0420",
    model: "Ebb",
    opened: on("2027-03-01", "08:30"),
    fitted: {},
    steps: [["chassis", "2027-03-01", "15:30"]],
    checks: [],
  },
  {
    unit: "0590",
    model: "Flood",
    opened: on("2027-02-22", "08:30"),
    fitted: {},
    steps: [
      ["chassis", "2027-02-23", "12:20"],
      ["wiring", "2027-03-02", "16:30"],
    ],
    checks: [],
  },
  {
    unit: "0422",
    model: "Ebb",
    opened: on("2027-02-19", "08:40"),
    fitted: {},
    built: ["chassis", "wiring", "plate"],
    steps: [["case", "2027-03-02", "15:20"]],
    checks: [],
  },
];

/** Everything written about a unit but its recordings. */
export function unitBook(
  diary: UnitDiary,
  model: ModelBody,
  bench: BenchUnit | undefined,
  chance: Random,
): readonly DemoEntry[] {
  const { unit } = diary;
  const { order, nominal_V } = orderOf(unit);
  const opening: BodyOf<"unit"> = {
    kind: "unit",
    unit,
    order,
    model: diary.model,
    revision: revisions[diary.model],
    fitted: { ...diary.fitted },
    tap: `${nominal_V} V`,
    built: [...(diary.built ?? [])],
  };
  const steps = diary.steps.map(([step, date, clock]) =>
    entry(on(date, clock), step === "case" || step === "coats" ? roles.wood : roles.wiring, {
      kind: "step",
      unit,
      step,
    }),
  );
  const checks = diary.checks.flatMap(([name, date, clock]) => {
    const claim = model.claims.find((c) => c.claim === name);
    if (!claim || !bench) throw new RangeError(`unit ${unit} can't be checked for ${name}`);
    const at = on(date, clock);
    return benchReadings(bench, claim, chance.fork(`${unit} ${name} ${at}`)).map((reading) =>
      entry(at, handsFor(claim.check.skill), besideFuse(diary.model, nominal_V, reading)),
    );
  });
  return [entry(diary.opened, roles.wiring, opening), ...steps, ...checks];
}

function handsFor(skill: string): string {
  if (skill === "wood" || skill === "finish") return roles.wood;
  return skill === "voltages" || skill === "wiring" ? roles.wiring : roles.bench;
}
