import cdf from "@stdlib/stats-base-dists-normal-cdf";
import quantile from "@stdlib/stats-base-dists-normal-quantile";

/**
 * Share of a normal distribution at or below x.
 *
 *     Φ((x − mean)/sd)
 *
 * @param sd  0 or more; 0 is a step at the mean
 */
export function normalCdf(x: number, mean = 0, sd = 1): number {
  return cdf(x, mean, sd);
}

/**
 * Value below which the share p of a normal distribution lies.
 *
 * @throws RangeError  p outside 0 … 1
 */
export function normalQuantile(p: number, mean = 0, sd = 1): number {
  if (!(p >= 0 && p <= 1)) throw new RangeError(`p is ${p}; a share lies between 0 and 1`);
  return quantile(p, mean, sd);
}
