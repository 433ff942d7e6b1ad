import { type SmoothPhase, smoothPhase } from "../../maths/spectra/phaseSmoother.ts";
import type { PhaseSource } from "./waveform.ts";

/**
 * Phase of a fundamental: a carrier and a slow deviation from it, known at the middle of equal blocks.
 * With `restlessness` 0 the deviation is a straight line, so the frequency is constant.
 */
export interface PhaseTrack {
  readonly carrier_Hz: number;
  readonly step_s: number;
  readonly deviation_rad: Float64Array;
  readonly rate_rad_per_s: Float64Array;
  readonly restlessness: number;
  /** Standard deviation of the mean frequency over the record. */
  readonly meanSd_Hz: number;
  /** Root mean square doubt of the deviation about its mean; 0 when the frequency is constant. */
  readonly phaseSd_rad: number;
}

export function steadyTrack(carrier_Hz: number, step_s: number, blocks: number): PhaseTrack {
  const zeros = () => new Float64Array(blocks);
  return {
    carrier_Hz,
    step_s,
    deviation_rad: zeros(),
    rate_rad_per_s: zeros(),
    restlessness: 0,
    meanSd_Hz: Number.POSITIVE_INFINITY,
    phaseSd_rad: 0,
  };
}

/** The same phase with the mean slope of its deviation in the carrier, about which lines are looked for. */
export function recentred(track: PhaseTrack): PhaseTrack {
  const { step_s, deviation_rad, rate_rad_per_s, carrier_Hz } = track;
  const blocks = deviation_rad.length;
  const slope_rad_per_s =
    blocks > 1 ? (deviation_rad[blocks - 1]! - deviation_rad[0]!) / ((blocks - 1) * step_s) : rate_rad_per_s[0]!;
  return {
    ...track,
    carrier_Hz: carrier_Hz + slope_rad_per_s / (2 * Math.PI),
    deviation_rad: deviation_rad.map((phase, b) => phase - (b + 0.5) * step_s * slope_rad_per_s),
    rate_rad_per_s: rate_rad_per_s.map((rate) => rate - slope_rad_per_s),
  };
}

/** Deviation of a track at an instant: cubic between the middles of blocks and straight beyond them. */
function deviationAt({ step_s, deviation_rad: d, rate_rad_per_s: v }: PhaseTrack, t_s: number): number {
  const last = d.length - 1;
  const at = t_s / step_s - 0.5;
  const m = Math.min(last, Math.max(0, Math.floor(at)));
  const u = at - m;
  if (u < 0 || m === last) return d[m]! + u * step_s * v[m]!;
  const rise = d[m + 1]! - d[m]!;
  const a = step_s * v[m]!;
  const b = step_s * v[m + 1]!;
  return d[m]! + u * (a + u * (3 * rise - 2 * a - b + u * (a + b - 2 * rise)));
}

/** Deviation at equidistant instants. */
export function phaseAlong(track: PhaseTrack, first_s: number, step_s: number, count: number): Float64Array {
  const along = new Float64Array(count);
  for (let m = 0; m < count; m++) along[m] = deviationAt(track, first_s + m * step_s);
  return along;
}

/**
 * The phase at samples of a record.
 *
 * @param wrap  takes whole turns out of the carrier's phase, which keeps its last digits in long records
 */
export function phaseSource(track: PhaseTrack, rate_Hz: number, wrap = false): PhaseSource {
  const perSample = (2 * Math.PI * track.carrier_Hz) / rate_Hz;
  return (first, into) => {
    fillDeviation(track, rate_Hz, first, into);
    if (wrap) addWrapped(track.carrier_Hz / rate_Hz, first, into);
    else for (let i = 0; i < into.length; i++) into[i]! += perSample * (first + i);
  };
}

/** The same as asking for every instant, block by block. */
function fillDeviation(track: PhaseTrack, rate_Hz: number, first: number, into: Float64Array): void {
  const { step_s, deviation_rad: d, rate_rad_per_s: v } = track;
  const last = d.length - 1;
  const perBlock = step_s * rate_Hz;
  for (let i = 0; i < into.length; ) {
    const m = Math.floor((first + i) / perBlock - 0.5);
    const end = Math.min(into.length, Math.ceil((m + 1.5) * perBlock) - first);
    if (m < 0 || m >= last || end <= i) {
      const until = m >= last ? into.length : Math.max(i + 1, end);
      for (; i < until; i++) into[i] = deviationAt(track, (first + i) / rate_Hz);
      continue;
    }
    const rise = d[m + 1]! - d[m]!;
    const a = step_s * v[m]!;
    const b = step_s * v[m + 1]!;
    const square = 3 * rise - 2 * a - b;
    const cube = a + b - 2 * rise;
    const start = d[m]!;
    for (; i < end; i++) {
      const u = (first + i) / perBlock - 0.5 - m;
      into[i] = start + u * (a + u * (square + u * cube));
    }
  }
}

/**
 * Adds the carrier's phase less whole turns; the fraction of a stretch is taken first, so nothing large is ever
 * multiplied.
 */
function addWrapped(cyclesPerSample: number, first: number, into: Float64Array): void {
  const stretch = 4096;
  const whole = cyclesPerSample * stretch;
  const fraction = whole - Math.floor(whole);
  for (let i = 0; i < into.length; ) {
    const a = Math.floor((first + i) / stretch);
    const turned = fraction * a;
    const start = turned - Math.floor(turned);
    const end = Math.min(into.length, (a + 1) * stretch - first);
    const before = a * stretch - first;
    for (; i < end; i++) into[i]! += 2 * Math.PI * (start + cyclesPerSample * (i - before));
  }
}

