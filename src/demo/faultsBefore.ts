import type { Random } from "../maths/random.ts";
import { later, on, paperTypedIn } from "./days.ts";
import { type DemoEntry, entry, writtenAt } from "./entry.ts";
import { type ModelName, modelNamed } from "./models/models.ts";
import { roles } from "./shop.ts";

/** A unit that left in the years before, and when. */
export interface LeftUnit {
  readonly unit: string;
  readonly model: ModelName;
  readonly left: string;
}

/** A sort of fault: what share of units it befell, where it came in, could first be seen, and was seen in the end. */
export interface Sort {
  readonly fault: string;
  readonly odds: number;
  readonly arose: string;
  readonly possible: string;
  /** Stages with their shares. */
  readonly found: readonly (readonly [stage: string, share: number])[];
  /** Hours to put right where it could first be seen. */
  readonly repair_h: number;
  readonly parts_cents: number;
  readonly says: string;
}

export const sorts: readonly Sort[] = [
  {
    fault: "dry joint",
    odds: 0.13,
    arose: "wiring",
    possible: "wiring",
    found: [
      ["wiring", 0.2],
      ["test-points-input", 0.25],
      ["balance", 0.15],
      ["noise", 0.2],
      ["customer", 0.2],
    ],
    repair_h: 0.4,
    parts_cents: 0,
    says: "it crackles when it is warm",
  },
  {
    fault: "wrong resistor",
    odds: 0.05,
    arose: "wiring",
    possible: "test-points-input",
    found: [
      ["test-points-input", 0.6],
      ["balance", 0.3],
      ["response", 0.1],
    ],
    repair_h: 0.5,
    parts_cents: 150,
    says: "one side is louder",
  },
  {
    fault: "cracked panel",
    odds: 0.12,
    arose: "plate",
    possible: "plate",
    found: [
      ["plate", 0.3],
      ["case", 0.3],
      ["case-soak", 0.2],
      ["customer", 0.25],
    ],
    repair_h: 1,
    parts_cents: 3500,
    says: "the top has cracked since the heating is on",
  },
  {
    fault: "panel binds",
    odds: 0.05,
    arose: "case",
    possible: "case-gap",
    found: [
      ["case-gap", 0.55],
      ["customer", 0.45],
    ],
    repair_h: 1.5,
    parts_cents: 500,
    says: "the lid does not come off any more",
  },
  {
    fault: "valve drifted",
    odds: 0.09,
    arose: "heat run",
    possible: "valves",
    found: [
      ["valves", 0.5],
      ["balance", 0.2],
      ["customer", 0.3],
    ],
    repair_h: 0.5,
    parts_cents: 4200,
    says: "the sound has moved to one side",
  },
  {
    fault: "earth screw loose",
    odds: 0.04,
    arose: "chassis",
    possible: "chassis",
    found: [
      ["hum", 0.6],
      ["earth-bond", 0.4],
    ],
    repair_h: 0.3,
    parts_cents: 0,
    says: "it hums",
  },
  {
    fault: "coat soft",
    odds: 0.05,
    arose: "coats",
    possible: "coats",
    found: [
      ["coats", 0.4],
      ["case-gap", 0.4],
      ["customer", 0.2],
    ],
    repair_h: 1.5,
    parts_cents: 800,
    says: "the finish took the print of its packing",
  },
];
export const carriage_cents = 14_500;
/** Nothing was wrong with the unit: the house's mains, another box, a socket. */
const nothingFound = "it hums, at the customer's alone";

export interface CameBack {
  readonly unit: string;
  readonly back: string;
  readonly says: string;
}

/** A fault that a unit was given, and where it was seen. */
export type GivenFault = Pick<Sort, "fault" | "possible"> & { readonly unit: string; readonly found: string };

export interface FaultsBefore {
  readonly entries: readonly DemoEntry[];
  readonly returns: readonly CameBack[];
  /** What the units were given, whatever was then written down of it. */
  readonly given: readonly GivenFault[];
  /** Of the units that came back, those of which the book of faults is told nothing. */
  readonly untold: readonly string[];
}

/** So many units came back, those on the bench's recorder this winter among them. */
const allReturns = 28;
/** With at least so many nothing was wrong. */
const leastWithoutFault = 3;

/**
 * What was found wrong with the units of the years before, and which of them came back.
 *
 * @param recorded  units that came back this winter and were recorded, of which nothing more is told here
 * @param silent    units of which the paper says where hands were and not what they found
 */
