import type { Coefficients } from "./coefficients.ts";

/**
 * Cup of a flat-sawn board by the curvature of its rings.
 *
 *     a point (r, φ) seen from the pith moves to (r·(1 − e_R), φ·(1 − e_T)/(1 − e_R)),   e = C·(from − to)
 *
 * @param pith_mm  from the pith to the board's face
 * @returns mm by which the edges of the face rise over its middle; positive when the bark side goes hollow
 * @remarks Free of gradients through the thickness, which often bend a board more.
 * @source  polar geometry as in P. H. Mitchell, BioResources 11(3), 6416-6425 (2016), abstract read; map derived
 */
export function ringCup_mm(
  { tangential_per_pct, radial_per_pct }: Coefficients,
  width_mm: number,
  pith_mm: number,
  drop_pct: number,
): number {
  const radial = 1 - radial_per_pct * drop_pct;
  const tangential = 1 - tangential_per_pct * drop_pct;
  const half = width_mm / 2;
  const angle = (Math.atan2(half, pith_mm) * tangential) / radial;
  return Math.hypot(half, pith_mm) * radial * Math.cos(angle) - pith_mm * radial;
}
