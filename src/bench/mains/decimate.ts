/** A signal at a lower rate, and what the low-pass in front of it does to a line. */
export interface Decimated {
  readonly rate_Hz: number;
  readonly factor: number;
  readonly samples: Float64Array;
  /** Gain of the low-pass, real because it is symmetrical in time. */
  gainAt(frequency_Hz: number): number;
}

/** How far above the passband the new rate must lie for the filter to stay short. */
const room = 2.6;
const stopband_dB = 130;

/**
 * Keeps one sample in `factor` behind a symmetrical Kaiser low-pass, so that lines up to `passband_Hz` can be measured
 * free of aliases (under −130 dB). Sample i of the answer stands at sample i·factor of the signal; beyond its ends the
 * signal counts as zero. Returns the signal itself where there is nothing to gain.
 *
 * @source Kaiser's design formulas (Oppenheim and Schafer, remembered)
 */
export function decimate(signal: Float64Array, rate_Hz: number, passband_Hz: number): Decimated {
  const factor = Math.max(1, Math.floor(rate_Hz / (room * passband_Hz)));
  if (factor < 2) return { rate_Hz, factor: 1, samples: signal, gainAt: () => 1 };
  const low_Hz = rate_Hz / factor;
  const stop_Hz = low_Hz - passband_Hz;
  const taps = kaiserLowPass(rate_Hz, passband_Hz, stop_Hz);
  const half = (taps.length - 1) / 2;
  const samples = new Float64Array(Math.floor((signal.length - 1) / factor) + 1);
  const inner = Math.ceil(half / factor);
  const outer = Math.min(samples.length, Math.floor((signal.length - 1 - half) / factor) + 1);
  for (let i = 0; i < samples.length; i++) {
    if (i === inner && outer > inner) {
      filter(signal, taps, factor, samples, inner, outer);
      i = outer;
      if (i === samples.length) break;
    }
    const centre = i * factor;
    let sum = taps[half]! * signal[centre]!;
    for (let j = 1; j <= half; j++) {
      sum += taps[half + j]! * ((signal[centre - j] ?? 0) + (signal[centre + j] ?? 0));
    }
    samples[i] = sum;
  }
  const gainAt = (frequency_Hz: number) => {
    let gain = taps[half]!;
    for (let j = 1; j <= half; j++) gain += 2 * taps[half + j]! * Math.cos((2 * Math.PI * frequency_Hz * j) / rate_Hz);
    return gain;
  };
  return { rate_Hz: low_Hz, factor, samples, gainAt };
}

/** Answers i from `first` to `end` − 1, whose taps all lie within the signal; two sums at a time. */
function filter(
  signal: Float64Array,
  taps: Float64Array,
  factor: number,
  samples: Float64Array,
  first: number,
  end: number,
): void {
  const half = (taps.length - 1) / 2;
  for (let i = first; i < end; i++) {
    const from = i * factor - half;
    let a = taps[half]! * signal[from + half]!;
    let b = 0;
    let low = from;
    let high = from + 2 * half;
    let t = 0;
    for (; t + 1 < half; t += 2, low += 2, high -= 2) {
      a += taps[t]! * (signal[low]! + signal[high]!);
      b += taps[t + 1]! * (signal[low + 1]! + signal[high - 1]!);
    }
    if (t < half) a += taps[t]! * (signal[low]! + signal[high]!);
    samples[i] = a + b;
  }
}

function kaiserLowPass(rate_Hz: number, pass_Hz: number, stop_Hz: number): Float64Array {
  const width = (2 * Math.PI * (stop_Hz - pass_Hz)) / rate_Hz;
  const half = Math.ceil((stopband_dB - 8) / (2.285 * width) / 2);
  const beta = 0.1102 * (stopband_dB - 8.7);
  const cut = (pass_Hz + stop_Hz) / 2 / rate_Hz;
  const scale = 1 / bessel0(beta);
  const taps = new Float64Array(2 * half + 1).map((_, i) => {
    const j = i - half;
    const ideal = j === 0 ? 2 * cut : Math.sin(2 * Math.PI * cut * j) / (Math.PI * j);
    return ideal * bessel0(beta * Math.sqrt(1 - (j / half) ** 2)) * scale;
  });
  const sum = taps.reduce((a, b) => a + b, 0);
  return taps.map((tap) => tap / sum);
}

/** Modified Bessel function of order zero, by its power series. */
function bessel0(x: number): number {
  let term = 1;
  let sum = 1;
  for (let k = 1; term > sum * 1e-17; k++) {
    term *= (x / (2 * k)) ** 2;
    sum += term;
  }
  return sum;
}
