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
  const V2_per_Hz = new Float64Array(size / 2 + 1);
  const scale = addPower(V2_per_Hz, signal, window, new Float64Array(size), rate_Hz);
  for (let k = 0; k < V2_per_Hz.length; k++) V2_per_Hz[k]! *= scale;
  return { step_Hz: rate_Hz / size, V2_per_Hz, averages: 1 };
}

/**
 * Periodograms of Hann-windowed pieces of one length, overlapping by half or more, averaged.
 *
 * @param most  pieces at most, spread over a long record
 */
export function averagedPeriodogram(
  signal: Float64Array,
  rate_Hz: number,
  piece: number,
  padding = 2,
  most = Number.POSITIVE_INFINITY,
): Density {
  const window = cosineWindow("hann", piece);
  const last = signal.length - piece;
  const count = Math.min(most, Math.max(1, Math.ceil(last / (piece / 2)) + 1));
  const stride = count > 1 ? last / (count - 1) : 0;
  const size = powerOfTwo(padding * piece);
  const room = new Float64Array(size);
  const V2_per_Hz = new Float64Array(size / 2 + 1);
  let scale = 0;
  for (let i = 0; i < count; i++) {
    const from = Math.round(i * stride);
    scale = addPower(V2_per_Hz, signal.subarray(from, from + piece), window, room, rate_Hz);
  }
  for (let k = 0; k < V2_per_Hz.length; k++) V2_per_Hz[k]! *= scale / count;
  // Pieces that share half their samples are nearly independent once windowed.
  const independent = Math.min(count, (2 * signal.length) / piece - 1) / (1 + 2 / 36);
  const averages = count > 1 ? Math.max(1, independent) : 1;
  return { step_Hz: rate_Hz / size, V2_per_Hz, averages };
}

/** Adds the power of one windowed piece, its mean removed; returns what makes such power a density. */
function addPower(
  sum: Float64Array,
  piece: Float64Array,
  window: Float64Array,
  room: Float64Array,
  rate_Hz: number,
): number {
  let squares = 0;
  let weight = 0;
  let mean = 0;
  for (let i = 0; i < piece.length; i++) {
    squares += window[i]! ** 2;
    weight += window[i]!;
    mean += window[i]! * piece[i]!;
  }
  mean /= weight;
  for (let i = 0; i < piece.length; i++) room[i] = (piece[i]! - mean) * window[i]!;
  const spectrum = realSpectrum(room);
  for (let k = 0; k < sum.length; k++) sum[k]! += spectrum[2 * k]! ** 2 + spectrum[2 * k + 1]! ** 2;
  return 2 / (rate_Hz * squares);
}
