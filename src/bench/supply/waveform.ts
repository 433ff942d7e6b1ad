import { tQuantile } from "../../maths/statistics/index.ts";
import { sumTurned } from "../turning.ts";

/** What a mains waveform is, block by block and as a whole. */
export interface Waveform {
  readonly level_Vrms: number;
  readonly peak_V: number;
  readonly crestFactor: number;
  readonly thd_pct: number;
  /** Share of the cycle within 5 % of the peak; 20.2 % for a sine, more where peaks are cut flat. */
  readonly flat_pct: number;
  /** Lowest and highest block, for sag and swell. */
  readonly lowest_Vrms: number;
  readonly highest_Vrms: number;
  readonly doubt: {
    readonly level_Vrms: number;
    readonly peak_V: number;
    readonly crestFactor: number;
    readonly thd_pct: number;
    readonly flat_pct: number;
  };
}

/** IEC 61000-4-30 takes 10 cycles of 50 Hz and 12 of 60 Hz, about 200 ms, as one block. */
const block_s = 0.2;
/** IEC 61000-4-7 counts harmonics up to this order. */
const highestOrder = 40;
const binsPerCycle = 200;
const nearPeak = 0.95;
const leastBlocks = 3;

/**
 * Level, crest factor, distortion and flatness of a steady supply of known frequency.
 *
 * Each block is a whole number of cycles. Its harmonics come from windowed sums, the noise beside them taken off; its
 * shape from folding the cycles onto one. The peak is that of all blocks folded together, each by its own phase and
 * level, so that noise is hardly taken for a peak. Doubts are 95 % half-widths of the mean over the blocks; those of
 * shape hold besides what noise may lift a peak by, and what a bin of the cycle hides.
 *
 *     crest factor = peak / r.m.s.,  THD = √(ΣU₂…U₄₀²)/U₁
 *
 * @throws RangeError for fewer than three blocks
 * @source IEC 61000-4-30 and 61000-4-7 (block length and orders, remembered)
 */
export function waveformOf(signal_V: Float64Array, rate_Hz: number, frequency_Hz: number): Waveform {
  const cycles = Math.max(1, Math.round(block_s * frequency_Hz));
  const length = (cycles * rate_Hz) / frequency_Hz;
  const count = Math.floor(signal_V.length / length);
  if (count < leastBlocks) throw new RangeError(`at least ${leastBlocks} blocks of ${cycles} cycles are needed`);
  const bins = Math.min(binsPerCycle, Math.floor(rate_Hz / frequency_Hz));
  const fold = new Fold(bins);
  const blocks = Array.from({ length: count }, (_, b) => {
    const signal = signal_V.subarray(Math.round(b * length), Math.round((b + 1) * length));
    return blockOf(signal, rate_Hz, frequency_Hz, bins, fold);
  });
  const of = (read: (block: Block) => number) => meanOf(blocks.map(read));
  const level = of((block) => block.level_Vrms);
  const crest = of((block) => block.crestFactor);
  const flat = of((block) => block.flat_pct);
  const others = of((block) => block.others_V2);
  const first_V2 = of((block) => block.first_V2).mean;
  const share = (power_V2: number) => 100 * Math.sqrt(Math.max(0, power_V2) / first_V2);
  const thd_pct = share(others.mean);

  const shape = fold.shape();
  const ends = [topOf(shape), topOf(shape.map((value) => -value))] as const;
  const crestFactor = (ends[0].value + ends[1].value) / 2;
  const noise = Math.sqrt(of((block) => block.noise_V2).mean * bins) / level.mean / Math.sqrt(length * count);
  const hidden = Math.max(ends[0].hidden, ends[1].hidden);
  const crestDoubt = Math.hypot(crest.doubt, 2 * noise, hidden);
  return {
    level_Vrms: level.mean,
    peak_V: crestFactor * level.mean,
    crestFactor,
    thd_pct,
    flat_pct: flatness_pct(shape, crestFactor),
    lowest_Vrms: Math.min(...blocks.map((block) => block.level_Vrms)),
    highest_Vrms: Math.max(...blocks.map((block) => block.level_Vrms)),
    doubt: {
      level_Vrms: level.doubt,
      peak_V: Math.hypot(crestFactor * level.doubt, crestDoubt * level.mean),
      crestFactor: crestDoubt,
      thd_pct: Math.max(share(others.mean + others.doubt) - thd_pct, thd_pct - share(others.mean - others.doubt)),
      // Where the edges lie follows from how high the peak is.
      flat_pct: Math.hypot(
        flat.doubt,
        (flatness_pct(shape, crestFactor - crestDoubt) - flatness_pct(shape, crestFactor + crestDoubt)) / 2,
      ),
    },
  };
}

interface Block {
  readonly level_Vrms: number;
  readonly crestFactor: number;
  readonly first_V2: number;
  /** Power of the harmonics, noise taken off; may fall under 0 where there are none. */
  readonly others_V2: number;
  /** Mean square of the noise. */
  readonly noise_V2: number;
  readonly flat_pct: number;
}

