import { realSpectrum } from "../../maths/spectra/fourier.ts";
import { type Band, type Pole, perBin, shapes } from "./shapes.ts";

/** A decaying sinusoid common to all taps, each tap with an amplitude of its own: Re{a·e^{(−α + jω)t}}. */
export interface Decay extends Pole {
  /** Real and imaginary part of a at each stretch's first sample. */
  readonly amplitudes: readonly (readonly [number, number])[];
}

/** One tap's stretch, and its transform padded with zeros, on bins of `step_Hz`. */
interface Struck {
  readonly signal: Float64Array;
  readonly spectrum: Float64Array;
}

/** What rings after the taps; decays that were found are taken out of it where it stands. */
export interface Striking {
  readonly taps: readonly Struck[];
  readonly step_Hz: number;
  readonly rate_Hz: number;
  /** One-sided noise density by bin. */
  readonly noise_V2_per_Hz: Float64Array;
  /** Products that may still be formed; counted down, so that many decays over wide bands end in time. */
  readonly work: { left: number };
  /** Padded signal, written anew at every transform. */
  readonly room: Float64Array;
}

/** Below this share of its start a decay is rounding. */
const silent = 1e-13;

/** Takes decays out of every stretch and transforms what is left; `sign` −1 puts them back. */
export function takeOutDecays(striking: Striking, decays: readonly Decay[], sign: 1 | -1 = 1): void {
  for (const decay of decays) {
    striking.taps.forEach(({ signal }, j) => {
      takeOutOne(signal, striking.rate_Hz, decay, decay.amplitudes[j]!, sign);
    });
  }
}

/** Transforms the stretches as they stand. */
export function transformAll({ taps, room, work }: Striking): void {
  work.left -= transformCost * room.length * taps.length;
  for (const { signal, spectrum } of taps) {
    room.set(signal);
    room.fill(0, signal.length);
    realSpectrum(room, spectrum);
  }
}

const transformCost = 25;
/** The turning factor is computed afresh after so many samples. */
const renewal = 512;

function takeOutOne(
  signal: Float64Array,
  rate_Hz: number,
  { frequency_Hz, rate_per_s }: Pole,
  [a, b]: readonly [number, number],
  sign: 1 | -1,
): void {
  const end = Math.min(signal.length, Math.ceil((-Math.log(silent) * rate_Hz) / rate_per_s));
  const turn = (2 * Math.PI * frequency_Hz) / rate_Hz;
  const fall = Math.exp(-rate_per_s / rate_Hz);
  const [stepRe, stepIm] = [fall * Math.cos(turn), fall * Math.sin(turn)];
  for (let first = 0; first < end; first += renewal) {
    const size = sign * Math.exp((-rate_per_s * first) / rate_Hz);
    const [cos, sin] = [size * Math.cos(turn * first), size * Math.sin(turn * first)];
    let re = a * cos - b * sin;
    let im = a * sin + b * cos;
    const last = Math.min(end, first + renewal);
    for (let n = first; n < last; n++) {
      signal[n]! -= re;
      const next = re * stepRe - im * stepIm;
      im = re * stepIm + im * stepRe;
      re = next;
    }
  }
}

/** Bins whose shapes are held at once. */
const chunk = 256;
/** Products of one decay's shape in a bin. */
const shapeCost = 60;

/** Sums over one tap's bins: of the columns with each other, with the data, and of the data with itself. */
interface Sums {
  /** For each pole cosine, sine and both differentiated by −α, weighed by the noise; row by row. */
  readonly gram: Float64Array;
  readonly withData: Float64Array;
  power: number;
}

const columnsOf = (poles: number) => 4 * poles;

/**
 * @param added  decays that were taken out of the stretches and count as if they were not
 */
