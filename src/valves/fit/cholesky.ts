/** Turns the lower half of a symmetric matrix, row after row, into its Cholesky factor; returns ln √(its determinant). */
export function cholesky(a: Float64Array, size: number): number {
  let log = 0;
  for (let i = 0; i < size; i++) {
    const row = i * size;
    for (let j = 0; j <= i; j++) {
      const other = j * size;
      let sum = a[row + j]!;
      for (let k = 0; k < j; k++) sum -= a[row + k]! * a[other + k]!;
      if (i === j) {
        a[row + i] = Math.sqrt(Math.max(sum, 1e-300));
        log += Math.log(a[row + i]!);
      } else a[row + j] = sum / a[other + j]!;
    }
  }
  return log;
}

/** Overwrites b by the x of L·x = b. */
export function solveLower(lower: Float64Array, b: Float64Array): Float64Array {
  const size = b.length;
  for (let i = 0; i < size; i++) {
    let sum = b[i]!;
    for (let k = 0; k < i; k++) sum -= lower[i * size + k]! * b[k]!;
    b[i] = sum / lower[i * size + i]!;
  }
  return b;
}

/** Overwrites b by the x of Lᵀ·x = b. */
export function solveUpper(lower: Float64Array, b: Float64Array): Float64Array {
  const size = b.length;
  for (let i = size - 1; i >= 0; i--) {
    let sum = b[i]!;
    for (let k = i + 1; k < size; k++) sum -= lower[k * size + i]! * b[k]!;
    b[i] = sum / lower[i * size + i]!;
  }
  return b;
}
