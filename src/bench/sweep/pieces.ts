import { powerOfTwo } from "../../maths/spectra/fourier.ts";
import { thinner } from "../../maths/spectra/thinOut.ts";
import type { RecordingStream } from "../recordingStream.ts";
import { eachBlock, scaleInPlace } from "../stretches.ts";
import { type Fades, fade, type Stretch } from "./correlate.ts";
import { explained_s, growth_s, longest_s, orderSweep, reach_s, room_s, type Sweep } from "./sweepSignal.ts";

/** A part of a sweep that is looked at by itself, with what lies about it. */
export interface Piece {
  /** Instants of the sweep between which its frequencies are read here. */
  readonly from_s: number;
  readonly to_s: number;
  /** First sample and number of samples of the recording, counted from the sweep's start. */
  readonly first: number;
  readonly count: number;
  /** One sample in so many is kept. */
  readonly factor: number;
  /** In samples kept. */
  readonly fades: Fades;
  /** Per order from 1 on, half lengths in samples kept: of the lags wanted, and of what counts as explained. */
  readonly half: readonly number[];
  readonly explained: readonly number[];
}

/** A sweep is taken whole up to a transform of this length. */
const mostWhole = 2 ** 19;
/** A part of a longer one lasts so long at the full rate, whatever that rate. */
const part_s = 2.5;
const leastSize = 2 ** 18;
/** The higher the frequencies of a part, the shorter its responses, and what it has beside them: within these. */
const shortest = { explained_s: 0.06, fade_s: 0.1 } as const;
/** Ends of a part are faded over this time at most, and what is read lies clear of there. */
const fade_s = 0.3;
/** Mains lines are told at this rate as well as at any. */
const leastRate_Hz = 8000;
/** A part that would hold less of the sweep is made larger instead. */
const leastPart_s = 0.5;
/** Share of the thinned rate up to which it holds the signal as it was. */
const held = 1 / 2.2;

/**
 * How a sweep is cut up for analysis: whole where it is short, else in parts that overlap, those of low frequency
 * thinned out, so that memory does not grow with its length.
 *
 * @param orders  highest order to be told apart
 * @param mostSize  transform that a whole sweep may take
 */
export function piecesOf(sweep: Sweep, rate_Hz: number, orders: number, mostSize = mostWhole): Piece[] {
  const whole = wholeOf(sweep, rate_Hz, orders);
  if (powerOfTwo(whole.count + Math.max(...whole.half) + 1) <= mostSize) return [whole];
  const sent_s = orderSweep(sweep, 1, rate_Hz, 0).length / rate_Hz;
  const most = Math.max(leastSize, powerOfTwo(part_s * rate_Hz));
  const pieces: Piece[] = [];
  for (let from_s = 0; from_s < sent_s; ) {
    const piece = nextPiece(sweep, rate_Hz, orders, from_s, sent_s, most);
    pieces.push(piece);
    from_s = piece.to_s;
  }
  return pieces;
}

function wholeOf(sweep: Sweep, rate_Hz: number, orders: number): Piece {
  const count = orderSweep(sweep, 1, rate_Hz, 0).length;
  const pad = Math.round(atEnds_s(sweep) * rate_Hz);
  const half = halves(sweep, rate_Hz, orders, 0);
  return {
    from_s: 0,
    to_s: Number.POSITIVE_INFINITY,
    first: -pad,
    count: count + 2 * pad,
    factor: 1,
    fades: [0, 0],
    half,
    explained: explainedOf(sweep, 0, half, rate_Hz),
  };
}

/** Silence, or what else the recording holds, before the sweep and after it. */
function atEnds_s(sweep: Sweep): number {
  return Math.min(longest_s, Math.max(0.05, room_s(sweep, 1)));
}

/** Lags wanted of each order that is sent at all: of a part, no more than its own frequencies need. */
function halves(sweep: Sweep, rate_Hz: number, orders: number, from_s: number): number[] {
  const lowest_Hz = frequencyAt(sweep, from_s);
  return Array.from({ length: orders }, (_, i) => i + 1)
    .filter((order) => order === 1 || order * (from_s === 0 ? 2 : 1) * lowest_Hz < 0.49 * rate_Hz)
    .map((order) => {
      const room = Math.min(longest_s, room_s(sweep, order));
      const own_s = explainedAt(sweep, from_s) / order;
      const wanted = from_s === 0 ? room : Math.max(reach_s(order * lowest_Hz, room), own_s);
      return Math.ceil(Math.min(room, wanted) * rate_Hz);
    });
}

