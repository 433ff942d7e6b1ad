import { powerOfTwo } from "../maths/spectra/fourier.ts";
import { taperedWindow } from "../maths/spectra/windows.ts";
import { type LoneTone, loneToneReader, takeOutTone } from "./loneTone.ts";
import { type Bench, type Comb, combOn, emptyRooms, totals } from "./mains/comb.ts";
import type { BlockSums, Blocks } from "./mains/combSums.ts";
import { heterodyne } from "./mains/heterodyne.ts";
import { noiseAtLine, type RestSpectrum, spectraOfRest } from "./mains/lineNoise.ts";
import { phaseSource, recentred, steadyTrack } from "./mains/phaseTrack.ts";
import { readPhase } from "./mains/readPhase.ts";
import { takeOut } from "./mains/waveform.ts";

/** A tone with its harmonics, fitted to one channel. */
export interface ToneFit {
  readonly frequency_Hz: number;
  readonly frequencySd_Hz: number;
  /** The tone moved against the recorder's clock and was followed. */
  readonly drifts: boolean;
  readonly harmonics: readonly {
    readonly order: number;
    readonly peak_V: number;
    /** Variance of each part of the phasor. */
    readonly variance_V2: number;
  }[];
  /** The signal, its mean removed, without the tone and its harmonics. */
  readonly rest: Float64Array;
  /** For fitting again when more is known about the rest. */
  readonly comb: Comb;
}

/**
 * Least squares of a tone and its harmonics with one unknown frequency, held constant (the four-parameter sine fit with
 * more columns).
 *
 * @param roughly_Hz  within 1 Hz of the tone
 * @param orders  highest harmonic
 * @source IEEE Std 1057, sine fit; bounds after Rife and Boorstyn (1974)
 */
export function fitTone(signal: Float64Array, rate_Hz: number, roughly_Hz: number, orders: number): ToneFit {
  const reader = loneToneReader(signal.length, rate_Hz, roughly_Hz);
  reader.push(signal);
  const lone = reader.tone();
  const left = signal.slice();
  takeOutTone(left, 0, rate_Hz, lone);
  const { comb, bench } = fitHarmonics(left, rate_Hz, lone, orders);
  const [rest] = spectraOfRest([left], rate_Hz, mostPieces);
  return reportOf(bench, comb, left, noiseAtOrders(rest!, comb));
}

/** Steps on tone and harmonics together; each about squares the error before it. */
const mostSteps = 4;
/** The next step would still move the tone by this share of itself, or this share of what its noise leaves open. */
const exact = 1e-13;
const below = 0.02;

/**
 * Goes on from a tone that was read and taken out of a signal, and finds its harmonics; their doubts wait for
 * `followTone`.
 *
 * @param without  the signal, perhaps at a lower rate since, without that tone; given up: what is left is written into it
 * @param rate_Hz  of `without`, whose first sample is the signal's
 */
export function fitHarmonics(
  without: Float64Array,
  rate_Hz: number,
  lone: LoneTone,
  orders: number,
  weight = weightOf(without.length, rate_Hz),
): { comb: Comb; bench: Bench } {
  const bench = benchOn(without, rate_Hz, weight);
  const left = without;
  const all = Array.from({ length: orders }, (_, i) => i + 1);
  const blocks = toneBlocks(lone.frequency_Hz, rate_Hz, without.length);
  const comb = combOn(bench, steadyTrack(lone.frequency_Hz, blocks.step_s, blocks.edges.length - 1), all, blocks);
  comb.phasors[0]!.set([lone.re, lone.im]);
  return { comb: stepped(bench, comb, left, orders), bench };
}

