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
function quasiPeakReadings(signal_V: Float64Array, rate_Hz: number, parts: number): number[] {
  const mean = signal_V.reduce((a, b) => a + b, 0) / signal_V.length;
  const meters = quasiPeakMeters(1, signal_V.length, rate_Hz, parts);
  meters.push([signal_V], [mean]);
  return meters.readings()[0]!;
}

/** Meters on several channels, whose samples come in turn. */
export interface QuasiPeakMeters {
  /**
   * @param channels_V  the next samples, one array a channel
   * @param means_V  constant voltages that the channels hold, taken off before the ends are faded
   */
  push(channels_V: readonly Float64Array[], means_V: readonly number[]): void;
  /** Per channel the highest reading of each part, once all samples were pushed. */
  readings(): number[][];
}

/** @param length  samples of each channel that will come */
export function quasiPeakMeters(channels: number, length: number, rate_Hz: number, parts: number): QuasiPeakMeters {
  const { raise, lower } = ratesFor(rate_Hz);
  const response = responseAt(rate_Hz);
  const fade = Math.min(Math.round(fade_s * rate_Hz), length >> 2);
  const useful = block - 2 * margin;
  const meters = Array.from({ length: channels }, () => detector((rate_Hz * raise) / lower));
  const answers: number[][] = meters.map(() => []);
  // Two channels go through one complex transform, as its real and imaginary part.
  const pieces = Array.from({ length: Math.ceil(channels / 2) }, () => new Float64Array(2 * block));
  let seen = 0;
  let filled = margin;
  const meet = (count: number) => {
    const first = seen - (filled - margin);
    pieces.forEach((piece, pair) => {
      const weighted = raised(complexSpectrum(piece), response, raise, lower);
      const [from, to] = [margin, margin + count].map((at) => Math.ceil((at * raise) / lower));
      const scale = raise / lower;
      for (const part of [0, 1]) {
        const meter = meters[2 * pair + part];
        if (meter) for (let i = from!; i < to!; i++) meter.read(weighted[2 * i + part]! * scale);
      }
      piece.copyWithin(0, 2 * useful);
      piece.fill(0, 2 * (block - useful));
    });
    filled -= useful;
    answers.forEach((answer, c) => {
      while (answer.length < parts - 1 && first + count >= ((answer.length + 1) * length) / parts) {
        answer.push(meters[c]!.highestSince() / steadyReading());
      }
    });
  };
  return {
    push(channels_V, means_V) {
      const count = channels_V[0]!.length;
      for (let from = 0; from < count; ) {
        const taken = Math.min(count - from, block - filled);
        channels_V.forEach((channel, c) => {
          const piece = pieces[c >> 1]!;
          const mean = means_V[c]!;
          for (let i = 0; i < taken; i++) {
            const n = seen + i;
            const edge = Math.min(n, length - 1 - n);
            const share = edge < fade ? 0.5 - 0.5 * Math.cos((Math.PI * edge) / fade) : 1;
            piece[2 * (filled + i) + (c & 1)] = (channel[from + i]! - mean) * share;
          }
        });
        from += taken;
        seen += taken;
        filled += taken;
        if (filled === block) meet(useful);
      }
    },
    readings() {
      while (filled > margin) meet(Math.min(useful, filled - margin));
      return answers.map((answer, c) => [...answer, meters[c]!.highestSince() / steadyReading()]);
    },
  };
}

/** The detector's rate as a ratio to the signal's. */
function ratesFor(rate_Hz: number): { raise: number; lower: number } {
  let raise = 1;
  while (rate_Hz * raise < least_Hz) raise *= 2;
  let lower = 1;
  while (rate_Hz / (2 * lower) >= least_Hz) lower *= 2;
  return { raise, lower };
}

/** The network's factor at the bins of a block, up to half the rate or to where nothing is left to hear. */
function responseAt(rate_Hz: number): Float64Array {
  const response = new Float64Array(block + 2);
  for (let k = 0; k <= block / 2; k++) {
    const { re, im } = network468((k * rate_Hz) / block);
    response[2 * k] = re;
    response[2 * k + 1] = im;
  }
  return response;
}

/** Spectrum through the network, back to time at `raise` over `lower` times the rate. */
function raised(spectrum: Float64Array, response: Float64Array, raise: number, lower: number): Float64Array {
  const size = (block * raise) / lower;
  const wide = new Float64Array(2 * size);
  const last = Math.min(block, size) / 2;
  for (let k = 1; k < last; k++) {
    const c = response[2 * k]!;
    const d = response[2 * k + 1]!;
    const a = spectrum[2 * k]!;
    const b = spectrum[2 * k + 1]!;
    wide[2 * k] = a * c - b * d;
    wide[2 * k + 1] = a * d + b * c;
    // Negative frequencies: the network is real in time, so its factor there is the conjugate.
    const e = spectrum[2 * (block - k)]!;
    const f = spectrum[2 * (block - k) + 1]!;
    wide[2 * (size - k)] = e * c + f * d;
    wide[2 * (size - k) + 1] = f * c - e * d;
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
