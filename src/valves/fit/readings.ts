import type { ValveModel } from "../model.ts";
import type { CurvePoint } from "./point.ts";

/** One current of one point. */
export interface Reading {
  readonly point: number;
  readonly of: "plate" | "screen";
  readonly value_A: number;
  readonly plate_V: number;
  readonly grid_V: number;
  readonly screen_V: number | undefined;
}

/** A point written down twice, alike to the last digit, is one reading and tells nothing of scatter. */
export function readingsOf(kind: ValveModel["kind"], points: readonly CurvePoint[]): Reading[] {
  const seen = new Set<string>();
  return points.flatMap((p, point): Reading[] => {
    const written = [p.plate_V, p.grid_V, p.screen_V, p.plate_mA, p.screen_mA].join(" ");
    if (seen.has(written)) return [];
    seen.add(written);
    const at = { point, plate_V: p.plate_V, grid_V: p.grid_V, screen_V: p.screen_V };
    const plate: Reading = { ...at, of: "plate", value_A: p.plate_mA / 1e3 };
    if (kind === "triode" || p.screen_mA === undefined) return [plate];
    return [plate, { ...at, of: "screen", value_A: p.screen_mA / 1e3 }];
  });
}

/**
 * Scatter of each reading over σ: √(I² + (f·I_max)²)/√(1 + f²), I_max being the highest of its kind.
 *
 * @param floor   f
 * @param screen  how much the screen's readings count, 1 as much as the plate's
 */
export function readingShape(readings: readonly Reading[], floor: number, screen: number): number[] {
  const top = { plate: 0, screen: 0 };
  for (const r of readings) top[r.of] = Math.max(top[r.of], r.value_A);
  return readings.map(
    (r) =>
      (Math.hypot(r.value_A, floor * Math.max(top[r.of], 1e-12)) / Math.hypot(1, floor)) *
      (r.of === "screen" ? 1 / screen : 1),
  );
}
