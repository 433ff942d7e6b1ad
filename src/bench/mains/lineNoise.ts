import { floorNear } from "../../maths/spectra/noiseFloor.ts";
import { averagedPeriodogram, type Density } from "../../maths/spectra/welch.ts";
import type { Bench } from "./comb.ts";
import type { WeightedSpectra } from "./combSums.ts";
import { reach_Hz } from "./search.ts";

/** Spectrum of what is left of a signal, and the length of the pieces it was averaged over. */
export interface RestSpectrum {
  readonly density: Density;
  readonly piece_s: number;
}

/** Longer records are cut into pieces of this many samples: noise needs no finer look, and time is spared. */
export const longestPiece = 2 ** 18;

/**
 * Spectra of what is left of each signal when its lines are taken out.
 *
 * @param most  pieces at most of a long record
 */
export function spectraOfRest(left: readonly Float64Array[], rate_Hz: number, most?: number): RestSpectrum[] {
  return left.map((signal) => {
    const known = most === undefined ? knownRests.get(signal) : undefined;
    const piece = Math.min(signal.length, longestPiece);
    if (known && known.piece_s === piece / rate_Hz) return known;
    const rest = { density: averagedPeriodogram(signal, rate_Hz, piece, 1, most), piece_s: piece / rate_Hz };
    if (most === undefined) knownRests.set(signal, rest);
    return rest;
  });
}

/** Spectra of signals that were asked for before; a signal that is written into is copied first. */
const knownRests = new WeakMap<Float64Array, RestSpectrum>();

/**
 * The same from transforms that are there already, good until the next are asked for; their window leaks more, so only
 * lines that are out are out.
 */
export function densitiesOf({ size, rate_Hz, spectra }: WeightedSpectra, bench: Bench): RestSpectrum[] {
  const scale = (2 * bench.duration_s) / (bench.noiseBandwidth * bench.weightSum ** 2);
  return spectra.map((spectrum, s) => {
    bench.rooms.densities[s] ??= new Float64Array(size / 2 + 1);
    const V2_per_Hz = bench.rooms.densities[s]!;
    for (let k = 0; k < V2_per_Hz.length; k++) {
      V2_per_Hz[k] = scale * (spectrum[2 * k]! ** 2 + spectrum[2 * k + 1]! ** 2);
    }
    return { density: { step_Hz: rate_Hz / size, V2_per_Hz, averages: 1 }, piece_s: bench.duration_s };
  });
}

/** The median alone, for a line that still stands in the spectrum. */
export function noiseAbout({ density, piece_s }: RestSpectrum, frequency_Hz: number): number {
  return floorNear(density, frequency_Hz, reach_Hz(piece_s), 3 / piece_s);
}

/** Mean density close by may exceed the floor further off by this factor through chance alone. */
const chanceExcess = 3;

/**
 * Noise density at a line. The median about it does not notice neighbouring lines; where skirts of the line itself
 * remain (a frequency that moved faster than could be followed), the higher density close by counts.
 */
export function noiseAtLine({ density, piece_s }: RestSpectrum, frequency_Hz: number): number {
  const wide = noiseAbout({ density, piece_s }, frequency_Hz);
  const close = meanBetween(density, frequency_Hz, 1.5 / piece_s, 4 / piece_s);
  return close > chanceExcess * wide ? close : wide;
}

function meanBetween({ step_Hz, V2_per_Hz }: Density, frequency_Hz: number, from_Hz: number, to_Hz: number): number {
  let sum = 0;
  let count = 0;
  for (const side of [-1, 1]) {
    for (let off = from_Hz; off <= to_Hz; off += step_Hz) {
      const value = V2_per_Hz[Math.round((frequency_Hz + side * off) / step_Hz)];
      if (value === undefined) continue;
      sum += value;
      count++;
    }
  }
  return count > 0 ? sum / count : 0;
}
