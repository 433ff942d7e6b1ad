import { inverseNormal, leastSquares } from "../../maths/leastSquares/leastSquares.ts";

/** A decaying sinusoid common to all taps, each tap with an amplitude of its own: Re{a·e^{(−α + jω)t}}. */
export interface Decay {
  readonly frequency_Hz: number;
  readonly rate_per_s: number;
  /** Real and imaginary part of a at each stretch's first sample. */
  readonly amplitudes: readonly (readonly [number, number])[];
}

/** Transform of one tap's stretch, on bins of `step_Hz`. */
export interface Struck {
  readonly spectrum: Float64Array;
  readonly samples: number;
}

export interface Striking {
  readonly taps: readonly Struck[];
  readonly step_Hz: number;
  readonly rate_Hz: number;
  /** One-sided noise density by bin. */
  readonly noise_V2_per_Hz: Float64Array;
  /** Products that may still be formed; counted down, so that many decays over wide bands end in time. */
  readonly work: { left: number };
}

/** What the shape of one decay costs in a bin, in products. */
const shapeCost = 20;

interface Band {
  readonly from: number;
  readonly to: number;
}

/** Turning factors are computed afresh after so many bins, before rounding tells. */
const restart = 64;

/**
 * What a decay of unit amplitude, as cosine and as −sine, puts into the bins of a band: geometric sums at its frequency
 * and at its negative, whose factors turn by the same angle from bin to bin.
 *
 *     G(δ) = Σ e^{(−α + jδ)n/rate} = (1 − e^{(−α + jδ)N/rate})/(1 − e^{(−α + jδ)/rate}),   δ = ±ω − ω_k
 *
 * @returns four numbers a bin: re and im of the cosine's, re and im of the sine's
 */
function shapes(
  { frequency_Hz, rate_per_s }: { frequency_Hz: number; rate_per_s: number },
  band: Band,
  samples: number,
  { step_Hz, rate_Hz }: Striking,
): Float64Array {
  const out = new Float64Array(4 * (band.to - band.from + 1));
  const fall = Math.exp((-rate_per_s * samples) / rate_Hz);
  const one = Math.exp(-rate_per_s / rate_Hz);
  const step = (-2 * Math.PI * step_Hz) / rate_Hz;
  const [turnRe, turnIm] = [Math.cos(step), Math.sin(step)];
  const [farRe, farIm] = [Math.cos(step * samples), Math.sin(step * samples)];
  const sum = new Float64Array(2);
  for (const side of [1, -1]) {
    for (let first = band.from; first <= band.to; first += restart) {
      const angle = (2 * Math.PI * (side * frequency_Hz - first * step_Hz)) / rate_Hz;
      let [nearRe, nearIm] = [one * Math.cos(angle), one * Math.sin(angle)];
      let [endRe, endIm] = [fall * Math.cos(angle * samples), fall * Math.sin(angle * samples)];
      const last = Math.min(band.to, first + restart - 1);
      for (let k = first; k <= last; k++) {
        quotient(1 - endRe, -endIm, 1 - nearRe, -nearIm, samples, sum);
        const [re, im] = [0.5 * sum[0]!, 0.5 * sum[1]!];
        const at = 4 * (k - band.from);
        // a/2·G(ω − ω_k) + a*/2·G(−ω − ω_k) with a = 1, then a = j.
        out[at]! += re;
        out[at + 1]! += im;
        out[at + 2]! -= side * im;
        out[at + 3]! += side * re;
        const near = nearRe * turnRe - nearIm * turnIm;
        nearIm = nearRe * turnIm + nearIm * turnRe;
        nearRe = near;
        const end = endRe * farRe - endIm * farIm;
        endIm = endRe * farIm + endIm * farRe;
        endRe = end;
      }
    }
  }
  return out;
}

/** (a + jb)/(c + jd), `otherwise` where that is 0/0. */
function quotient(a: number, b: number, c: number, d: number, otherwise: number, into: Float64Array): void {
  const size = c * c + d * d;
  into[0] = size > 0 ? (a * c + b * d) / size : otherwise;
  into[1] = size > 0 ? (b * c - a * d) / size : 0;
}

