import { powerOfTwo, realSpectrum } from "./fourier.ts";
import { cosineWindow } from "./windows.ts";

/** One-sided density: its integral over frequency is the mean square. */
export interface Density {
  readonly step_Hz: number;
  /** Index k belongs to k·step_Hz. */
  readonly V2_per_Hz: Float64Array;
  /** Averages that were taken, overlap allowed for; an estimate scatters by 1/√averages. */
  readonly averages: number;
}

/**
 * Welch's estimate: Hann-windowed stretches overlapping by half, each with its mean removed, averaged.
 *
 *     S[k] = 2·|X[k]|² / (rate·Σw²)
 *
 * @param segment  length of a stretch in samples, a power of two, no longer than the signal
 * @source Welch (1967); the variance of overlapping Hann stretches, 1 + 2·(1/6)², from Harris (1978) (remembered)
 */
export function welch(signal: Float64Array, rate_Hz: number, segment: number): Density {
  const window = cosineWindow("hann", segment);
  const squares = window.reduce((sum, w) => sum + w * w, 0);
  const sum = new Float64Array(segment / 2 + 1);
  const piece = new Float64Array(segment);
  const last = signal.length - segment;
  const count = Math.max(1, Math.floor(last / (segment / 2)) + 1);
  const stride = count > 1 ? last / (count - 1) : 0;
  for (let s = 0; s < count; s++) {
    const from = Math.round(s * stride);
    let mean = 0;
    for (let i = 0; i < segment; i++) mean += signal[from + i]!;
    mean /= segment;
    for (let i = 0; i < segment; i++) piece[i] = (signal[from + i]! - mean) * window[i]!;
    addPower(sum, piece);
  }
  const scale = 2 / (rate_Hz * squares * count);
  const V2_per_Hz = sum.map((power, k) => power * (k === 0 || k === segment / 2 ? scale / 2 : scale));
  return { step_Hz: rate_Hz / segment, V2_per_Hz, averages: count > 1 ? count / (1 + 2 / 36) : 1 };
}

/**
 * One windowed stretch over the whole signal, padded with zeros to at least twice its length, so that a line between
 * two bins loses little.
 *
 * @param window  as long as the signal
 */
export function periodogram(signal: Float64Array, rate_Hz: number, window: Float64Array): Density {
  const size = powerOfTwo(2 * signal.length);
  const padded = new Float64Array(size);
  let squares = 0;
  let weight = 0;
  let mean = 0;
  for (let i = 0; i < signal.length; i++) {
    squares += window[i]! ** 2;
    weight += window[i]!;
    mean += window[i]! * signal[i]!;
  }
  mean /= weight;
  for (let i = 0; i < signal.length; i++) padded[i] = (signal[i]! - mean) * window[i]!;
  const power = new Float64Array(size / 2 + 1);
  addPower(power, padded);
  const scale = 2 / (rate_Hz * squares);
  return { step_Hz: rate_Hz / size, V2_per_Hz: power.map((p) => p * scale), averages: 1 };
}

function addPower(sum: Float64Array, piece: Float64Array): void {
  const spectrum = realSpectrum(piece);
  for (let k = 0; k < sum.length; k++) sum[k]! += spectrum[2 * k]! ** 2 + spectrum[2 * k + 1]! ** 2;
}
