import type { PlateLaw } from "./plateLaw.ts";

/** Grid current, a smooth onset: Ig = current_A · (softness_V · ln(1 + e^((Vg + onset_V)/softness_V)))^exponent. */
export interface GridLaw {
  readonly current_A: number;
  readonly onset_V: number;
  readonly softness_V: number;
  readonly exponent: number;
}

/** A triode's curves as a plain object that can stand in a net list; the formula stands in `triode.ts`. */
export interface TriodeModel extends PlateLaw {
  readonly kind: "triode";
  /** Below about this plate voltage the plate loses its current to the grid; 0 for the bare law. */
  readonly knee_V: number;
  readonly gridCurrent?: GridLaw;
}

/** How a pentode's cathode current divides between plate and screen; the formula stands in `pentode.ts`. */
export interface ScreenShare {
  /** The screen's share of the cathode current at high plate voltage. */
  readonly far: number;
  readonly knee_V: number;
  /** Rise of the knee with the drive, volts per volt. */
  readonly kneePerDrive: number;
  readonly power: number;
  /** 0: the knee closes exponentially; larger: with an ever longer tail. */
  readonly tail: number;
}

/** A pentode's or beam tetrode's curves; `mu` is the grid's over the screen, `plateMu` the grid's over the plate. */
export interface PentodeModel extends PlateLaw {
  readonly kind: "pentode";
  readonly plateMu: number;
  readonly screen: ScreenShare;
  readonly gridCurrent?: GridLaw;
}

export type ValveModel = TriodeModel | PentodeModel;

export type Partials = [plate: number, grid: number, screen: number];

/**
 * Currents into the electrodes, in A, and their partial derivatives in A/V with respect to plate, grid and screen
 * voltage. The cathode carries the sum of the three.
 */
export interface ValveCurrents {
  plate_A: number;
  grid_A: number;
  screen_A: number;
  dPlate: Partials;
  dGrid: Partials;
  dScreen: Partials;
}
