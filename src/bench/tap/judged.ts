import { FlatTops } from "../flatTops.ts";
import type { RecordingStream } from "../recordingStream.ts";
import { cutUp, eachBlock, type Stretch, scaleInPlace } from "../stretches.ts";
import { FrameEnergies, tapsAmong } from "./findTaps.ts";

/** Resonances are looked for up to here; a valve's lie far below. */
const passband_Hz = 20_000;
/** A recording is judged as a whole up to this length, of a longer one the part with the hardest taps. */
const longest_s = 60;
/** So many taps in a row are judged at most: what one tells the others tell again. */
const mostTaps = 16;
/** Quiet wanted before the first of them. */
const before_s = 0.6;
const after_s = 2;

/** What of a recording is judged: one channel in volts, at a rate that holds what may ring. */
interface Judged {
  readonly signal: Float64Array;
  readonly rate_Hz: number;
  readonly clipped: boolean;
  /** Of the part that is judged; undefined when that is all. */
  readonly from_s?: number;
  /** Taps in the whole recording, where only a part is judged. */
  readonly tapsInAll?: number;
}

/**
 * Reads a channel of a recording of any length, and what of it is judged into memory.
 *
 * @param place  the channel's, in file order
 */
export function judgedOf(stream: RecordingStream, place: number, fullScale_Vpk: number): Judged {
  const { rate_Hz, frames } = stream;
  const whole: Stretch = { first: 0, count: frames };
  const tops = new FlatTops(stream);
  let sum = 0;
  eachBlock(stream, whole, (channels) => {
    const samples = channels[place]!;
    tops.look(samples);
    for (let n = 0; n < samples.length; n++) sum += samples[n]!;
  });
  const mean = sum / frames;
  const thin = cutUp({ ...stream, channels: 1 }, passband_Hz);
  const read = (stretch: Stretch): Float64Array => {
    const one = thin.thinner(stretch.count);
    eachBlock(stream, stretch, (channels) => {
      const samples = channels[place]!;
      for (let n = 0; n < samples.length; n++) samples[n]! -= mean;
      scaleInPlace(samples, fullScale_Vpk);
      one.push(samples);
    });
    return one.end();
  };
  const judged = { rate_Hz: thin.low_Hz, clipped: tops.clipped };
  if (frames <= longest_s * rate_Hz) return { ...judged, signal: read(whole) };
  const energies = new FrameEnergies(rate_Hz, frames);
  eachBlock(stream, whole, (channels) => {
    energies.push(channels[place]!, mean);
  });
  const taps = tapsAmong(energies, true).map((at) => at * energies.frame);
  const stretch = hardestPart(energies, taps, rate_Hz, frames);
  return { ...judged, signal: read(stretch), from_s: stretch.first / rate_Hz, tapsInAll: taps.length };
}

/** The part about the taps in a row that hold most energy, with quiet before them. */
function hardestPart(energies: FrameEnergies, taps: readonly number[], rate_Hz: number, frames: number): Stretch {
  const room = (longest_s - before_s - after_s) * rate_Hz;
  const weights = taps.map((at) => energies.of[Math.round(at / energies.frame)]!);
  let best = { energy: -1, from: 0, to: 0 };
  for (let from = 0; from < taps.length; from++) {
    let energy = 0;
    for (let to = from; to < Math.min(taps.length, from + mostTaps) && taps[to]! - taps[from]! <= room; to++) {
      energy += weights[to]!;
      if (energy > best.energy) best = { energy, from, to };
    }
  }
  const first = Math.max(0, Math.floor((taps[best.from] ?? 0) - before_s * rate_Hz));
  const next = taps[best.to + 1] ?? frames;
  const end = Math.min(frames, next, Math.ceil((taps[best.to] ?? 0) + after_s * rate_Hz));
  return { first, count: Math.max(1, end - first) };
}

/** The taps in a row that are judged among those found. */
export function fewOf(signal: Float64Array, taps: readonly number[], rate_Hz: number): { from: number; to: number } {
  if (taps.length <= mostTaps) return { from: 0, to: taps.length };
  const energy = taps.map((at) => {
    let sum = 0;
    for (const value of signal.subarray(at, at + Math.round(0.01 * rate_Hz))) sum += value * value;
    return sum;
  });
  let best = { energy: -1, from: 0 };
  for (let from = 0; from + mostTaps <= taps.length; from++) {
    const sum = energy.slice(from, from + mostTaps).reduce((a, b) => a + b, 0);
    if (sum > best.energy) best = { energy: sum, from };
  }
  return { from: best.from, to: best.from + mostTaps };
}
