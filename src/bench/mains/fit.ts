import { type Bench, benchOf, blocksOn, type Comb, combOn } from "./comb.ts";
import { type Decimated, decimate } from "./decimate.ts";
import { combFound, standsOut } from "./evidence.ts";
import { firstFit } from "./firstFit.ts";
import { together } from "./jointSolve.ts";
import { type Measured, measureLines } from "./measureLines.ts";
import { phaseSource, steadyTrack } from "./phaseTrack.ts";
import { refine, restOf } from "./refine.ts";
import { type Candidate, lowOrders, reach_Hz, searchable, searchComb, searchShare } from "./search.ts";
import type { PhaseSource } from "./waveform.ts";

/** One line of the mains comb in one signal. */
export interface MainsLine {
  readonly order: number;
  readonly frequency_Hz: number;
  /** Peak phasor c in Re{c·e^{j·order·θ(t)}}, θ = 0 at the record's start. */
  readonly re: number;
  readonly im: number;
  readonly level_Vrms: number;
  /** 95 % half-width of the level. */
  readonly doubt_Vrms: number;
  /** One-sided noise density about the line. */
  readonly noise_V2_per_Hz: number;
  readonly detected: boolean;
}

/** One family of mains lines, in all signals of one recording. */
export interface MainsFit {
  readonly nominal_Hz: number;
  readonly found: boolean;
  /** Mean over the record, as the recorder's clock sees it, with its 95 % half-width; the nominal when not found. */
  readonly frequency_Hz: number;
  readonly doubt_Hz: number;
  /** The frequency moved during the record by more than noise explains. */
  readonly wandering: boolean;
  /** Phase of the fundamental at the samples from one on, 0 at the first of the record. */
  readonly phase_rad: PhaseSource;
  /** Lines per signal, all orders, detected or not. */
  readonly channels: readonly (readonly MainsLine[])[];
}

export interface MainsOptions {
  /** Highest order; as many of the first 100 as the sample rate holds when left out. */
  readonly orders?: number;
  /**
   * Steady tones already taken out of the signals: where a line stands beside one, both are fitted together, for what
   * was taken out may have held some of the line.
   */
  readonly exclude_Hz?: readonly number[];
}

export const leastDuration_s = 0.5;

/**
 * Finds and fits one or more families of mains lines, pooled over signals that share one recorder clock.
 *
 *     y = Σ over families and orders of Re{c·e^{jkθ(t)}} + noise
 *
 * The phase θ is common to all signals and orders of a family: a straight line unless the recording speaks against it,
 * else the smoothest track that explains it. All c are then least squares over the whole record. Lines of two families
 * that nearly coincide are solved together, and their doubt grows.
 *
 * @param signals  equally long, half a second or more; not modified
 * @param nominals_Hz  each family is searched within ±2 % of its nominal
 * @returns one fit a nominal, in their order
 * @throws RangeError  no signals, unequal lengths, or a shorter record
 * @remarks Chance names a comb in about 1 of 200 recordings without mains, and a line too many in 1 of 100 with it.
 * @source  bounds after Rife and Boorstyn (1974): sd of each part of a phasor √(S/T)
 */
export function fitMains(
  signals: readonly Float64Array[],
  rate_Hz: number,
  nominals_Hz: readonly number[],
  options: MainsOptions = {},
): MainsFit[] {
  const length = signals[0]?.length ?? 0;
  if (signals.some((signal) => signal.length !== length)) throw new RangeError("signals differ in length");
  if (length < leastDuration_s * rate_Hz) throw new RangeError(`${length} samples; half a second is the least`);

  const orders = nominals_Hz.map((nominal_Hz) => ordersHeld(nominal_Hz, rate_Hz, options.orders ?? 100));
  const top_Hz = Math.max(...nominals_Hz.map((nominal_Hz, f) => nominal_Hz * (1 + searchShare) * orders[f]!));
  const lowered = signals.map((signal) => decimate(signal, rate_Hz, top_Hz));
  const bench = benchOf(
    lowered.map(({ samples }) => samples),
    lowered[0]!.rate_Hz,
    lowered[0]!.factor > 1,
  );
  const tones_Hz = (options.exclude_Hz ?? []).filter((tone_Hz) => tone_Hz < 0.499 * bench.rate_Hz);
  const { combs, fixed, left, alone } = findCombs(bench, tones_Hz, nominals_Hz, orders);
  const measured = alone
    ? [alone]
    : measureLines(
        bench,
        [...combs.values(), ...fixed],
        [...combs.keys()].map((f) => orders[f]!).concat(fixed.map(() => 1)),
        left,
      );
  return nominals_Hz.map((nominal_Hz, family) => {
    const place = [...combs.keys()].indexOf(family);
    if (place >= 0) return reportOf(nominal_Hz, measured[place]!, true, bench, lowered, rate_Hz, length);
    const blocks = blocksOn(bench, nominal_Hz);
    const idle = combOn(bench, steadyTrack(nominal_Hz, blocks.step_s, blocks.edges.length - 1), [], blocks);
    const lines = measureLines(bench, [idle], [orders[family]!], left)[0]!;
    return reportOf(nominal_Hz, lines, false, bench, lowered, rate_Hz, length);
  });
}

