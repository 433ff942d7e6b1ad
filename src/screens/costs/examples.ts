import type { CostsView, ModelCostView, OptionCostView } from "../../workshop/production/views.ts";

/** Invented costs for the preview page and the browser tests. */

const spent = (mean: number, reach: number) => ({
  mean_cents: mean,
  p05_cents: mean - reach,
  p50_cents: mean - Math.round(reach / 8),
  p80_cents: mean + Math.round(reach / 2),
  p95_cents: mean + Math.round(1.8 * reach),
});

const ebb: ModelCostView = {
  model: "Ebb",
  revision: "C",
  price_cents: 248_000,
  cost: spent(217_500, 25_000),
  parts: spent(76_700, 0),
  work: spent(124_500, 13_000),
  rework: spent(13_900, 13_000),
  scrap: spent(2_400, 2_400),
  margin: { ...spent(30_500, 60_000), oddsOfLoss: 0.12 },
  bySkill: [
    { skill: "wiring", mean_h: 15.3, mean_cents: 73_500 },
    { skill: "wood", mean_h: 8.6, mean_cents: 39_500 },
    { skill: "audio", mean_h: 2, mean_cents: 10_600 },
  ],
  accounts: 60,
  real: { mean_cents: 220_100, low_cents: 215_800, high_cents: 224_400 },
};

const { real: _real, ...fresh } = ebb;
const flood: ModelCostView = {
  ...fresh,
  model: "Flood",
  revision: "B",
  price_cents: 495_000,
  cost: spent(346_000, 36_000),
  parts: spent(160_000, 0),
  work: spent(165_000, 18_000),
  rework: spent(17_000, 17_000),
  scrap: spent(4_000, 4_000),
  margin: { ...spent(149_000, 60_000), oddsOfLoss: 0.001 },
  accounts: 2,
};

const option = (
  name: string,
  choice: string,
  against: string,
  more: number,
  reach: number,
  units: number,
): OptionCostView => ({
  option: name,
  choice,
  against,
  units,
  more_cents: more,
  low_cents: more - reach,
  high_cents: more + reach,
  state: more - reach > 0 ? "dearer" : more + reach < 0 ? "cheaper" : "undecided",
  ...(Math.abs(more) < reach && { moreUnits: 70 }),
});

export const usual: CostsView = {
  currency: "EUR",
  rates: { wiring: 4800, wood: 4600, audio: 5200 },
  models: [ebb, flood],
  missing: [{ model: "Bore", why: "its bill of parts is not written down" }],
  options: [
    option("timber", "doussié", "white ash", 25_400, 7_600, 26),
    option("timber", "American elm", "white ash", 17_200, 7_000, 35),
    option("timber", "black cherry", "white ash", 4_100, 7_100, 35),
    option("finish", "shellac", "oil", 16_300, 5_700, 54),
    option("finish", "soap", "oil", -3_300, 9_600, 14),
    option("valves", "closely paired", "as sorted", 11_300, 5_500, 55),
  ],
  untold: [{ option: "timber", choice: "yew", why: "only 1 unit has it; 3 at least" }],
  accounts: 160,
  orders: [
    { order: "Q-231", model: "Ebb", units: 1, margin_cents: 30_500, low_cents: -30_500, high_cents: 56_600 },
    { order: "Q-238", model: "Flood", units: 2, margin_cents: 297_400, low_cents: 175_000, high_cents: 353_000 },
  ],
};

const { currency: _currency, ...unpriced } = usual;
export const none: CostsView = {
  ...unpriced,
  rates: {},
  models: [],
  missing: [],
  options: [],
  untold: [],
  accounts: 0,
  orders: [],
};
export const missing: CostsView = { ...none, missing: [{ model: "Ebb", why: "no rates are written down" }] };
