const [f1, f2, f3, f4] = [20.598997, 107.652649, 737.862231, 12194.217148] as const;

/**
 * A-weighting of a power.
 *
 *     W(f) = [ f₄² f⁴ / ((f² + f₁²) √(f² + f₂²) √(f² + f₃²) (f² + f₄²)) ]²   over its value at 1 kHz
 *
 * @returns factor on power; 1 at 1 kHz
 * @source IEC 61672-1:2013, formula and constants
 */
export function aWeightOfPower(frequency_Hz: number): number {
  return (response(frequency_Hz) / response(1000)) ** 2;
}

function response(frequency_Hz: number): number {
  const f = frequency_Hz ** 2;
  return (f4 ** 2 * f * f) / ((f + f1 ** 2) * Math.sqrt((f + f2 ** 2) * (f + f3 ** 2)) * (f + f4 ** 2));
}
