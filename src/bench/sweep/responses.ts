import { longestPiece, noiseAtLine, type RestSpectrum, spectraOfRest } from "../mains/lineNoise.ts";
import { fitMains } from "../mains.ts";
import { withoutMains } from "../takeOutMains.ts";
import {
  type Decomposed,
  decomposition,
  fade,
  type Lags,
  lagWindowSquares,
  lagWindowTaken,
  type Stretch,
  sentOrders,
} from "./correlate.ts";
import type { Piece } from "./pieces.ts";
import { growth_s, reach_s, type Sweep } from "./sweepSignal.ts";
import { type Complex, transferAt } from "./transfer.ts";

/** What is asked of one piece. */
export interface AskedOfPiece {
  readonly frequencies_Hz: readonly number[];
  /** Where the first order is read for the clock. */
  readonly clock_Hz: readonly number[];
  /** Harmonics are told up to this frequency of the drive, and themselves up to this one. */
  readonly highestDrive_Hz: number;
  readonly highest_Hz: number;
}

export interface Judged {
  readonly H: Complex;
  /** Standard deviation along and across H. */
  readonly sd: number;
}

export interface JudgedHarmonic {
  readonly level_dB: number;
  readonly doubt_dB: number;
  readonly detected: boolean;
}

export interface JudgedPiece {
  readonly frequencies_Hz: readonly number[];
  readonly channels: readonly {
    readonly first: readonly Judged[];
    /** By order from 2 on; undefined where a harmonic lies too high. */
    readonly harmonics: readonly (readonly (JudgedHarmonic | undefined)[])[];
  }[];
  readonly clock: readonly {
    readonly frequency_Hz: number;
    readonly channels: readonly { readonly H: Complex; readonly misfit: number }[];
  }[];
  readonly hums: boolean;
  /** Per channel, sums of squares over the part that is not faded, for the seconds it lasts. */
  readonly power: readonly number[];
  readonly restPower: readonly number[];
}

/** Responses to the orders of a sweep in one piece of it, and what noise and hum leave of doubt. */
export function judgePiece(
  whole: Stretch,
  { half, explained, factor }: Piece,
  sweep: Sweep,
  stretch: number,
  asked: AskedOfPiece,
): JudgedPiece {
  const { rate_Hz, fades } = whole;
  const { frequencies_Hz, clock_Hz } = asked;
  if (frequencies_Hz.length + clock_Hz.length === 0) {
    const none = whole.channels.map(() => 0);
    const channels = whole.channels.map(() => ({ first: [], harmonics: [] }));
    return { frequencies_Hz, channels, clock: [], hums: false, power: none, restPower: none };
  }
  const unfaded = (signal: Float64Array) => signal.subarray(fades[0], signal.length - fades[1]);
  const restOf = ({ rest }: Decomposed) => rest.map(unfaded);
  const sent = sentOrders(whole, sweep, stretch, half, explained);
  let splitting = decomposition(whole, sent);
  splitting.pass();
  let quiet = whole;
  const mains = mainsIn(restOf(splitting.read()), whole);
  if (mains) {
    quiet = lessLines(quiet, mains.signals);
    // Afresh: hum that the orders had taken for theirs, they would give up only slowly.
    splitting = decomposition(quiet, sent);
    splitting.pass();
    // What the sweep's responses had taken for their own shows once most of it is gone.
    const more = mainsIn(restOf(splitting.read()), whole);
    if (more) {
      quiet = lessLines(quiet, more.signals);
      splitting.takeOut(more.signals);
    }
    splitting.pass();
  }
  splitting.pass();
  const parts = splitting.read();
  const rests = restOf(parts);
  const kept = keptBy(explained, rests[0]!.length, whole.pad - fades[0], sweep, rate_Hz);
  const L = growth_s(sweep);
  const channels = spectraOfRest(rests, rate_Hz).map((rest, c) => {
    const noise: Disturbance = { rest, hum: mains?.lines[c] ?? [], kept };
    const first = frequencies_Hz.map((f) => responseAt(parts, c, f, rate_Hz, L, noise));
    const harmonics = half.slice(1).map((_, i) => {
      const order = i + 2;
      return frequencies_Hz.map((f, k) => {
        if (f > asked.highestDrive_Hz || order * f > asked.highest_Hz) return undefined;
        const response = responseAt(parts, c, order * f, rate_Hz, L, noise, order);
        return harmonicOf(response, first[k]!.H, f < 1.99 * sweep.start_Hz);
      });
    });
    return { first, harmonics };
  });
  return {
    frequencies_Hz,
    channels,
    clock: clock_Hz.map((frequency_Hz) => ({
      frequency_Hz,
      channels: whole.channels.map((_, c) => windowed(parts.orders[0]!, c, frequency_Hz, rate_Hz)),
    })),
    hums: mains !== undefined,
    power: quiet.channels.map((channel) => factor * powerOf(unfaded(channel))),
    restPower: rests.map((rest) => factor * powerOf(rest)),
  };
}

function powerOf(signal: Float64Array): number {
  return signal.reduce((sum, value) => sum + value * value, 0);
}

const dB = (ratio: number) => 20 * Math.log10(Math.max(ratio, 1e-15));

