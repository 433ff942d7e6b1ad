import { factorSparseReal, sparseDeterminantSign } from "../maths/linear/sparseReal.ts";
import type { Circuit } from "./circuit.ts";
import type { Settled } from "./settle.ts";

/**
 * Whether a real circuit would leave this rest: it latches, like two valves each holding the other's grid.
 *
 * Every node has some capacitance, so the rest is left when J·v + s·v = 0 has a root with s > 0. For large s the
 * determinant's sign is that of a circuit that certainly stays; where it differs at s = 0 it passes through nothing an
 * odd number of times in between.
 *
 * @remarks An even number of such roots, or an oscillation, is not seen.
 */
export function latches(circuit: Circuit, settled: Settled): boolean {
  if (circuit.devices.length === 0) return false;
  const held = settled.matrix.slice();
  const heavy_S = 1e3 * held.reduce((top, value) => Math.max(top, Math.abs(value)), 1);
  for (let i = 0; i < circuit.nodeNames.length; i++) {
    held[i * circuit.size + i] = held[i * circuit.size + i]! + heavy_S;
  }
  const { steady } = circuit.solvers;
  if (factorSparseReal(steady, held) >= 0) return false;
  const sign = sparseDeterminantSign(steady);
  return factorSparseReal(steady, settled.matrix) < 0 && sparseDeterminantSign(steady) !== sign;
}
