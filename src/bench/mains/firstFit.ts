import { type Bench, blocksOn, type Comb, combOn, spectraOf, sumsOf } from "./comb.ts";
import { evidenceOf } from "./evidence.ts";
import { noiseAbout, spectraOfRest } from "./lineNoise.ts";
import { type PhaseTrack, steadyTrack } from "./phaseTrack.ts";
import { refine, withOrders } from "./refine.ts";
import type { Candidate } from "./search.ts";
import { strayOrders } from "./strays.ts";
import { wanderingStart } from "./wanderingStart.ts";

/** Evidence from which a line takes part while the fit is refined. */
const worthFollowing = 4;
/** Refining brings a start's evidence up, hardly ever by more than this factor. */
const mostGain = 1.6;
/** Evidence that a wandering start must bring for every second it was free to place. */
const pricePerSecond = 3;
const refinements = 4;

/**
 * A comb fitted from the best of several starts: every candidate frequency, standing still and wandering. It holds the
 * orders worth following.
 *
 * @param bench  the signals, combs found earlier taken out
 * @param convinces  would such evidence, per signal and order, be a comb?
 * @returns undefined when no start comes near to being one
 */
export function firstFit(
  bench: Bench,
  candidates: readonly Candidate[],
  convinces: (evidence: readonly Float64Array[]) => boolean,
): Comb | undefined {
  const rest = spectraOfRest(bench.signals, bench.rate_Hz);
  const spectra = spectraOf(bench, bench.signals);
  const all = [...new Set(candidates.flatMap(({ orders }) => orders))].sort((a, b) => a - b);
  const starts = distinct(candidates, bench.duration_s).flatMap(({ frequency_Hz }) => {
    const blocks = blocksOn(bench, frequency_Hz);
    const comb = combOn(bench, steadyTrack(frequency_Hz, blocks.step_s, blocks.edges.length - 1), all, blocks);
    const sums = sumsOf(spectra, comb);
    const noise = rest.map((density) => Float64Array.from(all, (order) => noiseAbout(density, order * frequency_Hz)));
    const start = (track: PhaseTrack, price: number) => ({
      track,
      evidence: evidenceAlong(bench, comb, sums, noise, track),
      price,
      blocks,
    });
    const wandering = wanderingStart(bench, comb, sums, noise);
    return [start(comb.track, 0), ...(wandering ? [start(wandering, pricePerSecond * bench.duration_s)] : [])];
  });
  const most = starts[0]!.evidence.map((of, s) => of.map((_, i) => Math.max(...starts.map((x) => x.evidence[s]![i]!))));
  const fromBest = (strays: readonly number[]) => {
    const worth = starts.map(({ evidence, price }) => worthOf(heard(evidence, all, strays), most) - price);
    return starts[worth.indexOf(Math.max(...worth))]!;
  };
  const { track, blocks, evidence } = fromBest([]);
  if (!convinces(evidenceByOrder(all, evidence))) return undefined;
  const followed = all.flatMap((_, i) => (evidence.some((of) => of[i]! > worthFollowing) ? [i] : []));
  const [comb] = refine(bench, [withOrders(combOn(bench, track, all, blocks), followed)], refinements);
  const strays = strayOrders(bench, comb!);
  if (strays.length === 0) return comb!;
  // A stray may have chosen the start, from which mains is then too far off.
  const again = fromBest(strays);
  const begun = again.track === track ? comb! : withOrders(combOn(bench, again.track, all, again.blocks), followed);
  return refine(bench, [{ ...begun, strays }], refinements)[0]!;
}

/** Evidence with some orders silent. */
function heard(evidence: readonly Float64Array[], all: readonly number[], strays: readonly number[]): Float64Array[] {
  return evidence.map((of) => of.map((value, i) => (strays.includes(all[i]!) ? 0 : value)));
}

/** Power that a start may miss, as a share of a line's: refining finds it again. */
const findable = 1e-3;

/** What the lines say for a start. A strong line must not cry out over what refining would mend. */
function worthOf(evidence: readonly Float64Array[], most: readonly Float64Array[]): number {
  let worth = 0;
  evidence.forEach((of, s) => {
    of.forEach((value, i) => {
      worth += Math.max(0, value - worthFollowing) / (1 + 2 * findable * most[s]![i]!);
    });
  });
  return worth;
}

/** Orders that were not looked at have said nothing. */
function evidenceByOrder(orders: readonly number[], evidence: readonly Float64Array[]): Float64Array[] {
  return evidence.map((of) => {
    const all = new Float64Array(Math.max(0, ...orders));
    orders.forEach((order, i) => {
      all[order - 1] = mostGain * of[i]!;
    });
    return all;
  });
}

function distinct(candidates: readonly Candidate[], duration_s: number): Candidate[] {
  return candidates.filter(
    ({ frequency_Hz }, i) =>
      !candidates.slice(0, i).some((earlier) => Math.abs(earlier.frequency_Hz - frequency_Hz) < 0.02 / duration_s),
  );
}

/** Evidence of every line if the fundamental ran along this track; the turn within a block is neglected. */
function evidenceAlong(
  bench: Bench,
  comb: Comb,
  sums: readonly Float64Array[],
  noise: readonly Float64Array[],
  track: PhaseTrack,
): Float64Array[] {
  const blocks = comb.blocks.edges.length - 1;
  return sums.map((sum, s) =>
    Float64Array.from(comb.orders, (order, i) => {
      let re = 0;
      let im = 0;
      for (let b = 0; b < blocks; b++) {
        const c = Math.cos(order * track.deviation_rad[b]!);
        const d = Math.sin(order * track.deviation_rad[b]!);
        const bRe = sum[2 * (i * blocks + b)]!;
        const bIm = sum[2 * (i * blocks + b) + 1]!;
        re += bRe * c + bIm * d;
        im += bIm * c - bRe * d;
      }
      const power = (re * re + im * im) / bench.weightSum ** 2;
      return evidenceOf(power, (noise[s]![i]! * bench.noiseBandwidth) / bench.duration_s);
    }),
  );
}
