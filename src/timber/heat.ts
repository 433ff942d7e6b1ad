/** From a warm face to still or gently moved air, W/(m²K); 5 to 25 in a workshop. */
const usualPassage_W_m2K = 10;

/**
 * Heat conduction of wood across the grain.
 *
 *     k = G·(0.1941 + 0.004064·M) + 0.01864      W/(m·K),  G = specific gravity (oven-dry mass), M in percent
 *
 * @remarks ±20 %; about 24 °C, M below 25, G above 0.3.
 * @source  Wood Handbook, FPL-GTR-190, eq. 4-15 (read)
 */
export function conductivity_W_mK(specificGravity: number, moisture_pct: number): number {
  return specificGravity * (0.1941 + 0.004064 * moisture_pct) + 0.01864;
}

/**
 * How warm a board on a hot plate is, once warm through (tens of minutes).
 *
 *     free face = air + (plate − air)/(1 + h·L/k),   wood = halfway between plate and free face
 *
 * @returns the free face's temperature, at which the room's vapour is judged, and that of the wood's middle
 * @remarks One passage of heat of 10 W/(m²K) at the free face, uncovered; a cover would warm it. Moisture pushed by the
 *   gradient of temperature is left out.
 */
export function plateWood(
  plate_C: number,
  air_C: number,
  thickness_mm: number,
  density_kg_m3: number,
): { readonly face_C: number; readonly wood_C: number } {
  const k = conductivity_W_mK(density_kg_m3 / 1120, 8);
  const face_C = air_C + (plate_C - air_C) / (1 + (usualPassage_W_m2K * thickness_mm) / 1000 / k);
  return { face_C, wood_C: (plate_C + face_C) / 2 };
}
