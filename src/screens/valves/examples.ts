import type { TraysView, TrayValveView, TrayView, ValveSetsView } from "../../workshop/views.ts";

/** Invented trays for the preview page and the browser tests. */

const day = (n: number, clock: string) => `2026-11-${String(n).padStart(2, "0")}T${clock}:00+00:00`;
const now = day(25, "08:10");

/** A fixed spread of numbers between −1 and 1, alike on any day. */
const wobble = (i: number, k: number) => Math.sin(12.9898 * (i + 1) + 78.233 * (k + 1)) * 0.98;

const limits = {
  plate_V: 250,
  grid_V: -8,
  referenceTrue_mA: 9.12,
  reading_doubt_pct: 0.8,
  heatRun_h: 48,
  drift_pct: 5,
  sectionSpread_pct: 15,
  gridCurrent_uA: 1,
  leakage_uA: 5,
};

interface Peculiar {
  readonly drift_pct?: Readonly<Record<string, number>>;
  readonly level_pct?: Readonly<Record<string, number>>;
  readonly standing?: TrayValveView["standing"];
  readonly reasons?: readonly string[];
  readonly standsIn?: TrayValveView["standsIn"];
}

/** What the tester showed of the true current in each session. */
const shown = { cold: 1.002, hot: 0.972 };

function valve(
  i: number,
  sections: readonly string[],
  phases: readonly ("cold" | "hot")[],
  odd: Peculiar = {},
): TrayValveView {
  const name = `T-${101 + i}`;
  const read = sections.map((section, k) => {
    const cold_mA = 9 * (1 + (odd.level_pct?.[section] ?? 9 * wobble(i, 0) + 3 * wobble(i, k + 1)) / 100);
    const drift_pct = odd.drift_pct?.[section] ?? -0.8 + 0.7 * wobble(i, k + 5);
    return { section, cold_mA, hot_mA: cold_mA * (1 + drift_pct / 100), drift_pct };
  });
  const isHot = phases.includes("hot");
  const currents = read.map(({ cold_mA, hot_mA }) => (isHot ? hot_mA : cold_mA));
  const spread_pct =
    (200 * Math.abs(currents[0]! - (currents[1] ?? currents[0]!))) / (currents[0]! + (currents[1] ?? currents[0]!));
  return {
    valve: name,
    standing: phases.length === 0 ? "unread" : (odd.standing ?? (isHot ? "use" : "hold")),
    reasons:
      odd.reasons ??
      (isHot
        ? read.map(
            ({ section, drift_pct }) => `Section ${section}: drift_pct ${drift_pct.toFixed(1)} ± 1.1, limit 5: inside.`,
          )
        : ["Not read after the heat run yet."]),
    advice: isHot
      ? [
          { place: "Ebb V1", serves: "yes", words: [] },
          {
            place: "Neap V1",
            serves: odd.standing === "reject" ? "no" : "yes",
            words: ["Section a: its grid current moves the bias there by 0.11 ± 0.02 V."],
          },
        ]
      : [],
    ...(odd.standsIn && { standsIn: odd.standsIn }),
    sections: read.map(({ section, cold_mA, hot_mA, drift_pct }, k) => ({
      section,
      ...(phases.includes("cold") && { cold_mA }),
      ...(isHot && { hot_mA, drift_pct, doubt_pct: 1.1, gridCurrent_uA: 0.12 + 0.03 * wobble(i, k), leakage_uA: 1.4 }),
      words: [],
    })),
    ...(isHot && sections.length > 1 && { sectionSpread_pct: spread_pct, sectionSpreadDoubt_pct: 0.8 }),
    readings: phases.flatMap((phase, p) =>
      read.map(({ section, cold_mA, hot_mA }) => ({
        evidence: `e-${name}-${section}-${phase}`,
        section,
        phase,
        at: day(17 + 3 * p, `09:${10 + (i % 40)}`),
        by: "bench technician",
        instrument: "valve tester",
        time_h: 100 + 72 * p + i / 10,
        plate_V: 250,
        grid_V: -8,
        plate_mA: Number(((phase === "cold" ? cold_mA : hot_mA) * shown[phase]).toFixed(3)),
        right_mA: phase === "cold" ? cold_mA : hot_mA,
        gridCurrent_uA: 0.12,
        leakage_uA: 1.4,
      })),
    ),
  };
}

