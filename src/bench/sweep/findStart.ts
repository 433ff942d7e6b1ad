import { powerOfTwo, realFromSpectrum, realSpectrum } from "../../maths/spectra/fourier.ts";
import { decimate } from "../mains/decimate.ts";
import { padded, product } from "./correlate.ts";
import { growth_s, orderSweep, type Sweep } from "./sweepSignal.ts";

/** Above so many samples the search goes on at a lower rate first. */
const mostSamples = 2 ** 21;
/** Peak over mean square of the compressed recording from which a sweep is there; chance gives 30. */
const leastPeak = 80;

export interface Start {
  /** Sample at which the sweep's response begins; may be negative when the recording came late. */
  readonly at: number;
  readonly stands: boolean;
}

/**
 * Where a sweep begins in a recording: the highest peak when the recording is divided by the sweep's spectrum, which
 * squeezes the sweep into its response and smears everything else.
 */
export function findStart(signal: Float64Array, rate_Hz: number, sweep: Sweep): Start {
  const sent = orderSweep(sweep, 1, rate_Hz, 0);
  if (signal.length + sent.length <= mostSamples) return compressedPeak(signal, rate_Hz, sweep, sent);
  const passband_Hz = Math.max(8 * sweep.start_Hz, (0.35 * rate_Hz * mostSamples) / (signal.length + sent.length));
  const low = decimate(signal, rate_Hz, Math.min(passband_Hz, 0.4 * rate_Hz));
  if (low.factor < 2) return compressedPeak(signal, rate_Hz, sweep, sent);
  const stop_Hz = Math.min(sweep.stop_Hz, passband_Hz);
  const part = { ...sweep, stop_Hz, duration_s: growth_s(sweep) * Math.log(stop_Hz / sweep.start_Hz) };
  const rough = compressedPeak(low.samples, low.rate_Hz, part, orderSweep(part, 1, low.rate_Hz, 0));
  if (!rough.stands) return { ...rough, at: rough.at * low.factor };
  // Once more at full rate, on the stretch that holds it.
  const margin = Math.round(0.05 * rate_Hz);
  const from = Math.max(0, rough.at * low.factor - margin);
  const fine = compressedPeak(signal.subarray(from, from + sent.length + 2 * margin), rate_Hz, sweep, sent);
  return { at: from + fine.at, stands: rough.stands };
}

/** A header that is wrong is so by no more than twice. */
const mostWrong = 2.2;
/** The right rate squeezes a sweep into a peak so much higher than a wrong one that this leaves no doubt. */
const clearlyHigher = 2;

/**
 * The sample rate at which a sweep was recorded, were the header wrong: the one whose stretched sweep it fits far better.
 *
 * @param made_Hz  rates to try
 */
export function rateOfSweep(
  signal: Float64Array,
  rate_Hz: number,
  sweep: Sweep,
  made_Hz: readonly number[],
): number | undefined {
  const heightAs = (as_Hz: number) => {
    const faster = rate_Hz / as_Hz;
    const stretched = {
      ...sweep,
      start_Hz: sweep.start_Hz * faster,
      stop_Hz: sweep.stop_Hz * faster,
      duration_s: sweep.duration_s / faster,
    };
    return compressedPeak(signal, rate_Hz, stretched, orderSweep(stretched, 1, rate_Hz, 0)).height;
  };
  if (signal.length > mostSamples / 2) return undefined;
  const others = made_Hz.filter((as_Hz) => as_Hz !== rate_Hz && Math.max(as_Hz / rate_Hz, rate_Hz / as_Hz) < mostWrong);
  const heights = others.map(heightAs);
  const highest = Math.max(...heights);
  return highest > clearlyHigher * heightAs(rate_Hz) ? others[heights.indexOf(highest)] : undefined;
}

function compressedPeak(
  signal: Float64Array,
  rate_Hz: number,
  sweep: Sweep,
  sent: Float64Array,
): Start & { readonly height: number } {
  const size = powerOfTwo(signal.length + sent.length);
  const of = realSpectrum(padded(sent, size, 0));
  const cross = product(realSpectrum(padded(signal, size, 0)), of);
  const low = Math.ceil((sweep.start_Hz * size) / rate_Hz);
  const high = Math.floor((Math.min(sweep.stop_Hz, 0.48 * rate_Hz) * size) / rate_Hz);
  for (let k = 0; k <= size / 2; k++) {
    // Divided by the usual energy, L/4f, and faded over a fifth of an octave at both ends.
    const edge = Math.min(k / low, high / k, 1.15) - 1;
    const weight = k > 0 && edge > 0 ? Math.sin((Math.PI / 2) * Math.min(1, edge / 0.15)) ** 2 * k : 0;
    cross[2 * k]! *= weight;
    cross[2 * k + 1]! *= weight;
  }
  const response = realFromSpectrum(cross);
  let at = 0;
  let squares = 0;
  for (let n = 0; n < size; n++) {
    squares += response[n]! ** 2;
    if (Math.abs(response[n]!) > Math.abs(response[at]!)) at = n;
  }
  const peak = response[at]! ** 2;
  const height = peak / Math.max(squares / size, Number.MIN_VALUE);
  return { at: at > size - sent.length ? at - size : at, stands: height > leastPeak, height };
}
