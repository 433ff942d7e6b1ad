/**
 * A-weighting as a factor on amplitude, 1 at 1 kHz.
 *
 *     A(f) = f₄²f⁴ / ((f²+f₁²)·√(f²+f₂²)·√(f²+f₃²)·(f²+f₄²)) / A(1000)
 *
 * @source IEC 61672-1:2013, formula and constants (read as constants in public code citing it)
 */
export function weightA(frequency_Hz: number): number {
  return rawA(frequency_Hz) / rawA(1000);
}

const [f1, f2, f3, f4] = [20.598997, 107.652649, 737.862231, 12194.217148] as const;

function rawA(f: number): number {
  const s = f * f;
  return (f4 ** 2 * s * s) / ((s + f1 ** 2) * Math.sqrt((s + f2 ** 2) * (s + f3 ** 2)) * (s + f4 ** 2));
}
