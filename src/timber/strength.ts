import { boardScatter, boardsDiffer, coefficientsOf } from "./coefficients.ts";
import type { Species } from "./species.ts";

/**
 * Strain across the grain at which wood parts, were it elastic.
 *
 *     ε = tension strength across / (E_T/E_L · 1.1 · bending modulus)
 *
 * @returns the share, and a range; 0.55 % (0.4 to 0.7) where the species' figures are not at hand
 * @source  Wood Handbook, FPL-GTR-190, tables 5-1, 5-3 (from memory); creep relieves a large part of the stress
 */
export function partingStrain(species?: Species): {
  readonly value: number;
  readonly low: number;
  readonly high: number;
} {
  const general = { value: 0.0055, low: 0.004, high: 0.007 };
  if (!species?.tensionAcross_MPa || !species.bendingModulus_MPa || !species.tangentialOverLong) return general;
  const value = species.tensionAcross_MPa / (species.tangentialOverLong * 1.1 * species.bendingModulus_MPa);
  return { value, low: Math.min(general.low, 0.7 * value), high: Math.max(general.high, 1.3 * value) };
}

/** Movement along the rings for each percent of moisture: of the species, or of hardwoods at large. */
export function tangentialOf(species?: Species): {
  readonly value: number;
  readonly low: number;
  readonly high: number;
} {
  const value = species ? coefficientsOf(species).best.tangential_per_pct : 0.0028;
  const spread = species ? boardsDiffer(species, 0) : boardScatter;
  return { value, low: Math.max(0, 1 - spread) * value, high: (1 + spread) * value };
}
