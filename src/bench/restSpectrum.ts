import { runningFloor } from "../maths/spectra/noiseFloor.ts";
import { averagedPeriodogram, type Density, piecesOf } from "../maths/spectra/welch.ts";
import { cosineWindow } from "../maths/spectra/windows.ts";

/** A line found in a spectrum, of whatever width. */
export interface FoundLine {
  readonly frequency_Hz: number;
  readonly level_Vrms: number;
  /** 95 % half-width of the level, from the noise about it. */
  readonly doubt_Vrms: number;
}

/** What a signal holds when mains and tone are taken out: noise, and lines that belong to neither. */
export interface RestSpectrum {
  readonly density: Density;
  /** The density with every line levelled to the floor about it. */
  readonly clean_V2_per_Hz: Float64Array;
  readonly lines: readonly FoundLine[];
  readonly duration_s: number;
  /** Length of a record weighed evenly whose mean squares would scatter as much. */
  readonly even_s: number;
}

/** Pieces no longer than this are transformed, so that memory stays small whatever the record's length. */
const longestPiece = 2 ** 19;
/** Chance, over all of the band, that noise alone is called a line. */
const falseLine = 0.02;
/** Density over the floor that still belongs to a line it adjoins. */
const skirt = 4;
/** Half of a Hann line's width in units of one over the piece's length, and a little. */
const halfWidth = 2.5;

/** Spectrum of a rest, before it is judged. */
export interface RestDensity {
  readonly density: Density;
  /** Of the pieces it was averaged over, and of the record. */
  readonly piece_s: number;
  readonly duration_s: number;
  readonly even_s: number;
}

export function restDensity(rest: Float64Array, rate_Hz: number): RestDensity {
  const piece = Math.min(rest.length, longestPiece);
  return {
    even_s: rest.length / rate_Hz / unevenness(rest.length, piece),
    density: averagedPeriodogram(rest, rate_Hz, piece, 1),
    piece_s: piece / rate_Hz,
    duration_s: rest.length / rate_Hz,
  };
}

/** One more stretch joined to those before, which are written into. */
export function joined(before: RestDensity | undefined, next: RestDensity): RestDensity {
  if (!before) return next;
  const duration_s = before.duration_s + next.duration_s;
  const share = next.duration_s / duration_s;
  const { V2_per_Hz } = before.density;
  for (let k = 0; k < V2_per_Hz.length; k++) V2_per_Hz[k]! += share * (next.density.V2_per_Hz[k]! - V2_per_Hz[k]!);
  return {
    density: { ...before.density, averages: before.density.averages + next.density.averages },
    piece_s: before.piece_s,
    duration_s,
    even_s: before.even_s + next.even_s,
  };
}

/** Points of a piece at which its window is looked at. */
const windowPoints = 128;

/**
 * Hann pieces weigh the middle of each more, so power scatters more than over a record weighed evenly: by 35/18 in one
 * piece, by about 1.06 in many that overlap.
 *
 *     T·∫u² dt / (∫u dt)²,   u the sum of the squared windows
 */
function unevenness(length: number, piece: number): number {
  const window = cosineWindow("hann", windowPoints);
  const at = (samples: number) => Math.round((samples * windowPoints) / piece);
  const weights = new Float64Array(at(length) + 1);
  for (const from of piecesOf(length, piece)) {
    for (let i = 0; i < windowPoints; i++) weights[Math.min(weights.length - 1, at(from) + i)]! += window[i]! ** 2;
  }
  const sum = weights.reduce((a, b) => a + b, 0);
  return (at(length) * weights.reduce((a, b) => a + b * b, 0)) / sum ** 2;
}

/**
 * @param band_Hz  where lines are sought
 * @param known_Hz  frequencies already accounted for: what remains there is levelled, not reported
 */