/** Takes a decay out of every bin of the spectra, writing into them; `sign` −1 puts it back. */
export function takeOutDecay(striking: Striking, { amplitudes, ...decay }: Decay, sign = 1): void {
  striking.work.left -= shapeCost * striking.noise_V2_per_Hz.length * striking.taps.length;
  striking.taps.forEach(({ spectrum, samples }, j) => {
    const [a, b] = amplitudes[j]!;
    const last = spectrum.length / 2 - 1;
    const shape = shapes(decay, { from: 0, to: last }, samples, striking);
    for (let k = 0; k <= last; k++) {
      spectrum[2 * k]! -= sign * (a * shape[4 * k]! + b * shape[4 * k + 2]!);
      spectrum[2 * k + 1]! -= sign * (a * shape[4 * k + 1]! + b * shape[4 * k + 3]!);
    }
  });
}

interface Solved {
  readonly amplitudes: [number, number][][];
  readonly residuals: Float64Array;
}

/** Amplitudes by linear least squares at given poles, weighed by the noise; residuals in standard deviations. */
function solve(poles: readonly { frequency_Hz: number; rate_per_s: number }[], band: Band, striking: Striking): Solved {
  const { taps, noise_V2_per_Hz, rate_Hz } = striking;
  const bins = band.to - band.from + 1;
  const residuals = new Float64Array(2 * bins * taps.length);
  striking.work.left -= solveCost(poles.length, band, striking);
  const amplitudes: [number, number][][] = poles.map(() => []);
  taps.forEach(({ spectrum, samples }, j) => {
    const weight = new Float64Array(bins);
    const data = residuals.subarray(2 * bins * j, 2 * bins * (j + 1));
    for (let k = 0; k < bins; k++) {
      const sd = Math.sqrt((noise_V2_per_Hz[band.from + k]! * rate_Hz * samples) / 4);
      weight[k] = 1 / Math.max(sd, 1e-150);
      data[2 * k] = spectrum[2 * (band.from + k)]! * weight[k]!;
      data[2 * k + 1] = spectrum[2 * (band.from + k) + 1]! * weight[k]!;
    }
    const columns: Float64Array[] = [];
    for (const pole of poles) {
      const shape = shapes(pole, band, samples, striking);
      const cosine = new Float64Array(2 * bins);
      const sine = new Float64Array(2 * bins);
      for (let k = 0; k < bins; k++) {
        const w = weight[k]!;
        cosine[2 * k] = shape[4 * k]! * w;
        cosine[2 * k + 1] = shape[4 * k + 1]! * w;
        sine[2 * k] = shape[4 * k + 2]! * w;
        sine[2 * k + 1] = shape[4 * k + 3]! * w;
      }
      columns.push(cosine, sine);
    }
    const x = normalSolve(columns, data);
    for (let p = 0; p < poles.length; p++) amplitudes[p]!.push([x[2 * p]!, x[2 * p + 1]!]);
    columns.forEach((column, c) => {
      for (let i = 0; i < 2 * bins; i++) data[i]! -= x[c]! * column[i]!;
    });
  });
  return { amplitudes, residuals };
}

function solveCost(poles: number, { from, to }: Band, { taps }: Striking): number {
  return (to - from + 1) * taps.length * (shapeCost * poles + 4 * poles ** 2);
}

/** Normal equations of a few weighed columns, by elimination with a whisper of a ridge. */
function normalSolve(columns: readonly Float64Array[], data: Float64Array): Float64Array {
  const n = columns.length;
  const rows = columns.map(() => new Float64Array(n + 1));
  columns.forEach((a, i) => {
    for (let j = i; j < n; j++) rows[i]![j] = rows[j]![i] = product(a, columns[j]!);
    rows[i]![n] = product(a, data);
  });
  rows.forEach((row, i) => {
    row[i]! *= 1 + 1e-12;
  });
  for (let i = 0; i < n; i++) {
    const pivot = rows[i]![i]!;
    if (!(Math.abs(pivot) > 0)) continue;
    for (let j = i + 1; j < n; j++) {
      const share = rows[j]![i]! / pivot;
      for (let k = i; k <= n; k++) rows[j]![k]! -= share * rows[i]![k]!;
    }
  }
  const x = new Float64Array(n);
  for (let i = n - 1; i >= 0; i--) {
    let sum = rows[i]![n]!;
    for (let k = i + 1; k < n; k++) sum -= rows[i]![k]! * x[k]!;
    x[i] = rows[i]![i] ? sum / rows[i]![i]! : 0;
  }
  return x;
}

function product(a: Float64Array, b: Float64Array): number {
  let sum = 0;
  for (let i = 0; i < a.length; i++) sum += a[i]! * b[i]!;
  return sum;
}

