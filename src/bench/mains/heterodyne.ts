import { sumTurned, turnsAt } from "../turning.ts";
import type { BlockSums } from "./combSums.ts";
import { type PhaseTrack, phaseAlong } from "./phaseTrack.ts";

/** Each block is summed in this many parts, within which the track may be taken as straight along its carrier. */
const parts = 4;

/**
 * 2·Σ w·y·e^{−jkθ} over each block, sample by sample: for few orders at any frequency.
 *
 * @param edges  block b runs from edges[b] to edges[b + 1] − 1
 * @param orders  in rising order
 */
export function heterodyne(
  signals: readonly Float64Array[],
  weight: Float64Array,
  rate_Hz: number,
  track: PhaseTrack,
  orders: readonly number[],
  edges: readonly number[],
): BlockSums {
  const blocks = edges.length - 1;
  const sums = signals.map(() => new Float64Array(2 * orders.length * blocks));
  const longest = edges.reduce((most, edge, b) => (b > 0 ? Math.max(most, edge - edges[b - 1]!) : 0), 0);
  const weighted = new Float64Array(longest);
  const turns = track.carrier_Hz / rate_Hz;
  signals.forEach((signal, s) => {
    for (let b = 0; b < blocks; b++) {
      const from = edges[b]!;
      const count = edges[b + 1]! - from;
      for (let n = 0; n < count; n++) weighted[n] = weight[from + n]! * signal[from + n]!;
      for (let p = 0; p < parts; p++) {
        const first = Math.floor((count * p) / parts);
        const end = Math.floor((count * (p + 1)) / parts);
        if (end === first) continue;
        const middle = from + (first + end - 1) / 2;
        const deviation = phaseAlong(track, middle / rate_Hz, 0, 1)[0]!;
        orders.forEach((order, i) => {
          const perSample = order * turns;
          const start = turnsAt(perSample, from + first) + (order * deviation) / (2 * Math.PI);
          const at = 2 * (i * blocks + b);
          const [re, im] = sumTurned(weighted.subarray(first, end), 2 * Math.PI * start, 2 * Math.PI * perSample);
          sums[s]![at]! += 2 * re;
          sums[s]![at + 1]! += 2 * im;
        });
      }
    }
  });
  return sums;
}
