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
 * One windowed stretch over the whole signal, padded with zeros to at least `padding` times its length, so that a
 * line between two bins loses little.
 *
 * @param window  as long as the signal
 */
export function periodogram(signal: Float64Array, rate_Hz: number, window: Float64Array, padding = 2): Density {
  const size = powerOfTwo(padding * signal.length);
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

/** Periodograms of Hann-windowed pieces of one length, overlapping by half or more, averaged. */
export function averagedPeriodogram(signal: Float64Array, rate_Hz: number, piece: number, padding = 2): Density {
  const window = cosineWindow("hann", piece);
  const last = signal.length - piece;
  const count = Math.max(1, Math.ceil(last / (piece / 2)) + 1);
  const stride = count > 1 ? last / (count - 1) : 0;
  const sum = periodogram(signal.subarray(0, piece), rate_Hz, window, padding);
  for (let i = 1; i < count; i++) {
    const from = Math.round(i * stride);
    const one = periodogram(signal.subarray(from, from + piece), rate_Hz, window, padding).V2_per_Hz;
    for (let k = 0; k < one.length; k++) sum.V2_per_Hz[k]! += one[k]!;
  }
  const V2_per_Hz = count > 1 ? sum.V2_per_Hz.map((power) => power / count) : sum.V2_per_Hz;
  // Pieces that share half their samples are nearly independent once windowed.
  const averages = count > 1 ? Math.max(1, (2 * signal.length) / piece - 1) / (1 + 2 / 36) : 1;
  return { step_Hz: sum.step_Hz, V2_per_Hz, averages };
}

function addPower(sum: Float64Array, piece: Float64Array): void {
  const spectrum = realSpectrum(piece);
  for (let k = 0; k < sum.length; k++) sum[k]! += spectrum[2 * k]! ** 2 + spectrum[2 * k + 1]! ** 2;
}