function ordersHeld(nominal_Hz: number, rate_Hz: number, most: number): number {
  return Math.max(1, Math.min(most, Math.floor((0.49 * rate_Hz) / (nominal_Hz * (1 + searchShare)))));
}

/** Spacing of a comb as whose line a lone one is looked at. */
const fixedBand_Hz = 50;

function fixedLine(bench: Bench, frequency_Hz: number): Comb {
  const blocks = blocksOn(bench, fixedBand_Hz);
  const track = steadyTrack(frequency_Hz, blocks.step_s, blocks.edges.length - 1);
  return { ...combOn(bench, track, [1], blocks), fixed: true };
}

/**
 * The combs that are there, strongest first: each is sought in what the earlier ones left, and all are refined together
 * whenever one is added.
 */
function findCombs(
  bench: Bench,
  tones_Hz: readonly number[],
  nominals_Hz: readonly number[],
  orders: readonly number[],
) {
  const combs = new Map<number, Comb>();
  const open = new Set(nominals_Hz.keys());
  let left: readonly Float64Array[] = bench.signals;
  let evidence = searchable(left, bench.rate_Hz);
  let alone: Measured | undefined;
  while (open.size > 0) {
    const taken_Hz = [...combs.values()].map((comb) => comb.track.carrier_Hz);
    const sought = [...open].map((family) => {
      const candidates = searchComb(evidence, nominals_Hz[family]!, orders[family]!, taken_Hz);
      return { family, candidates, score: Math.max(...candidates.map((candidate) => candidate.score)) };
    });
    const { family, candidates, score } = sought.reduce((a, b) => (b.score > a.score ? b : a));
    open.delete(family);
    if (score === 0) continue;
    const rest = { ...bench, signals: left };
    const widths = 2 * searchShare * nominals_Hz[family]! * bench.duration_s;
    const convinces = (evidence: readonly Float64Array[]) => combFound(evidence, widths, noiseBins(bench));
    const attempt = (from: readonly Candidate[]) => {
      const comb = from.length > 0 ? firstFit(rest, from, convinces) : undefined;
      if (!comb) return undefined;
      const without = restOf(rest, [comb]);
      const measured = measureLines(rest, [comb], [orders[family]!], without)[0]!;
      return convinces(spokenOf(measured)) ? { comb, without, measured } : undefined;
    };
    const fitted = attempt(candidates) ?? attempt(lowAlone(candidates));
    if (!fitted) continue;
    const { comb, without, measured } = fitted;
    combs.set(family, comb);
    if (combs.size > 1) {
      ({ left } = refineAll(bench, combs, []));
      alone = undefined;
    } else {
      alone = measured;
      left = without;
    }
    if (open.size > 0) evidence = searchable(left, bench.rate_Hz);
  }
  const beside = tones_Hz.filter((tone_Hz) => [...combs.values()].some((comb) => isBeside(tone_Hz, comb, bench)));
  if (beside.length === 0) return { combs, fixed: [], left, alone };
  const lone = beside.map((tone_Hz) => fixedLine(bench, tone_Hz));
  return { combs, ...refineAll(bench, combs, lone), alone: undefined };
}

