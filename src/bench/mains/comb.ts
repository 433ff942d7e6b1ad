import { powerOfTwo, realSpectrum } from "../../maths/spectra/fourier.ts";
import { taperedWindow } from "../../maths/spectra/windows.ts";
import { type Blocks, blockSums, blocksFor, type WeightedSpectra } from "./combSums.ts";
import type { PhaseTrack } from "./phaseTrack.ts";

/** What all combs of one recording are fitted to: signals at one rate, their mean removed, ends faded. */
export interface Bench {
  readonly signals: readonly Float64Array[];
  readonly rate_Hz: number;
  readonly duration_s: number;
  readonly weight: Float64Array;
  readonly weightSum: number;
  /** Length the signals are padded to, a power of two. */
  readonly size: number;
  /** Equivalent noise bandwidth of the weight in units of 1/duration. */
  readonly noiseBandwidth: number;
  readonly rooms: Rooms;
}

/** Large arrays of one fit, each written anew at every step: what they held before is lost. */
export interface Rooms {
  /** The signals whose transforms are held, if they are those of signals that are kept. */
  of?: readonly Float64Array[];
  padded?: Float64Array;
  readonly spectra: Float64Array[];
  readonly densities: Float64Array[];
}

export function emptyRooms(): Rooms {
  return { spectra: [], densities: [] };
}

/** Faded share of the record, costing 2 % of scatter at most, and its longest: distant lines are kept apart by it. */
const taper = 0.1;
const longestTaper_s = 0.4;

/**
 * Signals made ready for fitting: equally long.
 *
 * @param given  not modified, unless `givenUp`: then their means are taken out where they stand
 */
export function benchOf(given: readonly Float64Array[], rate_Hz: number, givenUp = false): Bench {
  const length = given[0]!.length;
  const weight = taperedWindow(length, Math.min(taper, (longestTaper_s * rate_Hz) / length));
  let weightSum = 0;
  let squares = 0;
  for (let n = 0; n < length; n++) {
    weightSum += weight[n]!;
    squares += weight[n]! ** 2;
  }
  const signals = given.map((signal) => {
    let mean = 0;
    for (let n = 0; n < length; n++) mean += weight[n]! * signal[n]!;
    mean /= weightSum;
    const centred = givenUp ? signal : new Float64Array(length);
    for (let n = 0; n < length; n++) centred[n] = signal[n]! - mean;
    return centred;
  });
  const noiseBandwidth = (length * squares) / weightSum ** 2;
  return {
    signals,
    rate_Hz,
    duration_s: length / rate_Hz,
    weight,
    weightSum,
    size: powerOfTwo(length),
    noiseBandwidth,
    rooms: emptyRooms(),
  };
}

/** One comb while it is fitted: a phase common to all signals, and complex amplitudes per signal and order. */
export interface Comb {
  readonly orders: readonly number[];
  readonly track: PhaseTrack;
  /** A fixed frequency is not tracked. */
  readonly fixed: boolean;
  readonly blocks: Blocks;
  /** Orders that something else stands at: not heard on the phase. */
  readonly strays: readonly number[];
  /** Per signal, real and imaginary part of each order in turn; changed in place as the fit goes on. */
  readonly phasors: readonly Float64Array[];
}

export function blocksOn(bench: Bench, frequency_Hz: number): Blocks {
  return blocksFor(frequency_Hz, bench.rate_Hz, bench.weight.length, bench.size);
}

export function combOn(bench: Bench, track: PhaseTrack, orders: readonly number[], blocks: Blocks): Comb {
  return {
    orders,
    track,
    blocks,
    fixed: false,
    strays: [],
    phasors: bench.signals.map(() => new Float64Array(2 * orders.length)),
  };
}

/** What the weights come to in each block. */
export interface BlockWeights {
  readonly sum: Float64Array;
  readonly squares: Float64Array;
  /** How far the weights' centre lies behind the middle of the block. */
  readonly lag_s: Float64Array;
}

export function blockWeights({ weight, rate_Hz }: Bench, { edges, step_s }: Blocks): BlockWeights {
  const blocks = edges.length - 1;
  const sums = { sum: new Float64Array(blocks), squares: new Float64Array(blocks), lag_s: new Float64Array(blocks) };
  for (let b = 0; b < blocks; b++) {
    let sum = 0;
    let squares = 0;
    let moment = 0;
    for (let n = edges[b]!; n < edges[b + 1]!; n++) {
      const w = weight[n]!;
      sum += w;
      squares += w * w;
      moment += w * (n - edges[b]!);
    }
    sums.sum[b] = sum;
    sums.squares[b] = squares;
    sums.lag_s[b] = sum > 0 ? (edges[b]! + moment / sum) / rate_Hz - (b + 0.5) * step_s : 0;
  }
  return sums;
}

/**
 * Transforms of the weighted signals, good until the next are asked for.
 *
 * @param left  what is left of the bench's signals; not written into as long as the fit goes on
 */
export function spectraOf(bench: Bench, left: readonly Float64Array[]): WeightedSpectra {
  const { rate_Hz, size, rooms } = bench;
  const spectra = left.map((_, s) => (rooms.spectra[s] ??= new Float64Array(size + 2)));
  if (rooms.of !== left) {
    left.forEach((signal, s) => {
      transformWeighted(bench, signal, spectra[s]!);
    });
    rooms.of = left;
  }
  return { size, rate_Hz, spectra };
}

/**
 * The same of the signals as they are after something was taken out of them, which itself is not kept.
 *
 * @param takenFrom  writes into copies of the signals
 */
export function spectraAfter(bench: Bench, takenFrom: (copies: readonly Float64Array[]) => void): WeightedSpectra {
  const { rate_Hz, size, rooms, signals } = bench;
  rooms.of = undefined;
  const spectra = signals.map((_, s) => (rooms.spectra[s] ??= new Float64Array(size + 2)));
  const copies = signals.map((signal, s) => {
    const copy = spectra[s]!.subarray(0, signal.length);
    copy.set(signal);
    return copy;
  });
  takenFrom(copies);
  copies.forEach((copy, s) => {
    transformWeighted(bench, copy, spectra[s]!);
  });
  return { size, rate_Hz, spectra };
}

function transformWeighted({ weight, size, rooms }: Bench, signal: Float64Array, into: Float64Array): void {
  rooms.padded ??= new Float64Array(size);
  const { padded } = rooms;
  for (let n = 0; n < signal.length; n++) padded[n] = weight[n]! * signal[n]!;
  realSpectrum(padded, into);
}

/** Block sums of a comb over what is left of the signals. */
export function sumsOf(left: WeightedSpectra, comb: Comb) {
  return blockSums(left, comb.track, comb.orders, comb.blocks);
}

/** Totals over the blocks: per signal, real and imaginary part of each order in turn. */
export function totals(sums: readonly Float64Array[], orders: number): Float64Array[] {
  return sums.map((sum) => {
    const blocks = sum.length / 2 / orders;
    const total = new Float64Array(2 * orders);
    for (let i = 0; i < orders; i++) {
      for (let b = 0; b < blocks; b++) {
        total[2 * i]! += sum[2 * (i * blocks + b)]!;
        total[2 * i + 1]! += sum[2 * (i * blocks + b) + 1]!;
      }
    }
    return total;
  });
}
