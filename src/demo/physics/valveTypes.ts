import type { BodyOf } from "../../claims/evidence.ts";
import type { TriodeLaw } from "./triode.ts";

export interface ValveType {
  readonly type: string;
  readonly sections: readonly string[];
  /** The point at which the tester reads every valve of the type. */
  readonly plate_V: number;
  readonly grid_V: number;
  readonly law: TriodeLaw;
  /** Standard deviations, relative: valve to valve, and section to section within one bottle. */
  readonly spread: {
    readonly mu: number;
    readonly current: number;
    readonly sectionMu: number;
    readonly sectionCurrent: number;
  };
  readonly limits: BodyOf<"valve-limits">["limits"];
  /** Of a valve with a screen, read triode-connected: what share of the cathode's current goes there. */
  readonly screenShare?: number;
  /** Plate and grid voltages of the readings from which a curve is drawn, each within the type's dissipation. */
  readonly curve: readonly (readonly [plate_V: number, grid_V: number])[];
  /** What a good section leaks from heater to cathode at the tester's voltage. */
  readonly leakage_uA: number;
}

/**
 * Fits the three-halves law through one printed point, its printed mu kept.
 *
 * @param lively  how far the valves that reach this shop read over the print, on average
 */
function through(mu: number, plate_V: number, grid_V: number, plate_mA: number, lively = 1): TriodeLaw {
  return { mu, perveance_mA_per_V1p5: (lively * plate_mA) / (grid_V + plate_V / mu) ** 1.5 };
}

/**
 * The types on the shelf.
 *
 * @source printed average points: 6SN7GT 250 V, −8 V, 9 mA, mu 20 (read in an encyclopedia quoting makers' data);
 *         6SL7GT 250 V, −2 V, 2.3 mA, mu 70 (read in a service handbook's table); 12AU7 250 V, −8.5 V, 10.5 mA,
 *         mu 17, and 6N6P 120 V, −2 V, 30 mA, mu 20 (from memory of makers' sheets); 6AS7G 103.75 V, −31.25 V, 125 mA,
 *         mu 2, and EL34 triode-connected mu 10.5, about 60 mA at 335 V, −25 V (from memory of makers' sheets); spread
 *         of new valves of about a tenth: common practice; limits: the workshop's own
 */
export const valveTypes: readonly ValveType[] = [
  {
    type: "6SN7GT",
    sections: ["a", "b"],
    plate_V: 250,
    grid_V: -8,
    law: through(20, 250, -8, 9, 1.13),
    spread: { mu: 0.025, current: 0.07, sectionMu: 0.008, sectionCurrent: 0.02 },
    limits: { drift_pct: 5, sectionSpread_pct: 15, gridCurrent_uA: 1, leakage_uA: 40 },
    curve: [
      [90, 0],
      [90, -2],
      [150, -2],
      [150, -4],
      [200, -6],
      [250, -8],
      [250, -10],
      [300, -12],
    ],
    leakage_uA: 0.2,
  },
  {
    type: "6AS7G",
    sections: ["a", "b"],
    plate_V: 103.75,
    grid_V: -31.25,
    law: through(2, 103.75, -31.25, 125),
    spread: { mu: 0.02, current: 0.07, sectionMu: 0.008, sectionCurrent: 0.03 },
    limits: { drift_pct: 5, sectionSpread_pct: 20, gridCurrent_uA: 4, leakage_uA: 200 },
    curve: [
      [60, -10],
      [60, -20],
      [80, -20],
      [103.75, -31.25],
      [103.75, -40],
      [130, -40],
      [130, -50],
      [160, -60],
    ],
    leakage_uA: 1.5,
  },
  {
    type: "6SL7GT",
    sections: ["a", "b"],
    plate_V: 250,
    grid_V: -2,
    law: through(70, 250, -2, 2.3, 1.2),
    spread: { mu: 0.02, current: 0.07, sectionMu: 0.006, sectionCurrent: 0.02 },
    limits: { drift_pct: 5, sectionSpread_pct: 15, gridCurrent_uA: 1, leakage_uA: 20 },
    curve: [
      [150, -1],
      [150, -1.5],
      [200, -1],
      [200, -2],
      [250, -2],
      [250, -2.5],
      [300, -3],
      [300, -3.5],
    ],
    leakage_uA: 0.15,
  },
  {
    type: "EL34",
    sections: ["a"],
    plate_V: 335,
    grid_V: -25,
    law: through(10.5, 335, -25, 60),
    screenShare: 0.13,
    spread: { mu: 0.02, current: 0.08, sectionMu: 0, sectionCurrent: 0 },
    limits: { drift_pct: 5, sectionSpread_pct: 15, gridCurrent_uA: 3, leakage_uA: 60 },
    curve: [
      [200, -12],
      [250, -18],
      [250, -21],
      [300, -22],
      [335, -29],
    ],
    leakage_uA: 0.8,
  },
  {
    type: "12AU7",
    sections: ["a", "b"],
    plate_V: 250,
    grid_V: -8.5,
    law: through(17, 250, -8.5, 10.5, 1.12),
    spread: { mu: 0.025, current: 0.07, sectionMu: 0.008, sectionCurrent: 0.02 },
    limits: { drift_pct: 5, sectionSpread_pct: 15, gridCurrent_uA: 1, leakage_uA: 40 },
    curve: [
      [100, -1],
      [120, -3],
      [150, -4],
      [200, -7],
      [250, -11],
    ],
    leakage_uA: 0.2,
  },
  {
    type: "6N6P",
    sections: ["a", "b"],
    plate_V: 120,
    grid_V: -2,
    law: through(20, 120, -2, 30, 1.05),
    spread: { mu: 0.025, current: 0.07, sectionMu: 0.008, sectionCurrent: 0.02 },
    limits: { drift_pct: 5, sectionSpread_pct: 20, gridCurrent_uA: 1, leakage_uA: 60 },
    curve: [
      [90, -1],
      [120, -4],
      [150, -5],
      [150, -6],
      [180, -7],
    ],
    leakage_uA: 0.4,
  },
];

export function valveType(type: string): ValveType {
  const found = valveTypes.find((t) => t.type === type);
  if (!found) throw new RangeError(`the demo's shelf holds no ${type}`);
  return found;
}
