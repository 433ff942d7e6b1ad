/**
 * Solving small dense systems A·x = b in place, again and again, without allocating.
 *
 * The matrices of circuits are dense in name only, so rows whose multiplier is zero are passed over; with unknowns
 * ordered by how many neighbours they have, most are.
 */
export interface RealSystem {
  readonly size: number;
  /** Row after row; `factorReal` overwrites it with both factors. */
  readonly matrix: Float64Array;
  /** Row of the original matrix that ended at each place. */
  readonly order: Int32Array;
}

export function realSystem(size: number): RealSystem {
  return { size, matrix: new Float64Array(size * size), order: new Int32Array(size) };
}

/** A pivot under this share of its column's largest original entry counts as zero. */
const vanished = 1e-14;

/**
 * LU factors with partial pivoting, in place.
 *
 * @returns −1 when the matrix could be factored, else the column (the unknown) that nothing determines
 * @source Golub and Van Loan, Matrix Computations, outer product form with row exchanges (remembered)
 */
export function factorReal(system: RealSystem): number {
  const { size: n, matrix: a, order } = system;
  const columnTop = largestOfColumns(a, n);
  for (let i = 0; i < n; i++) order[i] = i;
  for (let k = 0; k < n; k++) {
    let pivotRow = k;
    let top = Math.abs(a[k * n + k]!);
    for (let i = k + 1; i < n; i++) {
      const size = Math.abs(a[i * n + k]!);
      if (size > top) {
        top = size;
        pivotRow = i;
      }
    }
    if (!(top > vanished * columnTop[k]!)) return k;
    const rowK = k * n;
    if (pivotRow !== k) {
      const rowP = pivotRow * n;
      for (let j = 0; j < n; j++) {
        const held = a[rowK + j]!;
        a[rowK + j] = a[rowP + j]!;
        a[rowP + j] = held;
      }
      const held = order[k]!;
      order[k] = order[pivotRow]!;
      order[pivotRow] = held;
    }
    const inverse = 1 / a[rowK + k]!;
    for (let i = k + 1; i < n; i++) {
      const row = i * n;
      if (a[row + k] === 0) continue;
      const factor = a[row + k]! * inverse;
      a[row + k] = factor;
      for (let j = k + 1; j < n; j++) a[row + j] = a[row + j]! - factor * a[rowK + j]!;
    }
  }
  return -1;
}

/** x of A·x = b, written into `x`; `b` is left as it is unless it is the same array. Needs `factorReal` before. */
export function solveReal(system: RealSystem, b: Float64Array, x: Float64Array): void {
  const { size: n, matrix: a, order } = system;
  const source = b === x ? b.slice() : b;
  for (let i = 0; i < n; i++) {
    let sum = source[order[i]!]!;
    const row = i * n;
    for (let j = 0; j < i; j++) sum -= a[row + j]! * x[j]!;
    x[i] = sum;
  }
  for (let i = n - 1; i >= 0; i--) {
    let sum = x[i]!;
    const row = i * n;
    for (let j = i + 1; j < n; j++) sum -= a[row + j]! * x[j]!;
    x[i] = sum / a[row + i]!;
  }
}

/** x of Aᵀ·x = b, from the same factors: the adjoint solve, which gives one output's slope to every part at once. */
export function solveRealTransposed(system: RealSystem, b: Float64Array, x: Float64Array): void {
  const { size: n, matrix: a, order } = system;
  const y = b.slice();
  for (let i = 0; i < n; i++) {
    const value = y[i]! / a[i * n + i]!;
    y[i] = value;
    if (value !== 0) for (let j = i + 1; j < n; j++) y[j] = y[j]! - a[i * n + j]! * value;
  }
  for (let i = n - 1; i >= 0; i--) {
    const value = y[i]!;
    if (value !== 0) for (let j = 0; j < i; j++) y[j] = y[j]! - a[i * n + j]! * value;
  }
  for (let i = 0; i < n; i++) x[order[i]!] = y[i]!;
}

/** Sign of the determinant, from the factors: 1 or −1. */
export function determinantSign({ size: n, matrix, order }: RealSystem): number {
  let sign = 1;
  for (let i = 0; i < n; i++) if (matrix[i * n + i]! < 0) sign = -sign;
  const seen = new Uint8Array(n);
  for (let start = 0; start < n; start++) {
    // A cycle of even length is an odd permutation.
    let length = 0;
    for (let at = start; seen[at] === 0; at = order[at]!) {
      seen[at] = 1;
      length++;
    }
    if (length > 0 && length % 2 === 0) sign = -sign;
  }
  return sign;
}

function largestOfColumns(a: Float64Array, n: number): Float64Array {
  const top = new Float64Array(n);
  for (let i = 0, at = 0; i < n; i++) {
    for (let j = 0; j < n; j++, at++) {
      const size = Math.abs(a[at]!);
      if (size > top[j]!) top[j] = size;
    }
  }
  return top;
}
