import { betaQuantile } from "./beta.ts";

/**
 * Interval of a share of which `count` of `of` were counted, which holds it in 95 of 100 at the least (Clopper and
 * Pearson). Wilson's falls short of that where nearly all, or nearly none, were counted.
 *
 *     low = B(0.025; k, n − k + 1),   high = B(0.975; k + 1, n − k)
 *
 * @param within  the share of cases in which it holds it, 0.95 unless given
 * @returns  shares from 0 to 1
 * @throws RangeError  a count that is no whole number from 0 to `of`, or of nothing
 * @source C. Clopper and E. Pearson, Biometrika 26 (1934) 404-413 (from memory)
 * @example shareInterval(8, 10) // { low: 0.4439, high: 0.9748 }
 */
export function shareInterval(
  count: number,
  of: number,
  within = 0.95,
): { readonly low: number; readonly high: number } {
  if (!(Number.isInteger(count) && Number.isInteger(of) && count >= 0 && count <= of && of > 0))
    throw new RangeError(`${count} of ${of}; a count is a whole number from 0 to all there are`);
  const tail = (1 - within) / 2;
  return {
    low: count === 0 ? 0 : betaQuantile(tail, count, of - count + 1),
    high: count === of ? 1 : betaQuantile(1 - tail, count + 1, of - count),
  };
}
