/** Half widths of the parabolas tried, in samples, each twice the one before. */
const halfWidths = Array.from({ length: 12 }, (_, i) => 2 ** i);
const longest_s = 0.02;
/** Estimates of different widths agree within so many standard deviations of each. */
const agreement = 1.3;
/** Chosen among several widths, about the sample that noise lifts most, an estimate scatters by this much more: on draws. */
const chosen = 1.5;

export interface Peak {
  /** Signed voltage at the extreme. */
  readonly value_V: number;
  readonly doubt_V: number;
  readonly at: number;
}

/**
 * Greatest departure of a signal from zero: the top of the widest parabola about it that agrees with every narrower one,
 * so that a slow pulse does not read high by the noise on its top, and a click is read at its sample.
 *
 *     y = a + b·t + c·t²;   sd of a fitted value √(s²·(9/4N)) at the middle
 *
 * @param noise_V  standard deviation of a sample from noise that differs from sample to sample
 * @source choice of the width by intersecting intervals: O. Lepski (1991) (remembered)
 */
export function peakOf(signal_V: Float64Array, rate_Hz: number, noise_V: number): Peak {
  let at = 0;
  for (let n = 0; n < signal_V.length; n++) if (Math.abs(signal_V[n]!) > Math.abs(signal_V[at]!)) at = n;
  let best: Peak = { value_V: signal_V[at]!, doubt_V: 1.96 * noise_V, at };
  let low = Number.NEGATIVE_INFINITY;
  let high = Number.POSITIVE_INFINITY;
  for (const half of halfWidths) {
    if (half > longest_s * rate_Hz || at - half < 0 || at + half >= signal_V.length) break;
    const { a, b, c } = parabola(signal_V, at, half);
    const turn = c !== 0 ? -b / (2 * c) : 0;
    const top = Math.abs(turn) <= half ? turn : 0;
    const value_V = a + b * top + c * top * top;
    const sd_V = noise_V * Math.sqrt(9 / (4 * (2 * half + 1)));
    const reach_V = agreement * sd_V;
    low = Math.max(low, value_V - reach_V);
    high = Math.min(high, value_V + reach_V);
    if (low > high) break;
    // A rise steeper than the fall bends a wide parabola; what widening changed may go on.
    const bent_V = half > 1 ? value_V - best.value_V : 0;
    best = { value_V, doubt_V: Math.hypot(chosen * 1.96 * sd_V, bent_V), at: at + top };
  }
  return best;
}

/** Least squares over −half … half about a sample. */
function parabola(signal: Float64Array, centre: number, half: number) {
  const count = 2 * half + 1;
  let [s0, s1, s2, t2, t4] = [0, 0, 0, 0, 0];
  for (let t = -half; t <= half; t++) {
    const y = signal[centre + t]!;
    s0 += y;
    s1 += y * t;
    s2 += y * t * t;
    t2 += t * t;
    t4 += t ** 4;
  }
  const b = s1 / t2;
  const c = (s2 - (s0 * t2) / count) / (t4 - (t2 * t2) / count);
  const a = (s0 - c * t2) / count;
  return { a, b, c };
}
