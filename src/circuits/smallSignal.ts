import {
  type ComplexSystem,
  type ComplexVector,
  complexSystem,
  complexVector,
  factorComplex,
  solveComplex,
} from "../maths/linear/complexLu.ts";
import type { Circuit } from "./circuit.ts";
import { deviceCurrents, mostElectrodes } from "./device.ts";
import { electrodeVolts, stampSlopes } from "./settle.ts";

/** A circuit for small alternating signals about its rest: valves are their slopes, all sources stand at zero. */
export interface SmallSignalCircuit {
  readonly circuit: Circuit;
  /** Real part of the matrix, slopes included. */
  readonly real: Float64Array;
  readonly system: ComplexSystem;
  /** Imaginary part of a real right-hand side. */
  readonly nothing: Float64Array;
}

/** @param x  the unknowns at rest; left out, for a circuit of straight parts only */
export function smallSignal(circuit: Circuit, x?: Float64Array): SmallSignalCircuit {
  const real = circuit.alternating.slice();
  const u = new Float64Array(mostElectrodes);
  const at = deviceCurrents();
  for (const device of x === undefined ? [] : circuit.devices) {
    electrodeVolts(device.nodes, x!, u);
    device.evaluate(u, at);
    stampSlopes(real, circuit.size, device.nodes, at.slope);
  }
  return { circuit, real, system: complexSystem(circuit.size), nothing: new Float64Array(circuit.size) };
}

/** @returns −1, or the unknown that nothing determines at this frequency */
export function factorAt({ circuit, real, system }: SmallSignalCircuit, frequency_Hz: number): number {
  const omega = 2 * Math.PI * frequency_Hz;
  system.re.set(real);
  system.im.fill(0);
  for (const { at, value } of circuit.reactive) system.im[at] = system.im[at]! + omega * value;
  return factorComplex(system);
}

/** The unknowns' response to a right-hand side that is real, at the frequency last factored; written into `into`. */
export function answerTo(
  { system, nothing }: SmallSignalCircuit,
  drive: Float64Array,
  into: ComplexVector,
): ComplexVector {
  solveComplex(system, { re: drive, im: nothing }, into);
  return into;
}

export function answerVector({ circuit }: SmallSignalCircuit): ComplexVector {
  return complexVector(circuit.size);
}
