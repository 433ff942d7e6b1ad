import type { Bench, Comb } from "./comb.ts";
import type { PhaseTrack } from "./phaseTrack.ts";

/** Length of the stretches whose frequency is found one by one; they follow each other at half of it. */
const stretch_s = 2;
/** How far from the carrier a stretch may stand, and how far two neighbours may differ. */
const reach_Hz = 0.08;
const jump_Hz = 0.012;
/** Usual change of frequency from one stretch to the next. */
const usualJump_Hz = 0.003;
const strongestLines = 12;

/**
 * A first track for mains that wanders too far for one straight line: the likeliest path of frequencies through
 * stretches of two seconds (dynamic programming over a grid), then the phase steps between stretches.
 *
 * @param sums  block sums of the comb on its carrier
 * @param noise  density per signal and order
 * @returns undefined when the record is too short to wander
 */
export function wanderingStart(
  bench: Bench,
  comb: Comb,
  sums: readonly Float64Array[],
  noise: readonly Float64Array[],
): PhaseTrack | undefined {
  const blocks = comb.blocks.edges.length - 1;
  const { step_s } = comb.track;
  const hop = Math.max(1, Math.round(stretch_s / 2 / step_s));
  const stretches = Math.floor(blocks / hop) - 1;
  if (stretches < 3) return undefined;

  const lines = strongest(bench, comb, sums, noise, hop, stretches);
  if (lines.length === 0) return undefined;
  const highest = Math.max(...lines.map((line) => line.order));
  const step_Hz = Math.min(0.002, 0.06 / highest);
  const half = Math.ceil(reach_Hz / step_Hz);
  const path = likeliestPath(scores(lines, stretches, hop, step_s, step_Hz, half), step_Hz);
  const offset_Hz = Float64Array.from(path, (p) => (p - half) * step_Hz);
  const deviation = integrate(offset_Hz, hop, step_s, blocks);
  chain(lines, deviation, hop, blocks);
  const rate = deviation.map((_, b) => {
    const from = Math.max(0, b - 1);
    const to = Math.min(blocks - 1, b + 1);
    return (deviation[to]! - deviation[from]!) / ((to - from) * step_s);
  });
  const mean = deviation.reduce((a, b) => a + b, 0) / blocks;
  return { ...comb.track, deviation_rad: deviation.map((d) => d - mean), rate_rad_per_s: rate };
}

interface Voice {
  readonly order: number;
  /** Block sums of this line, divided by its noise. */
  readonly re: Float64Array;
  readonly im: Float64Array;
}

function strongest(
  bench: Bench,
  comb: Comb,
  sums: readonly Float64Array[],
  noise: readonly Float64Array[],
  hop: number,
  stretches: number,
): Voice[] {
  const blocks = comb.blocks.edges.length - 1;
  const perStretch = 4 * bench.rate_Hz * hop * 2 * comb.track.step_s * bench.rate_Hz;
  const voices = sums.flatMap((sum, s) =>
    comb.orders.map((order, i) => {
      const scale = 1 / Math.sqrt(Math.max(Number.MIN_VALUE, noise[s]![i]! * perStretch));
      const re = new Float64Array(blocks).map((_, b) => sum[2 * (i * blocks + b)]! * scale);
      const im = new Float64Array(blocks).map((_, b) => sum[2 * (i * blocks + b) + 1]! * scale);
      let power = 0;
      for (let b = 0; b < blocks; b++) power += re[b]! ** 2 + im[b]! ** 2;
      return { order, re, im, power: power / stretches };
    }),
  );
  return voices.sort((a, b) => b.power * b.order - a.power * a.order).slice(0, strongestLines);
}

/** Log likelihood of each stretch at each frequency, all lines together. */
function scores(
  lines: readonly Voice[],
  stretches: number,
  hop: number,
  step_s: number,
  step_Hz: number,
  half: number,
): Float64Array[] {
  return Array.from({ length: stretches }, (_, g) =>
    new Float64Array(2 * half + 1).map((_, p) => {
      let score = 0;
      for (const { order, re, im } of lines) {
        const turn = 2 * Math.PI * order * (p - half) * step_Hz * step_s;
        const c = Math.cos(turn);
        const s = Math.sin(turn);
        let zr = 1;
        let zi = 0;
        let sumRe = 0;
        let sumIm = 0;
        for (let b = g * hop; b < (g + 2) * hop; b++) {
          sumRe += re[b]! * zr + im[b]! * zi;
          sumIm += im[b]! * zr - re[b]! * zi;
          const next = zr * c - zi * s;
          zi = zr * s + zi * c;
          zr = next;
        }
        score += sumRe * sumRe + sumIm * sumIm;
      }
      return score;
    }),
  );
}

