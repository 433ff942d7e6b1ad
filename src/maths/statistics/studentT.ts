import quantile from "@stdlib/stats-base-dists-t-quantile";

/**
 * Value below which the share p of Student's t distribution lies.
 *
 * @param freedom  degrees of freedom, above 0, not necessarily whole
 * @throws RangeError  p outside 0 … 1, or no degrees of freedom
 */
export function tQuantile(p: number, freedom: number): number {
  if (!(p >= 0 && p <= 1)) throw new RangeError(`p is ${p}; a share lies between 0 and 1`);
  if (!(freedom > 0)) throw new RangeError(`freedom is ${freedom}; degrees of freedom are above 0`);
  return quantile(p, freedom);
}
