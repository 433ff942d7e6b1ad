import type {
  ProbeCardView,
  ProbePointView,
  ProbeReadingView,
  ProbeSuspectsView,
  ProbeWindowsView,
  Window,
} from "../../workshop/views.ts";

/** Invented probe cards for the preview page and the browser tests. */

const at = "2026-11-24T10:20:00+00:00";
const now = "2026-11-25T08:10:00+00:00";

type Spot = readonly [
  point: string,
  channel: string,
  stage: string,
  x_mm: number,
  y_mm: number,
  low_V: number,
  high_V: number,
  ohm: number,
];

const spots: readonly Spot[] = [
  ["HT reservoir", "both", "supply", 40, 130, 262, 296, 68_000],
  ["HT", "both", "supply", 90, 130, 232, 256, 47_000],
  ["heater lift", "both", "heaters", 140, 130, 38, 44, 9_800],
  ["left HT1", "left", "supply", 60, 100, 222, 247, 48_500],
  ["left V1 plate", "left", "input", 60, 80, 98, 124, 95_400],
  ["left V1 cathode", "left", "input", 75, 80, 2.1, 2.9, 820],
  ["left V2 plate", "left", "output", 60, 50, 231, 255, 47_010],
  ["left V2 cathode", "left", "output", 75, 50, 112, 139, 1_800],
  ["left output", "left", "output", 60, 20, -0.05, 0.05, 2_200],
  ["right HT1", "right", "supply", 200, 100, 222, 247, 48_500],
  ["right V1 plate", "right", "input", 200, 80, 98, 124, 95_400],
  ["right V1 cathode", "right", "input", 215, 80, 2.1, 2.9, 820],
  ["right V2 plate", "right", "output", 200, 50, 231, 255, 47_010],
  ["right V2 cathode", "right", "output", 215, 50, 112, 139, 1_800],
  ["right output", "right", "output", 200, 20, -0.05, 0.05, 2_200],
];

const window = (low: number, high: number): Window => ({ low, median: (low + high) / 2, high });

export const windows: ProbeWindowsView = {
  dc: Object.fromEntries(spots.map(([point, , , , , low, high]) => [point, window(low, high)])),
  resistance: Object.fromEntries(spots.map(([point, , , , , , , ohm]) => [point, window(ohm * 0.96, ohm * 1.04)])),
  gain: {},
  ownCurves: ["V1", "V2"],
  notes: [],
};

function read(
  point: string,
  kind: "resistance" | "dc" | "gain",
  value: number,
  doubt: number,
  more: Partial<ProbeReadingView> = {},
): ProbeReadingView {
  return {
    evidence: `e ${kind} ${point}`,
    kind,
    value,
    doubt,
    instrument: "meter-B",
    at,
    by: "bench technician",
    ...more,
  };
}

interface Readings {
  readonly dead?: number;
  readonly live?: number;
  readonly odd?: Readonly<Record<string, number>>;
  readonly gains?: boolean;
}

function card(
  { dead = 0, live = 0, odd = {}, gains = false }: Readings,
  placed: ProbeCardView["placed"] = "by the model",
): ProbeCardView {
  return {
    unit: "0231",
    model: "Ebb",
    revision: "C",
    now,
    ground: "0",
    placed,
    points: spots.map(
      ([point, channel, stage, x_mm, y_mm, low, high, ohm], i): ProbePointView => ({
        point,
        node: `n${i}`,
        stage,
        channel,
        x_mm,
        y_mm,
        input: channel === "right" ? "INR" : "INL",
        valves: ["V1", "V2"].filter((position) => point.includes(position)),
        isOutput: point.endsWith("output"),
        readings: [
          ...(i < dead ? [read(point, "resistance", ohm * (1 + ((i % 3) - 1) * 0.008), ohm * 0.01, { to: "0" })] : []),
          ...(i < live
            ? [
                read(
                  point,
                  "dc",
                  odd[point] ?? (low + high) / 2 + ((i % 4) - 1.5) * (high - low) * 0.1,
                  0.02 + 0.005 * high,
                ),
              ]
            : []),
          ...(gains && point.endsWith("output")
            ? [read(point, "gain", point.startsWith("left") ? 11.2 : 17.6, 0.1, { input: "INL", frequency_Hz: 1000 })]
            : []),
        ],
      }),
    ),
    valves: [
      { position: "V1", type: "6SN7GT", valve: "T-114" },
      { position: "V2", type: "6AS7G", valve: "T-202" },
    ],
    instruments: ["audio recorder", "meter-A", "meter-B"],
    meter_Mohm: 10,
    released: false,
  };
}

export const fresh = card({});
export const halfDead = card({ dead: 6 });
export const good = card({ dead: 15, live: 15, gains: false });
export const faulty = card({
  dead: 15,
  live: 9,
  odd: { "left V1 plate": 171.4, "left V1 cathode": 0.62, "left V2 cathode": 186 },
});
export const shorted: ProbeCardView = {
  ...halfDead,
  points: halfDead.points.map((point) =>
    point.point === "HT" ? { ...point, readings: [read("HT", "resistance", 3.1, 0.3, { to: "0" })] } : point,
  ),
};
export const bare: ProbeCardView = { ...fresh, points: [], placed: "by stage" };
export const oneOnly: ProbeCardView = { ...fresh, points: fresh.points.slice(1, 2), placed: "by stage" };

const quiet: Pick<ProbeSuspectsView, "notes" | "suspects"> = { notes: [], suspects: [] };

export const unread: ProbeSuspectsView = {
  ...quiet,
  state: "unread",
  because: "Nothing was probed yet. Begin with the circuit dead and discharged.",
  counted: 0,
};
export const allGood: ProbeSuspectsView = {
  ...quiet,
  state: "good",
  because: "The readings together are what good parts give. Nothing accuses a part.",
  counted: 30,
};
export const accused: ProbeSuspectsView = {
  state: "faulty",
  because: "No unit of good parts reads like this. One fault is looked for; the likeliest stands first.",
  counted: 24,
  suspects: [
    {
      part: "V1a",
      fault: "weak",
      odds: 0.61,
      words: "left section; about 35 % of its current",
      alike: [],
      near: ["left V1 plate", "left V1 cathode"],
    },
    {
      part: "R3L",
      fault: "high",
      odds: 0.24,
      words: "cathode; about 3.1 kΩ",
      alike: ["C4L leaky"],
      near: ["left V1 cathode"],
    },
    { part: "R4L", fault: "low", odds: 0.08, words: "plate load, 2 W", alike: [], near: ["left V1 plate", "left HT1"] },
  ],
  nextProbe: {
    kind: "gain",
    point: "left output",
    input: "INL",
    frequency_Hz: 1000,
    why: "The gain tells a weak valve from a high cathode resistor.",
    minutes: 4,
    danger: "high-voltage",
    caution: "The unit is on.",
  },
  notes: [],
};
export const trouble: ProbeWindowsView = {
  dc: {},
  resistance: {},
  gain: {},
  ownCurves: [],
  notes: [],
  trouble: "parts[4].type: “6SN7X”; no such type in the catalogue; give its law or a model",
};
