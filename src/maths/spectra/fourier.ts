/// <reference path="./fft.d.ts" />
import FFT from "fft.js";

const plans = new Map<number, FFT>();

function planOf(size: number): FFT {
  let plan = plans.get(size);
  if (!plan) {
    plan = new FFT(size);
    plans.set(size, plan);
  }
  return plan;
}

/** Smallest power of two that is not below `least`. */
export function powerOfTwo(least: number): number {
  let size = 2;
  while (size < least) size *= 2;
  return size;
}

/**
 * Transform of a real signal, X[k] = Σ x[n]·exp(−2πi·kn/N), bins 0 to N/2.
 *
 * @param signal  length a power of two above 1; not modified
 * @returns real and imaginary parts in turn, length N + 2
 */
export function realSpectrum(signal: Float64Array): Float64Array {
  const size = signal.length;
  const out = new Float64Array(2 * size);
  planOf(size).realTransform(out, signal);
  return out.subarray(0, size + 2);
}

/**
 * Transform of a complex signal and its inverse (divided by N), interleaved real and imaginary parts.
 *
 * @param signal  2N numbers, N a power of two above 1; not modified
 */
export function complexSpectrum(signal: Float64Array, direction: "forward" | "inverse" = "forward"): Float64Array {
  const out = new Float64Array(signal.length);
  const plan = planOf(signal.length / 2);
  if (direction === "forward") plan.transform(out, signal);
  else plan.inverseTransform(out, signal);
  return out;
}
