import { fCdf } from "./fisherF.ts";

/**
 * Share of a beta distribution at or below x.
 *
 *     I_x(a, b) = F(b·x/(a·(1 − x));  2a, 2b)
 *
 * @throws RangeError  a or b not above 0
 */
export function betaCdf(x: number, a: number, b: number): number {
  if (!(a > 0 && b > 0)) throw new RangeError(`a is ${a} and b is ${b}; both are above 0`);
  if (x <= 0) return 0;
  if (x >= 1) return 1;
  return fCdf((b * x) / (a * (1 - x)), 2 * a, 2 * b);
}

/**
 * Value below which the share p of a beta distribution lies, to 1e-15.
 *
 * @throws RangeError  p outside 0 … 1, a or b not above 0
 */
export function betaQuantile(p: number, a: number, b: number): number {
  if (!(p >= 0 && p <= 1)) throw new RangeError(`p is ${p}; a share lies between 0 and 1`);
  let [low, high] = [0, 1];
  for (let i = 0; i < 60 && high - low > 1e-15; i++) {
    const middle = (low + high) / 2;
    if (betaCdf(middle, a, b) < p) low = middle;
    else high = middle;
  }
  return (low + high) / 2;
}