/** Steps until nothing moves; `left` is written into. */
function stepped(bench: Bench, start: Comb, left: Float64Array, orders: number): Comb {
  const alike = [new Float64Array(orders).fill(1e-60)];
  let comb = start;
  for (let count = 0; count < mostSteps; count++) {
    const { comb: next } = moved(bench, comb, left, alike, [0], false);
    const [before, after] = [comb.phasors[0]!, next.phasors[0]!];
    takeOut([left], phaseSource(comb.track, bench.rate_Hz, true), comb.orders, [negative(before)]);
    takeOut([left], phaseSource(next.track, bench.rate_Hz, true), next.orders, next.phasors);
    const share = Math.hypot(after[0]! - before[0]!, after[1]! - before[1]!) / Math.hypot(after[0]!, after[1]!);
    const turned = Math.PI * (next.track.carrier_Hz - comb.track.carrier_Hz) * bench.duration_s;
    comb = next;
    const open = (Math.PI * bench.duration_s * comb.track.meanSd_Hz) / Math.sqrt(3);
    if ((share + Math.abs(turned)) ** 2 < Math.max(exact, below * open)) break;
  }
  return comb;
}

/** Steps that follow a tone whose frequency moves. */
const driftPasses = 2;

/**
 * Goes on from a fit when something else was taken out of its rest, and follows the tone where its frequency moves.
 *
 * @param rest  what the fit left, without what is now known to be foreign; not modified
 */
export function fitAgain(fit: ToneFit, rest: Float64Array, rate_Hz: number): ToneFit {
  return followTone(fit, rest.slice(), rate_Hz);
}

/**
 * The same where the rest may be given up: what is left is written into it.
 *
 * @param spectrum  of the rest, where it is known
 * @param wanders  false holds the frequency constant: hum that is still in the rest beats with short blocks, and would be
 *   followed
 */
export function followTone(
  { comb: before }: Pick<ToneFit, "comb">,
  rest: Float64Array,
  rate_Hz: number,
  weight = weightOf(rest.length, rate_Hz),
  spectrum?: RestSpectrum,
  wanders = true,
): ToneFit {
  const bench = benchOn(rest, rate_Hz, weight);
  const noise = noiseAtOrders(spectrum ?? spectraOfRest([rest], rate_Hz, mostPieces)[0]!, before);
  const still = asIs(bench, before, noise, wanders);
  if (still) return still;
  const whole = bench.signals[0]!.slice();
  takeOut([whole], phaseSource(before.track, rate_Hz, true), before.orders, before.phasors.map(negative));
  const toned = { ...bench, signals: [whole] };
  let comb = before;
  let left: Float64Array = bench.signals[0]!;
  for (let pass = 0; pass < driftPasses; pass++) {
    const earlier = comb;
    ({ comb, left } = step(toned, comb, left, [noise], undefined, wanders));
    if (hardlyMoved(earlier, comb, noise, toned)) break;
  }
  return reportOf(toned, comb, left, noise);
}

/** The fit as it stands with its doubts made good, when what is left asks for no change worth taking out afresh. */
function asIs(bench: Bench, before: Comb, noise: Float64Array, wanders: boolean): ToneFit | undefined {
  const [rest] = bench.signals;
  const { comb } = moved(bench, before, rest!, [noise], undefined, wanders);
  return hardlyMoved(before, comb, noise, bench, hidden) ? reportOf(bench, comb, rest!, noise) : undefined;
}

/** Share of its standard deviation by which nothing moves when a fit has settled. */
const settled = 0.02;
/** What such a share of it leaves in the rest, no noise figure sees. */
const hidden = 0.5;

function hardlyMoved(before: Comb, after: Comb, noise: Float64Array, bench: Bench, share = settled): boolean {
  if (after.track.restlessness > 0) return false;
  const slipped = Math.abs(after.track.carrier_Hz - before.track.carrier_Hz) > share * after.track.meanSd_Hz;
  if (slipped) return false;
  return after.phasors[0]!.every((value, i) => {
    const variance = (noise[i >> 1]! * bench.noiseBandwidth) / bench.duration_s;
    return (value - before.phasors[0]![i]!) ** 2 < share ** 2 * variance;
  });
}

const negative = (values: Float64Array) => values.map((value) => -value);

