import { floorNear } from "../maths/spectra/noiseFloor.ts";
import { averagedPeriodogram, type Density } from "../maths/spectra/welch.ts";
import { loneToneReader, takeOutTone } from "./loneTone.ts";
import { spectraOfRest } from "./mains/lineNoise.ts";
import { phaseSource } from "./mains/phaseTrack.ts";
import { takeOut } from "./mains/waveform.ts";
import { fitMains, type MainsFit, type MainsOptions } from "./mains.ts";
import { takeOutMains } from "./takeOutMains.ts";
import { fitHarmonics, followTone, type ToneFit, weightOf } from "./toneFit.ts";

/** A steady tone that belongs to no mains family. */
export interface StrayTone {
  readonly frequency_Hz: number;
  readonly level_Vrms: number;
  /** 95 % half-width of the level. */
  readonly doubt_Vrms: number;
}

export interface BesideStrays {
  readonly fits: readonly MainsFit[];
  /** Per signal, strongest first. */
  readonly strays: readonly (readonly StrayTone[])[];
  /** The signals without their strays; those that hold none as they were given. */
  readonly quiet: readonly Float64Array[];
}

/** Mains stands out at these orders when it stands at all; a stray tone here can't be told from it beforehand. */
const lowOrders = 4;
/** Share of a nominal within which it is sought. */
const searchShare = 0.02;
/** Density over the floor from which a line is fitted as a tone. */
const leastRise = 300;
/** A line misleads from this share of the power of the strongest line where mains must stand. */
const leastShare = 0.1;
/** Leakage of a stronger line may stand this much over what its window promises. */
const overLeakage = 30;
const mostStrays = 8;
const longestPiece = 2 ** 18;
const mostPieces = 5;
/** So many pieces tell the noise at a tone well enough. */
const noisePieces = 6;
/** Two lines nearer than this many 1/T are not told apart. */
const apart = 1.5;
/** A wandering mains leaves a line's mean uncertain by this at order 1. */
const wander_Hz = 0.01;
/** Odds that a strong line away from the first orders is mains where none of its neighbours stands: a judgement. */
const loneOdds = 0.01;

/**
 * Fits mains families beside steady tones that have nothing to do with them: a switcher, an oscillation, a radio.
 *
 * Above order 25 any frequency is a multiple of some frequency near the nominal, so a strong tone can pull a comb its
 * way and hide the hum. A strong line away from the first orders that does not stand in a row of mains lines is therefore
 * fitted as a tone of its own, its frequency free, and taken out; mains is sought in what is left. A line that then proves
 * to stand at an order of the mains is put back and the mains fitted again.
 *
 * @param signals  equally long; not modified unless `givenUp`
 * @throws RangeError  as `fitMains`
 */
export function mainsBesideStrays(
  signals: readonly Float64Array[],
  rate_Hz: number,
  nominals_Hz: readonly number[],
  options: MainsOptions = {},
  givenUp = false,
): BesideStrays {
  const duration_s = signals[0]!.length / rate_Hz;
  const first = fitMains(signals, rate_Hz, nominals_Hz, options);
  const suspects = signals.map((signal, s) => suspectsIn(signal, s, rate_Hz, first));
  if (suspects.every((of) => of.length === 0)) return { fits: first, strays: signals.map(() => []), quiet: signals };
  const weight = weightOf(signals[0]!.length, rate_Hz);
  const tones = signals.map((signal, s) => tonesOf(givenUp ? signal : signal.slice(), rate_Hz, suspects[s]!, weight));
  const quiet = tones.map(({ rest }) => rest);
  const found = fitMains(quiet, rate_Hz, nominals_Hz, options);
  const isForeign = (tone: SteadyTone, s: number) =>
    !found.some((fit) => fit.found && standsAt(tone, fit, s, duration_s));
  const foreign = tones.map(({ fits }, s) => fits.filter((tone) => isForeign(tone, s)));
  const mains = tones.map(({ fits }, s) => fits.filter((tone) => !isForeign(tone, s)));
  mains.forEach((of, s) => {
    for (const tone of of) putBack(quiet[s]!, rate_Hz, tone);
  });
  if (foreign.every((of) => of.length === 0)) return { fits: first, strays: signals.map(() => []), quiet };
  const fits = mains.every((of) => of.length === 0) ? found : fitMains(quiet, rate_Hz, nominals_Hz, options);
  const strays = foreign.map((of, s) => {
    const followed = follow(quiet[s]!, rate_Hz, of, fits, s, weight);
    quiet[s] = followed.rest;
    return followed.fits.filter(standsOut).map(strayOf);
  });
  return { fits, strays, quiet };
}

/**
 * Tones whose frequency may move, followed in what is left when mains is out; then mains is put back.
 *
 * @param quiet  without the tones; given up
 */
