import { floorNear } from "../maths/spectra/noiseFloor.ts";
import { averageOf, piecesOf } from "../maths/spectra/welch.ts";

/** Density over the floor from which a peak counts as a tone. */
const leastRise = 60;
/** A line this share of what was looked at, a constant voltage included, is rounding. */
const arithmetic = 1e-11;
/** The record is looked at in this many pieces of this length at most, spread over it. */
const longestPiece = 2 ** 18;
const mostPieces = 5;

/**
 * Rough frequency of the tone in a channel: the strongest line, or the strongest near a nominal.
 *
 * @param avoid  is this frequency spoken for by the mains?
 * @returns undefined when nothing stands out
 */
export function findTone(
  signal: Float64Array,
  rate_Hz: number,
  nominal_Hz: number | undefined,
  avoid?: (frequency_Hz: number) => boolean,
): number | undefined {
  const pieceAt = (from: number, count: number) => signal.subarray(from, from + count);
  return findToneOf(pieceAt, signal.length, rate_Hz, nominal_Hz, avoid);
}

/**
 * The same of a signal that is not in memory as a whole.
 *
 * @param pieceAt  so many samples from one on, looked at before the next are asked for
 */
export function findToneOf(
  pieceAt: (from: number, count: number) => Float64Array,
  length: number,
  rate_Hz: number,
  nominal_Hz: number | undefined,
  avoid: (frequency_Hz: number) => boolean = () => false,
): number | undefined {
  const piece = Math.min(length, longestPiece);
  const piece_s = piece / rate_Hz;
  let squares = 0;
  const pieces = piecesOf(length, piece, mostPieces);
  const density = averageOf(
    pieces,
    (from) => {
      const samples = pieceAt(from, piece);
      for (let n = 0; n < piece; n++) squares += samples[n]! ** 2;
      return samples;
    },
    length,
    rate_Hz,
    piece,
    1,
  );
  const { step_Hz, V2_per_Hz } = density;
  const slack = nominal_Hz === undefined ? 0 : 0.0015 * nominal_Hz + 1.5 / piece_s;
  const low_Hz = nominal_Hz === undefined ? Math.max(10, 4 / piece_s) : nominal_Hz - slack;
  const high_Hz = nominal_Hz === undefined ? 0.49 * rate_Hz : nominal_Hz + slack;
  let peak = 0;
  let best = 0;
  const last = Math.min(V2_per_Hz.length - 2, Math.floor(high_Hz / step_Hz));
  for (let k = Math.max(2, Math.ceil(low_Hz / step_Hz)); k <= last; k++) {
    if (V2_per_Hz[k]! > best && !avoid(k * step_Hz)) {
      best = V2_per_Hz[k]!;
      peak = k;
    }
  }
  if (peak === 0) return undefined;
  const peak_Hz = peak * step_Hz;
  const floor = floorNear(density, peak_Hz, Math.max(40 / piece_s, 0.1 * peak_Hz), 3 / piece_s);
  if (!(best > leastRise * floor)) return undefined;
  if (best * step_Hz < (arithmetic ** 2 * squares) / (piece * pieces.length)) return undefined;
  // Parabola through the logarithms of the three highest values.
  const [a, b, c] = [peak - 1, peak, peak + 1].map((k) => Math.log(Math.max(V2_per_Hz[k]!, Number.MIN_VALUE))) as [
    number,
    number,
    number,
  ];
  const bend = a - 2 * b + c;
  const shift = bend < 0 ? Math.max(-0.5, Math.min(0.5, (0.5 * (a - c)) / bend)) : 0;
  return (peak + shift) * step_Hz;
}