function likeliestPath(score: readonly Float64Array[], step_Hz: number): number[] {
  const width = score[0]!.length;
  const reach = Math.ceil(jump_Hz / step_Hz);
  const penalty = Array.from({ length: reach + 1 }, (_, d) => 0.5 * ((d * step_Hz) / usualJump_Hz) ** 2);
  let total = score[0]!.slice();
  const from: Int32Array[] = [];
  for (let g = 1; g < score.length; g++) {
    const came = new Int32Array(width);
    const next = new Float64Array(width);
    for (let p = 0; p < width; p++) {
      let best = Number.NEGATIVE_INFINITY;
      for (let q = Math.max(0, p - reach); q <= Math.min(width - 1, p + reach); q++) {
        const value = total[q]! - penalty[Math.abs(p - q)]!;
        if (value > best) {
          best = value;
          came[p] = q;
        }
      }
      next[p] = best + score[g]![p]!;
    }
    from.push(came);
    total = next;
  }
  let at = total.indexOf(total.reduce((a, b) => Math.max(a, b)));
  const path = [at];
  for (let g = from.length - 1; g >= 0; g--) {
    at = from[g]![at]!;
    path.unshift(at);
  }
  return path;
}

/** Phase of a frequency given in the middle of each stretch, straight between them. */
function integrate(offset_Hz: Float64Array, hop: number, step_s: number, blocks: number): Float64Array {
  const at = (b: number) => {
    const g = Math.min(offset_Hz.length - 1, Math.max(0, (b + 0.5) / hop - 1));
    const low = Math.floor(g);
    const high = Math.min(offset_Hz.length - 1, low + 1);
    return offset_Hz[low]! + (g - low) * (offset_Hz[high]! - offset_Hz[low]!);
  };
  const phase = new Float64Array(blocks);
  for (let b = 1; b < blocks; b++) phase[b] = phase[b - 1]! + 2 * Math.PI * step_s * 0.5 * (at(b - 1) + at(b));
  return phase;
}

/** Errors of frequency would add up along the record; the phase steps from stretch to stretch do not. */
function chain(lines: readonly Voice[], deviation: Float64Array, hop: number, blocks: number): void {
  const highest = Math.max(...lines.map((line) => line.order));
  const lowest = Math.min(...lines.map((line) => line.order));
  const most = Math.min(0.4, Math.PI / lowest);
  const step = 0.2 / highest;
  const groups = Math.floor(blocks / hop);
  const held = lines.map(({ order, re, im }) => {
    const sum = new Float64Array(2 * groups);
    for (let b = 0; b < groups * hop; b++) {
      const c = Math.cos(order * deviation[b]!);
      const s = Math.sin(order * deviation[b]!);
      const g = Math.floor(b / hop);
      sum[2 * g]! += re[b]! * c + im[b]! * s;
      sum[2 * g + 1]! += im[b]! * c - re[b]! * s;
    }
    return sum;
  });
  const corrected = new Float64Array(groups);
  for (let g = 1; g < groups; g++) {
    let best = Number.NEGATIVE_INFINITY;
    let turn = 0;
    for (let d = -most; d <= most; d += step) {
      let agreement = 0;
      lines.forEach(({ order }, l) => {
        const sum = held[l]!;
        const re = sum[2 * g]! * sum[2 * g - 2]! + sum[2 * g + 1]! * sum[2 * g - 1]!;
        const im = sum[2 * g + 1]! * sum[2 * g - 2]! - sum[2 * g]! * sum[2 * g - 1]!;
        agreement += re * Math.cos(order * d) + im * Math.sin(order * d);
      });
      if (agreement > best) {
        best = agreement;
        turn = d;
      }
    }
    corrected[g] = corrected[g - 1]! + turn;
  }
  for (let b = 0; b < blocks; b++) {
    const g = Math.min(groups - 1, Math.max(0, (b + 0.5) / hop - 0.5));
    const low = Math.floor(g);
    const high = Math.min(groups - 1, low + 1);
    deviation[b]! += corrected[low]! + (g - low) * (corrected[high]! - corrected[low]!);
  }
}
