import { ebbWiring } from "./models/ebb.ts";
import { plate_mA } from "./physics/triode.ts";
import { valveType } from "./physics/valveTypes.ts";
import { channelResponse, unitCircuit } from "./physics/workingPoint.ts";
import { lawThrough, onHeatRun, type Peculiar, valveId } from "./shelf.ts";
import type { SectionTruth, Truth, UnitTruth, ValveTruth } from "./truth.ts";
import type { UnitPlan } from "./units.ts";

const tame = (section: SectionTruth): SectionTruth => ({
  ...section,
  coldOverHot: 1.006,
  leakageCold_uA: 0.03,
  leakage: { ...section.leakage, atTester_uA: 0.03, offCentre: 0.002 },
});

const each = (change: (section: SectionTruth) => SectionTruth): Peculiar => {
  return (sections) => Object.fromEntries(Object.entries(sections).map(([name, section]) => [name, change(section)]));
};

/** Second section, changed; the first as drawn. */
const second = (change: (section: SectionTruth, first: SectionTruth) => SectionTruth): Peculiar => {
  return (sections) => ({ ...sections, b: change(sections.b!, sections.a!) });
};

/** Both sections alike but for what is said: as a well-matched bottle comes out of the carton. */
const likeFirst = (change: Partial<SectionTruth>, mu = 1, perveance = 1): Peculiar =>
  second((b, a) => ({
    ...b,
    law: { mu: a.law.mu * mu, perveance_mA_per_V1p5: a.law.perveance_mA_per_V1p5 * perveance },
    ...change,
  }));

/** The dealer's first two fours: alike at his point, and each by a mu of its own, so that ours tells them apart. */
const dealersFours: Readonly<Record<string, Peculiar>> = Object.fromEntries(
  [0, 1].flatMap((four) =>
    [0.955, 0.985, 1.015, 1.045].map((mu, i) => [
      valveId(441 + 4 * four + i),
      // The second four lies a hair beside the first, mu by mu.
      each((section) => ({
        ...section,
        coldOverHot: 1.006,
        law: lawThrough(valveType("EL34").law.mu * (mu + 0.001 * four), 250, -18, 46.2 + 0.25 * four),
      })),
    ]),
  ),
);

/** What makes single valves unlike the run of their batch; all others are as they were drawn. */
export const peculiarValves: Readonly<Record<string, Peculiar>> = {
  // Unit 0417's V1: a second section of lower mu, inside every limit of the tester.
  "T-104": likeFirst({}, 0.975, 0.9),
  // Well balanced cold; one section loses 9 % in the heat run.
  "T-109": likeFirst({ coldOverHot: 1 / 0.91 }, 1, 0.92),
  // A bad spot on the heater near its end, opened by the heat run.
  "T-117": second((b) => ({
    ...b,
    leakageCold_uA: 2.2,
    leakage: { atTester_uA: 145, bend_V: 200, offCentre: 1 },
  })),
  // Sections that never were alike.
  "T-127": likeFirst({}, 1, 0.68),
  "T-102": each(tame),
  "T-121": each(tame),
  "T-134": each(tame),
  "T-147": each(tame),
  "T-148": each(tame),
  ...dealersFours,
  // Gas: its grid current is inside the tester's limit, and far too much for a real grid leak.
  "T-470": each((section) => ({ ...section, coldOverHot: 1.007, gridCurrent_uA: 2.3 })),
  // Alike at the tester's point, and of another mu: one side of a stage amplifies more than the other.
  "T-300": second((b, a) => ({
    ...b,
    law: lawThrough(0.94 * a.law.mu, 250, -8.5, plate_mA(a.law, 250, -8.5)),
  })),
  // Microphonic: the tester sees nothing of it.
  "T-302": (sections) =>
    second((b) => ({ ...b, rings: [{ frequency_Hz: 612, q: 85, peak_V: 0.004 }] }))(each(tame)(sections)),
  "T-303": each(tame),
  "T-372": each(tame),
  // The last of the power station's spares were worn out.
  ...Object.fromEntries(
    [241, 242, 243, 244].map((number) => [
      valveId(number),
      likeFirst({ coldOverHot: 1 / (0.93 - 0.01 * (number - 241)) }),
    ]),
  ),
};

