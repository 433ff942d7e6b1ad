import { complexSpectrum } from "../../maths/spectra/fourier.ts";
import { type PhaseTrack, phaseAlong } from "./phaseTrack.ts";

/** Transforms of the weighted signals, padded with zeros to a power of two. */
export interface WeightedSpectra {
  readonly size: number;
  readonly rate_Hz: number;
  readonly spectra: readonly Float64Array[];
}

/** Blocks of equal length over a record, and the coarse samples that each is made of. */
export interface Blocks {
  /** Block b runs from sample edges[b] to edges[b + 1] − 1. */
  readonly edges: readonly number[];
  readonly step_s: number;
  /** Coarse samples in the padded record, and in one block. */
  readonly coarse: number;
  readonly perBlock: number;
  /** Half width of the band about a line that is looked at. */
  readonly half_Hz: number;
}

/** Complex sums per signal, order and block: re at 2·(order index·blocks + block), im after it. */
export type BlockSums = readonly Float64Array[];

/** Blocks are about this long: mains is steady within them. */
const block_s = 1 / 8;
/** Share of the distance between orders that belongs to a line, on both sides of it. */
const ownShare = 0.45;

/**
 * Blocks for a comb on a record: a line and its surroundings up to nearly half way to the next order are looked at,
 * in coarse samples about as dense as the fundamental.
 *
 * @param size  length of the padded record, a power of two
 */
export function blocksFor(frequency_Hz: number, rate_Hz: number, length: number, size: number): Blocks {
  const padded_s = size / rate_Hz;
  let coarse = 4;
  while (coarse < 2 * ownShare * frequency_Hz * padded_s) coarse *= 2;
  const perBlock = Math.max(1, Math.round((block_s * coarse) / padded_s));
  const step_s = (perBlock * padded_s) / coarse;
  const edges: number[] = [];
  for (let b = 0; Math.round(b * step_s * rate_Hz) < length; b++) edges.push(Math.round(b * step_s * rate_Hz));
  edges.push(length);
  return { edges, step_s, coarse, perBlock, half_Hz: ownShare * frequency_Hz };
}

/**
 * 2·Σ w·y·e^{−jkθ} over each block, for every signal and order.
 *
 * Each line is cut out of the spectrum with a band about it and brought back to time as a slow complex signal, which
 * is then turned by what the track deviates from its carrier.
 */
export function blockSums(
  { size, rate_Hz, spectra }: WeightedSpectra,
  track: PhaseTrack,
  orders: readonly number[],
  { edges, coarse, perBlock, half_Hz }: Blocks,
): BlockSums {
  const blocks = edges.length - 1;
  const bin_Hz = rate_Hz / size;
  const half = Math.min(coarse / 2 - 1, Math.floor(half_Hz / bin_Hz));
  const used = Math.min(coarse, blocks * perBlock);
  const coarse_s = size / rate_Hz / coarse;
  const deviation = phaseAlong(track, 0.5 * coarse_s, coarse_s, used);
  const centred = centring(half, coarse);
  const sums = spectra.map(() => new Float64Array(2 * orders.length * blocks));
  const turnRe = new Float64Array(used);
  const turnIm = new Float64Array(used);
  const band = new Float64Array(2 * coarse);
  const slow = new Float64Array(2 * coarse);
  orders.forEach((order, i) => {
    const line = (order * track.carrier_Hz) / bin_Hz;
    const centre = Math.round(line);
    const slip = (2 * Math.PI * (line - centre)) / coarse;
    for (let m = 0; m < used; m++) {
      const turn = slip * (m + 0.5) + order * deviation[m]!;
      turnRe[m] = Math.cos(turn);
      turnIm[m] = Math.sin(turn);
    }
    spectra.forEach((spectrum, s) => {
      band.fill(0);
      for (let j = Math.max(-half, -centre); j <= half && centre + j <= size / 2; j++) {
        const re = spectrum[2 * (centre + j)]!;
        const im = spectrum[2 * (centre + j) + 1]!;
        const c = centred[2 * (j + half)]!;
        const d = centred[2 * (j + half) + 1]!;
        const to = 2 * (j < 0 ? j + coarse : j);
        band[to] = re * c - im * d;
        band[to + 1] = re * d + im * c;
      }
      complexSpectrum(band, "inverse", slow);
      const sum = sums[s]!;
      for (let b = 0; b < blocks; b++) {
        let re = 0;
        let im = 0;
        const end = Math.min(used, (b + 1) * perBlock);
        for (let m = b * perBlock; m < end; m++) {
          re += slow[2 * m]! * turnRe[m]! + slow[2 * m + 1]! * turnIm[m]!;
          im += slow[2 * m + 1]! * turnRe[m]! - slow[2 * m]! * turnIm[m]!;
        }
        sum[2 * (i * blocks + b)] = 2 * re;
        sum[2 * (i * blocks + b) + 1] = 2 * im;
      }
    });
  });
  return sums;
}

/** e^{jπj/coarse}: moves coarse samples to the middles of the stretches they stand for. */
function centring(half: number, coarse: number): Float64Array {
  const turns = new Float64Array(2 * (2 * half + 1));
  for (let j = -half; j <= half; j++) {
    turns[2 * (j + half)] = Math.cos((Math.PI * j) / coarse);
    turns[2 * (j + half) + 1] = Math.sin((Math.PI * j) / coarse);
  }
  return turns;
}
