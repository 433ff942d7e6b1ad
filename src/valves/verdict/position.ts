import { catalogueEntry } from "../model.ts";

/** A place in a unit that a valve may serve, and what its circuit does with the valve's faults. */
export interface ValvePosition {
  readonly position: string;
  /** Left out, any type. */
  readonly type?: string | undefined;
  /** Resistance from grid to its bias in the unit. */
  readonly gridLeak_ohm: number;
  /** Where a cathode resistor sets the bias, it holds back what grid current does. */
  readonly cathode_ohm?: number | undefined;
  /** Sections that the place uses; left out, all. */
  readonly sections?: readonly string[] | undefined;
  /** Limits of this place, in the stead of the tray's. */
  readonly limits?: PositionLimits | undefined;
}

export interface PositionLimits {
  readonly drift_pct?: number | undefined;
  readonly sectionSpread_pct?: number | undefined;
  readonly gridCurrent_uA?: number | undefined;
  readonly leakage_uA?: number | undefined;
  readonly gm_min_pct?: number | undefined;
  readonly slump_pct?: number | undefined;
  readonly settling_pct?: number | undefined;
  /** Most that grid current may move the bias. */
  readonly biasShift_V?: number | undefined;
  /** Most that grid current may move the plate current, in per cent of it. */
  readonly plateShift_pct?: number | undefined;
}

/** What grid current does in a place's grid leak beyond what it did in the tester's. */
export interface BiasShift {
  readonly section: string;
  readonly biasShift_V: number;
  /** Left out where no gm is known. */
  readonly plateShift_mA?: number;
  readonly plateShift_pct?: number;
  readonly doubt: { readonly biasShift_V: number; readonly plateShift_mA?: number; readonly plateShift_pct?: number };
}

/** Of a type whose gm was not read: the spread of new valves about the printed gm. */
const GM_SPREAD = 0.33;

/**
 * The bias shift of a section in a place.
 *
 *     shift = |Ig|·(grid leak − tester's grid resistance),   ΔIa = gm·shift/(1 + gm·Rk)
 *
 * Grid current of a gassy or emitting grid flows out of it and lifts the grid towards the cathode, so that plate
 * current rises. What the rise does to heat, and heat to gas, comes on top and is not counted.
 *
 * @param relative  95 % half-width of a reading, as a share of it
 * @source Ohm's law, and the definition of gm; spread of gm: reference/tubes.json, "new receiving valve accepted as good"
 */
export function biasShift(
  section: {
    readonly name: string;
    readonly gridCurrent_uA: number;
    readonly gm_mS?: number | undefined;
    readonly hot_mA?: number | undefined;
  },
  type: string,
  position: ValvePosition,
  testerGridLeak_ohm: number,
  relative: number,
): BiasShift {
  const beyond_ohm = position.gridLeak_ohm - testerGridLeak_ohm;
  const shift_V = Math.abs(section.gridCurrent_uA) * 1e-6 * Math.max(beyond_ohm, 0);
  const shiftDoubt_V = shift_V * relative;
  const printed_mS = catalogueEntry(type)?.published.gm_mS;
  const gm_mS = section.gm_mS ?? printed_mS;
  const known = { section: section.name, biasShift_V: shift_V };
  if (gm_mS === undefined || !(gm_mS > 0)) return { ...known, doubt: { biasShift_V: shiftDoubt_V } };
  const feedback = 1 + (gm_mS / 1e3) * (position.cathode_ohm ?? 0);
  const plate_mA = (gm_mS * shift_V) / feedback;
  const ofGm = (section.gm_mS === undefined ? GM_SPREAD : relative) / feedback;
  const plateDoubt_mA = plate_mA * Math.hypot(relative, ofGm);
  const hot = section.hot_mA;
  if (hot === undefined || !(hot > 0)) {
    return { ...known, plateShift_mA: plate_mA, doubt: { biasShift_V: shiftDoubt_V, plateShift_mA: plateDoubt_mA } };
  }
  return {
    ...known,
    plateShift_mA: plate_mA,
    plateShift_pct: (100 * plate_mA) / hot,
    doubt: {
      biasShift_V: shiftDoubt_V,
      plateShift_mA: plateDoubt_mA,
      plateShift_pct: Math.hypot((100 * plateDoubt_mA) / hot, (100 * plate_mA * relative) / hot),
    },
  };
}

/** A grid leak above the sheet's limit, in words. */
export function leakAboveSheet(type: string, { gridLeak_ohm, cathode_ohm }: ValvePosition): string | undefined {
  const ratings = catalogueEntry(type)?.ratings;
  const most =
    cathode_ohm === undefined
      ? ratings?.gridLeakFixedBias_ohm
      : (ratings?.gridLeakCathodeBias_ohm ?? ratings?.gridLeakFixedBias_ohm);
  if (most === undefined || gridLeak_ohm <= most) return undefined;
  const kohm = (ohm: number) => `${Number((ohm / 1e3).toPrecision(3))} kΩ`;
  return `its grid leak of ${kohm(gridLeak_ohm)} is above the ${kohm(most)} that the sheet of the ${catalogueEntry(type)!.type} allows under ${cathode_ohm === undefined ? "fixed" : "cathode"} bias`;
}
