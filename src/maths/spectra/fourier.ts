import { transform } from "./transform.ts";

/** Smallest power of two that is not below `least`. */
export function powerOfTwo(least: number): number {
  let size = 2;
  while (size < least) size *= 2;
  return size;
}

/** cos and sin of 2πk/size for the first quarter, interleaved: what joins two half transforms. */
const joins = new Map<number, Float64Array>();

function joinOf(size: number): Float64Array {
  let join = joins.get(size);
  if (!join) {
    join = new Float64Array(size / 2 + 2);
    for (let k = 0; k <= size / 4; k++) {
      join[2 * k] = Math.cos((2 * Math.PI * k) / size);
      join[2 * k + 1] = Math.sin((2 * Math.PI * k) / size);
    }
    joins.set(size, join);
  }
  return join;
}

/**
 * Transform of a real signal, X[k] = Σ x[n]·exp(−2πi·kn/N), bins 0 to N/2.
 *
 * Even and odd samples go as real and imaginary part through one transform of half the size.
 *
 * @param signal  length a power of two above 2; not modified
 * @param out  filled and returned where given, which spares room
 * @returns real and imaginary parts in turn, length N + 2
 */
export function realSpectrum(
  signal: Float64Array,
  out: Float64Array = new Float64Array(signal.length + 2),
): Float64Array {
  const size = signal.length;
  const half = size / 2;
  transform(signal, out, half, false);
  const join = joinOf(size);
  out[size] = out[0]! - out[1]!;
  out[size + 1] = 0;
  out[0]! += out[1]!;
  out[1] = 0;
  for (let k = 1; k <= half / 2; k++) {
    const low = 2 * k;
    const high = 2 * (half - k);
    const lowRe = out[low]!;
    const lowIm = out[low + 1]!;
    const highRe = out[high]!;
    const highIm = out[high + 1]!;
    const evenRe = 0.5 * (lowRe + highRe);
    const evenIm = 0.5 * (lowIm - highIm);
    const oddRe = 0.5 * (lowIm + highIm);
    const oddIm = 0.5 * (highRe - lowRe);
    const c = join[2 * k]!;
    const s = join[2 * k + 1]!;
    const re = c * oddRe + s * oddIm;
    const im = c * oddIm - s * oddRe;
    out[low] = evenRe + re;
    out[low + 1] = evenIm + im;
    out[high] = evenRe - re;
    out[high + 1] = im - evenIm;
  }
  return out;
}

/**
 * The real signal whose transform has these bins 0 to N/2: the inverse of `realSpectrum`.
 *
 * @param spectrum  real and imaginary parts in turn, length N + 2, N a power of two above 2; not modified
 * @param packed  written over where given, and `out` filled and returned, both of length N: that spares room
 */
export function realFromSpectrum(
  spectrum: Float64Array,
  packed: Float64Array = new Float64Array(spectrum.length - 2),
  out?: Float64Array,
): Float64Array {
  const size = spectrum.length - 2;
  const half = size / 2;
  const join = joinOf(size);
  packed[0] = 0.5 * (spectrum[0]! + spectrum[size]!);
  packed[1] = 0.5 * (spectrum[0]! - spectrum[size]!);
  for (let k = 1; k <= half / 2; k++) {
    const low = 2 * k;
    const high = 2 * (half - k);
    const evenRe = 0.5 * (spectrum[low]! + spectrum[high]!);
    const evenIm = 0.5 * (spectrum[low + 1]! - spectrum[high + 1]!);
    const re = 0.5 * (spectrum[low]! - spectrum[high]!);
    const im = 0.5 * (spectrum[low + 1]! + spectrum[high + 1]!);
    const c = join[2 * k]!;
    const s = join[2 * k + 1]!;
    const oddRe = re * c - im * s;
    const oddIm = re * s + im * c;
    packed[low] = evenRe - oddIm;
    packed[low + 1] = evenIm + oddRe;
    packed[high] = evenRe + oddIm;
    packed[high + 1] = oddRe - evenIm;
  }
  return complexSpectrum(packed, "inverse", out);
}

/**
 * Transform of a complex signal and its inverse (divided by N), interleaved real and imaginary parts.
 *
 * @param signal  2N numbers, N a power of two; not modified
 * @param out  filled and returned where given, which spares room
 */
export function complexSpectrum(
  signal: Float64Array,
  direction: "forward" | "inverse" = "forward",
  out: Float64Array = new Float64Array(signal.length),
): Float64Array {
  const size = signal.length / 2;
  const inverse = direction === "inverse";
  transform(signal, out, size, inverse);
  return out;
}
