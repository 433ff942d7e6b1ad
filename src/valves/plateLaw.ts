/**
 * The law that both triode and pentode currents start from: current against a drive that rises smoothly from cut-off.
 *
 *     u = Ve/mu + h·(Vg + bend·r·(√(1 + (Vg/r)²) − 1) + offset_V),   r = 100/mu volts
 *     h = Ve/√(lowPlate_V² + Ve²)
 *     s = softness_V + softness·Ve
 *     E = s·ln(1 + e^(u/s))
 *     I = current_A · (E / 1 V)^exponent
 *
 * `Ve` is the voltage of the electrode that draws the current: the plate of a triode, the screen of a pentode.
 * `bend` is the loss of mu towards cut-off (island effect), `offset_V` the contact potential. The three-halves law,
 * a law with a fixed soft cut-off, and a law whose cut-off softens with plate voltage are all special cases, so that
 * a fit does not have to choose between them.
 *
 * @source the special cases: Child 1911 and Langmuir 1913 (remembered); N. Koren, Glass Audio 8(5), 1996 (read);
 *         Dempwolf, Holters and Zölzer, AES 131st Convention, paper 8507, 2011 (abstract read, equations remembered)
 */
export interface PlateLaw {
  readonly current_A: number;
  readonly mu: number;
  readonly exponent: number;
  readonly offset_V: number;
  readonly bend: number;
  readonly lowPlate_V: number;
  readonly softness_V: number;
  readonly softness: number;
}

/** Current, drive, and their slopes with respect to the drawing electrode, the grid, and a further electrode's pull. */
export interface LawCurrent {
  readonly current_A: number;
  readonly drive_V: number;
  readonly drive_perElectrode: number;
  readonly drive_perGrid: number;
  /** Slope against volts added straight to u. */
  readonly drive_perPull: number;
  /** dI/dE. */
  readonly current_perDrive: number;
}

/**
 * @param electrode_V  below 0 it is taken as 0
 * @param pull_V       volts added to u by a further electrode
 */
export function lawCurrent(law: PlateLaw, electrode_V: number, grid_V: number, pull_V = 0): LawCurrent {
  const forward = electrode_V > 0 || law.lowPlate_V === 0;
  const ve = forward ? electrode_V : 0;
  const root = Math.hypot(law.lowPlate_V, ve);
  const h = law.lowPlate_V === 0 ? 1 : ve / root;
  const h_perElectrode = law.lowPlate_V === 0 || !forward ? 0 : law.lowPlate_V ** 2 / root ** 3;

  const r = 100 / law.mu;
  const bow = Math.sqrt(1 + (grid_V / r) ** 2);
  const effective_V = grid_V + law.bend * r * (bow - 1) + law.offset_V;
  const effective_perGrid = 1 + (law.bend * grid_V) / (r * bow);

  const u = ve / law.mu + h * effective_V + pull_V;
  const u_perElectrode = forward ? 1 / law.mu + h_perElectrode * effective_V : 0;
  const u_perGrid = h * effective_perGrid;

  const s = law.softness_V + law.softness * Math.max(ve, 0);
  const s_perElectrode = ve > 0 ? law.softness : 0;
  const { value, perU, perS } = softened(u, s);

  const power = value > 0 ? value ** (law.exponent - 1) : 0;
  return {
    current_A: law.current_A * power * value,
    drive_V: value,
    drive_perElectrode: perU * u_perElectrode + perS * s_perElectrode,
    drive_perGrid: perU * u_perGrid,
    drive_perPull: perU,
    current_perDrive: law.current_A * law.exponent * power,
  };
}

/** s·ln(1 + e^(u/s)), with its slopes; for s = 0 the larger of u and 0. */
export function softened(u: number, s: number): { value: number; perU: number; perS: number } {
  if (s <= 0 || u > 500 * s) return u > 0 ? { value: u, perU: 1, perS: 0 } : { value: 0, perU: 0, perS: 0 };
  const x = u / s;
  if (x < -500) return { value: 0, perU: 0, perS: 0 };
  const small = Math.exp(-Math.abs(x));
  const log = Math.max(x, 0) + Math.log1p(small);
  const logistic = x >= 0 ? 1 / (1 + small) : small / (1 + small);
  return { value: s * log, perU: logistic, perS: log - x * logistic };
}