export interface Refined {
  readonly decays: readonly Decay[];
  /** Variances of frequency and of the logarithm of the rate. */
  readonly variances: readonly { readonly frequency_Hz2: number; readonly logRate: number }[];
  readonly misfit: number;
  readonly gain: number;
}

/** Half width of the band in which a decay is fitted, in half widths of its peak, and at least. */
const bandWidths = 12;
const leastBand_Hz = 25;

function bandOf(
  decays: readonly { frequency_Hz: number; rate_per_s: number }[],
  { step_Hz, noise_V2_per_Hz }: Striking,
): Band {
  const reach = (rate_per_s: number) => Math.max(leastBand_Hz, (bandWidths * rate_per_s) / (2 * Math.PI));
  const low = Math.min(...decays.map(({ frequency_Hz, rate_per_s }) => frequency_Hz - reach(rate_per_s)));
  const high = Math.max(...decays.map(({ frequency_Hz, rate_per_s }) => frequency_Hz + reach(rate_per_s)));
  return {
    from: Math.max(2, Math.floor(low / step_Hz)),
    to: Math.min(noise_V2_per_Hz.length - 2, Math.ceil(high / step_Hz)),
  };
}

const [slowest_per_s, fastest_per_s] = [0.05, 4000];
/** Steps of one fit at most; fewer where they would take more than this share of the work that is left. */
const mostSteps = 60;
const fewestSteps = 3;
const workShare = 0.1;

/**
 * Least squares of decays whose frequencies lie close together, amplitudes solved linearly at every step.
 *
 * @param oversampled  bins for each independent one
 */
export function refineDecays(
  starts: readonly { frequency_Hz: number; rate_per_s: number }[],
  striking: Striking,
  oversampled: number,
): Refined {
  const band = bandOf(starts, striking);
  const poles = (p: ArrayLike<number>) =>
    starts.map((_, i) => ({
      frequency_Hz: Math.abs(p[2 * i]!),
      rate_per_s: Math.min(fastest_per_s, Math.max(slowest_per_s, Math.exp(p[2 * i + 1]!))),
    }));
  const perStep = (2 * starts.length + 1) * solveCost(starts.length, band, striking);
  const fit = leastSquares({
    start: starts.flatMap(({ frequency_Hz, rate_per_s }) => [frequency_Hz, Math.log(rate_per_s)]),
    residuals: (p) => solve(poles(p), band, striking).residuals,
    low: starts.flatMap(({ frequency_Hz }) => [0.9 * frequency_Hz, Math.log(slowest_per_s)]),
    high: starts.flatMap(({ frequency_Hz }) => [1.1 * frequency_Hz, Math.log(fastest_per_s)]),
    mostSteps: Math.max(fewestSteps, Math.min(mostSteps, Math.floor((workShare * striking.work.left) / perStep))),
    leastGain: 1e-8,
  });
  const found = poles(fit.parameters);
  const { amplitudes } = solve(found, band, striking);
  const inverse = inverseNormal(
    fit.jacobian,
    starts.flatMap(() => [true, true]),
  );
  const misfit = fit.sumOfSquares / Math.max(1, fit.residuals.length - 4 * starts.length * striking.taps.length);
  const scale = oversampled * Math.max(1, misfit);
  const before = solve([], band, striking).residuals.reduce((sum, r) => sum + r * r, 0);
  return {
    decays: found.map((pole, i) => ({ ...pole, amplitudes: amplitudes[i]! })),
    variances: found.map((_, i) => ({
      frequency_Hz2: inverse ? inverse[2 * i]![2 * i]! * scale : Number.POSITIVE_INFINITY,
      logRate: inverse ? inverse[2 * i + 1]![2 * i + 1]! * scale : Number.POSITIVE_INFINITY,
    })),
    misfit,
    gain: (before - fit.sumOfSquares) / oversampled,
  };
}

/** What one decay of given frequency and rate explains, in noise variances, over the widest band that any rate needs. */
export function gainOf(pole: { frequency_Hz: number; rate_per_s: number }, striking: Striking): number {
  const band = bandOf([{ ...pole, rate_per_s: 2 * Math.PI * 10 }], striking);
  const squares = (residuals: Float64Array) => residuals.reduce((sum, r) => sum + r * r, 0);
  return squares(solve([], band, striking).residuals) - squares(solve([pole], band, striking).residuals);
}
