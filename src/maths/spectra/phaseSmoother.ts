/** A smooth phase at equidistant instants: its value, its slope, and how well both are known. */
export interface SmoothPhase {
  readonly phase_rad: Float64Array;
  readonly rate_rad_per_s: Float64Array;
  readonly phaseVariance: Float64Array;
  readonly rateVariance: Float64Array;
  /** Variance of the phase half a step after the last reading, less that half a step before the first. */
  readonly riseVariance: number;
  /** Log likelihood of the readings, for comparing one restlessness with another. */
  readonly logLikelihood: number;
}

/**
 * Phase whose slope walks at random, seen through readings of known variance: Kalman filter forward,
 * Rauch-Tung-Striebel smoother back.
 *
 *     φ̈ = white noise of density q;   reading m = φ(m·step) + noise of variance 1/information[m]
 *
 * With q = 0 this is the weighted straight-line fit.
 *
 * @param information  inverse variance of each reading [1/rad²]; 0 where there is none
 * @param restlessness  q [rad²/s³]
 * @param spread  standard deviations of phase and slope before anything is read; best not far above what the readings
 *                show, or digits are lost
 */
export function smoothPhase(
  readings_rad: Float64Array,
  information: Float64Array,
  step_s: number,
  restlessness: number,
  spread: { readonly phase_rad: number; readonly rate_rad_per_s: number },
): SmoothPhase {
  const n = readings_rad.length;
  // State (phase, rate), covariance (a, b; b, c): predicted and filtered, kept for the way back.
  const predicted = new Float64Array(5 * n);
  const filtered = new Float64Array(5 * n);
  const qa = (restlessness * step_s ** 3) / 3;
  const qb = (restlessness * step_s ** 2) / 2;
  const qc = restlessness * step_s;
  let phase = 0;
  let rate = 0;
  let a = spread.phase_rad ** 2;
  let b = 0;
  let c = spread.rate_rad_per_s ** 2;
  let logLikelihood = 0;
  for (let m = 0; m < n; m++) {
    predicted.set([phase, rate, a, b, c], 5 * m);
    const info = information[m]!;
    if (info > 0) {
      const expected = a + 1 / info;
      const miss = readings_rad[m]! - phase;
      logLikelihood -= 0.5 * (Math.log(expected) + (miss * miss) / expected);
      const gainPhase = a / expected;
      const gainRate = b / expected;
      phase += gainPhase * miss;
      rate += gainRate * miss;
      c -= gainRate * b;
      b *= 1 / (info * expected);
      a *= 1 / (info * expected);
    }
    filtered.set([phase, rate, a, b, c], 5 * m);
    phase += step_s * rate;
    a += step_s * (2 * b + step_s * c) + qa;
    b += step_s * c + qb;
    c += qc;
  }
  const out = {
    phase_rad: new Float64Array(n),
    rate_rad_per_s: new Float64Array(n),
    phaseVariance: new Float64Array(n),
    rateVariance: new Float64Array(n),
    riseVariance: 0,
    logLikelihood,
  };
  let [sp, sr, sa, sb, sc] = filtered.subarray(5 * (n - 1)) as unknown as [number, number, number, number, number];
  const lead = step_s / 2;
  const end = sa + lead * (2 * sb + lead * sc);
  // Covariance of this reading's phase and rate with the phase at the end: J·J·…·P, as the way back goes on.
  let withEnd = { phase: sa + lead * sb, rate: sb + lead * sc };
  for (let m = n - 1; m >= 0; m--) {
    if (m < n - 1) {
      const [fp, fr, fa, fb, fc] = filtered.subarray(5 * m) as unknown as [number, number, number, number, number];
      const [pp, pr, pa, pb, pc] = predicted.subarray(5 * m + 5) as unknown as [number, number, number, number, number];
      const det = pa * pc - pb * pb;
      // Gain J = P·Fᵀ·(P⁺)⁻¹ with F = (1, step; 0, 1).
      const ua = fa + step_s * fb;
      const ub = fb;
      const va = fb + step_s * fc;
      const vb = fc;
      const j11 = (ua * pc - ub * pb) / det;
      const j12 = (ub * pa - ua * pb) / det;
      const j21 = (va * pc - vb * pb) / det;
      const j22 = (vb * pa - va * pb) / det;
      const dp = sp - pp;
      const dr = sr - pr;
      sp = fp + j11 * dp + j12 * dr;
      sr = fr + j21 * dp + j22 * dr;
      const da = sa - pa;
      const db = sb - pb;
      const dc = sc - pc;
      sa = fa + j11 * (j11 * da + j12 * db) + j12 * (j11 * db + j12 * dc);
      const cross = fb + j21 * (j11 * da + j12 * db) + j22 * (j11 * db + j12 * dc);
      withEnd = {
        phase: j11 * withEnd.phase + j12 * withEnd.rate,
        rate: j21 * withEnd.phase + j22 * withEnd.rate,
      };
      sc = fc + j21 * (j21 * da + j22 * db) + j22 * (j21 * db + j22 * dc);
      sb = cross;
    }
    out.phase_rad[m] = sp;
    out.rate_rad_per_s[m] = sr;
    out.phaseVariance[m] = Math.max(0, sa);
    out.rateVariance[m] = Math.max(0, sc);
  }
  const start = sa - lead * (2 * sb - lead * sc);
  const beyond = (2 * restlessness * lead ** 3) / 3;
  const riseVariance = Math.max(0, end + start + beyond - 2 * (withEnd.phase - lead * withEnd.rate));
  return { ...out, riseVariance };
}