/** The power station had run its better spares in already: the year's units could be built of them, every one. */
export const runInBottles: Readonly<Record<string, Peculiar>> = Object.fromEntries(
  Array.from({ length: 16 }, (_, i) => [valveId(225 + i), each((section) => ({ ...section, coldOverHot: 1.006 }))]),
);

/** Units that stand finished enough to have been recorded. */
export const recordedUnits: readonly UnitPlan[] = [
  {
    unit: "0417",
    model: "Ebb",
    fitted: { V1: "T-104", V2: "T-117" },
    channels: {
      left: { field_uVrms: [16, 12, 6], ripple_uVrms: [3.2, 0.4, 0.12], winding_uVrms: 0.4 },
      right: { field_uVrms: [9, 5, 2.5], ripple_uVrms: [3.6, 0.4, 0.12], winding_uVrms: 0.4 },
    },
  },
  {
    unit: "0418",
    model: "Ebb",
    fitted: { V1: "T-102", V2: "T-121" },
    channels: {
      left: { field_uVrms: [0.004, 0.002, 0.001], ripple_uVrms: [0.003, 0.001, 0], winding_uVrms: 0.001 },
      right: { field_uVrms: [0.003, 0.002, 0.001], ripple_uVrms: [0.003, 0.001, 0], winding_uVrms: 0.001 },
    },
  },
  {
    unit: "0419",
    model: "Ebb",
    fitted: { V1: "T-107", V2: "T-123" },
    channels: {
      left: { field_uVrms: [12, 6, 3], ripple_uVrms: [140, 22, 6], winding_uVrms: 0.5 },
      right: { field_uVrms: [10, 5, 2], ripple_uVrms: [150, 24, 6], winding_uVrms: 0.5 },
    },
  },
  {
    unit: "0588",
    model: "Flood",
    fitted: { V1: "T-136", V2: "T-149", V3: "T-152" },
    channels: {
      left: { field_uVrms: [6, 2, 1], ripple_uVrms: [18, 3, 1], winding_uVrms: 210 },
      right: { field_uVrms: [5, 2, 1], ripple_uVrms: [20, 3, 1], winding_uVrms: 190 },
    },
  },
  {
    unit: "0589",
    model: "Flood",
    fitted: { V1: "T-134", V2: "T-147", V3: "T-148" },
    channels: {
      left: { field_uVrms: [22, 11, 4], ripple_uVrms: [0.01, 0.003, 0], winding_uVrms: 0.002 },
      right: { field_uVrms: [20, 10, 4], ripple_uVrms: [0.01, 0.003, 0], winding_uVrms: 0.002 },
    },
  },
];

/** Left over right of an Ebb at 1 kHz with these valves, in dB, by its circuit. */
export function ebbBalance_dB(
  resistors: Readonly<Record<string, number>>,
  fitted: Readonly<Record<string, ValveTruth>>,
): number {
  const circuit = unitCircuit(ebbWiring, resistors, fitted);
  const [left, right] = ebbWiring.channels.map(
    (channel) => channelResponse(circuit, ebbWiring.input[channel]!, ebbWiring.output[channel]!, [1000]).gain_dB[0]!,
  );
  return left! - right!;
}

/**
 * A bottle whose sections read alike on the tester and yet differ in mu, by just as much as the unit's own channels
 * differ the other way: found by halving the range of mu.
 */
