import { type Bench, type Comb, spectraAfter, spectraOf, sumsOf, totals } from "./comb.ts";
import { groupLines, solveGroups } from "./jointSolve.ts";
import { densitiesOf, noiseAtLine, type RestSpectrum } from "./lineNoise.ts";
import { phaseSource, recentred } from "./phaseTrack.ts";
import { readPhase } from "./readPhase.ts";
import { takeOut } from "./waveform.ts";

/** What is left of the signals when the combs are taken out. */
export function restOf(bench: Bench, combs: readonly Comb[]): readonly Float64Array[] {
  if (holdNothing(combs)) return bench.signals;
  const alone = combs.length === 1 ? combs[0] : undefined;
  const known = alone && knownRests.get(alone);
  if (known && known.signals === bench.signals) return known.left;
  const left = bench.signals.map((signal) => signal.slice());
  takeAllOut(bench, combs, left);
  if (alone) knownRests.set(alone, { signals: bench.signals, left });
  return left;
}

function holdNothing(combs: readonly Comb[]): boolean {
  return combs.every(({ phasors }) => phasors.every((phasor) => phasor.every((value) => value === 0)));
}

function takeAllOut(bench: Bench, combs: readonly Comb[], left: readonly Float64Array[]): void {
  for (const { track, orders, phasors } of combs) takeOut(left, phaseSource(track, bench.rate_Hz), orders, phasors);
}

/** Combs that were taken out before, and what that left. */
const knownRests = new WeakMap<
  Comb,
  { readonly signals: readonly Float64Array[]; readonly left: readonly Float64Array[] }
>();

/** Noise density at every line of a comb, per signal. */
export function noiseOf(comb: Comb, rests: readonly RestSpectrum[]): Float64Array[] {
  return rests.map((rest) =>
    Float64Array.from(comb.orders, (order) => noiseAtLine(rest, order * comb.track.carrier_Hz)),
  );
}

/** Lines of other combs nearer than this many 1/T make a line's phase ambiguous. */
const apart = 1.5;

/**
 * Gauss-Newton steps on all combs together: every pass takes them out, asks what is left for changes of the phasors
 * (solved jointly) and of the phase tracks, and applies both.
 *
 * @param passes  so many are made; more only while a frequency is still on its way
 */
export function refine(bench: Bench, combs: readonly Comb[], passes: number): Comb[] {
  let current = [...combs];
  for (let pass = 0; pass < overtime * passes; pass++) {
    const before = current;
    const taken = current;
    const spectra = holdNothing(taken)
      ? spectraOf(bench, bench.signals)
      : spectraAfter(bench, (copies) => takeAllOut(bench, taken, copies));
    const rests = densitiesOf(spectra, bench);
    const sums = current.map((comb) => sumsOf(spectra, comb));
    const change = solveGroups(
      bench,
      groupLines(bench, current),
      current,
      sums.map((sum, c) => totals(sum, current[c]!.orders.length)),
    );
    current = current.map((comb, c) => {
      const phasors = comb.phasors.map((phasor, s) => phasor.map((value, i) => value + change[c]![s]![i]!));
      if (comb.fixed) return { ...comb, phasors };
      const lone = (frequency_Hz: number) =>
        current.every(
          (other) =>
            other === comb ||
            other.orders.every(
              (order) => Math.abs(order * other.track.carrier_Hz - frequency_Hz) > apart / bench.duration_s,
            ),
        );
      const heard = comb.orders.map((order) => !comb.strays.includes(order));
      const speaks = comb.orders.map((order, i) => heard[i] && lone(order * comb.track.carrier_Hz));
      const anyLone = speaks.includes(true);
      const updated = { ...comb, phasors };
      const noise = noiseOf(comb, rests);
      const told = (_: number, i: number) => (anyLone ? speaks : heard)[i]!;
      const track = recentred(readPhase(bench, updated, sums[c]!, change[c]!, noise, told));
      return { ...updated, track };
    });
    if (current.every((comb, c) => hasSettled(before[c]!, comb, bench, rests))) break;
    if (pass + 1 >= passes && !current.some((comb, c) => isUnderWay(before[c]!, comb))) break;
  }
  return current;
}

/** A strong line that was begun far off needs more passes, up to so many times as many. */
const overtime = 4;
/** Moving by more of its standard deviation than this, a frequency has not arrived. */
const onItsWay = 1;

function isUnderWay(before: Comb, after: Comb): boolean {
  const moved_Hz = Math.abs(after.track.carrier_Hz - before.track.carrier_Hz);
  return !after.fixed && moved_Hz > onItsWay * after.track.meanSd_Hz;
}

/** Share of its standard deviation by which nothing moves when a fit has settled. */
const settled = 0.02;

function hasSettled(before: Comb, after: Comb, bench: Bench, rests: readonly RestSpectrum[]): boolean {
  if (after.track.restlessness > 0 || before.track.restlessness > 0) return false;
  const moved_Hz = Math.abs(after.track.carrier_Hz - before.track.carrier_Hz);
  if (!after.fixed && !(moved_Hz < settled * after.track.meanSd_Hz)) return false;
  const noise = noiseOf(after, rests);
  return after.phasors.every((phasor, s) =>
    phasor.every((value, i) => {
      const variance = (noise[s]![i >> 1]! * bench.noiseBandwidth) / bench.duration_s;
      return (value - before.phasors[s]![i]!) ** 2 <= settled ** 2 * variance;
    }),
  );
}

/** Lines of a comb with the given places only. */
export function withOrders(comb: Comb, places: readonly number[]): Comb {
  return {
    ...comb,
    orders: places.map((i) => comb.orders[i]!),
    phasors: comb.phasors.map((phasor) =>
      Float64Array.from(places.flatMap((i) => [phasor[2 * i]!, phasor[2 * i + 1]!])),
    ),
  };
}