function sumsOver(striking: Striking, poles: readonly Pole[], band: Band, added: readonly Decay[]): Sums[] {
  const { taps, step_Hz, rate_Hz, noise_V2_per_Hz } = striking;
  const count = poles.length;
  const columns = columnsOf(count);
  striking.work.left -=
    (band.to - band.from + 1) * taps.length * (shapeCost * (count + added.length) + columns ** 2 + 2 * columns);
  const shape = poles.map(() => new Float64Array(perBin * chunk));
  const other = new Float64Array(perBin * chunk);
  const data = new Float64Array(2 * chunk);
  const weighed = Array.from({ length: columns }, () => new Float64Array(2 * chunk));
  return taps.map(({ spectrum, signal }, j) => {
    const sums: Sums = { gram: new Float64Array(columns ** 2), withData: new Float64Array(columns), power: 0 };
    for (let from = band.from; from <= band.to; from += chunk) {
      const to = Math.min(band.to, from + chunk - 1);
      const bins = to - from + 1;
      for (let i = 0; i < 2 * bins; i++) data[i] = spectrum[2 * from + i]!;
      for (const decay of added) {
        shapes(decay, { from, to }, signal.length, step_Hz, rate_Hz, other);
        const [a, b] = decay.amplitudes[j]!;
        for (let k = 0, at = 0; k < bins; k++, at += perBin) {
          data[2 * k]! += a * other[at]! + b * other[at + 2]!;
          data[2 * k + 1]! += a * other[at + 1]! + b * other[at + 3]!;
        }
      }
      for (let p = 0; p < count; p++) shapes(poles[p]!, { from, to }, signal.length, step_Hz, rate_Hz, shape[p]!);
      for (let k = 0; k < bins; k++) {
        const sd = Math.sqrt((noise_V2_per_Hz[from + k]! * rate_Hz * signal.length) / 4);
        const weight = 1 / Math.max(sd, 1e-150);
        data[2 * k]! *= weight;
        data[2 * k + 1]! *= weight;
        for (let p = 0; p < count; p++) {
          const of = shape[p]!;
          for (let c = 0, at = perBin * k; c < 4; c++, at += 2) {
            const column = weighed[4 * p + c]!;
            column[2 * k] = of[at]! * weight;
            column[2 * k + 1] = of[at + 1]! * weight;
          }
        }
      }
      const length = 2 * bins;
      sums.power += product(data, data, length);
      for (let c = 0; c < columns; c++) {
        sums.withData[c]! += product(weighed[c]!, data, length);
        for (let d = 0; d <= c; d++) sums.gram[c * columns + d]! += product(weighed[c]!, weighed[d]!, length);
      }
    }
    for (let c = 0; c < columns; c++)
      for (let d = 0; d < c; d++) sums.gram[d * columns + c] = sums.gram[c * columns + d]!;
    return sums;
  });
}

function product(a: Float64Array, b: Float64Array, length: number): number {
  let sum = 0;
  let other = 0;
  for (let i = 0; i < length; i += 2) {
    sum += a[i]! * b[i]!;
    other += a[i + 1]! * b[i + 1]!;
  }
  return sum + other;
}

/** Least squares at given poles: amplitudes, what is left, and how that would change with the poles. */
interface Solved {
  readonly amplitudes: [number, number][][];
  /** Of what is left, in noise variances. */
  readonly squares: number;
  readonly power: number;
  /** By frequency in Hz and logarithm of the rate, for each pole in turn: the amplitudes follow. */
  readonly normal: Float64Array;
  readonly push: Float64Array;
}

