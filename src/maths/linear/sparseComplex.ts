import {
  type ComplexSystem,
  type ComplexVector,
  complexSystem,
  complexVector,
  factorComplex,
  solveComplex,
  solveComplexTransposed,
} from "./complexLu.ts";
import { planElimination, type SparsePattern, type SparsePlan, vanished } from "./sparsePlan.ts";
import { largestMultiplier, leastBetweenPlans } from "./sparseReal.ts";

/** As `SparseRealSolver`, for complex numbers; each solve is put right once by its own remainder. */
export interface SparseComplexSolver {
  readonly pattern: SparsePattern;
  /** The matrix to be factored, dense, row after row: fill in its places, then factor. */
  readonly matrix: { readonly re: Float64Array; readonly im: Float64Array };
  plan: SparsePlan | undefined;
  re: Float64Array;
  im: Float64Array;
  dense: ComplexSystem | undefined;
  sincePlanned: number;
  readonly work: ComplexVector;
  readonly remainder: ComplexVector;
  readonly correction: ComplexVector;
  readonly top: Float64Array;
}

export function sparseComplexSolver(pattern: SparsePattern): SparseComplexSolver {
  const { size } = pattern;
  return {
    pattern,
    matrix: complexVector(size * size),
    plan: undefined,
    re: new Float64Array(0),
    im: new Float64Array(0),
    dense: undefined,
    sincePlanned: leastBetweenPlans,
    work: complexVector(size),
    remainder: complexVector(size),
    correction: complexVector(size),
    top: new Float64Array(size),
  };
}

/** @returns −1 when `matrix` could be factored, else the unknown that nothing determines */
export function factorSparseComplex(solver: SparseComplexSolver): number {
  solver.dense = undefined;
  solver.sincePlanned++;
  if (solver.plan !== undefined && eliminated(solver, solver.plan)) return -1;
  const { re, im } = solver.matrix;
  if (solver.sincePlanned > leastBetweenPlans) {
    solver.sincePlanned = 0;
    // One real number stands in for each complex one: pivots are judged by size, and the elimination judges again.
    const values = Float64Array.from(solver.pattern.places, (place) => sized(re[place]!, im[place]!));
    const plan = planElimination(solver.pattern, values);
    if (plan !== undefined) {
      solver.plan = plan;
      solver.re = new Float64Array(plan.slots);
      solver.im = new Float64Array(plan.slots);
      if (eliminated(solver, plan)) return -1;
    }
  }
  const dense = complexSystem(solver.pattern.size);
  dense.re.set(re);
  dense.im.set(im);
  solver.dense = dense;
  return factorComplex(dense);
}

function sized(re: number, im: number): number {
  const size = Math.abs(re) + Math.abs(im);
  return re < 0 || (re === 0 && im < 0) ? -size : size;
}

/** Complex multiplications that factoring and solving took: what doing it again will cost. */
export function sparseWork({ plan, dense, pattern }: SparseComplexSolver): number {
  if (dense !== undefined || plan === undefined) return pattern.size ** 3 / 3;
  return plan.targets.length + 4 * plan.slots + 2 * pattern.places.length;
}

function eliminated({ pattern, matrix, re, im, top }: SparseComplexSolver, plan: SparsePlan): boolean {
  const { size: n, slotOf, entryColumn, upperStart, upperSlot, lowerStart, lowerSlot, targets } = plan;
  const { places } = pattern;
  re.fill(0);
  im.fill(0);
  top.fill(0);
  for (let e = 0; e < places.length; e++) {
    const [a, b] = [matrix.re[places[e]!]!, matrix.im[places[e]!]!];
    re[slotOf[e]!] = a;
    im[slotOf[e]!] = b;
    const column = entryColumn[e]!;
    top[column] = Math.max(top[column]!, Math.abs(a) + Math.abs(b));
  }
  let p = 0;
  for (let k = 0; k < n; k++) {
    const size2 = re[k]! * re[k]! + im[k]! * im[k]!;
    const inverseRe = re[k]! / size2;
    const inverseIm = -im[k]! / size2;
    if (!(Math.abs(re[k]!) + Math.abs(im[k]!) > vanished * top[k]!)) return false;
    const from = upperSlot + upperStart[k]!;
    const end = upperSlot + upperStart[k + 1]!;
    for (let t = lowerSlot + lowerStart[k]!; t < lowerSlot + lowerStart[k + 1]!; t++) {
      const factorRe = re[t]! * inverseRe - im[t]! * inverseIm;
      const factorIm = re[t]! * inverseIm + im[t]! * inverseRe;
      re[t] = factorRe;
      im[t] = factorIm;
      if (!(Math.abs(factorRe) + Math.abs(factorIm) <= largestMultiplier)) return false;
      for (let s = from; s < end; s++, p++) {
        const at = targets[p]!;
        re[at] = re[at]! - factorRe * re[s]! + factorIm * im[s]!;
        im[at] = im[at]! - factorRe * im[s]! - factorIm * re[s]!;
      }
    }
  }
  return true;
}

