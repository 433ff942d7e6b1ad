import { patternOf, type SparsePattern } from "../maths/linear/sparsePlan.ts";
import { type SparseRealSolver, sparseRealSolver } from "../maths/linear/sparseReal.ts";
import type { Device } from "./device.ts";
import type { Layout } from "./layout.ts";
import type { StraightEquations } from "./straight.ts";

/** What is kept between solutions of one net list, whatever its values: patterns, and the order of elimination. */
export interface CircuitSolvers {
  readonly steady: SparseRealSolver;
  readonly alternating: SparsePattern;
}

export function solversOf(layout: Layout, straight: StraightEquations, devices: readonly Device[]): CircuitSolvers {
  const { size, nodeNames } = layout;
  const more = new Float64Array(size * size);
  // Leaks that help a search stand at every node; a device's slopes join all its electrodes.
  for (let i = 0; i < nodeNames.length; i++) more[i * size + i] = 1;
  for (const { nodes } of devices) {
    for (const row of nodes) for (const column of nodes) if (row >= 0 && column >= 0) more[row * size + column] = 1;
  }
  const reactive = new Float64Array(size * size);
  for (const { at } of straight.reactive) reactive[at] = 1;
  return {
    steady: sparseRealSolver(patternOf(size, straight.steady, more)),
    alternating: patternOf(size, straight.alternating, reactive, more),
  };
}