/** Restlessness tried, in rad²/s³: from a good clock's drift to far above what mains does. */
const restless = Array.from({ length: 33 }, (_, i) => 10 ** (-14 + i / 2));
/** Gain of log likelihood that a wandering frequency must bring over a steady one: one steady record in fifty errs. */
const leastGain = 2.5;

/**
 * Draws the smoothest track that readings of the deviation bear out: straight unless they speak against it.
 *
 * @param information  inverse variance of each reading; 0 where there is none
 * @param lag_s  how far behind the middle of its block each reading was taken; heeded by the straight line
 * @param wanders  false holds the frequency constant whatever the readings say
 */
export function drawTrack(
  carrier_Hz: number,
  step_s: number,
  readings_rad: Float64Array,
  information: Float64Array,
  lag_s: Float64Array,
  wanders = true,
): PhaseTrack {
  const blocks = readings_rad.length;
  const line = straightLine(readings_rad, information, step_s, lag_s);
  if (!line) return steadyTrack(carrier_Hz, step_s, blocks);
  const straight: PhaseTrack = {
    carrier_Hz,
    step_s,
    deviation_rad: line.phase_rad,
    rate_rad_per_s: new Float64Array(blocks).fill(line.rate_rad_per_s),
    restlessness: 0,
    meanSd_Hz: line.rateSd_rad_per_s / (2 * Math.PI),
    phaseSd_rad: 0,
  };
  if (!wanders) return straight;

  const bent = readings_rad.map((reading, b) => (information[b]! > 0 ? reading - line.phase_rad[b]! : 0));
  const size = Math.sqrt(bent.reduce((sum, r) => sum + r * r, 0) / blocks) + line.rateSd_rad_per_s * step_s * blocks;
  const spread = { phase_rad: 10 * size, rate_rad_per_s: (10 * size) / Math.min(1, step_s * blocks) };
  const tried = [0, ...restless].map((q) => ({ q, ...smoothPhase(bent, information, step_s, q, spread) }));
  const [steady, ...moving] = tried;
  const best = moving.reduce((a, b) => (b.logLikelihood > a.logLikelihood ? b : a));
  const wandering = best.logLikelihood > steady!.logLikelihood + leastGain;
  const taken = wandering ? best : steady!;
  const duration_s = step_s * blocks;
  const track = {
    carrier_Hz,
    step_s,
    meanSd_Hz: Math.sqrt(riseVariance(tried, riseOf(taken, step_s), step_s)) / (2 * Math.PI * duration_s),
  };
  if (!wandering) return { ...straight, ...track };
  return {
    ...track,
    deviation_rad: best.phase_rad.map((phase, b) => phase + line.phase_rad[b]!),
    rate_rad_per_s: best.rate_rad_per_s.map((rate) => rate + line.rate_rad_per_s),
    restlessness: best.q,
    phaseSd_rad: Math.sqrt(best.phaseVariance.reduce((a, b) => a + b, 0) / blocks),
  };
}

/**
 * Restlessness of mains, before anything is read. A grid that strays by 20 mHz in about a minute has 5e-4; a decade or
 * two to either side are as likely, each half decade alike. That the frequency stands, as a regenerator's does, is as
 * likely as all of these together. Common knowledge of grids, no source.
 */
const mainsWanders = [1e-6, 0.1] as const;
const wandering = restless.filter((q) => q >= mainsWanders[0] && q <= mainsWanders[1]).length;

function priorOf(q: number): number {
  if (q === 0) return wandering;
  return q >= mainsWanders[0] && q <= mainsWanders[1] ? 1 : 0;
}

/** By how much the phase rises from half a step before the first reading to half a step after the last. */
function riseOf({ phase_rad, rate_rad_per_s }: SmoothPhase, step_s: number): number {
  const last = phase_rad.length - 1;
  return phase_rad[last]! - phase_rad[0]! + (step_s / 2) * (rate_rad_per_s[last]! + rate_rad_per_s[0]!);
}

/**
 * Variance of the rise about the one taken, over all that the restlessness may be. Which it is, or that the frequency
 * stands, is guessed from the same readings: a record that hides how it wandered is no surer of its mean than the
 * tracks that it leaves possible.
 *
 *     Σ w·(v + (r − taken)²) / Σ w,   w = prior·likelihood
 */
function riseVariance(
  tried: readonly (SmoothPhase & { readonly q: number })[],
  taken_rad: number,
  step_s: number,
): number {
  const most = Math.max(...tried.map(({ logLikelihood }) => logLikelihood));
  let weights = 0;
  let total = 0;
  for (const one of tried) {
    const weight = priorOf(one.q) * Math.exp(one.logLikelihood - most);
    weights += weight;
    total += weight * (one.riseVariance + (riseOf(one, step_s) - taken_rad) ** 2);
  }
  return total / weights;
}

/** Weighted least squares; undefined when fewer than two blocks hold information. */
function straightLine(readings_rad: Float64Array, information: Float64Array, step_s: number, lag_s: Float64Array) {
  let weight = 0;
  let time = 0;
  let level = 0;
  readings_rad.forEach((reading, b) => {
    weight += information[b]!;
    time += information[b]! * (b * step_s + lag_s[b]!);
    level += information[b]! * reading;
  });
  if (!(weight > 0)) return undefined;
  time /= weight;
  level /= weight;
  let squares = 0;
  let product = 0;
  readings_rad.forEach((reading, b) => {
    const t = b * step_s + lag_s[b]! - time;
    squares += information[b]! * t * t;
    product += information[b]! * t * (reading - level);
  });
  if (!(squares > 0)) return undefined;
  const rate_rad_per_s = product / squares;
  return {
    phase_rad: readings_rad.map((_, b) => level + rate_rad_per_s * (b * step_s - time)),
    rate_rad_per_s,
    rateSd_rad_per_s: 1 / Math.sqrt(squares),
  };
}
