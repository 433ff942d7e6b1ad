/**
 * A part whose current bends with voltage, seen from the solver: currents into its electrodes and their slopes.
 *
 * Voltages `u` are counted from the last electrode, which carries away the sum of the other currents.
 */
export interface Device {
  /** Place in the net list. */
  readonly part: number;
  /** Unknown of each electrode, −1 for ground; the last is the one voltages are counted from. */
  readonly nodes: readonly number[];
  evaluate(u: Float64Array, into: DeviceCurrents): void;
}

export interface DeviceCurrents {
  /** A into each electrode but the last. */
  readonly current_A: Float64Array;
  /** A/V, row by electrode, column by voltage: d current[i] / d u[j] at 3·i + j. */
  readonly slope: Float64Array;
}

export const mostElectrodes = 3;

export function deviceCurrents(): DeviceCurrents {
  return { current_A: new Float64Array(mostElectrodes), slope: new Float64Array(mostElectrodes * mostElectrodes) };
}

export type Curve = Device["evaluate"];
