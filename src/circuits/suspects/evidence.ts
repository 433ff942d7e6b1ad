import type { Seen } from "./inspect.ts";

/** Readings against what a specimen would show, spread of good parts and meter's doubt together. */
export interface Evidence {
  /** ln of the readings' density. */
  readonly logLikelihood: number;
  /** ln of the density right at what the specimen would show. */
  readonly height: number;
  /** Squared distance in spreads; chi-squared with one degree of freedom a reading where the specimen is the truth. */
  readonly distance: number;
  /** Where the values most likely lie, deviations by value; the last is the step of the severity. */
  readonly shift: Float64Array;
  /** S⁻¹·r: what each reading pulls by. */
  readonly weighted: Float64Array;
}

/**
 * Density of readings that are linear in normal values.
 *
 *     y ~ N(f − J·o, S),  S = J·diag(v)·Jᵀ + diag(d²),  shift = diag(v)·Jᵀ·S⁻¹·(y − f + J·o)
 *
 * @param seen       what the specimen shows, and its slopes
 * @param off        deviations at which it was looked at
 * @param variances  prior variance of every value; the last is that of the severity
 * @param readings   values and standard deviations read
 */
export function weighEvidence(
  seen: Seen,
  off: Float64Array,
  variances: Float64Array,
  readings: readonly { readonly value: number; readonly sd: number }[],
): Evidence {
  const m = readings.length;
  const { columns, slopes } = seen;
  const cover = spreadOf(seen, variances, readings);
  const residual = new Float64Array(m);
  for (let i = 0; i < m; i++) {
    let sum = readings[i]!.value - seen.values[i]!;
    for (let j = 0; j < columns - 1; j++) sum += slopes[i * columns + j]! * off[j]!;
    residual[i] = sum;
  }
  const logDeterminant = factorSymmetric(cover, m);
  const weighted = solveSymmetric(cover, m, residual);
  let distance = 0;
  for (let i = 0; i < m; i++) distance += residual[i]! * weighted[i]!;
  const height = -0.5 * (logDeterminant + m * Math.log(2 * Math.PI));
  const shift = new Float64Array(columns);
  for (let j = 0; j < columns; j++) {
    let sum = 0;
    for (let i = 0; i < m; i++) sum += slopes[i * columns + j]! * weighted[i]!;
    shift[j] = variances[j]! * sum;
  }
  return {
    logLikelihood: height - 0.5 * tempered(distance, m),
    height,
    distance,
    shift,
    weighted,
  };
}

/** ln of the density at a squared distance, by the spread of readings that another specimen was seen with. */
export function likelihoodAt(distance: number, { height, weighted }: Evidence): number {
  return height - 0.5 * tempered(distance, weighted.length);
}

/**
 * A squared distance as it counts against an explanation: in full within what it would give ninety-nine times in a
 * hundred, beyond that by its logarithm. The spreads of the model are themselves known only so well, and out there a
 * normal's tail would claim certainty that nobody has.
 *
 * @source Huber's idea, Ann. Math. Stat. 35, 1964, with a heavier tail (remembered); the bound by Wilson and Hilferty
 */
function tempered(distance: number, m: number): number {
  const ninth = 2 / (9 * Math.max(1, m));
  const usual = Math.max(1, m) * (1 - ninth + 2.326 * Math.sqrt(ninth)) ** 3;
  return distance <= usual ? distance : usual * (1 + Math.log(distance / usual));
}

/** ln(eᵃ + eᵇ) */
export function logAdded(a: number, b: number): number {
  const top = Math.max(a, b);
  return top === Number.NEGATIVE_INFINITY ? top : top + Math.log1p(Math.exp(Math.min(a, b) - top));
}

/** Covariance of what the probes read: the values' spread through the slopes, the meter's doubt, the model's grain. */
export function spreadOf(
  { slopes, columns, grain }: Seen,
  variances: Float64Array,
  readings: readonly { readonly sd: number }[],
): Float64Array {
  const m = readings.length;
  const cover = new Float64Array(m * m);
  const scaled = new Float64Array(columns);
  for (let i = 0; i < m; i++) {
    const row = i * columns;
    for (let j = 0; j < columns; j++) scaled[j] = slopes[row + j]! * variances[j]!;
    for (let k = 0; k <= i; k++) {
      const other = k * columns;
      let sum = i === k ? readings[i]!.sd ** 2 + grain[i]! ** 2 : 0;
      for (let j = 0; j < columns; j++) sum += scaled[j]! * slopes[other + j]!;
      cover[i * m + k] = sum;
      cover[k * m + i] = sum;
    }
  }
  return cover;
}

/** Cholesky factor in the lower half, in place. @returns ln of the determinant */
export function factorSymmetric(a: Float64Array, n: number): number {
  let logDeterminant = 0;
  for (let k = 0; k < n; k++) {
    let pivot = a[k * n + k]!;
    const least = 1e-13 * pivot;
    for (let j = 0; j < k; j++) pivot -= a[k * n + j]! ** 2;
    const root = Math.sqrt(Math.max(pivot, least, 1e-300));
    a[k * n + k] = root;
    logDeterminant += 2 * Math.log(root);
    for (let i = k + 1; i < n; i++) {
      let sum = a[i * n + k]!;
      for (let j = 0; j < k; j++) sum -= a[i * n + j]! * a[k * n + j]!;
      a[i * n + k] = sum / root;
    }
  }
  return logDeterminant;
}

/** x of L·Lᵀ·x = b. */
export function solveSymmetric(a: Float64Array, n: number, b: Float64Array): Float64Array {
  const x = b.slice();
  for (let i = 0; i < n; i++) {
    for (let j = 0; j < i; j++) x[i]! -= a[i * n + j]! * x[j]!;
    x[i]! /= a[i * n + i]!;
  }
  for (let i = n - 1; i >= 0; i--) {
    for (let j = i + 1; j < n; j++) x[i]! -= a[j * n + i]! * x[j]!;
    x[i]! /= a[i * n + i]!;
  }
  return x;
}
