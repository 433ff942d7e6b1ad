import { complexSpectrum } from "../maths/spectra/fourier.ts";
import { network468 } from "./weighting.ts";

/** The detector must see the tops of waves between samples, so it runs at this rate or above. */
const least_Hz = 96_000;
const block = 2 ** 14;
/** Samples of a block spoiled at each end by what lies beyond it. */
const margin = 2 ** 11;
/** A record begins and ends abruptly; faded so long, that alone moves no needle. */
const fade_s = 0.01;

/**
 * Highest reading over a record of the quasi-peak meter of BS.468: weighting network, full-wave rectifier, and two
 * stages in tandem that rise and fall at their own speeds. A steady 1 kHz tone reads its r.m.s.
 *
 * The network works on the spectrum, so its curve is the analogue one at any sample rate.
 *
 * @source ITU-R BS.468-4 (remembered for the meter); time constants fitted to its burst tables, all limits of which
 *         they meet
 */
export function quasiPeak468(signal_V: Float64Array, rate_Hz: number): number {
  return quasiPeakReadings(signal_V, rate_Hz, 1)[0]!;
}

/** Highest reading of that meter in each of `parts` equal parts of a record, through which it runs on. */
export function quasiPeakReadings(signal_V: Float64Array, rate_Hz: number, parts: number): number[] {
  let raise = 1;
  while (rate_Hz * raise < least_Hz) raise *= 2;
  const meter = detector(rate_Hz * raise);
  const response = responseAt(rate_Hz);
  const fade = Math.min(Math.round(fade_s * rate_Hz), signal_V.length >> 2);
  const mean = signal_V.reduce((a, b) => a + b, 0) / signal_V.length;
  const useful = block - 2 * margin;
  const readings: number[] = [];
  for (let first = 0; first < signal_V.length; first += useful) {
    const piece = new Float64Array(2 * block);
    for (let i = 0; i < block; i++) {
      const n = first + i - margin;
      if (n < 0 || n >= signal_V.length) continue;
      const edge = Math.min(n, signal_V.length - 1 - n);
      const share = edge < fade ? 0.5 - 0.5 * Math.cos((Math.PI * edge) / fade) : 1;
      piece[2 * i] = (signal_V[n]! - mean) * share;
    }
    const weighted = raised(complexSpectrum(piece), response, raise);
    const end = Math.min(useful, signal_V.length - first);
    for (let i = margin * raise; i < (margin + end) * raise; i++) meter.read(weighted[2 * i]! * raise);
    while (readings.length < parts - 1 && first + useful >= ((readings.length + 1) * signal_V.length) / parts) {
      readings.push(meter.highestSince() / steadyReading());
    }
  }
  readings.push(meter.highestSince() / steadyReading());
  return readings;
}

function responseAt(rate_Hz: number): Float64Array {
  const response = new Float64Array(block + 2);
  for (let k = 0; k <= block / 2; k++) {
    const { re, im } = network468((k * rate_Hz) / block);
    response[2 * k] = re;
    response[2 * k + 1] = im;
  }
  return response;
}

/** Spectrum through the network, back to time at `raise` times the rate (1/raise of the size). */
function raised(spectrum: Float64Array, response: Float64Array, raise: number): Float64Array {
  const wide = new Float64Array(2 * block * raise);
  // Positive frequencies alone, doubled, give the signal as the real part.
  for (let k = 1; k < block / 2; k++) {
    const a = 2 * spectrum[2 * k]!;
    const b = 2 * spectrum[2 * k + 1]!;
    const c = response[2 * k]!;
    const d = response[2 * k + 1]!;
    wide[2 * k] = a * c - b * d;
    wide[2 * k + 1] = a * d + b * c;
  }
  return complexSpectrum(wide, "inverse");
}

const stages = [
  { attack_s: 0.001456, release_s: 0.27844 },
  { attack_s: 0.13689, release_s: 0.15941 },
] as const;

function detector(rate_Hz: number) {
  const share = (time_s: number) => 1 - Math.exp(-1 / (rate_Hz * time_s));
  const [first, second] = stages;
  const attack1 = share(first.attack_s);
  const release1 = share(first.release_s);
  const attack2 = share(second.attack_s);
  const release2 = share(second.release_s);
  let one = 0;
  let two = 0;
  let highest = 0;
  return {
    read(value: number) {
      const size = Math.abs(value);
      one += (size > one ? attack1 : release1) * (size - one);
      two += (one > two ? attack2 : release2) * (one - two);
      if (two > highest) highest = two;
    },
    /** Highest reading since this was asked last. */
    highestSince() {
      const reached = highest;
      highest = two;
      return reached;
    },
  };
}

let steady: number | undefined;

/** What the detector makes of a steady 1 kHz tone of 1 V r.m.s. */
function steadyReading(): number {
  if (steady === undefined) {
    const meter = detector(least_Hz);
    for (let n = 0; n < 3 * least_Hz; n++) meter.read(Math.SQRT2 * Math.sin((2 * Math.PI * 1000 * n) / least_Hz));
    steady = meter.highestSince();
  }
  return steady;
}