function solve(striking: Striking, poles: readonly Pole[], band: Band, added: readonly Decay[]): Solved {
  const count = poles.length;
  const columns = columnsOf(count);
  const unknowns = 2 * count;
  const normal = new Float64Array(unknowns ** 2);
  const push = new Float64Array(unknowns);
  const amplitudes: [number, number][][] = poles.map(() => []);
  let squares = 0;
  let power = 0;
  /** Column of the cosine (part 0) or sine (1) of a pole, or of its derivative. */
  const linear = (i: number) => 4 * (i >> 1) + (i & 1);
  for (const { gram, withData, power: own } of sumsOver(striking, poles, band, added)) {
    const inner = (c: number, d: number) => gram[c * columns + d]!;
    const system = new Float64Array(unknowns ** 2);
    for (let i = 0; i < unknowns; i++) {
      for (let j = 0; j < unknowns; j++) system[i * unknowns + j] = inner(linear(i), linear(j));
      system[i * unknowns + i]! *= 1 + 1e-12;
    }
    const factor = factored(system, unknowns);
    const x = solved(
      factor,
      unknowns,
      Float64Array.from({ length: unknowns }, (_, i) => withData[linear(i)]!),
    );
    power += own;
    squares += Math.max(0, own - x.reduce((sum, value, i) => sum + value * withData[linear(i)]!, 0));
    // Derivatives by frequency and by ln α as sums over the columns U and V of their pole.
    const derivative = (u: number): [number, number] => {
      const p = u >> 1;
      const [a, b] = [x[2 * p]!, x[2 * p + 1]!];
      const { rate_per_s } = poles[p]!;
      return (u & 1) === 0 ? [-2 * Math.PI * b, 2 * Math.PI * a] : [-rate_per_s * a, -rate_per_s * b];
    };
    const dots = Array.from({ length: unknowns }, (_, u) => {
      const [onU, onV] = derivative(u);
      const at = 4 * (u >> 1) + 2;
      return (column: number) => onU * inner(at, column) + onV * inner(at + 1, column);
    });
    const across = dots.map((dot) => Float64Array.from({ length: unknowns }, (_, i) => dot(linear(i))));
    const followed = across.map((of) => solved(factor, unknowns, of));
    for (let u = 0; u < unknowns; u++) {
      const [onU, onV] = derivative(u);
      const at = 4 * (u >> 1) + 2;
      push[u]! +=
        onU * withData[at]! + onV * withData[at + 1]! - across[u]!.reduce((sum, value, i) => sum + value * x[i]!, 0);
      for (let v = 0; v < unknowns; v++) {
        const [ofU, ofV] = derivative(v);
        const place = 4 * (v >> 1) + 2;
        const direct = ofU * dots[u]!(place) + ofV * dots[u]!(place + 1);
        const taken = across[u]!.reduce((sum, value, i) => sum + value * followed[v]![i]!, 0);
        normal[u * unknowns + v]! += direct - taken;
      }
    }
    for (let p = 0; p < count; p++) amplitudes[p]!.push([x[2 * p]!, x[2 * p + 1]!]);
  }
  return { amplitudes, squares, power, normal, push };
}

/** Cholesky factor of a symmetrical system; a pivot that vanishes leaves its unknown at zero. */
function factored(system: Float64Array, n: number): Float64Array {
  const lower = system.slice();
  for (let i = 0; i < n; i++) {
    for (let j = 0; j <= i; j++) {
      let sum = lower[i * n + j]!;
      for (let k = 0; k < j; k++) sum -= lower[i * n + k]! * lower[j * n + k]!;
      if (i > j) lower[i * n + j] = lower[j * n + j] ? sum / lower[j * n + j]! : 0;
      else lower[i * n + i] = sum > 1e-14 * system[i * n + i]! ? Math.sqrt(sum) : 0;
    }
  }
  return lower;
}

function solved(lower: Float64Array, n: number, right: Float64Array): Float64Array {
  const x = right.slice();
  for (let i = 0; i < n; i++) {
    for (let k = 0; k < i; k++) x[i]! -= lower[i * n + k]! * x[k]!;
    x[i] = lower[i * n + i] ? x[i]! / lower[i * n + i]! : 0;
  }
  for (let i = n - 1; i >= 0; i--) {
    for (let k = i + 1; k < n; k++) x[i]! -= lower[k * n + i]! * x[k]!;
    x[i] = lower[i * n + i] ? x[i]! / lower[i * n + i]! : 0;
  }
  return x;
}

interface Refined {
  readonly decays: readonly Decay[];
  /** Variances of frequency and of the logarithm of the rate. */
  readonly variances: readonly { readonly frequency_Hz2: number; readonly logRate: number }[];
  readonly gain: number;
}

/** Half width of the band in which a decay is fitted, in half widths of its peak, and at least. */
const bandWidths = 12;
const leastBand_Hz = 25;

