import { solveStacked, triangle } from "./qr.ts";

/** A sum of squares to be made least over parameters that may be bounded. */
export interface LeastSquaresProblem {
  readonly start: ArrayLike<number>;
  /** Residuals at `parameters`; the length must not change from call to call. */
  residuals(parameters: Float64Array): Float64Array;
  /** Slopes of the residuals, a row for each; left out, central differences are taken. */
  jacobian?(parameters: Float64Array): Float64Array[];
  readonly low?: ArrayLike<number>;
  readonly high?: ArrayLike<number>;
  readonly mostSteps?: number;
  /** Stops after two steps in a row that lower the sum by less than this share of it; left out, 1e-15. */
  readonly leastGain?: number;
}

export interface LeastSquaresAnswer {
  readonly parameters: Float64Array;
  readonly residuals: Float64Array;
  readonly jacobian: Float64Array[];
  readonly sumOfSquares: number;
  readonly steps: number;
  readonly converged: boolean;
  /** Which parameters stand at a bound that holds them. */
  readonly held: readonly boolean[];
}

/**
 * Least squares by scaled Levenberg-Marquardt steps that bend with the valley.
 *
 * Each step solves min ‖J·v + r‖² + λ‖D·v‖² by Householder QR of the stacked matrix, never forming JᵀJ, and adds half
 * of the a that solves min ‖J·a + r″‖² + λ‖D·a‖², r″ being the second derivative of r along v; where a is no small
 * correction, v stands alone. D holds the column norms of J, so the units of the parameters do not matter, and lets
 * go of a larger norm by half a step, so that a far start does not freeze a parameter. λ follows the ratio of gained
 * to foretold reduction. A parameter at a bound that the slope pushes outward is held for the step; other steps are
 * cut off at the bound.
 *
 * @returns the least sum of squares found; it may be a local one. `converged` is false after `mostSteps` (2000).
 * @throws RangeError  when the residuals at the start are not finite or fewer than one
 * @source Marquardt 1963; Moré, The Levenberg-Marquardt algorithm: implementation and theory, 1978; λ after Nielsen,
 *         IMM-REP-1999-05; the bend: Transtrum and Sethna, arXiv:1201.5885, 2012 (all remembered)
 */
export function leastSquares(problem: LeastSquaresProblem): LeastSquaresAnswer {
  const count = problem.start.length;
  const low = bounds(problem.low, count, -Infinity);
  const high = bounds(problem.high, count, Infinity);
  const slopes = problem.jacobian?.bind(problem) ?? centralDifferences(problem.residuals.bind(problem), low, high);

  let at = Float64Array.from(problem.start).map((p, i) => Math.min(Math.max(p, low[i]!), high[i]!));
  let residuals = problem.residuals(at);
  let cost = squares(residuals);
  if (residuals.length === 0 || !Number.isFinite(cost)) {
    throw new RangeError("residuals at the start are empty or not finite; start where the formula can be worked out");
  }
  let jacobian = slopes(at);
  const scale = new Float64Array(count);
  let damping = 1e-3;
  let growth = 2;
  let steps = 0;
  let converged = false;
  let idle = 0;
  const leastGain = problem.leastGain ?? 1e-15;

  while (steps < (problem.mostSteps ?? 2000) && !converged) {
    const gradient = transposeTimes(jacobian, residuals, count);
    for (let i = 0; i < count; i++) scale[i] = Math.max(scale[i]! / 2, columnNorm(jacobian, i));
    const held = holds(at, gradient, low, high);
    const free = [...at.keys()].filter((i) => !held[i] && scale[i]! > 0);
    if (free.length === 0 || isFlat(gradient, jacobian, free, cost)) {
      converged = true;
      break;
    }

    steps++;
    const weight = (i: number) => Math.sqrt(damping) * scale[i]!;
    const velocity = solveStacked(jacobian, residuals, free, weight);
    const bend = curvature(problem, at, residuals, jacobian, velocity, low, high);
    const bent = bend && solveStacked(jacobian, bend, free, weight);
    const isGentle = bent !== undefined && length(bent, scale) <= MOST_BEND * length(velocity, scale);
    const step = isGentle ? velocity.map((d, i) => d + bent[i]! / 2) : velocity;
    const next = at.map((p, i) => Math.min(Math.max(p + step[i]!, low[i]!), high[i]!));
    const moved = next.map((p, i) => p - at[i]!);
    const nextResiduals = problem.residuals(next);
    const nextCost = squares(nextResiduals);
    const foretold = cost - squares(residuals.map((r, k) => r + dot(jacobian[k]!, isGentle ? velocity : moved)));
    const gain = foretold > 0 ? (cost - nextCost) / foretold : cost - nextCost > 0 ? 1 : -1;
    const isTiny = moved.every((d, i) => Math.abs(d) <= 1e-15 * (Math.abs(at[i]!) + 1e-300));

    if (Number.isFinite(nextCost) && nextCost <= cost && gain > 1e-4) {
      idle = cost - nextCost <= leastGain * cost ? idle + 1 : 0;
      at = next;
      residuals = nextResiduals;
      cost = nextCost;
      jacobian = slopes(at);
      damping = Math.max(damping * Math.max(1 / 3, 1 - (2 * gain - 1) ** 3), 1e-60);
      growth = 2;
      converged = idle >= 2 || cost === 0;
    } else {
      damping *= growth;
      growth *= 2;
      converged = isTiny || damping > 1e30;
    }
  }
  const held = holds(at, transposeTimes(jacobian, residuals, count), low, high);
  return { parameters: at, residuals, jacobian, sumOfSquares: cost, steps, converged, held };
}

