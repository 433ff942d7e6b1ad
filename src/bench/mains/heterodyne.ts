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
          const start = wholeTurnsOff(perSample, from + first) + (order * deviation) / (2 * Math.PI);
          const at = 2 * (i * blocks + b);
          addTurned(sums[s]!, at, weighted, first, end, 2 * Math.PI * start, 2 * Math.PI * perSample);
        });
      }
    }
  });
  return sums;
}

/** Turns of a steady phase at a sample, less whole ones, without losing digits to a large product. */
function wholeTurnsOff(perSample: number, n: number): number {
  const stretch = 4096;
  const long = perSample * stretch;
  const product = (long - Math.floor(long)) * Math.floor(n / stretch);
  return product - Math.floor(product) + perSample * (n % stretch);
}

/** Adds 2·Σ x·e^{−j(start + n·step)}, two interleaved recurrences at a time. */
function addTurned(
  sum: Float64Array,
  at: number,
  x: Float64Array,
  first: number,
  end: number,
  start_rad: number,
  step_rad: number,
): void {
  let aRe = Math.cos(start_rad);
  let aIm = Math.sin(start_rad);
  let bRe = Math.cos(start_rad + step_rad);
  let bIm = Math.sin(start_rad + step_rad);
  const c = Math.cos(2 * step_rad);
  const d = Math.sin(2 * step_rad);
  let re = 0;
  let im = 0;
  let n = first;
  for (; n + 1 < end; n += 2) {
    const even = x[n]!;
    const odd = x[n + 1]!;
    re += even * aRe + odd * bRe;
    im -= even * aIm + odd * bIm;
    const a = aRe * c - aIm * d;
    aIm = aRe * d + aIm * c;
    aRe = a;
    const b = bRe * c - bIm * d;
    bIm = bRe * d + bIm * c;
    bRe = b;
  }
  if (n < end) {
    re += x[n]! * aRe;
    im -= x[n]! * aIm;
  }
  sum[at]! += 2 * re;
  sum[at + 1]! += 2 * im;
}