function bandOf(poles: readonly Pole[], { step_Hz, noise_V2_per_Hz }: Striking): Band {
  const reach = (rate_per_s: number) => Math.max(leastBand_Hz, (bandWidths * rate_per_s) / (2 * Math.PI));
  const low = Math.min(...poles.map(({ frequency_Hz, rate_per_s }) => frequency_Hz - reach(rate_per_s)));
  const high = Math.max(...poles.map(({ frequency_Hz, rate_per_s }) => frequency_Hz + reach(rate_per_s)));
  return {
    from: Math.max(2, Math.floor(low / step_Hz)),
    to: Math.min(noise_V2_per_Hz.length - 2, Math.ceil(high / step_Hz)),
  };
}

const [slowest_per_s, fastest_per_s] = [0.05, 4000];
/** A frequency stays within this share of where it began. */
const reach = 0.1;
const mostSteps = 60;
/** A step that promises to explain less than this, in noise variances, is the last. */
const leastPromise = 1e-4;

/**
 * Least squares of decays whose frequencies lie close together: Levenberg's steps on frequencies and logarithms of the
 * rates, with the amplitudes solved linearly at every step and eliminated from the derivatives.
 *
 * @param oversampled  bins for each independent one
 * @param added  decays that were taken out of the stretches and are now among those sought
 * @source amplitudes eliminated: L. Kaufman, BIT 15 (1975) (remembered)
 */
export function refineDecays(
  starts: readonly Pole[],
  striking: Striking,
  oversampled: number,
  added: readonly Decay[] = [],
): Refined {
  const band = bandOf(starts, striking);
  const n = 2 * starts.length;
  let poles: readonly Pole[] = starts;
  let now = solve(striking, poles, band, added);
  let damping = 1e-4;
  for (let step = 0; step < mostSteps && striking.work.left > 0; step++) {
    const damped = now.normal.slice();
    for (let i = 0; i < n; i++) damped[i * n + i]! *= 1 + damping;
    const change = solved(factored(damped, n), n, now.push);
    const promise = change.reduce((sum, value, i) => sum + value * now.push[i]!, 0);
    if (!(promise > leastPromise * oversampled)) break;
    const tried = poles.map((pole, i) => moved(pole, change[2 * i]!, change[2 * i + 1]!, starts[i]!.frequency_Hz));
    const next = solve(striking, tried, band, added);
    if (next.squares < now.squares) {
      [poles, now] = [tried, next];
      damping = Math.max(1e-12, damping / 10);
    } else {
      damping *= 10;
      if (damping > 1e8) break;
    }
  }
  const bins = 2 * (band.to - band.from + 1) * striking.taps.length;
  const misfit = now.squares / Math.max(1, bins - 2 * n * striking.taps.length);
  const scale = oversampled * Math.max(1, misfit);
  const factor = factored(now.normal, n);
  const variance = (i: number) => {
    if (!(factor[i * n + i]! > 0)) return Number.POSITIVE_INFINITY;
    const unit = new Float64Array(n);
    unit[i] = 1;
    return solved(factor, n, unit)[i]! * scale;
  };
  return {
    decays: poles.map((pole, i) => ({ ...pole, amplitudes: now.amplitudes[i]! })),
    variances: poles.map((_, i) => ({ frequency_Hz2: variance(2 * i), logRate: variance(2 * i + 1) })),
    gain: (now.power - now.squares) / oversampled,
  };
}

/** No step multiplies a rate by more than e. */
function moved({ frequency_Hz, rate_per_s }: Pole, by_Hz: number, byLog: number, began_Hz: number): Pole {
  const within = (value: number, low: number, high: number) => Math.min(high, Math.max(low, value));
  return {
    frequency_Hz: within(frequency_Hz + by_Hz, (1 - reach) * began_Hz, (1 + reach) * began_Hz),
    rate_per_s: within(rate_per_s * Math.exp(within(byLog, -1, 1)), slowest_per_s, fastest_per_s),
  };
}

/** What one decay of given frequency and rate explains, in noise variances, over the widest band that any rate needs. */
export function gainOf(pole: Pole, striking: Striking): number {
  const band = bandOf([{ ...pole, rate_per_s: 2 * Math.PI * 10 }], striking);
  const { power, squares } = solve(striking, [pole], band, []);
  return power - squares;
}
