import { betaCdf } from "../maths/statistics/index.ts";
import { selectRank } from "../maths/statistics/select.ts";

/** Beyond so many standard deviations of a rank its weight is nothing. */
const reach_sd = 5;

/**
 * A quantile of n values weighed over those near it, which moves smoothly where a single value jumps:
 *
 *     Q = Σ wᵢ·x₍ᵢ₎,   wᵢ = I(i/n; q(n + 1), (1 − q)(n + 1)) − I((i − 1)/n; …)
 *
 * @returns a function of the values, whose order it changes; a single value stands for all
 * @source  F. E. Harrell and C. E. Davis, Biometrika 69 (1982) 635-640 (from memory)
 */
export function nearQuantile(n: number, q: number): (values: Float64Array) => number {
  if (n === 1) return ([only]) => only!;
  const [a, b] = [q * (n + 1), (1 - q) * (n + 1)];
  const reach = Math.ceil(reach_sd * Math.sqrt(n * q * (1 - q))) + 1;
  const first = Math.max(0, Math.floor(n * q) - reach);
  const last = Math.min(n - 1, Math.ceil(n * q) + reach);
  const upTo = Float64Array.from({ length: last - first + 2 }, (_, i) => betaCdf((first + i) / n, a, b));
  const weights = Float64Array.from({ length: last - first + 1 }, (_, i) => upTo[i + 1]! - upTo[i]!);
  const total = weights.reduce((sum, one) => sum + one, 0);
  return (values) => {
    selectRank(values, first);
    selectRank(values, last, first);
    const near = values.subarray(first, last + 1).sort();
    let sum = 0;
    for (let i = 0; i < weights.length; i++) sum += weights[i]! * near[i]!;
    return sum / total;
  };
}
