import { type Bench, type Comb, combOn, totals } from "./mains/comb.ts";
import { heterodyne } from "./mains/heterodyne.ts";
import { crowding, groupLines, solveGroups } from "./mains/jointSolve.ts";
import { noiseAtLine, spectraOfRest } from "./mains/lineNoise.ts";
import { type PhaseTrack, phaseAlong, phaseSource } from "./mains/phaseTrack.ts";
import { takeOut } from "./mains/waveform.ts";

/** One line of a sum of lines whose phases are known but for a constant. */
export interface JointLine {
  readonly frequency_Hz: number;
  /** Peak phasor. */
  readonly re: number;
  readonly im: number;
  /** Variance of each of its two parts. */
  readonly variance_V2: number;
}

const passes = 3;
/** So many pieces of a long record tell its noise well enough. */
const mostPieces = 6;

/**
 * Least squares of many lines at once, each along a phase of its own.
 *
 * @returns the lines in the order of their tracks, and the signal without them
 * @source  variance √(S/T) of each part of a phasor: Rife and Boorstyn (1974)
 */
export function fitLines(bench: Bench, tracks: readonly PhaseTrack[]): { lines: JointLine[]; left: Float64Array } {
  const signal = bench.signals[0]!;
  const combs: Comb[] = tracks.map((track) => {
    const edges = track.deviation_rad.map((_, b) => Math.round(b * track.step_s * bench.rate_Hz));
    const blocks = {
      edges: [...[...edges].filter((edge) => edge < bench.weight.length), bench.weight.length],
      step_s: track.step_s,
      coarse: 0,
      perBlock: 0,
      half_Hz: 0,
    };
    return { ...combOn(bench, track, [1], blocks), fixed: true };
  });
  const groups = groupLines(bench, combs);
  let left: Float64Array = signal;
  for (let pass = 0; pass < passes; pass++) {
    const asked = combs.map(({ track, orders, blocks }) =>
      totals(heterodyne([left], bench.weight, bench.rate_Hz, track, orders, blocks.edges), 1),
    );
    const change = solveGroups(bench, groups, combs, asked);
    left = signal.slice();
    combs.forEach(({ phasors, track, orders }, c) => {
      phasors[0]![0]! += change[c]![0]![0]!;
      phasors[0]![1]! += change[c]![0]![1]!;
      takeOut([left], phaseSource(track, bench.rate_Hz, true), orders, phasors);
    });
  }
  const [rest] = spectraOfRest([left], bench.rate_Hz, mostPieces);
  const crowd = crowding(bench, groups, combs);
  const lines = combs.map(({ track, phasors }, c): JointLine => {
    const density = noiseAtLine(rest!, track.carrier_Hz);
    return {
      frequency_Hz: track.carrier_Hz,
      re: phasors[0]![0]!,
      im: phasors[0]![1]!,
      variance_V2: ((density * bench.noiseBandwidth) / bench.duration_s) * crowd[c]![0]!,
    };
  });
  return { lines, left };
}

/** Blocks of a product's own track are about this long. */
const step_s = 1 / 8;

/** Phase of a product: whole multiples of the phases of two tones, added. Its frequency may come out negative. */
export function productTrack(
  [a, b]: readonly [PhaseTrack, PhaseTrack],
  [m, n]: readonly [number, number],
  duration_s: number,
): PhaseTrack {
  const blocks = Math.max(2, Math.ceil(duration_s / step_s));
  const both = (first_s: number) => {
    const ofA = phaseAlong(a, first_s, step_s, blocks);
    const ofB = phaseAlong(b, first_s, step_s, blocks);
    return ofA.map((phase, i) => m * phase + n * ofB[i]!);
  };
  const early = both(0.25 * step_s);
  const late = both(0.75 * step_s);
  return {
    carrier_Hz: m * a.carrier_Hz + n * b.carrier_Hz,
    step_s,
    deviation_rad: both(0.5 * step_s),
    rate_rad_per_s: late.map((phase, i) => (phase - early[i]!) / (0.5 * step_s)),
    restlessness: Math.max(a.restlessness, b.restlessness),
    meanSd_Hz: Math.hypot(m * a.meanSd_Hz, n * b.meanSd_Hz),
    phaseSd_rad: Math.hypot(m * a.phaseSd_rad, n * b.phaseSd_rad),
  };
}