function drawn(
  count: number,
  phases: readonly ("cold" | "hot")[],
  odd: Readonly<Record<number, Peculiar>> = {},
  sections = ["a", "b"],
): TrayView {
  const valves = Array.from({ length: count }, (_, i) => valve(i, sections, phases, odd[i]));
  const isHot = phases.includes("hot");
  return {
    batch: "B-31",
    type: "6SN7GT",
    seller: "Harbour radio, closing down",
    at: day(14, "11:20"),
    now,
    sections,
    limits,
    ...(phases.length > 0 && {
      reference: {
        valve: "REF-6SN7GT",
        true_mA: 9.12,
        readings: [
          { evidence: "r1", at: day(17, "09:05"), time_h: 100, plate_mA: 9.138, shift_pct: 0.2 },
          ...(isHot ? [{ evidence: "r2", at: day(20, "09:05"), time_h: 172, plate_mA: 8.865, shift_pct: -2.8 }] : []),
        ],
        cold_pct: 0.2,
        ...(isHot && { hot_pct: -2.8, lean_pct: -2.99 }),
        doubt_pct: 0.8,
      },
      middle_mA: 9,
    }),
    ...(phases.length === 1 && { heatRunEnds: day(26, "09:40") }),
    valves,
    ...(phases.length === 0 && {
      wanting: "No valve of this tray was read yet. Begin with the reference valve, then read each section cold.",
    }),
    clock_h: 280,
    instruments: [{ instrument: "valve tester", reference: "REF-6SN7GT" }],
    notes: [],
  };
}

const odd: Readonly<Record<number, Peculiar>> = {
  4: {
    drift_pct: { a: -0.6, b: -9.1 },
    standing: "reject",
    reasons: ["Section b: drift_pct -9.1 ± 1.1, limit 5: outside."],
  },
  9: {
    drift_pct: { a: -4.4, b: -1 },
    standing: "hold",
    reasons: ["Section a: drift_pct -4.4 ± 1.1, limit 5: nearer than its doubt."],
  },
  13: { standsIn: { unit: "0231", position: "V1" } },
  14: { standsIn: { unit: "0417", position: "V1" } },
  22: { level_pct: { a: -34, b: -37 } },
  27: {
    level_pct: { a: 14, b: -7 },
    standing: "reject",
    reasons: ["Section spread: sectionSpread_pct 20.3 ± 0.8, limit 15: outside."],
  },
};

export const leaning = drawn(36, ["cold", "hot"], odd);
export const chosen = "T-105";
export const steady: TrayView = {
  ...drawn(12, ["cold", "hot"], {}, ["a"]),
  type: "EL34",
  batch: "B-34",
  reference: { ...leaning.reference!, valve: "REF-EL34", cold_pct: 0.2, hot_pct: 0.3, lean_pct: 0.1 },
};
export const onHeat = drawn(8, ["cold"]);
export const untouched = drawn(8, []);
export const one = drawn(1, ["cold", "hot"]);
const { limits: _limits, reference: _reference, ...bareParts } = untouched;
export const bare: TrayView = {
  ...bareParts,
  wanting: "No test point or limits of the 6SN7GT are on record. Set them first; then its valves can be read.",
  instruments: [],
};
export const many = drawn(120, ["cold", "hot"], odd);

export const shelf: TraysView = {
  now,
  trays: [
    {
      batch: "B-35",
      type: "6SN7GT",
      seller: "Pilot boat, refitted",
      at: day(23, "10:00"),
      valves: 8,
      stands: { use: 0, hold: 0, reject: 0, unread: 8 },
      coldRead: 0,
      hotRead: 0,
    },
    {
      batch: "B-33",
      type: "6SL7GT",
      seller: "A school laboratory",
      at: day(18, "10:00"),
      valves: 12,
      stands: { use: 0, hold: 12, reject: 0, unread: 0 },
      coldRead: 12,
      hotRead: 0,
      heatRunEnds: day(26, "09:40"),
    },
    {
      batch: "B-31",
      type: "6SN7GT",
      seller: "Harbour radio, closing down",
      at: day(14, "11:20"),
      valves: 36,
      stands: { use: 33, hold: 1, reject: 2, unread: 0 },
      coldRead: 36,
      hotRead: 36,
    },
  ],
  types: [{ type: "6SN7GT", plate_V: 250, grid_V: -8 }],
  catalogue: [
    { type: "6SN7GT", sections: 2 },
    { type: "6AS7G", sections: 2 },
    { type: "EL34", sections: 1 },
  ],
};
export const noTrays: TraysView = { ...shelf, trays: [], types: [] };

export const sets: ValveSetsView = {
  batch: "B-31",
  type: "6SN7GT",
  from: "tray",
  considered: 31,
  models: [
    {
      model: "Ebb",
      revision: "C",
      by: "circuit",
      limit: 0.5,
      sets: [
        { unit: "0420", order: "QN-71", due: day(27, "17:00"), positions: { V1: "T-103" }, cost: 0.04, doubt: 0.11 },
        { unit: "0421", order: "QN-71", due: day(27, "17:00"), positions: { V1: "T-119" }, cost: 0.06, doubt: 0.11 },
      ],
      unplaced: [],
      reserve: [{ positions: { V1: "T-125" }, cost: 0.09, doubt: 0.11 }],
      optimal: true,
      gap: 0,
      notes: [],
    },
    {
      model: "Flood",
      revision: "B",
      by: "current",
      sets: [],
      unplaced: ["0433"],
      reserve: [],
      optimal: true,
      gap: 0,
      notes: [],
    },
  ],
  left: ["T-101", "T-102", "T-108"],
  notes: [],
};