function follow(
  quiet: Float64Array,
  rate_Hz: number,
  tones: readonly SteadyTone[],
  fits: readonly MainsFit[],
  s: number,
  weight: Float64Array,
): Tones {
  if (tones.length === 0) return { fits: [], rest: quiet };
  const found = fits.filter((fit) => fit.found);
  const followed = afresh(takeOutMains(quiet, found, s), rate_Hz, tones, weight, true);
  const negative = found.map((fit) => ({
    ...fit,
    channels: fit.channels.map((lines) => lines.map((line) => ({ ...line, re: -line.re, im: -line.im }))),
  }));
  return { ...followed, rest: takeOutMains(followed.rest, negative, s) };
}

/** Tones fitted once more to what is left when all of them are out, which is written into. */
function afresh(
  left: Float64Array,
  rate_Hz: number,
  tones: readonly Pick<ToneFit, "comb">[],
  weight: Float64Array,
  wanders: boolean,
): Tones {
  let rest = left;
  const [noise] = spectraOfRest([rest], rate_Hz, noisePieces);
  const fits = tones.map((tone): SteadyTone => {
    const { rest: after, ...fit } = followTone(tone, rest, rate_Hz, weight, noise, wanders);
    rest = after;
    return fit;
  });
  return { fits, rest };
}

function putBack(signal: Float64Array, rate_Hz: number, { comb }: SteadyTone): void {
  const negative = comb.phasors.map((phasor) => phasor.map((value) => -value));
  takeOut([signal], phaseSource(comb.track, rate_Hz, true), comb.orders, negative);
}

/** A suspect that left nothing once the others were out was none. */
function standsOut({ harmonics: [line] }: SteadyTone): boolean {
  return line!.peak_V ** 2 > 9 * line!.variance_V2;
}

function strayOf({ frequency_Hz, harmonics }: SteadyTone): StrayTone {
  const { peak_V, variance_V2 } = harmonics[0]!;
  const level_Vrms = Math.sqrt(Math.max(0, peak_V ** 2 - variance_V2) / 2);
  return { frequency_Hz, level_Vrms, doubt_Vrms: 1.96 * Math.sqrt(variance_V2 / 2) };
}

/**
 * Strong lines away from where mains must stand, strongest first: those that stand in no row of mains lines, and lines
 * taken for mains that stand alone high up.
 */
function suspectsIn(signal: Float64Array, s: number, rate_Hz: number, fits: readonly MainsFit[]): number[] {
  const near_Hz = (apart * rate_Hz) / signal.length;
  const found = fits.filter((fit) => fit.found);
  const lone = found.flatMap((fit) =>
    fit.channels[s]!.filter(({ order, detected }) => detected && order > lowOrders && !hasNeighbours(fit, s, order)),
  );
  const inRow = (frequency_Hz: number) =>
    found.some((fit) => {
      const order = Math.round(frequency_Hz / fit.frequency_Hz);
      const line = fit.channels[s]![order - 1];
      return line?.detected && Math.abs(line.frequency_Hz - frequency_Hz) < near_Hz && hasNeighbours(fit, s, order);
    });
  const nominals_Hz = fits.map(({ nominal_Hz }) => nominal_Hz);
  const strong = strongLines(signal, rate_Hz, nominals_Hz).filter((frequency_Hz) => !inRow(frequency_Hz));
  const alone = lone
    .sort((a, b) => b.level_Vrms - a.level_Vrms)
    .map(({ frequency_Hz }) => frequency_Hz)
    .filter((frequency_Hz) => strong.every((other) => Math.abs(other - frequency_Hz) > 2 * near_Hz));
  return [...strong, ...alone].slice(0, mostStrays);
}

/** Does another line of a family stand within an octave of an order, one that is no harmonic of it or it of? */
function hasNeighbours(fit: MainsFit, s: number, order: number): boolean {
  return fit.channels[s]!.some(
    (line) =>
      line.detected &&
      line.order >= order / 2 &&
      line.order <= 2 * order &&
      line.order % order !== 0 &&
      order % line.order !== 0,
  );
}