export function balancingBottle(
  valve: ValveTruth,
  position: string,
  others: Readonly<Record<string, ValveTruth>>,
  resistors: Readonly<Record<string, number>>,
): ValveTruth {
  const type = valveType(valve.type);
  const first = valve.sections.a!;
  const current_mA = plate_mA(first.law, type.plate_V, type.grid_V);
  const withMu = (mu: number): ValveTruth => {
    const perveance_mA_per_V1p5 = current_mA / (type.grid_V + type.plate_V / mu) ** 1.5;
    const b = { ...valve.sections.b!, law: { mu, perveance_mA_per_V1p5 } };
    return { ...valve, sections: { ...valve.sections, b } };
  };
  const balance = (mu: number) => ebbBalance_dB(resistors, { ...others, [position]: withMu(mu) });
  let low = 0.85 * first.law.mu;
  let high = 1.15 * first.law.mu;
  const falls = balance(high) < balance(low);
  for (let i = 0; i < 40; i++) {
    const middle = (low + high) / 2;
    if (balance(middle) > 0 === falls) low = middle;
    else high = middle;
  }
  return withMu((low + high) / 2);
}

/** Bottles of the type at a position that stand in no unit, and which of them balances the unit best by its circuit. */
export function bestBottle(
  unit: string,
  position: string,
  valves: ReadonlyMap<string, ValveTruth>,
  units: ReadonlyMap<string, UnitTruth>,
): Truth["proposals"][number] {
  const plan = recordedUnits.find((u) => u.unit === unit)!;
  const standing = new Set(recordedUnits.flatMap((u) => Object.values(u.fitted)));
  const fitted = Object.fromEntries(Object.entries(plan.fitted).map(([at, id]) => [at, valves.get(id)!]));
  const { resistors } = units.get(unit)!;
  const ranked = [...valves.values()]
    .filter(({ valve, type }) => type === fitted[position]!.type && !standing.has(valve))
    .map((valve) => ({
      valve: valve.valve,
      off_dB: Math.abs(ebbBalance_dB(resistors, { ...fitted, [position]: valve })),
    }))
    .toSorted((a, b) => a.off_dB - b.off_dB);
  return { unit, position, best: ranked[0]!.valve };
}

/** What a just judge would say of each recorded channel, from the recordings that there are. */
export const expectedHum: Truth["hum"] = [
  { unit: "0417", channel: "left", state: "decided", cause: "pick-up", story: "only the building's field hums" },
  {
    unit: "0417",
    channel: "right",
    state: "decided",
    cause: "valve",
    position: "V2",
    valve: "T-117",
    story: "heater leakage of T-117's second section, risen in the heat run",
  },
  ...["left", "right"].map((channel) => ({
    unit: "0418",
    channel,
    state: "quiet" as const,
    story: "clean decoy: nothing stands out of the floor",
  })),
  ...["left", "right"].map((channel) => ({
    unit: "0588",
    channel,
    state: "decided" as const,
    cause: "mains" as const,
    story: "fifth and seventh multiples of the house mains, gone on clean supply",
  })),
  ...["left", "right"].map((channel) => ({
    unit: "0589",
    channel,
    state: "decided" as const,
    cause: "pick-up" as const,
    story: "clean decoy: the building's field alone",
  })),
  ...["left", "right"].map((channel) => ({
    unit: "0585",
    channel,
    state: "decided" as const,
    cause: "amplifier" as const,
    story: "its own charging pulses; gone on a regenerator with cut peaks and HT 6 % low, back on a sound one",
  })),
  ...["left", "right"].map((channel) => ({
    unit: "0242",
    channel,
    state: "decided" as const,
    cause: "pick-up" as const,
    story: "clean decoy: the building's field alone, the unit is not at fault",
  })),
  ...["left", "right"].map((channel) => ({
    unit: "0240",
    channel,
    state: "quiet" as const,
    story: "clean decoy as far as hum goes: its microphonic valve is heard on a tap alone",
  })),
  ...["left", "right"].map((channel) => ({
    unit: "0419",
    channel,
    state: "undecided" as const,
    story: "one recording on the house mains tells causes apart for nobody",
  })),
];

export const unfairRecordings: Truth["unfair"] = [
  {
    unit: "0585",
    recording: "0585-2",
    story: "the regenerator cut its peaks and the HT stood 6 % low: a hum gone with it is not cured",
  },
];

