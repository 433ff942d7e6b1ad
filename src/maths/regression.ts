import { solveStacked, triangle } from "./leastSquares/qr.ts";

export interface Regression {
  readonly coefficients: readonly number[];
  readonly sd: readonly number[];
  /** Scatter of the observations about the fit. */
  readonly residual_sd: number;
  readonly freedom: number;
  /** Share of the spread that the fit explains. */
  readonly rSquared: number;
}

export type RegressionAnswer =
  | ({ readonly ok: true } & Regression)
  /** Columns that the others already tell, so that no one set of coefficients is the best. */
  | { readonly ok: false; readonly dependent: readonly number[] };

/**
 * Linear least squares, y ≈ X·b, by Householder reflections.
 *
 *     sd(bₖ)² = s²·(XᵀX)⁻¹ₖₖ,   s² = Σ residual²/(n − columns)
 *
 * @param rows  one row of X per observation, the constant's column of ones included where it is wanted
 * @throws RangeError  no more observations than columns, or rows of unequal length
 * @remarks Columns are scaled to unit length first; one that the columns before it explain to 1e-10 is named as dependent.
 */
export function linearRegression(rows: readonly (readonly number[])[], y: readonly number[]): RegressionAnswer {
  const n = rows.length;
  const columns = rows[0]?.length ?? 0;
  if (n <= columns || columns === 0 || y.length !== n) {
    throw new RangeError(`${n} observations of ${columns} columns; pass more observations than columns`);
  }
  if (rows.some((row) => row.length !== columns)) throw new RangeError("rows of unequal length");
  const lengths = Array.from({ length: columns }, (_, c) => Math.hypot(...rows.map((row) => row[c]!)));
  const scaled = rows.map((row) => Float64Array.from(row, (x, c) => (lengths[c] === 0 ? 0 : x / lengths[c]!)));
  const upper = triangle(scaled.map((row) => row.slice()));
  const dependent = lengths.flatMap((length, c) => (length === 0 || Math.abs(upper[c]![c]!) < 1e-10 ? [c] : []));
  if (dependent.length > 0) return { ok: false, dependent };

  const free = lengths.map((_, c) => c);
  const residualsOf = (b: ArrayLike<number>) =>
    Float64Array.from(scaled, (row, i) => row.reduce((sum, x, c) => sum + x * b[c]!, 0) - y[i]!);
  const first = solveStacked(scaled, residualsOf(new Float64Array(columns)), free, () => 0);
  // One refinement takes back what the first solution lost to rounding.
  const second = solveStacked(scaled, residualsOf(first), free, () => 0);
  const b = first.map((value, c) => value + second[c]!);
  const residuals = residualsOf(b);
  const left = residuals.reduce((sum, r) => sum + r * r, 0);
  const freedom = n - columns;
  const variance = left / freedom;
  const mean = y.reduce((sum, value) => sum + value, 0) / n;
  const spread = y.reduce((sum, value) => sum + (value - mean) ** 2, 0);
  const inverse = inverseOf(upper);
  return {
    ok: true,
    coefficients: Array.from(b, (value, c) => value / lengths[c]!),
    sd: lengths.map((length, c) => Math.sqrt(variance * inverse[c]!.reduce((sum, x) => sum + x * x, 0)) / length),
    residual_sd: Math.sqrt(variance),
    freedom,
    rSquared: spread === 0 ? 0 : Math.max(0, 1 - left / spread),
  };
}

/** Rows of R⁻¹, so that (XᵀX)⁻¹ = R⁻¹·R⁻ᵀ has row k's squares on its diagonal. */
function inverseOf(upper: readonly Float64Array[]): number[][] {
  const n = upper.length;
  const rows = upper.map(() => new Array<number>(n).fill(0));
  for (let column = 0; column < n; column++) {
    for (let i = column; i >= 0; i--) {
      let sum = i === column ? 1 : 0;
      for (let k = i + 1; k <= column; k++) sum -= upper[i]![k]! * rows[k]![column]!;
      rows[i]![column] = sum / upper[i]![i]!;
    }
  }
  return rows;
}