/** Evidence of the lines that go with the comb. */
function spokenOf({ comb, evidence }: Measured): Float64Array[] {
  return evidence.map((of) => of.map((value, i) => (comb.strays.includes(comb.orders[i]!) ? 0 : value)));
}

/** The candidates as their first orders alone would have them, where strays at higher ones have led astray. */
function lowAlone(candidates: readonly Candidate[]): Candidate[] {
  const low = candidates.map((one) => ({ ...one, orders: one.orders.filter((order) => order <= lowOrders) }));
  const isShorter = low.some(({ orders }, i) => orders.length < candidates[i]!.orders.length);
  return isShorter ? low.filter(({ orders }) => orders.length > 0) : [];
}

/** Refines all combs together, in place, and the fixed lines with them. */
function refineAll(bench: Bench, combs: Map<number, Comb>, lone: readonly Comb[]) {
  const refined = refine(bench, [...combs.values(), ...lone], 3);
  [...combs.keys()].forEach((key, i) => {
    combs.set(key, refined[i]!);
  });
  return { fixed: refined.slice(combs.size), left: restOf(bench, refined) };
}

/** Does the tone stand so near one of a comb's lines that they are not told apart well? */
function isBeside(tone_Hz: number, { track }: Comb, { duration_s }: Bench): boolean {
  const order = Math.max(1, Math.round(tone_Hz / track.carrier_Hz));
  return Math.abs(tone_Hz - order * track.carrier_Hz) < together / duration_s;
}

/** Values, independent of each other, that stand behind a noise density. */
function noiseBins(bench: Bench): number {
  const bins = (2 * reach_Hz(bench.duration_s) * bench.duration_s - 6) / 1.5;
  return Math.max(5, bins / 2);
}

function reportOf(
  nominal_Hz: number,
  { comb, phasors, variance, noise, evidence }: Measured,
  found: boolean,
  bench: Bench,
  lowered: readonly Decimated[],
  rate_Hz: number,
  length: number,
): MainsFit {
  const phaseAt = phaseSource(comb.track, rate_Hz);
  const [first, last] = [new Float64Array(1), new Float64Array(1)];
  phaseAt(0, first);
  phaseAt(length - 1, last);
  const start = first[0]!;
  const frequency_Hz = ((last[0]! - start) / (2 * Math.PI) / (length - 1)) * rate_Hz;
  const widest_Hz = 2 * searchShare * nominal_Hz;
  const trials = phasors.length * comb.orders.length;
  const channels = phasors.map((phasor, s) =>
    comb.orders.map((order, i): MainsLine => {
      const gain = lowered[s]!.gainAt(order * frequency_Hz);
      const turn = order * start;
      const re = (phasor[2 * i]! * Math.cos(turn) - phasor[2 * i + 1]! * Math.sin(turn)) / gain;
      const im = (phasor[2 * i]! * Math.sin(turn) + phasor[2 * i + 1]! * Math.cos(turn)) / gain;
      const level_Vrms = Math.hypot(re, im) * Math.SQRT1_2;
      // A stray tone hides what the mains has there.
      const stray = comb.strays.includes(order);
      const lost = 0.5 * (order * comb.track.phaseSd_rad) ** 2;
      return {
        order,
        frequency_Hz: order * frequency_Hz,
        re,
        im,
        level_Vrms,
        doubt_Vrms:
          (stray ? level_Vrms : 0) + (1.96 * Math.sqrt(variance[s]![i]! / 2)) / gain + Math.min(1, lost) * level_Vrms,
        noise_V2_per_Hz: noise[s]![i]! / gain ** 2,
        detected: found && !stray && standsOut(evidence[s]![i]!, trials, noiseBins(bench)),
      };
    }),
  );
  return {
    nominal_Hz,
    found,
    frequency_Hz,
    doubt_Hz: found ? Math.min(1.96 * comb.track.meanSd_Hz, widest_Hz) : widest_Hz,
    wandering: found && comb.track.restlessness > 0,
    phase_rad: since(phaseAt, start),
    channels,
  };
}

/** A phase less what it was at the start; by itself, so that who keeps it keeps no signals. */
function since(phaseAt: PhaseSource, start: number): PhaseSource {
  return (from, into) => {
    phaseAt(from, into);
    for (let i = 0; i < into.length; i++) into[i]! -= start;
  };
}
