import { gridCurrent } from "./gridLaw.ts";
import { lawCurrent } from "./plateLaw.ts";
import type { TriodeModel, ValveCurrents } from "./valveModel.ts";

/**
 * Triode currents: the plate law, closed at the knee.
 *
 *     Ia = I(Va, Vg) · Va²/(Va² + knee_V²) for Va above 0, else 0
 *
 * with I of `plateLaw.ts`. A `knee_V` of 0 leaves the law bare. Grid current is a law of its own (`GridLaw`) and is
 * not taken off the plate's: the plate law is fitted to plate current.
 */
export function triodeCurrents(model: TriodeModel, plate_V: number, grid_V: number): ValveCurrents {
  const { grid_A, grid_perGrid } = gridCurrent(model.gridCurrent, grid_V);
  const law = lawCurrent(model, plate_V, grid_V);
  const [open, open_perPlate] = opening(plate_V, model.knee_V);
  const slope = open * law.current_perDrive;
  return {
    plate_A: open * law.current_A,
    grid_A,
    screen_A: 0,
    dPlate: [slope * law.drive_perElectrode + open_perPlate * law.current_A, slope * law.drive_perGrid, 0],
    dGrid: [0, grid_perGrid, 0],
    dScreen: [0, 0, 0],
  };
}

function opening(plate_V: number, knee_V: number): [open: number, perPlate: number] {
  if (knee_V === 0) return [1, 0];
  if (plate_V <= 0) return [0, 0];
  const whole = plate_V ** 2 + knee_V ** 2;
  return [plate_V ** 2 / whole, (2 * plate_V * knee_V ** 2) / whole ** 2];
}
