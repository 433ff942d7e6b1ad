/**
 * A section by the three-halves law: plate current = perveance·(grid_V + plate_V/mu)^1.5 above zero.
 *
 * @source Child 1911, Langmuir 1913 (from memory); a net list takes the same law
 */
export interface TriodeLaw {
  readonly mu: number;
  readonly perveance_mA_per_V1p5: number;
}

export function plate_mA(law: TriodeLaw, plate_V: number, grid_V: number): number {
  return law.perveance_mA_per_V1p5 * Math.max(0, grid_V + plate_V / law.mu) ** 1.5;
}

export function gm_mS(law: TriodeLaw, plate_V: number, grid_V: number): number {
  return 1.5 * law.perveance_mA_per_V1p5 * Math.sqrt(Math.max(0, grid_V + plate_V / law.mu));
}
