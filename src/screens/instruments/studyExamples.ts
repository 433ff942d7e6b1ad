import { gaugeStudy, individualsChart, windowShare } from "../../measurement/index.ts";
import type { GaugeView, UnitChartsView, UnitChartView } from "../../workshop/instruments/views.ts";
import type { BudgetAnswer } from "./BudgetPage.tsx";

/** Invented studies for the preview page and the browser tests; what they come to is worked out. */

const hands = ["bench technician", "wiring", "owner"];
const wander = (i: number) => Math.sin(i * 12.9898) * 0.5 + Math.sin(i * 4.1414) * 0.5;

function study(quantity: string, title: string, at: string, parts: number, step: number, off: number, scatter: number) {
  const readings = Array.from({ length: parts }, (_, p) =>
    hands.flatMap((operator, h) =>
      [0, 1].map((k) => ({
        part: `T-${110 + p}`,
        operator,
        value: Number((9 + step * wander(p + 3) + off * (h - 1) + scatter * wander(31 * p + 7 * h + k)).toFixed(3)),
      })),
    ),
  ).flat();
  const result = gaugeStudy(readings);
  const notes = ["Reproducibility rests on 3 operators only; its doubt is wide."];
  return { quantity, title, at, readings, result: { ...result, state: "solved" as const, notes } };
}

const window = (
  model: string,
  title: string,
  low: number | undefined,
  high: number,
  sd: { sd: number; low: number; high: number },
) => ({
  model,
  title,
  quantity: "plate_mA",
  ...(low !== undefined && { low }),
  high,
  ...windowShare(sd.sd, low, high),
  ...(low !== undefined && {
    least_pct: windowShare(sd.low, low, high).eaten_pct!,
    most_pct: windowShare(sd.high, low, high).eaten_pct!,
  }),
});

const plate = study("plate_mA", "Valve tester", "2026-11-10T15:00:00Z", 6, 1.1, 0.05, 0.07);
const spread = { sd: plate.result.gauge_sd, ...plate.result.interval.gauge_sd };
const windows = [
  window("Ebb", "Every valve is steady through the heat run", 7.5, 10.5, spread),
  window("Flood", "Sections alike", 8.8, 9.2, spread),
  window("Neap", "No valve draws more than its place allows", undefined, 12, spread),
];

export const gaugeUsual: GaugeView = {
  instruments: [
    { instrument: "valve-tester", title: "Valve tester", quantity: "plate_mA" },
    { instrument: "meter-A", title: "Bench multimeter", quantity: "level_V" },
  ],
  windows,
  studies: [{ id: "g1", by: "bench technician", instrument: "valve-tester", what: "", windows, ...plate }],
};
export const gaugeNone: GaugeView = { ...gaugeUsual, studies: [] };

function chartOf(
  model: string,
  quantity: string,
  title: string,
  where: string,
  values: readonly number[],
  limits: UnitChartView["window"],
): UnitChartView {
  const { centre, low, high, sd, signals } = individualsChart(values);
  const nearer = Math.min((limits.high ?? 1e9) - centre, centre - (limits.low ?? -1e9)) / (3 * sd);
  return {
    ...{ model, claim: quantity, title, quantity, where, window: limits, centre, low, high, signals },
    units: values.map((value, i) => ({
      unit: String(401 + i).padStart(4, "0"),
      value,
      doubt: 0.12,
      hasLeft: i < values.length - 2,
    })),
    room: { value: nearer, low: 0.7 * nearer, high: 1.3 * nearer },
  };
}

const series = (count: number, centre: number, size: number, shift = (_: number) => 0) =>
  Array.from({ length: count }, (_, i) => Number((centre + size * wander(i + 1) + shift(i)).toFixed(3)));

export const chartsUsual: UnitChartsView = {
  models: ["Ebb", "Flood"],
  charts: [
    chartOf(
      "Ebb",
      "balance_dB",
      "Left and right are alike",
      "",
      series(24, 0.05, 0.25, (i) => (i === 17 ? 1.1 : 0)),
      { low: -1.5, high: 1.5 },
    ),
    chartOf(
      "Ebb",
      "level_V",
      "Input pair: its test points lie in their windows",
      "left V1 plate",
      series(24, 142, 2.2, (i) => (i > 12 ? 2.6 : 0)),
      { low: 110, high: 170 },
    ),
    chartOf("Ebb", "thd_pct", "Little distortion", "left", series(24, 0.11, 0.02), { high: 0.3 }),
    chartOf("Flood", "thd_pct", "Little distortion", "right", series(10, 0.6, 0.08), { high: 1.5 }),
  ],
  few: 3,
};
export const chartsNone: UnitChartsView = { models: [], charts: [], few: 0 };

export const budgetAnswer: BudgetAnswer = {
  standard: 0.000141,
  freedom: 12,
  factor: 2.18,
  doubt: 0.000307,
  lines: [
    { name: "reference resistor", contribution: 0.000102, share_pct: 52 },
    { name: "repeated readings", contribution: 0.00009, share_pct: 41 },
    { name: "meter, last digit", contribution: 0.000037, share_pct: 7 },
  ],
  notes: ["reference resistor brings 52 % of the variance: only a smaller one there makes the result much surer."],
  judged: { state: "undecided", riskFalseAccept: 0.041 },
  eaten_pct: 31,
};
