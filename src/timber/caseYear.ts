import { humidityAtWall_pct } from "./air.ts";
import type { MonthOfAir, Panel } from "./caseAsk.ts";
import { coatSurface_m_per_s } from "./coats.ts";
import { diffusivityAt, knownDiffusivity } from "./diffusivity.ts";
import { equilibriumMoisture_pct } from "./emc.ts";
import type { Face } from "./face.ts";
import { type Climate, faceValue, type Grid, grid, meanOf, pass } from "./slab.ts";

/** The inner face's temperature from the room's, and the share of the day that it is so warm. */
export interface WarmFace {
  wall_C(room_C: number): number;
  readonly share: number;
}

export interface CaseYear {
  readonly low_pct: number;
  readonly high_pct: number;
  /** Mean as each month of the repeating year ends. */
  readonly months: readonly { readonly month: number; readonly moisture_pct: number }[];
  readonly parcel_pct?: number;
  /** ∫M·(z − h/2)·dz·12/h³, percent per metre, where it is largest. */
  readonly bend_pct_per_m: number;
  /** Most that a face is drier than the mean. */
  readonly steepest_pct: number;
}

export interface Journey {
  readonly days: number;
  readonly temperature_C: number;
  readonly humidity_pct: number;
}

const month_s = (365.25 / 12) * 86_400;
/** Years after which the seasons of a panel repeat, at the latest. */
const mostYears = 12;

/** A panel's moisture through the parcel, then month by month until the years repeat. */
export function caseYear(
  panel: Panel,
  months: readonly MonthOfAir[],
  warm: WarmFace | undefined,
  parcel?: Journey,
): CaseYear {
  const slab: Grid = grid(panel.thickness_mm / 1000);
  const isGiven = panel.tangential_per_pct !== undefined && panel.radial_per_pct !== undefined;
  const { law, factor } = knownDiffusivity(
    isGiven
      ? { density_kg_m3: panel.density_kg_m3 ?? 650 }
      : { species: panel.species, ...(panel.wood && { wood: panel.wood }) },
  );
  const moisture = new Float64Array(slab.size_m.length).fill(panel.moisture_pct);
  const coats = panel.coats ?? [];
  const face = (emc_pct: number, side: "first" | "second"): Face => ({
    open: true,
    emc_pct,
    surface_m_per_s: coatSurface_m_per_s(coats, side),
  });
  const climate = (wood_C: number, outer_pct: number, inner_pct: number): Climate => ({
    diffusivity: diffusivityAt(law, factor, wood_C),
    faces: [face(outer_pct, "first"), face(inner_pct, "second")],
  });

  let [parcelLow, parcelHigh] = [Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY];
  let parcel_pct: number | undefined;
  if (parcel && parcel.days > 0) {
    const emc_pct = equilibriumMoisture_pct(parcel.temperature_C, parcel.humidity_pct);
    pass(slab, moisture, parcel.days * 86_400, climate(parcel.temperature_C, emc_pct, emc_pct), ({ to_pct }) => {
      [parcelLow, parcelHigh] = [Math.min(parcelLow, to_pct), Math.max(parcelHigh, to_pct)];
      return false;
    });
    parcel_pct = meanOf(slab, moisture);
  }

  let [low, high, bend, steepest] = [0, 0, 0, 0];
  let ends: { month: number; moisture_pct: number }[] = [];
  for (let year = 0; year < mostYears; year++) {
    const before = meanOf(slab, moisture);
    [low, high, bend, steepest] = [Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY, 0, 0];
    ends = [];
    for (const { month, temperature_C, humidity_pct } of months) {
      const room_pct = equilibriumMoisture_pct(temperature_C, humidity_pct);
      const wall_C = warm?.wall_C(temperature_C) ?? temperature_C;
      const share = warm?.share ?? 0;
      const warm_pct = warm
        ? equilibriumMoisture_pct(wall_C, humidityAtWall_pct(temperature_C, humidity_pct, wall_C))
        : room_pct;
      const inner_pct = share * warm_pct + (1 - share) * room_pct;
      const air = climate(temperature_C + (share * (wall_C - temperature_C)) / 2, room_pct, inner_pct);
      pass(slab, moisture, month_s, air, (step) => {
        [low, high] = [Math.min(low, step.to_pct), Math.max(high, step.to_pct)];
        const now = step.end();
        const here = bendOf(slab, now);
        if (Math.abs(here) > Math.abs(bend)) bend = here;
        for (const side of [0, 1] as const)
          steepest = Math.max(steepest, step.to_pct - faceValue(slab, now, air, side));
        return false;
      });
      ends.push({ month, moisture_pct: meanOf(slab, moisture) });
    }
    if (year > 0 && Math.abs(meanOf(slab, moisture) - before) < 0.005) break;
  }
  return {
    low_pct: Math.min(low, parcelLow),
    high_pct: Math.max(high, parcelHigh),
    months: ends,
    ...(parcel_pct === undefined ? {} : { parcel_pct }),
    bend_pct_per_m: bend,
    steepest_pct: steepest,
  };
}

/**
 * How a profile of moisture would bend a free board, over its coefficient.
 *
 *     curvature = C·(12/h³)·∫M(z)·(z − h/2)·dz
 *
 * @source  elastic beam theory
 */
export function bendOf({ size_m, centre_m, thickness_m }: Grid, moisture_pct: Float64Array): number {
  let moment = 0;
  for (let i = 0; i < size_m.length; i++) moment += moisture_pct[i]! * (centre_m[i]! - thickness_m / 2) * size_m[i]!;
  return (12 * moment) / thickness_m ** 3;
}
