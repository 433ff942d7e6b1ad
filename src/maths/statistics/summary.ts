export interface Summary {
  readonly n: number;
  readonly mean: number;
  /** With n − 1. */
  readonly sd: number;
  /** How far each value follows the one before it, −1 to 1; left out where all are equal. */
  readonly lag1?: number;
}

/**
 * Mean, standard deviation and lag-1 autocorrelation of a series.
 *
 *     mean = x₁ + Σ(xᵢ − x₁)/n,   sd² = (Σ(xᵢ − mean)² − (Σ(xᵢ − mean))²/n)/(n − 1)
 *     lag1 = Σ(xᵢ − mean)(xᵢ₊₁ − mean)/Σ(xᵢ − mean)²
 *
 * @throws RangeError  fewer than two values
 * @remarks Taken about the first value and corrected for the mean's own rounding, so that a large offset costs no
 *   digits but those the values themselves have lost.
 * @source  two-pass formula with correction; T. Chan, G. Golub and R. LeVeque, American Statistician 37 (1983)
 *   242-247 (from memory)
 */
export function summary(values: ArrayLike<number>): Summary {
  const n = values.length;
  if (n < 2) throw new RangeError(`${n} values; at least two`);
  const first = values[0]!;
  let sum = 0;
  for (let i = 0; i < n; i++) sum += values[i]! - first;
  const offset = sum / n;
  let [squares, rest, following] = [0, 0, 0];
  let before = 0;
  for (let i = 0; i < n; i++) {
    const off = values[i]! - first - offset;
    squares += off * off;
    rest += off;
    if (i > 0) following += off * before;
    before = off;
  }
  const variance = Math.max(0, (squares - (rest * rest) / n) / (n - 1));
  return {
    n,
    mean: first + offset,
    sd: Math.sqrt(variance),
    ...(squares > 0 ? { lag1: following / squares } : {}),
  };
}
