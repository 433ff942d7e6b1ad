/** Where a decaying sinusoid lies: Re{a·e^{(−α + jω)t}}. */
export interface Pole {
  readonly frequency_Hz: number;
  readonly rate_per_s: number;
}

/** Bins of a spectrum, both ends included. */
export interface Band {
  readonly from: number;
  readonly to: number;
}

/** Turning factors are computed afresh after so many bins, before rounding tells. */
const restart = 64;
/** Numbers a bin: re and im of what the cosine puts there, the sine, and both differentiated by −α. */
export const perBin = 8;

/**
 * What a decay of unit amplitude, as cosine and as −sine, puts into the bins of a band: geometric sums at its frequency
 * and at its negative, whose factors turn by the same angle from bin to bin.
 *
 *     G(z) = Σ zⁿ = (1 − z^N)/(1 − z),   z = e^{(−α + jδ)/rate}, δ = ±ω − ω_k
 *     −∂G/∂α = z·G′/rate = (z·G − N·z^N)/(1 − z)/rate
 *
 * With U and V what differentiates cosine and sine by −α, a decay a + jb changes by −(aU + bV) with α and by aV − bU
 * with ω.
 *
 * @param out  filled with `perBin` numbers for each bin of the band
 */
export function shapes(
  { frequency_Hz, rate_per_s }: Pole,
  { from, to }: Band,
  samples: number,
  step_Hz: number,
  rate_Hz: number,
  out: Float64Array,
): void {
  const fall = Math.exp((-rate_per_s * samples) / rate_Hz);
  const one = Math.exp(-rate_per_s / rate_Hz);
  const step = (-2 * Math.PI * step_Hz) / rate_Hz;
  const [turnRe, turnIm] = [Math.cos(step), Math.sin(step)];
  const [farRe, farIm] = [Math.cos(step * samples), Math.sin(step * samples)];
  out.fill(0, 0, perBin * (to - from + 1));
  for (let side = 1; side >= -1; side -= 2) {
    for (let first = from; first <= to; first += restart) {
      const angle = (2 * Math.PI * (side * frequency_Hz - first * step_Hz)) / rate_Hz;
      let zRe = one * Math.cos(angle);
      let zIm = one * Math.sin(angle);
      let endRe = fall * Math.cos(angle * samples);
      let endIm = fall * Math.sin(angle * samples);
      const last = Math.min(to, first + restart - 1);
      for (let k = first, at = perBin * (first - from); k <= last; k++, at += perBin) {
        const c = 1 - zRe;
        const size = c * c + zIm * zIm;
        let gRe = samples;
        let gIm = 0;
        let qRe = (samples * (samples - 1)) / 2;
        let qIm = 0;
        if (size > 0) {
          // 1/(1 − z) = (c + j·zIm)/size
          const inverse = 1 / size;
          const topRe = 1 - endRe;
          gRe = (topRe * c + endIm * zIm) * inverse;
          gIm = (topRe * zIm - endIm * c) * inverse;
          const riseRe = zRe * gRe - zIm * gIm - samples * endRe;
          const riseIm = zRe * gIm + zIm * gRe - samples * endIm;
          qRe = (riseRe * c - riseIm * zIm) * inverse;
          qIm = (riseRe * zIm + riseIm * c) * inverse;
        }
        // a/2·G(ω − ω_k) + a*/2·G(−ω − ω_k) with a = 1, then a = j.
        out[at]! += 0.5 * gRe;
        out[at + 1]! += 0.5 * gIm;
        out[at + 2]! -= side * 0.5 * gIm;
        out[at + 3]! += side * 0.5 * gRe;
        const scale = 0.5 / rate_Hz;
        out[at + 4]! += scale * qRe;
        out[at + 5]! += scale * qIm;
        out[at + 6]! -= side * scale * qIm;
        out[at + 7]! += side * scale * qRe;
        const near = zRe * turnRe - zIm * turnIm;
        zIm = zRe * turnIm + zIm * turnRe;
        zRe = near;
        const end = endRe * farRe - endIm * farIm;
        endIm = endRe * farIm + endIm * farRe;
        endRe = end;
      }
    }
  }
}
