/**
 * Modified Bessel function of order 0 times e⁻ᶻ, for z ≥ 0.
 *
 * @remarks Polynomials good to 2·10⁻⁷, relative.
 * @source Abramowitz and Stegun, Handbook of Mathematical Functions, 9.8.1 and 9.8.2 (from memory, checked by its series)
 */
export function scaledBesselI0(z: number): number {
  if (z < 3.75) {
    const t = (z * z) / 14.0625;
    const series =
      1 + t * (3.5156229 + t * (3.0899424 + t * (1.2067492 + t * (0.2659732 + t * (0.0360768 + t * 0.0045813)))));
    return series * Math.exp(-z);
  }
  const u = 3.75 / z;
  const series =
    0.39894228 +
    u *
      (0.01328592 +
        u *
          (0.00225319 +
            u *
              (-0.00157565 +
                u * (0.00916281 + u * (-0.02057706 + u * (0.02635537 + u * (-0.01647633 + u * 0.00392377)))))));
  return series / Math.sqrt(z);
}
