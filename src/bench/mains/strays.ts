import { complexSpectrum, powerOfTwo } from "../../maths/spectra/fourier.ts";
import { type Bench, blockWeights, type Comb, spectraOf, sumsOf } from "./comb.ts";
import { evidenceOf } from "./evidence.ts";
import { noiseAbout, type RestSpectrum } from "./lineNoise.ts";
import { lowOrders } from "./search.ts";

/** What the recording says of a comb's orders, each by itself. */
export interface Hearing {
  /** Orders at which something stands that does not go with the comb: a stray tone, perhaps far stronger than the hum. */
  readonly strays: readonly number[];
  /** Surely a mains: a line that goes with it stands out at one of the first orders. */
  readonly isLow: boolean;
  /** What the lines that go with the comb say for it together, each no more than its share. */
  readonly worth: number;
}

/** Evidence beyond the logarithm of all places looked at, from which a line is there: one recording in 20 by chance. */
const sureAbove = 3;
/** Share of evidence that a comb may miss at its highest order, of others by the square: a wander not followed to the last. */
const unfollowed = 0.15;
/** A line says no more than this for a comb: a stray tone costs a frequency of its own, however loud it is. */
const mostSay = 12;
/** Padding of the transforms in which a tone of its own is sought: between two bins it loses 1 % at most. */
const padding = 8;
/** Bins of 1/T beside a line in which its noise is judged, and what of them belongs to the line. */
const [nearest, farthest] = [1.5, 6];

/**
 * Holds every order of a fitted comb against a steady tone of its own near it. A line of the mains goes with the track;
 * a stray tone is explained far better by itself, and when it is taken out nothing is left on the track.
 *
 *     E(δ) = Σ |Σ B·e^{−j2πδt}|² / 2σ²,   B the block sums along the track: E(0) with the comb, its maximum by itself
 *
 * Evidence is compared, not slopes of phases: it stays right however many turns a wrong frequency slips.
 *
 * @param rests  spectra that tell the noise about the lines
 */
export function hear(bench: Bench, comb: Comb, rests: readonly RestSpectrum[]): Hearing {
  const sums = sumsOf(spectraOf(bench, bench.signals), comb);
  const { sum: weights } = blockWeights(bench, comb.blocks);
  const ground = Math.log(100 * bench.signals.length);
  const cells = Math.log(bench.duration_s / comb.track.step_s);
  const strays: number[] = [];
  const heard: { order: number; say: number; isSure: boolean }[] = [];
  const explained = comb.orders.map((order, i) => {
    const noise = rests.map((rest) => noiseAbout(rest, order * comb.track.carrier_Hz));
    return { order, ...explain(bench, sums, i, weights, comb.track.step_s, noise) };
  });
  const highest = Math.max(1, ...explained.filter(({ own }) => own > ground + sureAbove).map(({ order }) => order));
  explained.forEach(({ order, along, own, beside }) => {
    const isOwn = own - along > cells + sureAbove + unfollowed * (order / highest) ** 2 * own;
    const say = isOwn ? beside : along;
    const isSure = say > ground + sureAbove;
    if (isOwn && !isSure) strays.push(order);
    else heard.push({ order, say: Math.min(mostSay, Math.max(0, say - ground)), isSure });
  });
  const isLow = heard.some(({ order, isSure }) => isSure && order <= lowOrders);
  const lowest = Math.min(...heard.filter(({ isSure }) => isSure).map(({ order }) => order));
  // A tone with its harmonics has one vote.
  const free = isLow ? heard : heard.filter(({ order }) => order % lowest !== 0 || order === lowest);
  return { strays, isLow, worth: free.reduce((total, { say }) => total + say, 0) };
}

