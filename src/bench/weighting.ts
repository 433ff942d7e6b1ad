export { weightA } from "../maths/weightA.ts";

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