export function restSpectrum(
  { density, piece_s, duration_s, even_s }: RestDensity,
  band_Hz: readonly [number, number],
  known_Hz: readonly number[],
): RestSpectrum {
  const { step_Hz, V2_per_Hz, averages } = density;
  const floor = runningFloor(density, (f) => Math.max(12, 20 / piece_s, 0.03 * f));
  const clean = V2_per_Hz.slice();
  const taken = new Uint8Array(clean.length);
  const level = (from: number, to: number) => {
    for (let k = Math.max(0, from); k <= Math.min(clean.length - 1, to); k++) {
      clean[k] = Math.min(clean[k]!, floor[k]!);
      taken[k] = 1;
    }
  };
  const reach = Math.ceil(halfWidth / piece_s / step_Hz);
  const spread = (peak: number, least: number): [number, number] => {
    let from = peak;
    let to = peak;
    while (from > 1 && (peak - from < least || V2_per_Hz[from - 1]! > skirt * floor[from - 1]!)) from--;
    while (to < clean.length - 2 && (to - peak < least || V2_per_Hz[to + 1]! > skirt * floor[to + 1]!)) to++;
    return [from, to];
  };
  for (const known of known_Hz) {
    const peak = Math.round(known / step_Hz);
    if (peak > 0 && peak < clean.length && V2_per_Hz[peak]! > skirt * floor[peak]!) level(...spread(peak, 1));
    level(peak - 1, peak + 1);
  }

  const low = Math.max(2, Math.ceil(band_Hz[0] / step_Hz));
  const high = Math.min(clean.length - 3, Math.floor(band_Hz[1] / step_Hz));
  const least = Math.log(Math.max(1, high - low) / falseLine);
  const peaks: number[] = [];
  for (let k = low; k <= high; k++) {
    const ratio = V2_per_Hz[k]! / floor[k]!;
    if (taken[k] || ratio <= 1 || V2_per_Hz[k]! < V2_per_Hz[k - 1]! || V2_per_Hz[k]! <= V2_per_Hz[k + 1]!) continue;
    if (averages * (ratio - 1 - Math.log(ratio)) > least) peaks.push(k);
  }
  peaks.sort((a, b) => V2_per_Hz[b]! - V2_per_Hz[a]!);
  const accepted: number[] = [];
  for (const peak of peaks) {
    const leak = accepted.reduce((sum, other) => {
      const d = Math.abs(peak - other) * step_Hz * piece_s;
      return d < 2 * halfWidth ? Number.POSITIVE_INFINITY : sum + V2_per_Hz[other]! / (Math.PI * d * (d * d - 1)) ** 2;
    }, 0);
    if (V2_per_Hz[peak]! > 10 * leak) accepted.push(peak);
  }
  const lines = accepted.map((peak): FoundLine => {
    let from = peak;
    let to = peak;
    const apart = (k: number) => accepted.some((other) => other !== peak && Math.abs(k - other) <= Math.abs(k - peak));
    const [first, last] = spread(peak, reach);
    while (from > first && !apart(from - 1)) from--;
    while (to < last && !apart(to + 1)) to++;
    let power = 0;
    let moment = 0;
    for (let k = from; k <= to; k++) {
      const above = (V2_per_Hz[k]! - floor[k]!) * step_Hz;
      power += above;
      if (Math.abs(k - peak) <= reach) moment += above * (k - peak);
    }
    const level_Vrms = Math.sqrt(Math.max(0, power));
    const noise_V2 = floor[peak]! / (piece_s * averages) / 2;
    return {
      frequency_Hz: (peak + moment / Math.max(power, Number.MIN_VALUE)) * step_Hz,
      level_Vrms,
      doubt_Vrms: 1.96 * 1.25 * Math.sqrt(noise_V2),
    };
  });
  for (const peak of accepted) level(...spread(peak, reach));
  return { density, clean_V2_per_Hz: clean, lines, duration_s, even_s };
}

/** A mean square within a band, weighted, and the variance of that estimate. */
export interface Power {
  readonly V2: number;
  readonly variance_V4: number;
}

/** Bins so far apart hold noise of their own, whatever the padding. */
const apartBins = 8;

/**
 * Integral of a density over a band with sharp edges.
 *
 *     P = ∫ W²·S df,   var P = ∫ (W²·S)² df / T
 *
 * The square of a density is read as the product of two bins apart: one bin squared is twice too high in a single
 * periodogram.
 *
 * @param even_s  length of a record weighed evenly that scatters as this one
 */
export function powerWithin(
  step_Hz: number,
  V2_per_Hz: Float64Array,
  [low_Hz, high_Hz]: readonly [number, number],
  even_s: number,
  weight: (frequency_Hz: number) => number = () => 1,
): Power {
  let V2 = 0;
  let squares = 0;
  const last = Math.min(V2_per_Hz.length - 1, Math.ceil(high_Hz / step_Hz));
  for (let k = Math.max(1, Math.floor(low_Hz / step_Hz)); k <= last; k++) {
    // Bins at the edges count with the part of them inside the band.
    const from = Math.max(low_Hz, (k - 0.5) * step_Hz);
    const to = Math.min(high_Hz, (k + 0.5) * step_Hz);
    if (to <= from) continue;
    const square = weight(k * step_Hz) ** 2;
    const other = k + apartBins <= last ? k + apartBins : Math.max(1, k - apartBins);
    V2 += V2_per_Hz[k]! * square * (to - from);
    squares += V2_per_Hz[k]! * V2_per_Hz[other]! * square * square * (to - from);
  }
  return { V2, variance_V4: squares / even_s };
}

/** Root of a power, and the 95 % half-width of that root. */
export function rootOf({ V2, variance_V4 }: Power): { value: number; doubt: number } {
  const value = Math.sqrt(Math.max(0, V2));
  const reach = 1.96 * Math.sqrt(variance_V4);
  const doubt = V2 > 4 * reach ? reach / (2 * value) : Math.max(Math.sqrt(Math.max(0, V2) + reach) - value, 0);
  return { value, doubt };
}

export function sumOf(...powers: readonly Power[]): Power {
  return {
    V2: powers.reduce((sum, p) => sum + p.V2, 0),
    variance_V4: powers.reduce((sum, p) => sum + p.variance_V4, 0),
  };
}

/** Power of one line, weighted, with its variance from the doubt of its level. */
export function powerOfLine(level_Vrms: number, doubt_Vrms: number, weight = 1): Power {
  const sd = doubt_Vrms / 1.96;
  return { V2: (level_Vrms * weight) ** 2, variance_V4: (2 * level_Vrms * sd * weight ** 2) ** 2 };
}
