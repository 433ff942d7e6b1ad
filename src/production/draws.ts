import type { Random } from "../maths/random.ts";

/**
 * A gamma-distributed number of scale 1.
 *
 * @source  G. Marsaglia and W. W. Tsang, A simple method for generating gamma variables, ACM Transactions on
 *   Mathematical Software 26 (2000) 363-372 (from memory)
 */
export function drawGamma(chance: Random, shape: number): number {
  if (shape < 1) return drawGamma(chance, shape + 1) * (1 - chance.uniform()) ** (1 / shape);
  const d = shape - 1 / 3;
  const c = 1 / Math.sqrt(9 * d);
  for (;;) {
    const x = chance.normal();
    const v = (1 + c * x) ** 3;
    if (v <= 0) continue;
    const u = 1 - chance.uniform();
    if (Math.log(u) < (x * x) / 2 + d - d * v + d * Math.log(v)) return d * v;
  }
}

export function drawBeta(chance: Random, a: number, b: number): number {
  const x = drawGamma(chance, a);
  return x / (x + drawGamma(chance, b));
}

/** Chi-squared with `freedom` degrees of freedom, over its mean. */
export function drawRelativeVariance(chance: Random, freedom: number): number {
  return drawGamma(chance, freedom / 2) / (freedom / 2);
}