function reportOf(bench: Bench, comb: Comb, left: Float64Array, noise: Float64Array): ToneFit {
  const { track } = comb;
  return {
    frequency_Hz: track.carrier_Hz,
    frequencySd_Hz: track.meanSd_Hz,
    drifts: track.restlessness > 0,
    harmonics: comb.orders.map((order, i) => ({
      order,
      peak_V: Math.hypot(comb.phasors[0]![2 * i]!, comb.phasors[0]![2 * i + 1]!),
      variance_V2: (noise[i]! * bench.noiseBandwidth) / bench.duration_s,
    })),
    rest: left,
    comb,
  };
}

/** Faded share of the record and its longest, as for mains. */
const taper = 0.1;
const longestTaper_s = 0.4;

/** The weight that a fit gives the samples of a record; channels may share one. */
export function weightOf(length: number, rate_Hz: number): Float64Array {
  return taperedWindow(length, Math.min(taper, (longestTaper_s * rate_Hz) / length));
}

/** What `benchOf` makes of one signal, its mean taken out in place. */
function benchOn(signal: Float64Array, rate_Hz: number, weight: Float64Array): Bench {
  const length = signal.length;
  let [weightSum, squares, mean] = [0, 0, 0];
  for (let n = 0; n < length; n++) {
    const w = weight[n]!;
    weightSum += w;
    squares += w * w;
    mean += w * signal[n]!;
  }
  mean /= weightSum;
  for (let n = 0; n < length; n++) signal[n]! -= mean;
  return {
    signals: [signal],
    rate_Hz,
    duration_s: length / rate_Hz,
    weight,
    weightSum,
    size: powerOfTwo(length),
    noiseBandwidth: (length * squares) / weightSum ** 2,
    rooms: emptyRooms(),
  };
}

/** Blocks of whole periods, about an eighth of a second: over whole periods the harmonics leave each other alone. */
function toneBlocks(frequency_Hz: number, rate_Hz: number, length: number): Blocks {
  const step_s = Math.max(1, Math.round(frequency_Hz / 8)) / frequency_Hz;
  const edges: number[] = [];
  for (let b = 0; Math.round(b * step_s * rate_Hz) < length; b++) edges.push(Math.round(b * step_s * rate_Hz));
  edges.push(length);
  return { edges, step_s, coarse: 0, perBlock: 0, half_Hz: 0 };
}

function sumsOn(bench: Bench, { track, orders, blocks }: Comb, signal: Float64Array): BlockSums {
  return heterodyne([signal], bench.weight, bench.rate_Hz, track, orders, blocks.edges);
}

/** Phasors and phase as what is left asks for them. */
function moved(
  bench: Bench,
  comb: Comb,
  left: Float64Array,
  noise: readonly Float64Array[],
  speaking: readonly number[] | undefined,
  wanders: boolean,
): { comb: Comb } {
  const sums = sumsOn(bench, comb, left);
  const change = totals(sums, comb.orders.length).map((total) => total.map((value) => value / bench.weightSum));
  const phasors = comb.phasors.map((phasor, s) => phasor.map((value, i) => value + change[s]![i]!));
  const changed = { ...comb, phasors };
  const speaks = (_: number, i: number) => !speaking || speaking.includes(i);
  const track = recentred(readPhase(bench, changed, sums, change, noise, speaks, wanders));
  return { comb: { ...changed, track } };
}

/** One Gauss-Newton step: phasors and phase from what is left, then a fresh rest. */
function step(
  bench: Bench,
  comb: Comb,
  left: Float64Array,
  noise: readonly Float64Array[],
  speaking: readonly number[] | undefined,
  wanders: boolean,
): { comb: Comb; left: Float64Array } {
  const { comb: stepped } = moved(bench, comb, left, noise, speaking, wanders);
  const rest = bench.signals[0]!.slice();
  takeOut([rest], phaseSource(stepped.track, bench.rate_Hz, true), stepped.orders, stepped.phasors);
  return { comb: stepped, left: rest };
}

/** So many pieces of a long record tell its noise well enough. */
const mostPieces = 6;

function noiseAtOrders(rest: RestSpectrum, { orders, track }: Comb): Float64Array {
  return Float64Array.from(orders, (order) => noiseAtLine(rest, order * track.carrier_Hz));
}
