import { powerOfTwo, realFromSpectrum, realSpectrum } from "../../maths/spectra/fourier.ts";
import { thinner } from "../../maths/spectra/thinOut.ts";
import type { RecordingStream } from "../recordingStream.ts";
import { eachBlock } from "../stretches.ts";
import { padded, product } from "./correlate.ts";
import { growth_s, orderSweep, type Sweep } from "./sweepSignal.ts";

/** A recording of so many samples, the sweep's own added, is searched as it is; a longer one is thinned out first. */
const mostSamples = 2 ** 19;
/** Peak over mean square of the compressed recording from which a sweep is there; chance gives 30. */
const leastPeak = 80;
/** Octaves that are searched at least. */
const leastSpan = 8;
/** Share of the thinned rate up to which it holds the signal as it was. */
const held = 1 / 2.2;

export interface Start {
  /** Sample at which the sweep's response begins; may be negative when the recording came late. */
  readonly at: number;
  readonly stands: boolean;
}

/** A channel thinned out for the search, and as much of the sweep as it can hold. */
export interface Searched {
  readonly samples: Float64Array;
  readonly rate_Hz: number;
  readonly factor: number;
  readonly sweep: Sweep;
}

/** One channel of a recording at the rate at which its sweep is looked for. */
export function searched(stream: RecordingStream, place: number, sweep: Sweep): Searched {
  const { rate_Hz, frames } = stream;
  const sent = sweep.duration_s * rate_Hz;
  let factor = 1;
  while ((frames + sent) / factor > mostSamples && (held * rate_Hz) / (2 * factor) > leastSpan * sweep.start_Hz) {
    factor *= 2;
  }
  const passband_Hz = (held * rate_Hz) / factor;
  const thin = thinner(frames, factor, rate_Hz, passband_Hz);
  eachBlock(stream, { first: 0, count: frames }, (block) => thin.push(block[place]!));
  const stop_Hz = factor === 1 ? sweep.stop_Hz : Math.min(sweep.stop_Hz, passband_Hz);
  const duration_s = growth_s(sweep) * Math.log(stop_Hz / sweep.start_Hz);
  return { samples: thin.end(), rate_Hz: rate_Hz / factor, factor, sweep: { ...sweep, stop_Hz, duration_s } };
}

/**
 * Where a sweep begins in a recording: the highest peak when the recording is divided by the sweep's spectrum, which
 * squeezes the sweep into its response and smears everything else.
 */
export function findStart({ samples, rate_Hz, factor, sweep }: Searched): Start {
  const { at, stands } = compressedPeak(samples, rate_Hz, sweep, orderSweep(sweep, 1, rate_Hz, 0));
  return { at: at * factor, stands };
}

/** A header that is wrong is so by no more than twice. */
const mostWrong = 2.2;
/** The right rate squeezes a sweep into a peak so much higher than a wrong one that this leaves no doubt. */
const clearlyHigher = 2;

/**
 * The sample rate at which a sweep was recorded, were the header wrong: the one whose stretched sweep it fits far better.
 *
 * @param made_Hz  rates to try, of the recording before it was thinned out
 */
export function rateOfSweep(
  { samples: signal, rate_Hz, factor, sweep }: Searched,
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
  const others = made_Hz
    .map((as_Hz) => as_Hz / factor)
    .filter((as_Hz) => as_Hz !== rate_Hz && Math.max(as_Hz / rate_Hz, rate_Hz / as_Hz) < mostWrong);
  const heights = others.map(heightAs);
  const highest = Math.max(...heights);
  return highest > clearlyHigher * heightAs(rate_Hz) ? factor * others[heights.indexOf(highest)]! : undefined;
}

function compressedPeak(
  signal: Float64Array,
  rate_Hz: number,
  sweep: Sweep,
  sent: Float64Array,
): Start & { readonly height: number } {
  const size = powerOfTwo(signal.length + sent.length);
  const of = realSpectrum(padded(sent, size, 0));
  const own = realSpectrum(padded(signal, size, 0));
  const cross = product(own, of, own);
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
