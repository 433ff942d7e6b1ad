import { determinantSign, factorReal, type RealSystem, realSystem, solveReal, solveRealTransposed } from "./realLu.ts";
import { planElimination, type SparsePattern, type SparsePlan, vanished } from "./sparsePlan.ts";

/**
 * Solves sparse systems of one pattern again and again: the order of elimination is found once, then kept while its
 * pivots stay good; where they turn poor it is found anew, and where that fails the dense way decides.
 */
export interface SparseRealSolver {
  readonly pattern: SparsePattern;
  plan: SparsePlan | undefined;
  slots: Float64Array;
  /** In use where the sparse way found no pivots. */
  dense: RealSystem | undefined;
  /** Factorisations since pivots were last looked for. */
  sincePlanned: number;
  readonly work: Float64Array;
  /** Largest entry of each column. */
  readonly top: Float64Array;
}

export function sparseRealSolver(pattern: SparsePattern): SparseRealSolver {
  const { size } = pattern;
  return {
    pattern,
    plan: undefined,
    slots: new Float64Array(0),
    dense: undefined,
    sincePlanned: leastBetweenPlans,
    work: new Float64Array(size),
    top: new Float64Array(size),
  };
}

/** Looking for pivots costs about as much as a hundred factorisations: where they go bad sooner, the dense way is cheaper. */
export const leastBetweenPlans = 10;

/** Multipliers above this lose too many digits; pivots are chosen again. */
export const largestMultiplier = 1e5;

/**
 * @param matrix  dense, row after row; only the pattern's places are read, and it is left as it is
 * @returns −1 when the matrix could be factored, else the unknown that nothing determines
 */
export function factorSparseReal(solver: SparseRealSolver, matrix: Float64Array): number {
  solver.dense = undefined;
  solver.sincePlanned++;
  if (solver.plan !== undefined && eliminated(solver, solver.plan, matrix)) return -1;
  if (solver.sincePlanned > leastBetweenPlans) {
    solver.sincePlanned = 0;
    const values = Float64Array.from(solver.pattern.places, (place) => matrix[place]!);
    const plan = planElimination(solver.pattern, values);
    if (plan !== undefined) {
      solver.plan = plan;
      solver.slots = new Float64Array(plan.slots);
      if (eliminated(solver, plan, matrix)) return -1;
    }
  }
  const dense = realSystem(solver.pattern.size);
  dense.matrix.set(matrix);
  solver.dense = dense;
  return factorReal(dense);
}

function eliminated({ pattern, slots: a, top }: SparseRealSolver, plan: SparsePlan, matrix: Float64Array): boolean {
  const { size: n, slotOf, entryColumn, upperStart, upperSlot, lowerStart, lowerSlot, targets } = plan;
  const { places } = pattern;
  a.fill(0);
  top.fill(0);
  for (let e = 0; e < places.length; e++) {
    const value = matrix[places[e]!]!;
    const column = entryColumn[e]!;
    a[slotOf[e]!] = value;
    if (Math.abs(value) > top[column]!) top[column] = Math.abs(value);
  }
  let p = 0;
  for (let k = 0; k < n; k++) {
    if (!(Math.abs(a[k]!) > vanished * top[k]!)) return false;
    const inverse = 1 / a[k]!;
    const from = upperSlot + upperStart[k]!;
    const end = upperSlot + upperStart[k + 1]!;
    for (let t = lowerSlot + lowerStart[k]!; t < lowerSlot + lowerStart[k + 1]!; t++) {
      const factor = a[t]! * inverse;
      a[t] = factor;
      if (!(Math.abs(factor) <= largestMultiplier)) return false;
      for (let s = from; s < end; s++, p++) a[targets[p]!] = a[targets[p]!]! - factor * a[s]!;
    }
  }
  return true;
}

/** x of A·x = b, written into `x`; `b` is left as it is unless it is the same array. */
export function solveSparseReal(solver: SparseRealSolver, b: Float64Array, x: Float64Array): void {
  if (solver.dense !== undefined) {
    solveReal(solver.dense, b, x);
    return;
  }
  const { slots: a, work: y } = solver;
  const {
    size: n,
    rowOf,
    columnOf,
    upperStart,
    upperColumn,
    upperSlot,
    lowerStart,
    lowerRow,
    lowerSlot,
  } = solver.plan!;
  for (let k = 0; k < n; k++) y[k] = b[rowOf[k]!]!;
  for (let k = 0; k < n; k++) {
    const value = y[k]!;
    if (value === 0) continue;
    for (let t = lowerStart[k]!; t < lowerStart[k + 1]!; t++) {
      y[lowerRow[t]!] = y[lowerRow[t]!]! - a[lowerSlot + t]! * value;
    }
  }
  for (let k = n - 1; k >= 0; k--) {
    let sum = y[k]!;
    for (let s = upperStart[k]!; s < upperStart[k + 1]!; s++) sum -= a[upperSlot + s]! * y[upperColumn[s]!]!;
    y[k] = sum / a[k]!;
  }
  for (let k = 0; k < n; k++) x[columnOf[k]!] = y[k]!;
}

/** x of Aᵀ·x = b, from the same factors. */
export function solveSparseRealTransposed(solver: SparseRealSolver, b: Float64Array, x: Float64Array): void {
  if (solver.dense !== undefined) {
    solveRealTransposed(solver.dense, b, x);
    return;
  }
  const { slots: a, work: y } = solver;
  const {
    size: n,
    rowOf,
    columnOf,
    upperStart,
    upperColumn,
    upperSlot,
    lowerStart,
    lowerRow,
    lowerSlot,
  } = solver.plan!;
  for (let k = 0; k < n; k++) y[k] = b[columnOf[k]!]!;
  for (let k = 0; k < n; k++) {
    const value = y[k]! / a[k]!;
    y[k] = value;
    if (value === 0) continue;
    for (let s = upperStart[k]!; s < upperStart[k + 1]!; s++) {
      y[upperColumn[s]!] = y[upperColumn[s]!]! - a[upperSlot + s]! * value;
    }
  }
  for (let k = n - 1; k >= 0; k--) {
    let sum = y[k]!;
    for (let t = lowerStart[k]!; t < lowerStart[k + 1]!; t++) sum -= a[lowerSlot + t]! * y[lowerRow[t]!]!;
    y[k] = sum;
  }
  for (let k = 0; k < n; k++) x[rowOf[k]!] = y[k]!;
}

/** Sign of the determinant: 1 or −1. */
export function sparseDeterminantSign({ plan, slots, dense }: SparseRealSolver): number {
  if (dense !== undefined) return determinantSign(dense);
  let sign = plan!.sign;
  for (let k = 0; k < plan!.size; k++) if (slots[k]! < 0) sign = -sign;
  return sign;
}
