import { complexSpectrum, powerOfTwo } from "../../maths/spectra/fourier.ts";

/** Fills an array with the phase, in radians, of the samples from `first` on. */
export type PhaseSource = (first: number, into: Float64Array) => void;

/** Samples handled at once, so that the working arrays stay in the nearest cache. */
const chunk = 2048;
/** Points of one period for each period of its highest line: a cubic through four errs by 10⁻⁸ of that line or less. */
const pointsPerPeriod = 256;
const fewestPoints = 2 ** 13;

/** One period of Σ Re{c·e^{jkφ}}, one point repeated before it and two after. */
function waveform(orders: readonly number[], phasors: Float64Array): Float64Array {
  const points = Math.max(fewestPoints, powerOfTwo(pointsPerPeriod * Math.max(...orders)));
  const spectrum = new Float64Array(2 * points);
  orders.forEach((order, i) => {
    spectrum[2 * order]! += phasors[2 * i]! * points;
    spectrum[2 * order + 1]! += phasors[2 * i + 1]! * points;
  });
  const period = complexSpectrum(spectrum, "inverse");
  const drawn = new Float64Array(points + 3);
  for (let i = 0; i < drawn.length; i++) drawn[i] = period[2 * ((i + points - 1) % points)]!;
  return drawn;
}

/**
 * Takes the lines Re{c·e^{jkθ}} out of a set of signals, writing into them: a comb is a function of the phase of its
 * fundamental alone, so one period is drawn once and read at every sample, however many lines there are.
 *
 * @param phasors  per signal, real and imaginary part of each order in turn
 */
export function takeOut(
  signals: readonly Float64Array[],
  theta: PhaseSource,
  orders: readonly number[],
  phasors: readonly Float64Array[],
): void {
  const length = signals[0]!.length;
  const spoken = signals.flatMap((signal, s) => {
    const silent = phasors[s]!.every((value) => value === 0);
    return silent ? [] : [{ signal, drawn: waveform(orders, phasors[s]!) }];
  });
  if (spoken.length === 0) return;
  const points = spoken[0]!.drawn.length - 3;
  const phase = new Float64Array(chunk);
  const place = new Int32Array(chunk);
  for (let first = 0; first < length; first += chunk) {
    const count = Math.min(chunk, length - first);
    theta(first, count === chunk ? phase : phase.subarray(0, count));
    for (let n = 0; n < count; n++) {
      const turns = phase[n]! / (2 * Math.PI);
      const at = (turns - Math.floor(turns)) * points;
      const whole = Math.min(points - 1, Math.floor(at));
      place[n] = whole;
      phase[n] = at - whole;
    }
    for (const { signal, drawn } of spoken) subtract(signal, first, count, drawn, place, phase);
  }
}

/** Third-order Lagrange through the points about each place. */
function subtract(
  signal: Float64Array,
  first: number,
  count: number,
  drawn: Float64Array,
  place: Int32Array,
  within: Float64Array,
): void {
  for (let n = 0; n < count; n++) {
    const m = place[n]!;
    const u = within[n]!;
    const a = drawn[m]!;
    const b = drawn[m + 1]!;
    const c = drawn[m + 2]!;
    const d = drawn[m + 3]!;
    const bend = (d - a) / 6 + (b - c) / 2;
    signal[first + n]! -= b + u * (c - a / 3 - b / 2 - d / 6 + u * ((a + c) / 2 - b + u * bend));
  }
}
