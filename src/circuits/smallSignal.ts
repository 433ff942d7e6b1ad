import { type ComplexVector, complexVector } from "../maths/linear/complexLu.ts";
import {
  factorSparseComplex,
  type SparseComplexSolver,
  solveSparseComplex,
  solveSparseComplexTransposed,
  sparseComplexSolver,
} from "../maths/linear/sparseComplex.ts";
import type { Circuit } from "./circuit.ts";
import { deviceCurrents, mostElectrodes } from "./device.ts";
import { electrodeVolts, stampSlopes } from "./settle.ts";

/** A circuit for small alternating signals about its rest: valves are their slopes, all sources stand at zero. */
export interface SmallSignalCircuit {
  readonly circuit: Circuit;
  /** Real part of the matrix, slopes included. */
  readonly real: Float64Array;
  readonly solver: SparseComplexSolver;
  /** Imaginary part of a real right-hand side. */
  readonly nothing: Float64Array;
}

/**
 * @param x       the unknowns at rest; left out, for a circuit of straight parts only
 * @param solver  one kept from a circuit of the same pattern, its order of elimination included
 */
export function smallSignal(
  circuit: Circuit,
  x?: Float64Array,
  solver: SparseComplexSolver = sparseComplexSolver(circuit.solvers.alternating),
): SmallSignalCircuit {
  const real = circuit.alternating.slice();
  const u = new Float64Array(mostElectrodes);
  const at = deviceCurrents();
  for (const device of x === undefined ? [] : circuit.devices) {
    electrodeVolts(device.nodes, x!, u);
    device.evaluate(u, at);
    stampSlopes(real, circuit.size, device.nodes, at.slope);
  }
  return {
    circuit,
    real,
    solver,
    nothing: new Float64Array(circuit.size),
  };
}

/** @returns −1, or the unknown that nothing determines at this frequency */
export function factorAt({ circuit, real, solver }: SmallSignalCircuit, frequency_Hz: number): number {
  const omega = 2 * Math.PI * frequency_Hz;
  const { re, im } = solver.matrix;
  for (const place of solver.pattern.places) {
    re[place] = real[place]!;
    im[place] = 0;
  }
  for (const { at, value } of circuit.reactive) im[at] = im[at]! + omega * value;
  return factorSparseComplex(solver);
}

/** The unknowns' response to a right-hand side that is real, at the frequency last factored; written into `into`. */
export function answerTo(
  { solver, nothing }: SmallSignalCircuit,
  drive: Float64Array,
  into: ComplexVector,
): ComplexVector {
  solveSparseComplex(solver, { re: drive, im: nothing }, into);
  return into;
}

/** How one reading, given by its weights on the unknowns, answers to a right-hand side in every row; see `answerTo`. */
export function reachOf(
  { solver, nothing }: SmallSignalCircuit,
  probe: Float64Array,
  into: ComplexVector,
): ComplexVector {
  solveSparseComplexTransposed(solver, { re: probe, im: nothing }, into);
  return into;
}

export function answerVector({ circuit }: SmallSignalCircuit): ComplexVector {
  return complexVector(circuit.size);
}