function strongLines(signal: Float64Array, rate_Hz: number, nominals_Hz: readonly number[]): number[] {
  const piece = Math.min(signal.length, longestPiece);
  const piece_s = piece / rate_Hz;
  const density = averagedPeriodogram(signal, rate_Hz, piece, 1, mostPieces);
  const { step_Hz, V2_per_Hz } = density;
  const isLow = (frequency_Hz: number) =>
    nominals_Hz.some((nominal_Hz) => {
      const order = Math.round(frequency_Hz / nominal_Hz);
      const off_Hz = Math.abs(frequency_Hz - order * nominal_Hz);
      return order >= 1 && order <= lowOrders && off_Hz <= order * searchShare * nominal_Hz + 3 / piece_s;
    });
  const first = Math.max(3, Math.ceil(Math.max(15, 6 / piece_s) / step_Hz));
  let hum = 0;
  const peaks: number[] = [];
  for (let k = first; k < V2_per_Hz.length - 2; k++) {
    const value = V2_per_Hz[k]!;
    if (isLow(k * step_Hz)) hum = Math.max(hum, value);
    else if (value > V2_per_Hz[k - 1]! && value >= V2_per_Hz[k + 1]!) peaks.push(k);
  }
  const highest = peaks.reduce((most, k) => Math.max(most, V2_per_Hz[k]!), 0);
  const loud = peaks.filter((k) => V2_per_Hz[k]! > leastShare * hum && V2_per_Hz[k]! > 1e-12 * highest);
  loud.sort((a, b) => V2_per_Hz[b]! - V2_per_Hz[a]!);
  const taken: number[] = [];
  for (const k of loud.slice(0, 40 * mostStrays)) {
    if (taken.length === mostStrays) break;
    const hidden = taken.some((other) => {
      const d = Math.abs(k - other) * step_Hz * piece_s;
      return d < 6 || V2_per_Hz[k]! < (overLeakage * V2_per_Hz[other]!) / (Math.PI * d * (d * d - 1)) ** 2;
    });
    if (!hidden && V2_per_Hz[k]! > leastRise * floorAt(density, k, piece_s)) taken.push(k);
  }
  return taken.map((k) => k * step_Hz);
}

function floorAt(density: Density, bin: number, piece_s: number): number {
  const frequency_Hz = bin * density.step_Hz;
  return floorNear(density, frequency_Hz, Math.max(40 / piece_s, 0.1 * frequency_Hz), 6 / piece_s);
}

/** Tones of one signal, and the signal without them. */
interface Tones {
  readonly fits: readonly SteadyTone[];
  readonly rest: Float64Array;
}

type SteadyTone = Omit<ToneFit, "rest">;

/**
 * Each tone fitted to what the others left, the strongest first, and each once more when all are out.
 *
 * @param given  written into
 */
function tonesOf(given: Float64Array, rate_Hz: number, frequencies_Hz: readonly number[], weight: Float64Array): Tones {
  const rest = given;
  if (frequencies_Hz.length === 0) return { fits: [], rest };
  const combs = frequencies_Hz.map((frequency_Hz) => {
    const reader = loneToneReader(rest.length, rate_Hz, frequency_Hz);
    reader.push(rest);
    const lone = reader.tone();
    takeOutTone(rest, 0, rate_Hz, lone);
    return fitHarmonics(rest, rate_Hz, lone, 1, weight).comb;
  });
  return afresh(
    rest,
    rate_Hz,
    combs.map((comb) => ({ comb })),
    weight,
    false,
  );
}

/**
 * Is a tone an order of the mains, or did a stray fall there? Mains puts its order within what both frequencies are known
 * to; a stray falls anywhere between two orders.
 *
 *     odds = prior·f₀·exp(−d²/2σ²)/(√(2π)·σ)
 */
function standsAt({ frequency_Hz, frequencySd_Hz }: SteadyTone, fit: MainsFit, s: number, duration_s: number): boolean {
  const order = Math.max(1, Math.round(frequency_Hz / fit.frequency_Hz));
  const off_Hz = frequency_Hz - order * fit.frequency_Hz;
  const known_Hz = (order * fit.doubt_Hz) / 1.96;
  const sd_Hz = Math.hypot(frequencySd_Hz, known_Hz, fit.wandering ? order * wander_Hz : 0, 0.05 / duration_s);
  const prior = order <= lowOrders || hasNeighbours(fit, s, order) ? 1 : loneOdds;
  return (prior * fit.frequency_Hz * Math.exp(-0.5 * (off_Hz / sd_Hz) ** 2)) / (Math.sqrt(2 * Math.PI) * sd_Hz) > 1;
}

/** Strays of one signal in stretches of different lengths count as one within this of each other, or half of 1/T. */
const same_Hz = 0.5;

/** One signal's strays over all stretches of a record: the mean square of each, its mean frequency. */
export function straysOver(stretches: readonly (readonly StrayTone[])[]): StrayTone[] {
  if (stretches.length === 1) return [...stretches[0]!];
  const groups: StrayTone[][] = [];
  for (const stray of stretches.flat()) {
    const group = groups.find(([first]) => Math.abs(first!.frequency_Hz - stray.frequency_Hz) < same_Hz);
    if (group) group.push(stray);
    else groups.push([stray]);
  }
  const mean = (values: readonly number[]) => values.reduce((a, b) => a + b, 0) / stretches.length;
  return groups.map((group) => {
    const level_Vrms = Math.sqrt(mean(group.map((one) => one.level_Vrms ** 2)));
    const doubt = Math.hypot(...group.map((one) => one.level_Vrms * one.doubt_Vrms)) / stretches.length;
    return {
      frequency_Hz: group.reduce((sum, one) => sum + one.frequency_Hz, 0) / group.length,
      level_Vrms,
      doubt_Vrms: doubt / level_Vrms,
    };
  });
}
