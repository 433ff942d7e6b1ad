import cdf from "@stdlib/stats-base-dists-chisquare-cdf";
import quantile from "@stdlib/stats-base-dists-chisquare-quantile";

/**
 * Share of a chi-squared distribution at or below x.
 *
 * @throws RangeError  no degrees of freedom
 */
export function chiSquaredCdf(x: number, freedom: number): number {
  if (!(freedom > 0)) throw new RangeError(`freedom is ${freedom}; degrees of freedom are above 0`);
  return cdf(x, freedom);
}

/**
 * Value below which the share p of a chi-squared distribution lies.
 *
 * @throws RangeError  p outside 0 … 1, or no degrees of freedom
 */
export function chiSquaredQuantile(p: number, freedom: number): number {
  if (!(p >= 0 && p <= 1)) throw new RangeError(`p is ${p}; a share lies between 0 and 1`);
  if (!(freedom > 0)) throw new RangeError(`freedom is ${freedom}; degrees of freedom are above 0`);
  return quantile(p, freedom);
}