interface Hum {
  /** Per channel, the mains lines as a signal, faded as the stretch was. */
  readonly signals: readonly Float64Array[];
  /** Per channel, frequency and level of each line. */
  readonly lines: readonly (readonly { readonly frequency_Hz: number; readonly level_Vrms: number }[])[];
}

/** @param rest  of each channel, without the faded ends */
function mainsIn(rest: readonly Float64Array[], { channels, rate_Hz, fades }: Stretch): Hum | undefined {
  const found = fitMains(rest, rate_Hz, [50, 60]).filter((fit) => fit.found);
  if (found.length === 0) return undefined;
  // The phase goes on beyond what was fitted.
  const overAll = found.map((fit) => ({
    ...fit,
    phase_rad: (first: number, into: Float64Array) => fit.phase_rad(first - fades[0], into),
  }));
  const signals = channels.map(({ length }, c) => {
    const lines = withoutMains(new Float64Array(length), overAll, c);
    for (let n = 0; n < length; n++) lines[n] = -lines[n]!;
    fade(lines, fades);
    return lines;
  });
  const lines = rest.map((_, c) => found.flatMap((fit) => fit.channels[c]!.filter((line) => line.detected)));
  return { signals, lines };
}

function lessLines(stretch: Stretch, lines: readonly Float64Array[]): Stretch {
  return {
    ...stretch,
    channels: stretch.channels.map((channel, c) => channel.map((value, n) => value - lines[c]![n]!)),
  };
}

/** What makes a response uncertain: noise, and the hum that was there. */
interface Disturbance {
  readonly rest: RestSpectrum;
  readonly hum: Hum["lines"][number];
  /** Share of the noise that the rest still holds, the responses having taken theirs. */
  readonly kept: (frequency_Hz: number) => number;
}

/**
 * Share of the noise at a frequency that the rest still holds. Each order took what lay about the instant at which it
 * passed there, and a record read as one Hann piece weighs its middle more.
 *
 * @param length  samples of the rest
 * @param start  its sample at which the sweep starts
 */
function keptBy(explained: readonly number[], length: number, start: number, sweep: Sweep, rate_Hz: number) {
  const weightAt = (sample: number) =>
    length > longestPiece ? 1 : Math.sin((Math.PI * Math.min(length, Math.max(0, sample))) / length) ** 4 / (3 / 8);
  return (frequency_Hz: number) =>
    explained.reduce((share, reach, i) => {
      const drive_Hz = frequency_Hz / (i + 1);
      if (drive_Hz < sweep.start_Hz || drive_Hz > sweep.stop_Hz) return share;
      const passes = start + growth_s(sweep) * Math.log(drive_Hz / sweep.start_Hz) * rate_Hz;
      const side = (lagWindowTaken * reach) / 2;
      const taken = Math.max(0, Math.min(length, passes + side) - Math.max(0, passes - side));
      return share - (taken / length) * weightAt(passes);
    }, 1);
}

/** Less of the noise than this share says nothing about it. */
const leastKept = 0.15;
/** Share of a mains line's part in a response that may be left of it when it was taken out. */
const humLeft = 0.1;

/** A response, and what a shorter window makes of it: that shows what the window itself costs. */
export function windowed(lags: Lags, channel: number, frequency_Hz: number, rate_Hz: number) {
  const reach = reach_s(frequency_Hz, lags.half / rate_Hz);
  const at = (window_s: number) => transferAt(lags, channel, frequency_Hz / rate_Hz, window_s * rate_Hz);
  const H = at(reach);
  const shorter = at(0.7 * reach);
  return { H, reach, misfit: Math.hypot(H.re - shorter.re, H.im - shorter.im) / 2 };
}

function responseAt(
  { orders }: Decomposed,
  channel: number,
  frequency_Hz: number,
  rate_Hz: number,
  L: number,
  noise: Disturbance,
  order = 1,
): Judged {
  const { H, reach, misfit } = windowed(orders[order - 1]!, channel, frequency_Hz, rate_Hz);
  const density = noiseAtLine(noise.rest, frequency_Hz) / Math.max(leastKept, noise.kept(frequency_Hz));
  const chance = Math.sqrt((density * frequency_Hz * reach * lagWindowSquares) / L);
  // A steady line of peak A has ∫A·w over a window that the sweep fills with √(L/4f).
  const hum = noise.hum
    .filter((line) => Math.abs(line.frequency_Hz - frequency_Hz) < 1 / reach)
    .reduce((sum, { level_Vrms }) => sum + level_Vrms * Math.SQRT2 * reach * 1.5 * Math.sqrt(frequency_Hz / L), 0);
  return { H, sd: Math.hypot(chance, misfit, humLeft * hum) };
}

/**
 * A harmonic relative to its fundamental.
 *
 * @param isEarly  below twice the sweep's start, where the window holds the sweep's own beginning
 */
function harmonicOf({ H, sd }: Judged, fundamental: Complex, isEarly: boolean): JudgedHarmonic {
  const size = Math.hypot(H.re, H.im);
  const below = Math.hypot(fundamental.re, fundamental.im);
  const level = Math.sqrt(Math.max(size ** 2 - sd ** 2, (0.3 * sd) ** 2));
  return {
    level_dB: dB(level / below),
    doubt_dB: isEarly ? 60 : -dB(Math.max(0.001, 1 - (1.96 * sd) / level)),
    detected: !isEarly && size > 3 * sd,
  };
}
