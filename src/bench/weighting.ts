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

/**
 * The weighting network of BS.468 as a complex factor, 1 in magnitude at 1 kHz: a zero at 0 and six poles.
 *
 * @source Recommendation ITU-R BS.468-4, component values of figure 1a; poles as in three public implementations
 */
export function network468(frequency_Hz: number): { re: number; im: number } {
  const raw = raw468(frequency_Hz);
  return { re: raw.re * scale468, im: raw.im * scale468 };
}

/** Magnitude of the network: the weight of a steady tone. */
export function weight468(frequency_Hz: number): number {
  const { re, im } = network468(frequency_Hz);
  return Math.hypot(re, im);
}

const poles: readonly (readonly [number, number])[] = [
  [-25903.70104781628, 0],
  [-23615.53521363528, 36379.90893732929],
  [-23615.53521363528, -36379.90893732929],
  [-18743.74669072136, 62460.15645250649],
  [-18743.74669072136, -62460.15645250649],
  [-62675.1700584679, 0],
];

function raw468(frequency_Hz: number): { re: number; im: number } {
  const omega = 2 * Math.PI * frequency_Hz;
  let re = 0;
  let im = omega / 1000;
  for (const [a, b] of poles) {
    // Each pole divides by (iω − p)/1e4; the scale keeps the product near one.
    const dr = -a / 1e4;
    const di = (omega - b) / 1e4;
    const size = dr * dr + di * di;
    [re, im] = [(re * dr + im * di) / size, (im * dr - re * di) / size];
  }
  return { re, im };
}

const at1k = raw468(1000);
const scale468 = 1 / Math.hypot(at1k.re, at1k.im);
