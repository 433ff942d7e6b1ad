import { floorNear } from "../maths/spectra/noiseFloor.ts";
import { averagedPeriodogram } from "../maths/spectra/welch.ts";

/** Density over the floor from which a peak counts as a tone. */
const leastRise = 60;
/** A line this share of the whole signal, a constant voltage included, is rounding. */
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
  avoid: (frequency_Hz: number) => boolean = () => false,
): number | undefined {
  const piece = Math.min(signal.length, longestPiece);
  const piece_s = piece / rate_Hz;
  const density = averagedPeriodogram(signal, rate_Hz, piece, 1, mostPieces);
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
  let squares = 0;
  for (const value of signal) squares += value * value;
  if (best * step_Hz < (arithmetic ** 2 * squares) / signal.length) return undefined;
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
