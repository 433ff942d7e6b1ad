import { BadInput, quote } from "../maths/badInput.ts";

/** Where the equation may be asked at all; outside, its coefficients lose their physical sense. */
export const emcRange = {
  temperature_C: { low: -30, high: 100 },
  humidity_pct: { low: 0, high: 100 },
} as const;

/** Corners of the handbook's table; beyond them the equation is an extrapolation. */
const table = {
  temperature_C: { low: -1.2, high: 93.4 },
  humidity_pct: { low: 5, high: 95 },
} as const;

/** Constant, linear and quadratic coefficient in degrees Celsius. */
const coefficients = {
  W: [349, 1.29, 0.0135],
  K: [0.805, 0.000736, -2.73e-6],
  K1: [6.27, -0.00938, -0.000303],
  K2: [1.91, 0.0407, -0.000293],
} as const;

/**
 * Moisture content that wood comes to in steady air (equilibrium moisture content).
 *
 *     M = (1800/W)·[K·h/(1 − K·h) + (K1·K·h + 2·K1·K2·K²·h²)/(1 + K1·K·h + K1·K2·K²·h²)]
 *
 * @param temperature_C  −30 … 100; the handbook's table spans −1.1 … 93.3
 * @param humidity_pct   relative humidity 0 … 100; the table spans 5 … 95
 * @returns percent of oven-dry mass; 0 in perfectly dry air
 * @throws BadInput  outside those ranges
 * @remarks Follows the handbook's table within 0.06 % MC. A given piece differs by species, by its heating history and
 *   by whether it comes from the wet or the dry side: see `emcDoubt_pct`.
 * @source  Forest Products Laboratory, Wood Handbook, FPL-GTR-190 (2010), eq. 4-5 and table 4-2
 * @example equilibriumMoisture_pct(21.1, 50) // 9.2
 */
export function equilibriumMoisture_pct(temperature_C: number, humidity_pct: number): number {
  requireWithin("temperature_C", temperature_C);
  requireWithin("humidity_pct", humidity_pct);

  const at = ([constant, linear, quadratic]: readonly [number, number, number]) =>
    constant + temperature_C * (linear + temperature_C * quadratic);
  const K1 = at(coefficients.K1);
  const K2 = at(coefficients.K2);
  const Kh = (at(coefficients.K) * humidity_pct) / 100;
  const dissolved = Kh / (1 - Kh);
  const hydrated = (K1 * Kh + 2 * K1 * K2 * Kh * Kh) / (1 + K1 * Kh + K1 * K2 * Kh * Kh);
  return (1800 / at(coefficients.W)) * (dissolved + hydrated);
}

/**
 * How far a real piece may lie from the equation (95 % half-width, percent MC).
 *
 *     a fifth of the value, at most 2 % MC
 *
 * @remarks A judgement of common practice: sorption hysteresis alone is 1 to 3 % MC wide, extractives and former
 *   heating lower the equilibrium by as much again in some species.
 */
export function emcDoubt_pct(emc_pct: number): number {
  return Math.min(2, 0.2 * emc_pct);
}

/** In words, what to keep in mind about an answer at these conditions. */
export function emcNotes(temperature_C: number, humidity_pct: number): readonly string[] {
  const notes = [
    "Wood that dries down stays 1 to 3 % MC above wood that wets up at the same humidity; the value lies between, nearer the drying side.",
  ];
  if (temperature_C < table.temperature_C.low || temperature_C > table.temperature_C.high) {
    notes.push(
      `Extrapolated: the handbook's table spans -1.1 to 93.3 °C, and ${temperature_C} °C lies outside it; take the value as a trend.`,
    );
  }
  if (humidity_pct < table.humidity_pct.low || humidity_pct > table.humidity_pct.high) {
    notes.push(
      `Extrapolated: the handbook's table spans 5 to 95 % relative humidity, and ${humidity_pct} % lies outside it.`,
    );
  }
  if (humidity_pct > table.humidity_pct.high) {
    notes.push("Near saturation the equation nears the fibre saturation point, where wood also takes up liquid water.");
  }
  return notes;
}

function requireWithin(name: keyof typeof emcRange, value: number): void {
  const { low, high } = emcRange[name];
  if (value >= low && value <= high) return;
  const mend =
    name === "humidity_pct"
      ? "give relative humidity in percent, 50 for one half"
      : "give the air's temperature in degrees Celsius";
  throw new BadInput(name, quote(value), `${low} to ${high}`, mend);
}