export function faultsBefore(
  units: readonly LeftUnit[],
  recorded: readonly CameBack[],
  silent: ReadonlySet<string>,
  chance: Random,
): FaultsBefore {
  const told = units.filter(({ unit }) => !silent.has(unit) && !recorded.some((one) => one.unit === unit));
  const drawn = told.flatMap((one) =>
    sorts.flatMap((sort) => {
      const draw = chance.fork(`${one.unit} ${sort.fault}`);
      if (draw.uniform() >= sort.odds) return [];
      return [{ ...one, ...sort, found: foundAt(sort, one.model, draw), draw }];
    }),
  );
  const returning = drawn
    .filter(
      ({ found, unit }, i) =>
        found === "customer" && drawn.findIndex((one) => one.unit === unit && one.found === "customer") === i,
    )
    .slice(0, allReturns - recorded.length - leastWithoutFault);
  const fine = told.filter(({ unit }) => !drawn.some((one) => one.unit === unit));
  const noFault = fine
    .filter((_, i) => i % 9 === 4)
    .slice(0, allReturns - recorded.length - returning.length)
    .map(({ unit, left }): CameBack => ({ unit, back: backOn(left, chance.fork(`back ${unit}`)), says: nothingFound }));
  const returns = [
    ...returning.map(({ unit, left, says, draw }): CameBack => ({ unit, back: backOn(left, draw.fork("back")), says })),
    ...noFault,
    ...recorded,
  ].toSorted((a, b) => Date.parse(a.back) - Date.parse(b.back));
  const kept = drawn.filter((one) => one.found !== "customer" || returning.includes(one));
  const faults = kept.map(
    ({ unit, model, left, fault, arose, possible, found, repair_h, parts_cents, draw }): DemoEntry => {
      const back = returns.find((one) => one.unit === unit && found === "customer")?.back;
      const at = back === undefined ? later(left, -24 * 60 * (4 + draw.integer(10))) : later(back, 24 * 60);
      const steps = stepsBetween(model, possible, found);
      return entry(at, found === "customer" ? roles.bench : roles.wiring, {
        kind: "fault",
        unit,
        fault,
        arose,
        possible,
        found,
        // Every stage gone by is opened again and proven again.
        repair_h: Number((repair_h * draw.triangle(0.7, 1, 1.8) * (1 + 0.35 * steps) + (back ? 2.5 : 0)).toFixed(1)),
        cost_cents: Math.round(
          parts_cents * draw.triangle(0.8, 1, 1.3) + (back ? carriage_cents * draw.triangle(0.6, 1, 1.8) : 0),
        ),
      });
    },
  );
  const written = [
    ...faults,
    ...returns.map(({ unit, back, says }) => entry(back, roles.owner, { kind: "return", unit, says })),
  ].toSorted((a, b) => Date.parse(a.at) - Date.parse(b.at));
  return {
    entries: typedIn(written),
    returns,
    given: kept.map(({ unit, fault, possible, found }) => ({ unit, fault, possible, found })),
    untold: [...noFault, ...recorded].map(({ unit }) => unit),
  };
}

export function foundAt({ found }: Sort, model: ModelName, draw: Random): string {
  const known = new Set([
    ...modelNamed(model).build.map(({ step }) => step),
    ...modelNamed(model).claims.map(({ claim }) => claim),
    "customer",
  ]);
  const possible = found.filter(([stage]) => known.has(stage));
  let left = draw.uniform() * possible.reduce((sum, [, share]) => sum + share, 0);
  for (const [stage, share] of possible) {
    left -= share;
    if (left < 0) return stage;
  }
  return possible.at(-1)![0];
}

export function stepsBetween(model: ModelName, from: string, to: string): number {
  const order = [...modelNamed(model).build.map(({ step }) => step)];
  const at = (stage: string) =>
    stage === "customer" ? order.length + 3 : order.includes(stage) ? order.indexOf(stage) : order.length + 1;
  return Math.max(0, at(to) - at(from));
}

function backOn(left: string, draw: Random): string {
  const latest = Date.parse(on("2027-02-24", "10:00"));
  const back = Date.parse(left) + Math.round(draw.triangle(20, 60, 240)) * 86_400_000;
  return new Date(Math.min(back, latest)).toISOString().replace(".000Z", "Z");
}

/** What was before goes in with the paper, a dozen at a sitting; the rest as it happened. */
function typedIn(written: readonly DemoEntry[]): readonly DemoEntry[] {
  const close = on(paperTypedIn, "15:00");
  const paper = written.filter(({ at }) => Date.parse(at) < Date.parse(close));
  return [
    ...paper.flatMap((one, i) => writtenAt(later(close, Math.floor(i / 12)), [one])),
    ...written.slice(paper.length),
  ];
}
