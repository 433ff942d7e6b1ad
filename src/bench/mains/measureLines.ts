import { type Bench, type Comb, spectraOf, sumsOf, totals } from "./comb.ts";
import { evidenceOf } from "./evidence.ts";
import { crowding, groupLines, solveGroups } from "./jointSolve.ts";
import { spectraOfRest } from "./lineNoise.ts";
import { noiseOf } from "./refine.ts";

/** Every order of one comb, measured: phasors, their variance a part, and how far they stand out. */
export interface Measured {
  readonly comb: Comb;
  /** Per signal, real and imaginary part of each order in turn. */
  readonly phasors: readonly Float64Array[];
  /** Per signal and order: variance of each of the two parts. */
  readonly variance: readonly Float64Array[];
  readonly noise: readonly Float64Array[];
  readonly evidence: readonly Float64Array[];
}

/** Amplitudes below this share of a signal's r.m.s. are arithmetic, not measurement. */
const leastShare = 3e-9;

/**
 * Measures all orders of all combs, those that were not worth following included.
 *
 * @param combs  with the orders that were followed
 * @param ordersOf  how many orders to measure of each
 * @param left  the signals with these combs taken out
 */
export function measureLines(
  bench: Bench,
  combs: readonly Comb[],
  ordersOf: readonly number[],
  left: readonly Float64Array[],
): Measured[] {
  const full = combs.map((comb, c) => withAllOrders(comb, ordersOf[c]!));
  const groups = groupLines(bench, full);
  const spectra = spectraOf(bench, left);
  const rests = spectraOfRest(left, bench.rate_Hz);
  const asked = full.map((comb) => totals(sumsOf(spectra, comb), comb.orders.length));
  const change = solveGroups(bench, groups, full, asked);
  const crowd = crowding(bench, groups, full);
  const grain = bench.signals.map((signal) => {
    const power = signal.reduce((sum, value) => sum + value * value, 0) / signal.length;
    return leastShare ** 2 * power;
  });
  return full.map((comb, c) => {
    const noise = noiseOf(comb, rests);
    const variance = noise.map((densities, s) =>
      densities.map((density, i) => ((density * bench.noiseBandwidth) / bench.duration_s) * crowd[c]![i]! + grain[s]!),
    );
    const phasors = comb.phasors.map((phasor, s) => phasor.map((value, i) => value + change[c]![s]![i]!));
    const evidence = phasors.map((phasor, s) =>
      Float64Array.from(comb.orders, (_, i) =>
        evidenceOf(phasor[2 * i]! ** 2 + phasor[2 * i + 1]! ** 2, variance[s]![i]!),
      ),
    );
    return { comb, phasors, variance, noise, evidence };
  });
}

function withAllOrders(comb: Comb, count: number): Comb {
  if (comb.fixed) return comb;
  const orders = Array.from({ length: count }, (_, i) => i + 1);
  const phasors = comb.phasors.map((phasor) => {
    const all = new Float64Array(2 * count);
    comb.orders.forEach((order, i) => {
      all[2 * (order - 1)] = phasor[2 * i]!;
      all[2 * (order - 1) + 1] = phasor[2 * i + 1]!;
    });
    return all;
  });
  return { ...comb, orders, phasors };
}
