import type { Snapshot } from "./course.ts";

/** Moisture at 41 depths from the first face to the second. */
export function profileOf({ slab, moisture_pct, surface_pct, second_pct }: Snapshot) {
  const { centre_m, thickness_m } = slab;
  const z = [0, ...centre_m, thickness_m];
  const m = [surface_pct, ...moisture_pct, second_pct];
  return Array.from({ length: 41 }, (_, i) => {
    const at = (thickness_m * i) / 40;
    const next = Math.max(
      1,
      z.findIndex((place) => place >= at * (1 - 1e-12)),
    );
    const share = (at - z[next - 1]!) / (z[next]! - z[next - 1]!);
    return { z_mm: 1000 * at, moisture_pct: m[next - 1]! + share * (m[next]! - m[next - 1]!) };
  });
}
