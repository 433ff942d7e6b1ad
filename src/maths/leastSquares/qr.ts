/**
 * Solves min ‖J·d + r‖² + Σ (weight_i·d_i)² over the free entries of d by Householder reflections.
 *
 * @returns d over all parameters, 0 where not free
 */
export function solveStacked(
  jacobian: readonly Float64Array[],
  residuals: Float64Array,
  free: readonly number[],
  weight: (parameter: number) => number,
): Float64Array {
  const n = free.length;
  const rows: Float64Array[] = jacobian.map((row, k) => {
    const stacked = new Float64Array(n + 1);
    for (let c = 0; c < n; c++) stacked[c] = row[free[c]!]!;
    stacked[n] = -residuals[k]!;
    return stacked;
  });
  for (let c = 0; c < n; c++) {
    const damped = new Float64Array(n + 1);
    damped[c] = weight(free[c]!);
    rows.push(damped);
  }
  reflect(rows, n);
  const solution = new Float64Array(jacobian[0]!.length);
  for (let c = n - 1; c >= 0; c--) {
    let sum = rows[c]![n]!;
    for (let k = c + 1; k < n; k++) sum -= rows[c]![k]! * solution[free[k]!]!;
    solution[free[c]!] = rows[c]![c]! === 0 ? 0 : sum / rows[c]![c]!;
  }
  return solution;
}

/** The upper triangle of a tall matrix's QR; the rows given are overwritten. */
export function triangle(rows: Float64Array[]): Float64Array[] {
  const n = rows[0]!.length;
  reflect(rows, n);
  return rows.slice(0, n);
}

/** Householder reflections on the first `columns` columns, in place. */
function reflect(rows: Float64Array[], columns: number): void {
  const m = rows.length;
  const width = rows[0]!.length;
  const v = new Float64Array(m);
  for (let c = 0; c < Math.min(columns, m); c++) {
    let norm = 0;
    for (let i = c; i < m; i++) norm += rows[i]![c]! ** 2;
    norm = Math.sqrt(norm);
    if (norm === 0) continue;
    const head = rows[c]![c]!;
    const target = head > 0 ? -norm : norm;
    let length = 0;
    for (let i = c; i < m; i++) {
      v[i] = rows[i]![c]! - (i === c ? target : 0);
      length += v[i]! ** 2;
    }
    for (let j = c; j < width; j++) {
      let dot = 0;
      for (let i = c; i < m; i++) dot += v[i]! * rows[i]![j]!;
      const factor = (2 * dot) / length;
      for (let i = c; i < m; i++) rows[i]![j]! -= factor * v[i]!;
    }
  }
}