/** How long the responses from an instant of the sweep on may be. */
function explainedAt(sweep: Sweep, at_s: number): number {
  return at_s === 0 ? explained_s : reach_s(frequencyAt(sweep, at_s), explained_s, shortest.explained_s);
}

/** Per order, half length of the response that counts as explained. */
function explainedOf(sweep: Sweep, from_s: number, half: readonly number[], rate_Hz: number): number[] {
  const longest_s = explainedAt(sweep, from_s);
  return half.map((reach, i) => Math.min(reach, Math.round((longest_s / (i + 1)) * rate_Hz)));
}

function frequencyAt(sweep: Sweep, at_s: number): number {
  return sweep.start_Hz * Math.exp(at_s / growth_s(sweep));
}

/** The part that gets furthest: the more it is thinned out the longer it may last, and the lower it has to stay. */
function nextPiece(sweep: Sweep, rate_Hz: number, orders: number, from_s: number, sent_s: number, most: number): Piece {
  const faded_s = (at_s: number) => reach_s(0.5 * frequencyAt(sweep, at_s), fade_s, shortest.fade_s);
  const margin_s = (at_s: number) =>
    Math.max(reach_s(frequencyAt(sweep, at_s), longest_s), explainedAt(sweep, at_s)) + faded_s(at_s);
  const before_s = from_s === 0 ? atEnds_s(sweep) : margin_s(from_s);
  const reachOf = (factor: number) => {
    const low_Hz = rate_Hz / factor;
    const half_s = Math.max(...halves(sweep, low_Hz, orders, from_s)) / low_Hz;
    const room_s = (after_s: number) => from_s + (most - 2) / low_Hz - half_s - before_s - after_s;
    const inside_s = room_s(margin_s(from_s));
    const bySize_s = inside_s < sent_s ? inside_s : Math.min(inside_s, Math.max(room_s(atEnds_s(sweep)), from_s));
    if (factor === 1) return Math.max(bySize_s, from_s + leastPart_s);
    const highest_s = growth_s(sweep) * Math.log((held * low_Hz) / (orders * sweep.start_Hz));
    const byFrequency_s = sent_s <= highest_s ? sent_s : highest_s - margin_s(from_s);
    return Math.min(bySize_s, byFrequency_s);
  };
  let [factor, to_s] = [1, reachOf(1)];
  for (let f = 2; rate_Hz / f >= leastRate_Hz; f *= 2) {
    const further_s = reachOf(f);
    if (further_s >= Math.min(to_s, sent_s)) [factor, to_s] = [f, further_s];
  }
  const isLast = to_s >= sent_s;
  const low_Hz = rate_Hz / factor;
  const after_s = isLast ? atEnds_s(sweep) : margin_s(to_s);
  const first = Math.floor((from_s - before_s) * low_Hz) * factor;
  const end = Math.ceil((Math.min(to_s, sent_s) + after_s) * rate_Hz);
  const half = halves(sweep, low_Hz, orders, from_s);
  const faded = (at_s: number) => Math.round(faded_s(at_s) * low_Hz);
  return {
    from_s,
    to_s: isLast ? Number.POSITIVE_INFINITY : to_s,
    first,
    count: end - first,
    factor,
    fades: [from_s === 0 ? 0 : faded(from_s), isLast ? 0 : faded(to_s)],
    half,
    explained: explainedOf(sweep, from_s, half, low_Hz),
  };
}

/**
 * One part of a recording in volts, thinned out and faded; silence where the recording holds nothing.
 *
 * @param places  the channels wanted
 * @param start  sample of the recording at which the sweep starts
 */
export function readPiece(
  stream: RecordingStream,
  places: readonly number[],
  fullScale_Vpk: number,
  start: number,
  { first, count, factor, fades }: Piece,
): Stretch {
  const low_Hz = stream.rate_Hz / factor;
  const thinners = places.map(() => thinner(count, factor, stream.rate_Hz, held * low_Hz));
  const from = start + first;
  const [begin, end] = [Math.max(0, from), Math.min(stream.frames, from + count)];
  const silent = (length: number) => {
    for (const thin of thinners) if (length > 0) thin.push(new Float64Array(length));
  };
  silent(Math.min(count, begin - from));
  if (end > begin) {
    eachBlock(stream, { first: begin, count: end - begin }, (block) => {
      places.forEach((place, c) => {
        scaleInPlace(block[place]!, fullScale_Vpk);
        thinners[c]!.push(block[place]!);
      });
    });
  }
  silent(Math.min(count, from + count - Math.max(end, from)));
  const channels = thinners.map((thin) => thin.end());
  for (const channel of channels) fade(channel, fades);
  return { channels, pad: -first / factor, rate_Hz: low_Hz, fades };
}
