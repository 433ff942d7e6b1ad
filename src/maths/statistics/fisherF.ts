import cdf from "@stdlib/stats-base-dists-f-cdf";

/**
 * Share of Fisher's F distribution at or below x.
 *
 * @param above  degrees of freedom of the numerator
 * @param below  degrees of freedom of the denominator
 * @throws RangeError  no degrees of freedom
 */
export function fCdf(x: number, above: number, below: number): number {
  if (!(above > 0 && below > 0)) {
    throw new RangeError(`freedom is ${above} over ${below}; both degrees of freedom are above 0`);
  }
  return cdf(x, above, below);
}