/**
 * (JᵀJ)⁻¹ over the free parameters, from the triangle of J's QR with its columns scaled to length one.
 *
 * @returns zero rows and columns for parameters not free; undefined where the columns depend on one another to within
 *          `tolerance`, so that the points cannot tell the parameters apart
 */
export function inverseNormal(
  jacobian: readonly Float64Array[],
  free: readonly boolean[],
  tolerance = 1e-10,
): Float64Array[] | undefined {
  const columns = [...free.keys()].filter((i) => free[i]);
  const inverse = free.map(() => new Float64Array(free.length));
  const n = columns.length;
  if (n === 0) return inverse;
  const norms = columns.map((i) => columnNorm(jacobian, i));
  if (jacobian.length < n || norms.some((x) => !(x > 0))) return undefined;
  const r = triangle(jacobian.map((row) => Float64Array.from(columns, (i, k) => row[i]! / norms[k]!)));
  for (let i = 0; i < n; i++) if (Math.abs(r[i]![i]!) < tolerance) return undefined;
  const back = invertUpper(r, n);
  for (let i = 0; i < n; i++) {
    for (let j = 0; j < n; j++) {
      let sum = 0;
      for (let k = Math.max(i, j); k < n; k++) sum += back[i]![k]! * back[j]![k]!;
      inverse[columns[i]!]![columns[j]!] = sum / (norms[i]! * norms[j]!);
    }
  }
  return inverse;
}

function invertUpper(r: readonly Float64Array[], n: number): Float64Array[] {
  const inverse = Array.from({ length: n }, () => new Float64Array(n));
  for (let j = 0; j < n; j++) {
    inverse[j]![j] = 1 / r[j]![j]!;
    for (let i = j - 1; i >= 0; i--) {
      let sum = 0;
      for (let k = i + 1; k <= j; k++) sum += r[i]![k]! * inverse[k]![j]!;
      inverse[i]![j] = -sum / r[i]![i]!;
    }
  }
  return inverse;
}

function centralDifferences(
  residuals: (p: Float64Array) => Float64Array,
  low: Float64Array,
  high: Float64Array,
): (p: Float64Array) => Float64Array[] {
  return (p) => {
    const columns = [...p.keys()].map((i) => {
      const step = Math.cbrt(Number.EPSILON) * (Math.abs(p[i]!) || 1);
      const up = p.slice();
      const down = p.slice();
      up[i] = Math.min(p[i]! + step, high[i]!);
      down[i] = Math.max(p[i]! - step, low[i]!);
      const width = up[i]! - down[i]!;
      const below = residuals(down);
      return residuals(up).map((r, k) => (width > 0 ? (r - below[k]!) / width : 0));
    });
    return Array.from({ length: columns[0]?.length ?? 0 }, (_, k) => Float64Array.from(columns, (c) => c[k]!));
  };
}

function holds(at: Float64Array, gradient: Float64Array, low: Float64Array, high: Float64Array): boolean[] {
  return [...at].map((p, i) => (p <= low[i]! && gradient[i]! >= 0) || (p >= high[i]! && gradient[i]! <= 0));
}

/** Residuals at right angles to every free column, to within rounding. */
function isFlat(
  gradient: Float64Array,
  jacobian: readonly Float64Array[],
  free: readonly number[],
  cost: number,
): boolean {
  const length = Math.sqrt(cost);
  return free.every((i) => Math.abs(gradient[i]!) <= 1e-14 * columnNorm(jacobian, i) * length);
}

function bounds(given: ArrayLike<number> | undefined, count: number, absent: number): Float64Array {
  return given === undefined ? new Float64Array(count).fill(absent) : Float64Array.from(given);
}

function transposeTimes(rows: readonly Float64Array[], vector: Float64Array, count: number): Float64Array {
  const out = new Float64Array(count);
  rows.forEach((row, k) => {
    for (let i = 0; i < count; i++) out[i]! += row[i]! * vector[k]!;
  });
  return out;
}

function columnNorm(rows: readonly Float64Array[], i: number): number {
  let sum = 0;
  for (const row of rows) sum += row[i]! ** 2;
  return Math.sqrt(sum);
}

function squares(values: Float64Array): number {
  let sum = 0;
  for (const v of values) sum += v * v;
  return sum;
}

function dot(a: Float64Array, b: Float64Array): number {
  let sum = 0;
  for (let i = 0; i < a.length; i++) sum += a[i]! * b[i]!;
  return sum;
}

/** The longest correction for the valley's bend, as a share of the step it corrects. */
const MOST_BEND = 0.375;

function length(vector: Float64Array, scale: Float64Array): number {
  return Math.sqrt(vector.reduce((sum, x, i) => sum + (x * scale[i]!) ** 2, 0));
}

/** Second derivative of the residuals along a step, by one more difference; undefined where it cannot be worked out. */
function curvature(
  problem: LeastSquaresProblem,
  at: Float64Array,
  residuals: Float64Array,
  jacobian: readonly Float64Array[],
  velocity: Float64Array,
  low: Float64Array,
  high: Float64Array,
): Float64Array | undefined {
  const h = 0.1;
  const there = at.map((p, i) => p + h * velocity[i]!);
  if (there.some((p, i) => p < low[i]! || p > high[i]!)) return undefined;
  const moved = problem.residuals(there);
  const second = moved.map((r, k) => (2 / h) * ((r - residuals[k]!) / h - dot(jacobian[k]!, velocity)));
  return second.every(Number.isFinite) ? second : undefined;
}
