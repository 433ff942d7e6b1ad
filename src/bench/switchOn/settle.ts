import type { Onset } from "./moment.ts";

export interface Settled {
  /** From the switch until it stays within the band; undefined when the record ends before that. */
  readonly settle_s?: number;
  readonly doubt_s: number;
}

/** Means this long stand for the voltage without its hum: a period of 50 Hz. */
const mean_s = 0.02;

/** From one mean to the next a voltage that can be followed falls by no more than this power of e. */
const steepest = 3;
/** One that falls by more passes the band between the beginning of its mean and twice this share of a mean later. */
const suddenlyBy = 0.7;
/** A fall whose logarithm bends by so many standard deviations is no exponential. */
const bent = 3;

/**
 * When a voltage that was switched on at sample 0 has come within a band about its rest to stay, by means of a fiftieth
 * of a second each. Between two means it falls as an exponential does: with F the fall of the logarithm from one to the
 * next,
 *
 *     t = (ln(from/band) − ln(sinh(F/2)/(F/2)))/F,   var t = Σ (∂t/∂mean)²·σ² + (Σ ∂t/∂mean)²·σ_rest²
 *
 * A fall that is no exponential, as the mean before shows, counts what that bends; one within a single mean is placed
 * only within that mean.
 *
 * @param restSd_V  standard deviation of the rest, by which all means err alike
 * @param onset  the switch itself, which lies before sample 0
 */
export function settled(
  departure_V: Float64Array,
  rate_Hz: number,
  band_V: number,
  restSd_V: number,
  onset: Onset,
): Settled {
  const block = Math.max(1, Math.round(mean_s * rate_Hz));
  const means = meansOf(departure_V, block);
  const last = means.findLastIndex((mean) => Math.abs(mean) > band_V);
  if (last < 0) return { settle_s: 0, doubt_s: mean_s };
  if (last >= means.length - 2) return { doubt_s: 0 };
  const length_s = block / rate_Hz;
  const [from, to] = [Math.abs(means[last]!), Math.abs(means[last + 1]!)];
  const place = placeWithin(from, to, band_V);
  const sd_V = scatterOf(means.subarray(Math.max(last + 2, Math.floor((1 - settledShare) * means.length))));
  if (Math.log(from / to) >= steepest) {
    return { settle_s: (last + suddenlyBy) * length_s, doubt_s: suddenlyBy * length_s };
  }
  const slopes = [slope((x) => placeWithin(x, to, band_V), from), slope((x) => placeWithin(from, x, band_V), to)];
  const chance = Math.hypot(Math.hypot(...slopes) * sd_V, (slopes[0]! + slopes[1]!) * restSd_V);
  const model = last > 0 ? bendOf(Math.abs(means[last - 1]!), from, to, place, sd_V) : 0;
  const doubt = Math.hypot(1.96 * chance, model) * length_s;
  return {
    settle_s: (last + 0.5 + place) * length_s + (onset.before - 0.5) / rate_Hz,
    doubt_s: Math.hypot(onset.doubt / rate_Hz, Math.min(departure_V.length / rate_Hz, doubt)),
  };
}

/** This share of the means, the last, shows how they scatter at rest. */
const settledShare = 0.3;

function meansOf(signal: Float64Array, block: number): Float64Array {
  return new Float64Array(Math.floor(signal.length / block)).map((_, b) => {
    let sum = 0;
    for (let n = b * block; n < (b + 1) * block; n++) sum += signal[n]!;
    return sum / block;
  });
}

/** Standard deviation about their mean of means that rest: noise, and what they leave of hum. */
function scatterOf(means: Float64Array): number {
  const mean = means.reduce((sum, value) => sum + value, 0) / means.length;
  const squares = means.reduce((sum, value) => sum + (value - mean) ** 2, 0);
  return Math.sqrt(squares / Math.max(1, means.length - 1));
}

function fallOf(from: number, to: number): number {
  return Math.max(0, Math.min(steepest, Math.log(from / Math.max(to, Number.MIN_VALUE))));
}

/** Where between the middles of two stretches an exponential with these means passes the band, as a share of the way. */
function placeWithin(from: number, to: number, band: number): number {
  const fall = fallOf(from, to);
  if (fall === 0) return 1;
  // The mean of an exponential lies a little above its middle.
  const lift = Math.log(Math.sinh(fall / 2) / (fall / 2));
  return Math.max(0, Math.min(1, (Math.log(from / band) - lift) / fall));
}

function slope(of: (value: number) => number, at: number): number {
  const step = 1e-4 * Math.max(at, Number.MIN_VALUE);
  return (of(at + step) - of(at - step)) / (2 * step);
}

/** What a parabola through three logarithms moves the place and each mean, where they are no straight line by more than chance. */
function bendOf(before: number, from: number, to: number, place: number, sd_V: number): number {
  const bend = Math.log(before) - 2 * Math.log(from) + Math.log(to);
  const sd = sd_V * Math.hypot(1 / before, 2 / from, 1 / to);
  if (!(Math.abs(bend) > bent * sd)) return 0;
  return (0.5 * (place * (1 - place) + 1 / 12) * Math.abs(bend)) / fallOf(from, to);
}
