import { type Bench, benchOf, blockEdges, type Comb, combOn, sumsOf, totals } from "./mains/comb.ts";
import { takeOut } from "./mains/combSums.ts";
import { noiseAtLine, spectraOfRest } from "./mains/lineNoise.ts";
import { phaseAtSamples, steadyTrack } from "./mains/phaseTrack.ts";
import { readPhase } from "./mains/readPhase.ts";

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
}

/** Passes with a constant frequency, then with one that may drift; each squares the error of the one before. */
const steadyPasses = 4;
const driftPasses = 2;

/**
 * Least squares of a tone and its harmonics with one unknown frequency (the four-parameter sine fit with more columns).
 *
 * @param roughly_Hz  within 1 Hz of the tone
 * @param orders  highest harmonic
 * @param mayDrift  follow the tone where its frequency moves; not to be asked while hum is still in the signal
 * @source IEEE Std 1057, sine fit; bounds after Rife and Boorstyn (1974)
 */
export function fitTone(
  signal: Float64Array,
  rate_Hz: number,
  roughly_Hz: number,
  orders: number,
  mayDrift = true,
): ToneFit {
  const bench = benchOf([signal], rate_Hz);
  const { edges, step_s } = blockEdges(roughly_Hz, rate_Hz, signal.length);
  const start_Hz = roughly_Hz + offsetByTurning(bench, roughly_Hz, edges, step_s);
  const all = Array.from({ length: orders }, (_, i) => i + 1);
  let comb = combOn(bench, steadyTrack(start_Hz, step_s, edges.length - 1), all, edges);
  let left: Float64Array = bench.signals[0]!.slice();
  const alike = [new Float64Array(orders).fill(1e-60)];
  for (let pass = 0; pass < steadyPasses; pass++) {
    ({ comb, left } = step(bench, comb, left, alike, pass < 2 ? [0] : undefined, false));
  }
  const noise = noiseOfOrders(left, rate_Hz, start_Hz, all);
  for (let pass = 0; pass < driftPasses; pass++) {
    ({ comb, left } = step(bench, comb, left, [noise], undefined, mayDrift));
  }
  const { track } = comb;
  const drift = track.deviation_rad;
  const rateOfDrift = (drift.at(-1)! - drift[0]!) / Math.max(step_s, (drift.length - 1) * step_s);
  return {
    frequency_Hz: start_Hz + rateOfDrift / (2 * Math.PI),
    frequencySd_Hz: track.meanSd_Hz,
    drifts: track.restlessness > 0,
    harmonics: all.map((order, i) => ({
      order,
      peak_V: Math.hypot(comb.phasors[0]![2 * i]!, comb.phasors[0]![2 * i + 1]!),
      variance_V2: (noise[i]! * bench.noiseBandwidth) / bench.duration_s,
    })),
    rest: left,
  };
}

/** How far the tone lies off a frequency, by how its phase turns from block to block. */
function offsetByTurning(bench: Bench, roughly_Hz: number, edges: readonly number[], step_s: number): number {
  const blocks = edges.length - 1;
  const comb = combOn(bench, steadyTrack(roughly_Hz, step_s, blocks), [1], edges);
  const [sums] = sumsOf(bench, comb, bench.signals);
  let phase = 0;
  let before: number | undefined;
  let [weight, time, level, squares, product] = [0, 0, 0, 0, 0];
  for (const turn of [1, 2]) {
    phase = 0;
    before = undefined;
    for (let b = 0; b < blocks; b++) {
      const re = sums![2 * b]!;
      const im = sums![2 * b + 1]!;
      const power = re * re + im * im;
      if (power === 0) continue;
      const angle = Math.atan2(im, re);
      phase += before === undefined ? angle : wrapped(angle - before);
      before = angle;
      const t = b * step_s;
      if (turn === 1) {
        weight += power;
        time += power * t;
        level += power * phase;
      } else {
        squares += power * (t - time / weight) ** 2;
        product += power * (t - time / weight) * (phase - level / weight);
      }
    }
  }
  return squares > 0 ? product / squares / (2 * Math.PI) : 0;
}

function wrapped(angle_rad: number): number {
  return angle_rad - 2 * Math.PI * Math.round(angle_rad / (2 * Math.PI));
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
  const sums = sumsOf(bench, comb, [left]);
  const change = totals(sums, comb.orders.length).map((total) => total.map((value) => value / bench.weightSum));
  const phasors = comb.phasors.map((phasor, s) => phasor.map((value, i) => value + change[s]![i]!));
  const moved = { ...comb, phasors };
  const speaks = (_: number, i: number) => !speaking || speaking.includes(i);
  const track = readPhase(bench, moved, sums, change, noise, speaks, wanders);
  const next = { ...moved, track, theta: phaseAtSamples(track, bench.rate_Hz, bench.weight.length, true) };
  const rest = bench.signals[0]!.slice();
  takeOut([rest], next.theta, next.orders, next.phasors);
  return { comb: next, left: rest };
}

function noiseOfOrders(left: Float64Array, rate_Hz: number, tone_Hz: number, orders: readonly number[]): Float64Array {
  const [rest] = spectraOfRest([left], rate_Hz);
  return Float64Array.from(orders, (order) => noiseAtLine(rest!, order * tone_Hz));
}
