/// <reference path="./fft.d.ts" />
import FFT from "fft.js";

/** A longer transform is cut into quarters, each of which the caches hold. */
const longest = 2 ** 18;

const plans = new Map<number, FFT>();

function planOf(size: number): FFT {
  let plan = plans.get(size);
  if (!plan) {
    plan = new FFT(size);
    plans.set(size, plan);
  }
  return plan;
}

/**
 * Transform of `size` complex numbers, a power of two above 1, or its inverse (divided by `size`).
 *
 * @param signal  real and imaginary parts in turn; not modified
 * @param out  filled; not the signal
 */
export function transform(signal: Float64Array, out: Float64Array, size: number, inverse: boolean): void {
  if (size <= longest) {
    if (inverse) planOf(size).inverseTransform(out, signal);
    else planOf(size).transform(out, signal);
    return;
  }
  const { parts, found, turns } = quartersOf(size);
  split(signal, parts, size, turns, inverse ? -1 : 1);
  const scale = inverse ? 0.25 : 1;
  parts.forEach((part, p) => {
    transform(part, found, size / 4, inverse);
    for (let k = 0, to = 2 * p; k < size / 2; k += 2, to += 8) {
      out[to] = scale * found[k]!;
      out[to + 1] = scale * found[k + 1]!;
    }
  });
}

interface Quarters {
  readonly parts: readonly Float64Array[];
  /** Transform of one part after the other. */
  readonly found: Float64Array;
  /** e^{−2πij/size}, its square and its cube for the first quarter of j: six numbers each. */
  readonly turns: Float64Array;
}

const quarters = new Map<number, Quarters>();

function quartersOf(size: number): Quarters {
  let known = quarters.get(size);
  if (!known) {
    const parts = Array.from({ length: 4 }, () => new Float64Array(size / 2));
    const turns = new Float64Array((6 * size) / 4);
    for (let j = 0; j < size / 4; j++) {
      for (let power = 1; power <= 3; power++) {
        turns[6 * j + 2 * power - 2] = Math.cos((2 * Math.PI * power * j) / size);
        turns[6 * j + 2 * power - 1] = -Math.sin((2 * Math.PI * power * j) / size);
      }
    }
    known = { parts, found: new Float64Array(size / 2), turns };
    quarters.set(size, known);
  }
  return known;
}

/**
 * What the bins 4k, 4k + 1, 4k + 2 and 4k + 3 are transforms of.
 *
 * @param sign  −1 turns the other way, for the inverse
 * @source W. M. Gentleman and G. Sande (1966), decimation in frequency (remembered)
 */
function split(
  signal: Float64Array,
  [zero, one, two, three]: readonly Float64Array[],
  size: number,
  turns: Float64Array,
  sign: 1 | -1,
): void {
  const step = size / 2;
  for (let a = 0, t = 0; a < step; a += 2, t += 6) {
    const b = a + step;
    const c = b + step;
    const d = c + step;
    const sumRe = signal[a]! + signal[c]!;
    const sumIm = signal[a + 1]! + signal[c + 1]!;
    const otherRe = signal[b]! + signal[d]!;
    const otherIm = signal[b + 1]! + signal[d + 1]!;
    const lessRe = signal[a]! - signal[c]!;
    const lessIm = signal[a + 1]! - signal[c + 1]!;
    const turnedRe = sign * (signal[b + 1]! - signal[d + 1]!);
    const turnedIm = -sign * (signal[b]! - signal[d]!);
    zero![a] = sumRe + otherRe;
    zero![a + 1] = sumIm + otherIm;
    const oneRe = lessRe + turnedRe;
    const oneIm = lessIm + turnedIm;
    const twoRe = sumRe - otherRe;
    const twoIm = sumIm - otherIm;
    const threeRe = lessRe - turnedRe;
    const threeIm = lessIm - turnedIm;
    const v1 = sign * turns[t + 1]!;
    const v2 = sign * turns[t + 3]!;
    const v3 = sign * turns[t + 5]!;
    one![a] = oneRe * turns[t]! - oneIm * v1;
    one![a + 1] = oneRe * v1 + oneIm * turns[t]!;
    two![a] = twoRe * turns[t + 2]! - twoIm * v2;
    two![a + 1] = twoRe * v2 + twoIm * turns[t + 2]!;
    three![a] = threeRe * turns[t + 4]! - threeIm * v3;
    three![a + 1] = threeRe * v3 + threeIm * turns[t + 4]!;
  }
}