/** x of A·x = b, written into `x`, another vector than `b`. */
export function solveSparseComplex(solver: SparseComplexSolver, b: ComplexVector, x: ComplexVector): void {
  if (solver.dense !== undefined) {
    solveComplex(solver.dense, b, x);
    return;
  }
  once(solver, b, x);
  putRight(solver, b, x, false, once);
}

/** x of Aᵀ·x = b (transposed, not conjugated), from the same factors. */
export function solveSparseComplexTransposed(solver: SparseComplexSolver, b: ComplexVector, x: ComplexVector): void {
  if (solver.dense !== undefined) {
    solveComplexTransposed(solver.dense, b, x);
    return;
  }
  onceTransposed(solver, b, x);
  putRight(solver, b, x, true, onceTransposed);
}

function putRight(
  solver: SparseComplexSolver,
  b: ComplexVector,
  x: ComplexVector,
  transposed: boolean,
  solve: typeof once,
): void {
  const { pattern, matrix, remainder, correction } = solver;
  const { size: n, places } = pattern;
  remainder.re.set(b.re);
  remainder.im.set(b.im);
  for (const place of places) {
    const row = Math.floor(place / n);
    const column = place - row * n;
    const [from, to] = transposed ? [row, column] : [column, row];
    const re = matrix.re[place]!;
    const im = matrix.im[place]!;
    remainder.re[to] = remainder.re[to]! - re * x.re[from]! + im * x.im[from]!;
    remainder.im[to] = remainder.im[to]! - re * x.im[from]! - im * x.re[from]!;
  }
  solve(solver, remainder, correction);
  for (let i = 0; i < n; i++) {
    x.re[i] = x.re[i]! + correction.re[i]!;
    x.im[i] = x.im[i]! + correction.im[i]!;
  }
}

function once({ plan, re, im, work: y }: SparseComplexSolver, b: ComplexVector, x: ComplexVector): void {
  const { size: n, rowOf, columnOf, upperStart, upperColumn, upperSlot, lowerStart, lowerRow, lowerSlot } = plan!;
  for (let k = 0; k < n; k++) {
    y.re[k] = b.re[rowOf[k]!]!;
    y.im[k] = b.im[rowOf[k]!]!;
  }
  for (let k = 0; k < n; k++) {
    for (let t = lowerStart[k]!; t < lowerStart[k + 1]!; t++) takeAway(y, lowerRow[t]!, k, re, im, lowerSlot + t);
  }
  for (let k = n - 1; k >= 0; k--) {
    for (let s = upperStart[k]!; s < upperStart[k + 1]!; s++) takeAway(y, k, upperColumn[s]!, re, im, upperSlot + s);
    divide(y, k, re[k]!, im[k]!);
  }
  for (let k = 0; k < n; k++) {
    x.re[columnOf[k]!] = y.re[k]!;
    x.im[columnOf[k]!] = y.im[k]!;
  }
}

function onceTransposed({ plan, re, im, work: y }: SparseComplexSolver, b: ComplexVector, x: ComplexVector): void {
  const { size: n, rowOf, columnOf, upperStart, upperColumn, upperSlot, lowerStart, lowerRow, lowerSlot } = plan!;
  for (let k = 0; k < n; k++) {
    y.re[k] = b.re[columnOf[k]!]!;
    y.im[k] = b.im[columnOf[k]!]!;
  }
  for (let k = 0; k < n; k++) {
    divide(y, k, re[k]!, im[k]!);
    for (let s = upperStart[k]!; s < upperStart[k + 1]!; s++) takeAway(y, upperColumn[s]!, k, re, im, upperSlot + s);
  }
  for (let k = n - 1; k >= 0; k--) {
    for (let t = lowerStart[k]!; t < lowerStart[k + 1]!; t++) takeAway(y, k, lowerRow[t]!, re, im, lowerSlot + t);
  }
  for (let k = 0; k < n; k++) {
    x.re[rowOf[k]!] = y.re[k]!;
    x.im[rowOf[k]!] = y.im[k]!;
  }
}

function takeAway(y: ComplexVector, to: number, from: number, re: Float64Array, im: Float64Array, slot: number): void {
  const [a, b] = [y.re[from]!, y.im[from]!];
  y.re[to] = y.re[to]! - re[slot]! * a + im[slot]! * b;
  y.im[to] = y.im[to]! - re[slot]! * b - im[slot]! * a;
}

function divide(y: ComplexVector, at: number, byRe: number, byIm: number): void {
  const size2 = byRe * byRe + byIm * byIm;
  const [re, im] = [y.re[at]!, y.im[at]!];
  y.re[at] = (re * byRe + im * byIm) / size2;
  y.im[at] = (im * byRe - re * byIm) / size2;
}
