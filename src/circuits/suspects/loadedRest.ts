import { factorSparseReal, solveSparseReal } from "../../maths/linear/sparseReal.ts";
import type { Circuit } from "../circuit.ts";
import { deviceCurrents, mostElectrodes } from "../device.ts";
import { electrodeVolts, stampSlopes } from "../settle.ts";

/** A circuit at rest with a meter from one unknown to ground, and its slope matrix there. */
export interface LoadedRest {
  readonly x: Float64Array;
  readonly matrix: Float64Array;
}

const mostSteps = 12;
const still = 1e-9;

/**
 * The rest that a meter shifts an unloaded circuit to: chord steps with the unloaded slopes, which the circuit's solver
 * must hold factored, and the meter's own share of them by Sherman and Morrison's formula. A light load moves the rest
 * so little that this settles in a few steps; where it does not, Newton's own are made.
 *
 * @param x  the unloaded rest
 * @param at  unknown that the meter hangs on
 * @returns the rest where one was found, and whether the solver's factors are now those of some other point
 */
export function loadedRest(
  circuit: Circuit,
  x: Float64Array,
  at: number,
  meter_S: number,
): { readonly rest: LoadedRest | undefined; readonly factorsLost: boolean } {
  const { steady: solver } = circuit.solvers;
  const moved = x.slice();
  const own = new Float64Array(circuit.size);
  const step = new Float64Array(circuit.size);
  own[at] = 1;
  solveSparseReal(solver, own, own);
  const share = meter_S / (1 + meter_S * own[at]!);
  let before = Number.POSITIVE_INFINITY;
  for (let n = 0; n < mostSteps; n++) {
    const residual = residualAt(circuit, moved);
    residual[at]! += meter_S * moved[at]!;
    solveSparseReal(solver, residual, step);
    const taken = share * step[at]!;
    let length = 0;
    for (let i = 0; i < circuit.size; i++) {
      const by = step[i]! - taken * own[i]!;
      moved[i]! -= by;
      if (i < circuit.nodeNames.length) length = Math.max(length, Math.abs(by) / (1 + Math.abs(moved[i]!)));
    }
    if (length <= still)
      return { rest: { x: moved, matrix: slopesAt(circuit, moved, at, meter_S) }, factorsLost: false };
    if (!(length < 0.7 * before)) break;
    before = length;
  }
  return { rest: byNewton(circuit, x, at, meter_S), factorsLost: true };
}

const mostNewtonSteps = 30;
/** Longest step, so that a junction is not run over. */
const longest_V = 30;

function byNewton(circuit: Circuit, x: Float64Array, at: number, meter_S: number): LoadedRest | undefined {
  const { steady: solver } = circuit.solvers;
  const moved = x.slice();
  const step = new Float64Array(circuit.size);
  for (let n = 0; n < mostNewtonSteps; n++) {
    const matrix = slopesAt(circuit, moved, at, meter_S);
    if (factorSparseReal(solver, matrix) >= 0) return undefined;
    const residual = residualAt(circuit, moved);
    residual[at]! += meter_S * moved[at]!;
    solveSparseReal(solver, residual, step);
    let length_V = 0;
    for (let i = 0; i < circuit.nodeNames.length; i++) length_V = Math.max(length_V, Math.abs(step[i]!));
    const share = Math.min(1, longest_V / length_V);
    for (let i = 0; i < circuit.size; i++) moved[i]! -= share * step[i]!;
    if (length_V <= 1e-7) return { x: moved, matrix };
  }
  return undefined;
}

function residualAt({ size, steady, drive, solvers, devices }: Circuit, x: Float64Array): Float64Array {
  const residual = drive.map((amps) => -amps);
  for (const place of solvers.steady.pattern.places) {
    const value = steady[place]!;
    if (value === 0) continue;
    const row = (place / size) | 0;
    residual[row]! += value * x[place - row * size]!;
  }
  const u = new Float64Array(mostElectrodes);
  const currents = deviceCurrents();
  for (const { nodes, evaluate } of devices) {
    electrodeVolts(nodes, x, u);
    evaluate(u, currents);
    const last = nodes.length - 1;
    for (let k = 0; k < last; k++) {
      const amps = currents.current_A[k]!;
      if (nodes[k]! >= 0) residual[nodes[k]!]! += amps;
      if (nodes[last]! >= 0) residual[nodes[last]!]! -= amps;
    }
  }
  return residual;
}

function slopesAt({ size, steady, devices }: Circuit, x: Float64Array, at: number, meter_S: number): Float64Array {
  const matrix = steady.slice();
  matrix[at * size + at]! += meter_S;
  const u = new Float64Array(mostElectrodes);
  const currents = deviceCurrents();
  for (const { nodes, evaluate } of devices) {
    electrodeVolts(nodes, x, u);
    evaluate(u, currents);
    stampSlopes(matrix, size, nodes, currents.slope);
  }
  return matrix;
}