export const expectedBalance: Truth["balance"] = [
  {
    unit: "0237",
    cause: "control",
    story: "the volume control's tracks part at low settings; it stays when valves are exchanged",
  },
  { unit: "0239", cause: "valves", story: "V1's sections amplify unlike at every setting; it goes with the valve" },
];

export const expectedTaps: Truth["taps"] = [
  { unit: "0240", valve: "T-302", story: "a microphonic valve, heard only on a tap" },
  { unit: "0236", story: "clean decoy: nothing in it rings" },
];

const stories: Readonly<Record<string, string>> = {
  "T-109": "balanced cold, one section 9 % down after the heat run",
};

type Verdict = "use" | "hold" | "reject";

/** What one figure of a valve may be called by somebody who reads it as well as the tester can. */
interface Sayable {
  readonly use: boolean;
  readonly hold: boolean;
  readonly reject: boolean;
}

/** Nobody reads further from what is so than three standard deviations; a judge keeps clear of a limit by his doubt. */
function sayable(value: number, sd: number, doubt: number, limit = Number.POSITIVE_INFINITY): Sayable {
  const [least, most] = [value - 3 * sd, value + 3 * sd];
  return {
    use: least <= limit - doubt,
    hold: most > limit - doubt && least < limit + doubt,
    reject: most > limit + doubt,
  };
}

/** Two readings of a section, each put right by the reference valve's: scatter, and the doubt stated with it. */
const driftSd_pct = 0.75;
const driftDoubt_pct = 1.5;
/** Two sections after the heat run. */
const spreadSd_pct = 0.57;
const spreadDoubt_pct = 1.15;

/** Verdicts that are right by what each valve really does, as far as readings of the tester can carry them. */
export function expectedVerdicts(valves: readonly ValveTruth[]): Truth["valves"] {
  return valves.map(({ valve, type, batch, sections }) => {
    if (onHeatRun.has(batch)) return { valve, allowed: ["hold"] };
    const { limits, plate_V, grid_V } = valveType(type);
    const own = Object.values(sections);
    const hot_mA = own.map(({ law }) => plate_mA(law, plate_V, grid_V));
    const mean_mA = hot_mA.reduce((sum, mA) => sum + mA, 0) / hot_mA.length;
    const spread_pct = (100 * (Math.max(...hot_mA) - Math.min(...hot_mA))) / mean_mA;
    const figures = [
      ...own.map(({ coldOverHot }) =>
        sayable(Math.abs(100 / coldOverHot - 100), driftSd_pct, driftDoubt_pct, limits.drift_pct),
      ),
      sayable(spread_pct, spreadSd_pct, spreadDoubt_pct, limits.sectionSpread_pct),
      ...own.map(({ leakage: { atTester_uA: uA } }) => sayable(uA, 0.03 * uA, 0.03 * uA, limits.leakage_uA)),
      ...own.map(({ gridCurrent_uA: uA }) => sayable(uA, 0.05 * uA, 0.05 * uA, limits.gridCurrent_uA)),
    ];
    const mustReject = figures.some(({ use, hold }) => !use && !hold);
    const allowed: Verdict[] = [
      ...(figures.every(({ use }) => use) ? ["use" as const] : []),
      ...(!mustReject && figures.some(({ hold }) => hold) ? ["hold" as const] : []),
      ...(figures.some(({ reject }) => reject) ? ["reject" as const] : []),
    ];
    const story = stories[valve];
    return { valve, allowed, ...(story === undefined ? {} : { story }) };
  });
}

/** Grid current and bias as they are in a unit, not at the tester. */
export const unfitForPlaces: Truth["places"] = [
  {
    valve: "T-470",
    position: "V3",
    story: "a gassy power valve: fine at the tester, moves its bias in a real grid leak",
  },
];

export const fours: Truth["fours"] = [
  {
    fours: [0, 1].map((four) => [0, 1, 2, 3].map((i) => valveId(441 + 4 * four + i))),
    story: "matched quads match at the dealer's point; pairs made across two of them match at ours",
  },
];
