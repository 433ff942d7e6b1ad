import type { ValveModel } from "../model.ts";
import { lawCurrent } from "../plateLaw.ts";
import type { Scale } from "./parameters.ts";

/** Values of the form's functions at a place, and their slopes. */
export interface FormAt {
  readonly value: Float64Array;
  readonly perPlate: Float64Array;
  readonly perGrid: Float64Array;
}

/** How fast the surface's finer turns die away, by degree. */
const FADE = 0.7;
const DEGREE = 4;
/** e-folds of drive and of plate voltage over which a valve's curves keep their character. */
const DRIVE_REACH = 1.2;
const PLATE_REACH = 0.8;

/** How many functions the surface is made of. */
export const FORM_COUNT = ((DEGREE + 1) * (DEGREE + 2)) / 2;

/**
 * What a valve's current may differ by from any law of our form: a smooth random surface over drive and plate voltage,
 *
 *     I_true = I_law · (1 + τ·Σ z_ij · fade^(i+j) · He_i(x)·He_j(y)/√(i!·j!)),   i + j ≤ 4,  z normal of deviation one
 *     x = ln((E + 0.03·E₀)/E₀)/1.2,   y = ln(√(Va² + (0.05·V₀)²)/V₀)/0.8
 *
 * with E the drive of the fitted law, E₀ and V₀ the scale of the points. Near the middle of the points it is τ to
 * within a factor; it grows towards cut-off and outside, as misses of such laws do.
 *
 * @source Mehler's expansion of a smooth (Gaussian) covariance in Hermite polynomials, cut off (remembered)
 */
export function formSurface(model: ValveModel, scale: Scale) {
  return (plate_V: number, grid_V: number, screen_V: number | undefined): FormAt => {
    const va = Math.max(plate_V, 0);
    const isPentode = model.kind === "pentode";
    const law = isPentode
      ? lawCurrent(model, screen_V ?? plate_V, grid_V, va / model.plateMu)
      : lawCurrent(model, plate_V, grid_V);
    const drive_V = law.drive_V + 0.03 * scale.drive_V;
    const x = Math.log(drive_V / scale.drive_V) / DRIVE_REACH;
    const x_perGrid = law.drive_perGrid / drive_V / DRIVE_REACH;
    const x_perPlate = (isPentode ? law.drive_perPull / model.plateMu : law.drive_perElectrode) / drive_V / DRIVE_REACH;
    const square = va ** 2 + (0.05 * scale.electrode_V) ** 2;
    const y = (0.5 * Math.log(square / scale.electrode_V ** 2)) / PLATE_REACH;
    const y_perPlate = va / square / PLATE_REACH;
    const [ofX, ofY] = [hermite(x), hermite(y)];
    const [value, perPlate, perGrid] = [0, 0, 0].map(() => new Float64Array(FORM_COUNT)) as [
      Float64Array,
      Float64Array,
      Float64Array,
    ];
    let n = 0;
    for (let i = 0; i <= DEGREE; i++) {
      for (let j = 0; i + j <= DEGREE; j++) {
        const fade = FADE ** (i + j);
        value[n] = fade * ofX.value[i]! * ofY.value[j]!;
        perGrid[n] = fade * ofX.slope[i]! * ofY.value[j]! * x_perGrid;
        perPlate[n] = fade * (ofX.slope[i]! * ofY.value[j]! * x_perPlate + ofX.value[i]! * ofY.slope[j]! * y_perPlate);
        n++;
      }
    }
    return { value, perPlate, perGrid };
  };
}

/** Hermite polynomials over √n!, and their slopes. */
function hermite(x: number): { value: number[]; slope: number[] } {
  const value = [1, x];
  for (let n = 1; n < DEGREE; n++) value.push((x * value[n]! - Math.sqrt(n) * value[n - 1]!) / Math.sqrt(n + 1));
  return { value, slope: value.map((_, n) => (n === 0 ? 0 : Math.sqrt(n) * value[n - 1]!)) };
}
