import type { Bench, Comb } from "./comb.ts";
import { blockWeights } from "./comb.ts";
import { drawTrack, type PhaseTrack } from "./phaseTrack.ts";

/**
 * Reads how far the phase of each block lies off the comb's track, pooled over signals and orders by what each knows,
 * and draws a new track through the readings.
 *
 *     δφ = Σ k·Im(B·c*)/S / Σ k²|c|²/S,   B what a block holds beyond its share of the mean change
 *
 * @param left  block sums of what is left after the comb was taken out
 * @param change  change of each phasor that the same sums ask for, so that it is not read as phase
 * @param noise  density [V²/Hz] per signal and order
 * @param speaks  lines strong enough, and apart enough, to tell the phase
 */
export function readPhase(
  bench: Bench,
  comb: Comb,
  left: readonly Float64Array[],
  change: readonly Float64Array[],
  noise: readonly Float64Array[],
  speaks: (signal: number, order: number) => boolean,
  wanders = true,
): PhaseTrack {
  const blocks = comb.blocks.edges.length - 1;
  const { sum, squares, lag_s } = blockWeights(bench, comb.blocks);
  const whole = comb.track.step_s * bench.rate_Hz;
  const push = new Float64Array(blocks);
  const information = new Float64Array(blocks);
  left.forEach((sums, s) => {
    comb.orders.forEach((k, i) => {
      if (!speaks(s, i)) return;
      const re = comb.phasors[s]![2 * i]!;
      const im = comb.phasors[s]![2 * i + 1]!;
      const density = Math.max(
        noise[s]![i]!,
        inPhaseNoise(sums, change[s]!, i, [re, im], sum, squares) / bench.rate_Hz,
      );
      // A noisy amplitude promises more than it can tell; its own noise power is taken off.
      const power = re * re + im * im - (2 * density * bench.noiseBandwidth) / bench.duration_s;
      if (!(power > 0 && density > 0)) return;
      const dRe = change[s]![2 * i]!;
      const dIm = change[s]![2 * i + 1]!;
      for (let b = 0; b < blocks; b++) {
        if (sum[b]! < heldBlock * whole) continue;
        const bRe = sums[2 * (i * blocks + b)]! - dRe * sum[b]!;
        const bIm = sums[2 * (i * blocks + b) + 1]! - dIm * sum[b]!;
        const per = 1 / (density * bench.rate_Hz * squares[b]!);
        push[b]! += k * (bIm * re - bRe * im) * sum[b]! * per;
        information[b]! += k * k * power * sum[b]! ** 2 * per;
      }
    });
  });
  const { deviation_rad, carrier_Hz, step_s } = comb.track;
  const readings = deviation_rad.map((phase, b) => phase + (information[b]! > 0 ? push[b]! / information[b]! : 0));
  const drawn = drawTrack(carrier_Hz, step_s, readings, information, lag_s, wanders);
  return withoutOffset(drawn, deviation_rad, information);
}

/**
 * Scatter of a line's blocks along its own direction, as a mean square for each unit of squared weight. Phase moves a
 * line across that direction, so what scatters along it is noise, or a neighbour that leaks into blocks this short.
 */
function inPhaseNoise(
  sums: Float64Array,
  change: Float64Array,
  i: number,
  [re, im]: readonly [number, number],
  weights: Float64Array,
  squares: Float64Array,
): number {
  const blocks = weights.length;
  if (blocks < leastBlocks) return 0;
  let scatter = 0;
  let total = 0;
  for (let b = 0; b < blocks; b++) {
    const bRe = sums[2 * (i * blocks + b)]! - change[2 * i]! * weights[b]!;
    const bIm = sums[2 * (i * blocks + b) + 1]! - change[2 * i + 1]! * weights[b]!;
    scatter += (bRe * re + bIm * im) ** 2;
    total += squares[b]!;
  }
  return scatter / (re * re + im * im) / total;
}

/** A block must hold this share of its weight to be read: what leaks into the ends from beside is not weighed down. */
export const heldBlock = 0.5;

/** Fewer blocks say too little about scatter. */
const leastBlocks = 6;

/** A constant phase belongs to the phasors; the track keeps the mean it had. */
function withoutOffset(track: PhaseTrack, before: Float64Array, information: Float64Array): PhaseTrack {
  let sum = 0;
  let weight = 0;
  track.deviation_rad.forEach((phase, b) => {
    sum += information[b]! * (phase - before[b]!);
    weight += information[b]!;
  });
  if (weight === 0) return track;
  return { ...track, deviation_rad: track.deviation_rad.map((phase) => phase - sum / weight) };
}