/** Evidence for one order with the comb, for the best steady tone near it, and for the comb beside that tone. */
function explain(
  bench: Bench,
  sums: readonly Float64Array[],
  i: number,
  weights: Float64Array,
  step_s: number,
  noise: readonly number[],
): { along: number; own: number; beside: number } {
  const blocks = weights.length;
  const size = powerOfTwo(padding * blocks);
  const spectra = sums.map((of) => {
    const padded = new Float64Array(2 * size);
    padded.set(of.subarray(2 * i * blocks, 2 * (i + 1) * blocks));
    return complexSpectrum(padded, "forward");
  });
  const variances = noise.map((density) => (density * bench.noiseBandwidth) / bench.duration_s);
  const scale = 1 / bench.weightSum ** 2;
  const evidenceAt = (k: number) =>
    spectra.reduce(
      (total, of, s) => total + evidenceOf(scale * (of[2 * k]! ** 2 + of[2 * k + 1]! ** 2), variances[s]!),
      0,
    );
  let own = 0;
  let place = 0;
  for (let k = 0; k < size; k++) {
    const evidence = evidenceAt(k);
    if (evidence > own) {
      own = evidence;
      place = k;
    }
  }
  const along = evidenceAt(0);
  const bins = place + topOf(evidenceAt((place + size - 1) % size), own, evidenceAt((place + 1) % size));
  const between = sums.reduce((total, of, s) => {
    const [re, im] = turned(of.subarray(2 * i * blocks, 2 * (i + 1) * blocks), (2 * Math.PI * bins) / size);
    return total + evidenceOf(scale * (re * re + im * im), variances[s]!);
  }, 0);
  const beside = evidenceBeside(bench, spectra, weights, place, step_s, variances);
  return { along, own: Math.max(along, own, between), beside };
}

/** Where a parabola through three neighbours is highest, from the middle one. */
function topOf(before: number, at: number, after: number): number {
  const bend = 2 * at - before - after;
  return bend > 0 ? Math.max(-0.5, Math.min(0.5, (after - before) / (2 * bend))) : 0;
}

/** Σ z·e^{−j·turn·b} of complex values z. */
function turned(values: Float64Array, turn: number): [number, number] {
  let [re, im] = [0, 0];
  for (let b = 0; b < values.length / 2; b++) {
    const c = Math.cos(turn * b);
    const s = Math.sin(turn * b);
    re += values[2 * b]! * c + values[2 * b + 1]! * s;
    im += values[2 * b + 1]! * c - values[2 * b]! * s;
  }
  return [re, im];
}

/** Evidence on the track when the steady tone is taken out, held against what else is left close by. */
function evidenceBeside(
  bench: Bench,
  spectra: readonly Float64Array[],
  weights: Float64Array,
  place: number,
  step_s: number,
  variances: readonly number[],
): number {
  const size = spectra[0]!.length / 2;
  const padded = new Float64Array(2 * size);
  weights.forEach((weight, b) => {
    padded[2 * b] = weight / bench.weightSum;
  });
  const shape = complexSpectrum(padded, "forward");
  const perBin = size * step_s * (1 / bench.duration_s);
  const reach = Math.ceil(farthest * perBin);
  const own = Math.ceil(nearest * perBin);
  const apart = (a: number, b: number) => Math.min((a - b + size) % size, (b - a + size) % size);
  return spectra.reduce((total, of, s) => {
    const [aRe, aIm] = [of[2 * place]!, of[2 * place + 1]!];
    const leftAt = (k: number): number => {
      const at = (k - place + size) % size;
      const re = of[2 * k]! - (aRe * shape[2 * at]! - aIm * shape[2 * at + 1]!);
      const im = of[2 * k + 1]! - (aRe * shape[2 * at + 1]! + aIm * shape[2 * at]!);
      return (re * re + im * im) / bench.weightSum ** 2;
    };
    const at = (size - place) % size;
    const free = 1 - (shape[2 * at]! ** 2 + shape[2 * at + 1]! ** 2);
    if (free < 0.5) return total;
    let close = 0;
    let count = 0;
    for (let d = -reach; d <= reach; d++) {
      const k = (d + size) % size;
      if (Math.abs(d) < own || apart(k, place) < own) continue;
      close += leftAt(k);
      count++;
    }
    const variance = Math.max(variances[s]!, count > 0 ? close / count / 2 : 0);
    return total + evidenceOf(leftAt(0) / free, variance);
  }, 0);
}
