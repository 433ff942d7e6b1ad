import { type SmoothPhase, smoothPhase } from "../../maths/spectra/phaseSmoother.ts";

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

/** The phase at every sample of a record, cubic between the middles of blocks and straight beyond them. */
export function phaseAtSamples(track: PhaseTrack, rate_Hz: number, length: number): Float64Array {
  const { step_s, deviation_rad: d, rate_rad_per_s: v } = track;
  const theta = new Float64Array(length);
  const last = d.length - 1;
  for (let n = 0; n < length; n++) {
    const t = n / rate_Hz;
    const at = t / step_s - 0.5;
    const m = Math.min(last, Math.max(0, Math.floor(at)));
    const u = at - m;
    let deviation: number;
    if (u < 0 || m === last) deviation = d[m]! + u * step_s * v[m]!;
    else {
      const rise = d[m + 1]! - d[m]!;
      const a = step_s * v[m]!;
      const b = step_s * v[m + 1]!;
      deviation = d[m]! + u * (a + u * (3 * rise - 2 * a - b + u * (a + b - 2 * rise)));
    }
    theta[n] = 2 * Math.PI * track.carrier_Hz * t + deviation;
  }
  return theta;
}

/** Restlessness tried, in rad²/s³: from far below what a clock does to far above what mains does. */
const restless = Array.from({ length: 19 }, (_, i) => 10 ** (-7 + i / 2));
/** Gain of log likelihood that a wandering frequency must bring over a steady one: about one steady record in fifty errs. */
const leastGain = 2.5;

/**
 * Draws the smoothest track that readings of the deviation bear out: straight unless they speak against it.
 */
export function drawTrack(
  carrier_Hz: number,
  step_s: number,
  readings_rad: Float64Array,
  information: Float64Array,
): PhaseTrack {
  const duration_s = step_s * readings_rad.length;
  const spread = 2 * Math.PI * Math.max(0.1, 1 / duration_s);
  const smooth = (q: number) => smoothPhase(readings_rad, information, step_s, q, spread);
  let q = 0;
  let best: SmoothPhase = smooth(0);
  const steady = best.logLikelihood;
  for (const candidate of restless) {
    const tried = smooth(candidate);
    if (tried.logLikelihood > Math.max(best.logLikelihood, steady + leastGain)) {
      best = tried;
      q = candidate;
    }
  }
  const last = readings_rad.length - 1;
  const meanSd_Hz =
    q === 0
      ? Math.sqrt(best.rateVariance[0]!) / (2 * Math.PI)
      : Math.sqrt(edgeVariance(best, 0, step_s) + edgeVariance(best, last, step_s)) / (2 * Math.PI * duration_s);
  return {
    carrier_Hz,
    step_s,
    deviation_rad: best.phase_rad,
    rate_rad_per_s: best.rate_rad_per_s,
    restlessness: q,
    meanSd_Hz,
    phaseSd_rad: q === 0 ? 0 : Math.sqrt(best.phaseVariance.reduce((a, b) => a + b, 0) / best.phaseVariance.length),
  };
}

function edgeVariance(smooth: SmoothPhase, m: number, step_s: number): number {
  return smooth.phaseVariance[m]! + (step_s / 2) ** 2 * smooth.rateVariance[m]!;
}
