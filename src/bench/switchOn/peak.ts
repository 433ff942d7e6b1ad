/** Half widths of the parabolas tried, in samples, each twice the one before. */
const halfWidths = Array.from({ length: 12 }, (_, i) => 2 ** i);
const longest_s = 0.02;
/** A parabola's misfit may exceed the noise by this factor through chance and curvature that does not matter. */
const tolerated = 1.3;

export interface Peak {
  /** Signed voltage at the extreme. */
  readonly value_V: number;
  readonly doubt_V: number;
  readonly at: number;
}

/**
 * Greatest departure of a signal from zero: the top of the widest parabola that noise alone sets off the samples about
 * it, so that a slow pulse does not read high by the noise on its top, and a click is read at its sample.
 *
 *     y = a + b·t + c·t²;   sd of a fitted value √(s²·(9/4N)) at the middle
 *
 * @param noise_V  standard deviation of a sample
 */
export function peakOf(signal_V: Float64Array, rate_Hz: number, noise_V: number): Peak {
  let at = 0;
  for (let n = 0; n < signal_V.length; n++) if (Math.abs(signal_V[n]!) > Math.abs(signal_V[at]!)) at = n;
  let best: Peak = { value_V: signal_V[at]!, doubt_V: 1.96 * noise_V, at };
  for (const half of halfWidths) {
    if (half > longest_s * rate_Hz || at - half < 0 || at + half >= signal_V.length) break;
    const fit = parabola(signal_V, at, half);
    if (fit.misfit_V > tolerated * noise_V * (1 + 2 / Math.sqrt(half))) break;
    const turn = fit.c !== 0 ? -fit.b / (2 * fit.c) : 0;
    const top = Math.abs(turn) <= half ? turn : 0;
    best = {
      value_V: fit.a + fit.b * top + fit.c * top * top,
      doubt_V: 1.96 * noise_V * Math.sqrt(9 / (4 * (2 * half + 1))),
      at: at + top,
    };
  }
  return best;
}

/** Least squares over −half … half about a sample; misfit is the standard deviation of what is left. */
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
  let squares = 0;
  for (let t = -half; t <= half; t++) squares += (signal[centre + t]! - a - b * t - c * t * t) ** 2;
  return { a, b, c, misfit_V: count > 3 ? Math.sqrt(squares / (count - 3)) : 0 };
}
