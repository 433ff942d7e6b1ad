import { type Bench, blocksOn, type Comb, combOn, spectraOf, sumsOf } from "./comb.ts";
import type { Blocks } from "./combSums.ts";
import { evidenceOf } from "./evidence.ts";
import { noiseAbout, type RestSpectrum, spectraOfRest } from "./lineNoise.ts";
import { type PhaseTrack, steadyTrack } from "./phaseTrack.ts";
import { refine, withOrders } from "./refine.ts";
import { type Candidate, lowOrders } from "./search.ts";
import { type Hearing, hear } from "./strays.ts";
import { wanderingStart } from "./wanderingStart.ts";

/** Evidence from which a line takes part while the fit is refined. */
const worthFollowing = 4;
/** Refining brings a start's evidence up, hardly ever by more than this factor. */
const mostGain = 1.6;
/** Evidence that a wandering start must bring for every second it was free to place. */
const pricePerSecond = 3;
const refinements = 4;
/** Orders are told to be strays, and the comb refined without them, so many times at most. */
const mostHearings = 3;

/** Where a fit may begin, and what the recording says for it there. */
interface Start {
  readonly track: PhaseTrack;
  readonly blocks: Blocks;
  readonly evidence: readonly Float64Array[];
  readonly price: number;
}

/**
 * A comb fitted from the best of several starts: every candidate frequency, standing still and wandering. It holds the
 * orders worth following.
 *
 * Where orders do not go with it, or none of the first orders does, the starts that are best without those orders and best
 * by the first orders alone are fitted too. Mains stands at its first orders when it stands at all: a comb that has one of
 * them goes before one that has none, whose lines may be strays that agree; then whose lines say more.
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
  const heard = distinct(candidates, bench.duration_s).map(({ frequency_Hz }) => {
    const blocks = blocksOn(bench, frequency_Hz);
    const comb = combOn(bench, steadyTrack(frequency_Hz, blocks.step_s, blocks.edges.length - 1), all, blocks);
    const noise = rest.map((density) => Float64Array.from(all, (order) => noiseAbout(density, order * frequency_Hz)));
    return { comb, noise, sums: sumsOf(spectra, comb) };
  });
  /** Starts along the track of the first `count` orders of all, if they tell one. */
  const wandering = ({ comb, noise, sums }: (typeof heard)[number], count: number): Start[] => {
    const blocks = comb.blocks.edges.length - 1;
    const track = wanderingStart(
      bench,
      { ...comb, orders: all.slice(0, count) },
      sums.map((of) => of.subarray(0, 2 * count * blocks)),
      noise.map((of) => of.subarray(0, count)),
    );
    if (!track) return [];
    const evidence = evidenceAlong(bench, comb, sums, noise, track);
    return [{ track, blocks: comb.blocks, evidence, price: pricePerSecond * bench.duration_s }];
  };
  const starts = heard.flatMap((one): Start[] => {
    const { comb, noise, sums } = one;
    const evidence = evidenceAlong(bench, comb, sums, noise, comb.track);
    return [{ track: comb.track, blocks: comb.blocks, evidence, price: 0 }, ...wandering(one, all.length)];
  });
  const best = bestOf(starts, all, []);
  if (!best || !convinces(evidenceByOrder(all, best.evidence))) return undefined;
  const begin = ({ track, blocks }: Start, from: readonly Float64Array[], strays: readonly number[]): Comb => {
    const places = all.flatMap((_, i) => (from.some((of) => of[i]! > worthFollowing) ? [i] : []));
    return { ...withOrders(combOn(bench, track, all, blocks), places), strays };
  };
  const first = settle(bench, begin(best, best.evidence, []), rest);
  if (first.strays.length === 0 && first.isLow) return first.comb;

  // A stray may have chosen the start, from which mains is then too far off.
  const lowCount = all.filter((order) => order <= lowOrders).length;
  const more = [...starts, ...(lowCount > 0 ? heard.flatMap((one) => wandering(one, lowCount)) : [])];
  const tried = [best];
  const settled = [first];
  for (const silent of [first.strays, all.filter((order) => order > lowOrders)]) {
    const other = bestOf(more, all, silent);
    if (!other || tried.includes(other)) continue;
    tried.push(other);
    settled.push(settle(bench, begin(other, mostOf(more), silent), rest));
  }
  return likeliest(settled);
}

/** A comb with its strays silent, and what its other orders then say. */
interface Settled extends Hearing {
  readonly comb: Comb;
}

/** Refines a comb, tells its strays and refines it without them, until they stay the same. */
function settle(bench: Bench, begun: Comb, rest: readonly RestSpectrum[]): Settled {
  let comb = begun;
  for (let hearings = 0; ; hearings++) {
    comb = refine(bench, [comb], refinements)[0]!;
    const hearing = hear(bench, comb, rest);
    const isSettled = hearing.strays.join() === comb.strays.join();
    comb = { ...comb, strays: hearing.strays };
    if (isSettled || hearings === mostHearings) return { ...hearing, comb };
  }
}

/** The comb that the recording speaks for: the earlier where two are alike. */
function likeliest(settled: readonly Settled[]): Comb {
  const by = (a: Settled, b: Settled) => Number(b.isLow) - Number(a.isLow) || b.worth - a.worth;
  return [...settled].sort(by)[0]!.comb;
}

/** The most that any start finds of each line. */
function mostOf(starts: readonly Start[]): Float64Array[] {
  return starts[0]!.evidence.map((of, s) => of.map((_, i) => Math.max(...starts.map((x) => x.evidence[s]![i]!))));
}

/** The start that is worth most when some orders are silent; none when nothing speaks. */
function bestOf(starts: readonly Start[], all: readonly number[], silent: readonly number[]): Start | undefined {
  if (starts.length === 0) return undefined;
  const most = mostOf(starts);
  const worth = starts.map(({ evidence, price }) => worthOf(spoken(evidence, all, silent), most) - price);
  const best = worth.indexOf(Math.max(...worth));
  return silent.length > 0 && worth[best]! <= 0 ? undefined : starts[best];
}

/** Evidence with some orders silent. */
function spoken(evidence: readonly Float64Array[], all: readonly number[], strays: readonly number[]): Float64Array[] {
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
