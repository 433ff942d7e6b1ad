import { type Bench, blockWeights, type Comb, spectraOf, sumsOf } from "./comb.ts";
import { evidenceOf } from "./evidence.ts";
import { densitiesOf, noiseAbout } from "./lineNoise.ts";
import { heldBlock } from "./readPhase.ts";
import { restOf } from "./refine.ts";

/** What one order says of the comb's frequency: how far off it would have it, and how sure it is. */
interface Vote {
  readonly order: number;
  readonly offset: number;
  readonly information: number;
  /** It stands out of the noise by itself; what chance lifts up agrees with anything. */
  readonly isSure: boolean;
}

/** Two orders disagree when they differ by so many standard deviations. */
const disagreement = 4.5;
/** Phase over the record by which two orders may differ all the same: a wander that is not followed to the last. */
const unfollowed_rad = 1;
/** Orders up to here are mains rather than a stray tone that happens to be a multiple. */
const lowOrders = 4;
/** Evidence beyond the logarithm of all lines looked at, from which a line stands out: one recording in 20 by chance. */
const sureAbove = 3;

/**
 * Orders of a fitted comb that do not go with the rest: a stray tone that stands near a multiple of the mains, perhaps
 * far stronger than the hum. Left among the others it would pull the frequency its own way.
 *
 * The largest party of orders that agree on a frequency is the mains; an order above the fourth and its multiples, as
 * of a tone with harmonics, have one vote.
 */
export function strayOrders(bench: Bench, comb: Comb): number[] {
  const votes = votesOf(bench, comb);
  if (votes.length < 2) return [];
  let mains: readonly Vote[] = [];
  for (const centre of votes) {
    const party = votes.filter((vote) => agree(vote, centre, bench.duration_s));
    if (weightOf(party) > weightOf(mains)) mains = party;
  }
  return votes.filter((vote) => !mains.includes(vote)).map(({ order }) => order);
}

function agree(a: Vote, b: Vote, duration_s: number): boolean {
  const chance = disagreement * Math.sqrt(1 / a.information + 1 / b.information);
  return Math.abs(a.offset - b.offset) < chance + unfollowed_rad / (Math.max(a.order, b.order) * duration_s);
}

/** Sure members that count; between equals the lower orders. */
function weightOf(party: readonly Vote[]): number {
  if (party.length === 0) return 0;
  const [lowest] = [...party].sort((a, b) => a.order - b.order);
  const free = lowest!.order <= lowOrders ? party : party.filter((vote) => vote.order % lowest!.order !== 0);
  return free.filter(({ isSure }) => isSure).length + 1 / (1 + lowest!.order);
}

/** Slope of each order's phase over the record against the comb's track, as a frequency of the fundamental [rad/s]. */
function votesOf(bench: Bench, comb: Comb): Vote[] {
  const spectra = spectraOf(bench, restOf(bench, [comb]));
  // The median alone: what a line leaves beside it when its frequency is wrong is no noise, it is the disagreement.
  const noise = densitiesOf(spectra, bench).map((rest) =>
    comb.orders.map((order) => noiseAbout(rest, order * comb.track.carrier_Hz)),
  );
  const sums = sumsOf(spectra, comb);
  const sure = Math.log(100 * bench.signals.length) + sureAbove;
  const { sum, squares, lag_s } = blockWeights(bench, comb.blocks);
  const time_s = sum.map((_, b) => (b + 0.5) * comb.track.step_s + lag_s[b]!);
  const middle_s = sum.reduce((total, w, b) => total + w * time_s[b]!, 0) / bench.weightSum;
  return comb.orders.flatMap((order, i) => {
    let push = 0;
    let information = 0;
    let evidence = 0;
    sums.forEach((of, s) => {
      const re = comb.phasors[s]![2 * i]!;
      const im = comb.phasors[s]![2 * i + 1]!;
      const blocks = sum.length;
      const variance = (noise[s]![i]! * bench.noiseBandwidth) / bench.duration_s;
      evidence = Math.max(evidence, evidenceOf(re * re + im * im, variance));
      for (let b = 0; b < blocks; b++) {
        if (sum[b]! < heldBlock * comb.track.step_s * bench.rate_Hz) continue;
        const t = time_s[b]! - middle_s;
        const per = 1 / (noise[s]![i]! * bench.rate_Hz * squares[b]!);
        const across = of[2 * (i * blocks + b) + 1]! * re - of[2 * (i * blocks + b)]! * im;
        push += order * across * sum[b]! * t * per;
        information += order ** 2 * (re * re + im * im) * (sum[b]! * t) ** 2 * per;
      }
    });
    return information > 0 && Number.isFinite(information)
      ? [{ order, offset: push / information, information, isSure: evidence > sure }]
      : [];
  });
}