function blockOf(signal: Float64Array, rate_Hz: number, frequency_Hz: number, bins: number, whole: Fold): Block {
  const mean = signal.reduce((sum, value) => sum + value, 0) / signal.length;
  let square = 0;
  for (const value of signal) square += (value - mean) ** 2;
  const level_Vrms = Math.sqrt(square / signal.length);
  const orders = Math.min(highestOrder, Math.floor((0.49 * rate_Hz) / frequency_Hz));
  const weighted = new Float64Array(signal.length);
  let weight = 0;
  for (let n = 0; n < signal.length; n++) {
    const window = 1 - Math.cos((2 * Math.PI * (n + 0.5)) / signal.length);
    weighted[n] = window * (signal[n]! - mean);
    weight += window;
  }
  const lineAt = (order: number) => lineOf(weighted, weight, (order * frequency_Hz) / rate_Hz);
  const lines = Array.from({ length: orders }, (_, i) => lineAt(i + 1));
  // Halfway between two lines stands noise alone; the window holds half as much again of it.
  const beside = Array.from({ length: Math.max(1, orders - 3) }, (_, i) => lineAt(Math.min(i + 2.5, orders - 0.5)));
  const besideEach_V2 = beside.reduce((sum, { power }) => sum + power, 0) / beside.length;
  const first = lines[0]!;
  const own = new Fold(bins);
  for (const fold of [own, whole]) fold.add(signal, mean, frequency_Hz / rate_Hz, first.phase_rad, level_Vrms);
  const shape = own.shape();
  const crestFactor = (Math.max(...shape) - Math.min(...shape)) / 2;
  return {
    level_Vrms,
    crestFactor,
    first_V2: first.power,
    others_V2: lines.slice(1).reduce((sum, { power }) => sum + power - besideEach_V2, 0),
    noise_V2: (besideEach_V2 * signal.length) / 3,
    flat_pct: flatness_pct(shape, crestFactor),
  };
}

/** Mean square and phase of one line over whole cycles; `weight` is the sum of the window, `turn` cycles a sample. */
function lineOf(weighted: Float64Array, weight: number, turn: number) {
  const [re, im] = sumTurned(weighted, 0, 2 * Math.PI * turn);
  return { power: (2 * (re * re + im * im)) / weight ** 2, phase_rad: Math.atan2(im, re) };
}

/** Cycles laid on one, each block by its own phase and in units of its own r.m.s.: mean of the samples in each bin. */
class Fold {
  private readonly sums: Float64Array;
  private readonly counts: Float64Array;

  constructor(private readonly bins: number) {
    this.sums = new Float64Array(bins);
    this.counts = new Float64Array(bins);
  }

  add(signal: Float64Array, mean: number, turn: number, phase_rad: number, level: number): void {
    const start = (phase_rad / (2 * Math.PI) + 1) % 1;
    for (let n = 0; n < signal.length; n++) {
      const bin = Math.floor(((start + n * turn) % 1) * this.bins);
      this.sums[bin]! += (signal[n]! - mean) / level;
      this.counts[bin]!++;
    }
  }

  shape(): number[] {
    return Array.from(this.sums, (sum, bin) => (this.counts[bin]! > 0 ? sum / this.counts[bin]! : 0));
  }
}

/**
 * Height of a folded shape's top: the vertex over its highest bin and the two beside it, and what the mean over a bin
 * takes from it.
 *
 *     y = a − c·x²: bins at −1, 0, 1 hold a − c/12 and so on
 */
function topOf(shape: readonly number[]): { readonly value: number; readonly hidden: number } {
  const at = shape.indexOf(Math.max(...shape));
  const [before, top, after] = [-1, 0, 1].map((step) => shape[(at + step + shape.length) % shape.length]!) as [
    number,
    number,
    number,
  ];
  const c = (2 * top - before - after) / 2;
  if (!(c > 0)) return { value: top, hidden: 0 };
  return { value: top + (after - before) ** 2 / (16 * c) + c / 12, hidden: c / 12 };
}

/** Share of the cycle within 5 % of the peak, either way. */
function flatness_pct(shape: readonly number[], peak: number): number {
  const limit = nearPeak * peak;
  const course = finely(shape);
  let above = 0;
  for (const sign of [1, -1]) {
    for (const [i, value] of course.entries()) {
      const [from, to] = [sign * value - limit, sign * course[(i + 1) % course.length]! - limit];
      if (from >= 0 && to >= 0) above += 1;
      else if (from >= 0 || to >= 0) above += Math.max(from, to) / Math.abs(to - from);
    }
  }
  return (100 * above) / course.length;
}

const pointsABin = 4;

/**
 * The course of the cycle from means over its bins, several points a bin.
 *
 *     at its middle a bin's mean less its second difference/24, between middles the cubic through four of them
 *
 * @source E. Catmull and R. Rom, A class of local interpolating splines (1974), with slopes from neighbours (from memory)
 */
function finely(shape: readonly number[]): number[] {
  const n = shape.length;
  const of = (values: readonly number[], i: number) => values[(i + n) % n]!;
  const middles = shape.map((mean, i) => mean - (of(shape, i - 1) - 2 * mean + of(shape, i + 1)) / 24);
  return middles.flatMap((from, i) => {
    const [before, to, after] = [of(middles, i - 1), of(middles, i + 1), of(middles, i + 2)];
    return Array.from({ length: pointsABin }, (_, k) => {
      const s = k / pointsABin;
      const bent = 2 * before - 5 * from + 4 * to - after + (3 * (from - to) + after - before) * s;
      return from + (s / 2) * (to - before + s * bent);
    });
  });
}

function meanOf(values: readonly number[]): { readonly mean: number; readonly doubt: number } {
  const mean = values.reduce((sum, value) => sum + value, 0) / values.length;
  const variance = values.reduce((sum, value) => sum + (value - mean) ** 2, 0) / (values.length - 1);
  return { mean, doubt: tQuantile(0.975, values.length - 1) * Math.sqrt(variance / values.length) };
}
