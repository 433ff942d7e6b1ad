import type { Coefficients } from "./coefficients.ts";

/**
 * Cup of a board by the curvature of its rings, at any ring angle.
 *
 *     a point (r, φ) seen from the pith moves to (r·(1 − e_R), φ·(1 − e_T)/(1 − e_R)),   e = C·(from − to)
 *     cup = middle of the edges' chord over the middle of the face, away from the pith
 *
 * @param pith_mm  from the pith to the middle of the board's face
 * @param ringAngle_deg  between the rings there and the face: 0 flat-sawn, 90 quarter-sawn
 * @returns mm by which the edges of the face rise over its middle; positive when the bark side goes hollow
 * @throws RangeError  the pith lies within the board's width, where rings have no one angle: see `pithIsWithin`
 * @remarks Free of gradients through the thickness, which often bend a board more.
 * @source  polar geometry as in P. H. Mitchell, BioResources 11(3), 6416-6425 (2016), abstract read; map derived
 */
export function ringCup_mm(
  { tangential_per_pct, radial_per_pct }: Coefficients,
  width_mm: number,
  pith_mm: number,
  drop_pct: number,
  ringAngle_deg = 0,
): number {
  if (pithIsWithin(width_mm, pith_mm, ringAngle_deg)) {
    throw new RangeError(
      `the pith lies ${pith_mm} mm from the middle of a face ${width_mm} mm wide; ask pithIsWithin first`,
    );
  }
  const radial = 1 - radial_per_pct * drop_pct;
  const turn = (1 - tangential_per_pct * drop_pct) / radial;
  const angle = (ringAngle_deg * Math.PI) / 180;
  const [across, away] = [pith_mm * Math.sin(angle), pith_mm * Math.cos(angle)];
  const image = (x_mm: number) => {
    const [x, y] = [across + x_mm, away];
    // φ counts from the ray through the middle of the face, so that the middle stays on it.
    const phi = Math.atan2(across * y - away * x, across * x + away * y) * turn;
    const r = Math.hypot(x, y) * radial;
    return [r * Math.sin(angle - phi), r * Math.cos(angle - phi)] as const;
  };
  const [left, middle, right] = [image(-width_mm / 2), image(0), image(width_mm / 2)];
  const [cx, cy] = [right[0] - left[0], right[1] - left[1]];
  const [mx, my] = [(left[0] + right[0]) / 2 - middle[0], (left[1] + right[1]) / 2 - middle[1]];
  return (my * cx - mx * cy) / Math.hypot(cx, cy);
}

/** Whether the pith lies within the board's width, seen along the rings' normal. */
export function pithIsWithin(width_mm: number, pith_mm: number, ringAngle_deg: number): boolean {
  return pith_mm <= (width_mm / 2) * Math.sin((ringAngle_deg * Math.PI) / 180) * (1 + 1e-9);
}
