import { tQuantile } from "../../maths/statistics/index.ts";

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
 * Each block is a whole number of cycles. Its harmonics come from the sums over those cycles, its shape from folding
 * them onto one, so that noise is not taken for a peak. Doubts are 95 % half-widths of the mean over the blocks.
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
  const blocks = Array.from({ length: count }, (_, b) =>
    blockOf(signal_V.subarray(Math.round(b * length), Math.round((b + 1) * length)), rate_Hz, frequency_Hz),
  );
  const of = (read: (block: Block) => number) => meanOf(blocks.map(read));
  const level = of((block) => block.level_Vrms);
  const peak = of((block) => block.peak_V);
  const crest = of((block) => block.peak_V / block.level_Vrms);
  const thd = of((block) => block.thd_pct);
  const flat = of((block) => block.flat_pct);
  return {
    level_Vrms: level.mean,
    peak_V: peak.mean,
    crestFactor: crest.mean,
    thd_pct: thd.mean,
    flat_pct: flat.mean,
    lowest_Vrms: Math.min(...blocks.map((block) => block.level_Vrms)),
    highest_Vrms: Math.max(...blocks.map((block) => block.level_Vrms)),
    doubt: {
      level_Vrms: level.doubt,
      peak_V: peak.doubt,
      crestFactor: crest.doubt,
      thd_pct: thd.doubt,
      flat_pct: flat.doubt,
    },
  };
}

interface Block {
  readonly level_Vrms: number;
  readonly peak_V: number;
  readonly thd_pct: number;
  readonly flat_pct: number;
}

function blockOf(signal: Float64Array, rate_Hz: number, frequency_Hz: number): Block {
  const mean = signal.reduce((sum, value) => sum + value, 0) / signal.length;
  let square = 0;
  for (const value of signal) square += (value - mean) ** 2;
  const orders = Math.min(highestOrder, Math.floor((0.49 * rate_Hz) / frequency_Hz));
  const power = Array.from({ length: orders }, (_, i) => linePower(signal, ((i + 1) * frequency_Hz) / rate_Hz));
  const others = power.slice(1).reduce((sum, one) => sum + one, 0);
  const shape = folded(signal, frequency_Hz / rate_Hz, mean);
  const peak_V = (Math.max(...shape) - Math.min(...shape)) / 2;
  return {
    level_Vrms: Math.sqrt(square / signal.length),
    peak_V,
    thd_pct: 100 * Math.sqrt(others / power[0]!),
    flat_pct: (100 * shape.filter((value) => Math.abs(value) >= nearPeak * peak_V).length) / shape.length,
  };
}

/** Mean square of one line over whole cycles; `turn` is cycles a sample. */
function linePower(signal: Float64Array, turn: number): number {
  let re = 0;
  let im = 0;
  const step = 2 * Math.PI * turn;
  for (let n = 0; n < signal.length; n++) {
    re += signal[n]! * Math.cos(step * n);
    im += signal[n]! * Math.sin(step * n);
  }
  return (2 * (re * re + im * im)) / signal.length ** 2;
}

/** All cycles laid on one: mean of the samples in each of its bins. */
function folded(signal: Float64Array, turn: number, mean: number): number[] {
  const bins = Math.min(binsPerCycle, Math.floor(1 / turn));
  const sums = new Float64Array(bins);
  const counts = new Float64Array(bins);
  for (let n = 0; n < signal.length; n++) {
    const bin = Math.floor(((n * turn) % 1) * bins);
    sums[bin]! += signal[n]! - mean;
    counts[bin]!++;
  }
  return Array.from(sums, (sum, bin) => (counts[bin]! > 0 ? sum / counts[bin]! : 0));
}

function meanOf(values: readonly number[]): { readonly mean: number; readonly doubt: number } {
  const mean = values.reduce((sum, value) => sum + value, 0) / values.length;
  const variance = values.reduce((sum, value) => sum + (value - mean) ** 2, 0) / (values.length - 1);
  return { mean, doubt: tQuantile(0.975, values.length - 1) * Math.sqrt(variance / values.length) };
}
