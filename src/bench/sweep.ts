import { BadInput } from "../maths/badInput.ts";
import { type Channel, channelsOf } from "./channels.ts";
import { refuseLength } from "./length.ts";
import { longestPiece, noiseAtLine, type RestSpectrum, spectraOfRest } from "./mains/lineNoise.ts";
import { fitMains } from "./mains.ts";
import { usualRates_Hz } from "./noTone.ts";
import type { Recording } from "./recording.ts";
import { type ClockOffset, clockOffset } from "./sweep/clockOffset.ts";
import {
  type Decomposed,
  decomposition,
  firstOrder,
  type Lags,
  lagWindowSquares,
  lagWindowTaken,
  type Stretch,
  sentOrders,
} from "./sweep/correlate.ts";
import { findStart, rateOfSweep } from "./sweep/findStart.ts";
import { growth_s, orderSweep, room_s, type Sweep } from "./sweep/sweepSignal.ts";
import { type Complex, transferAt } from "./sweep/transfer.ts";
import { withoutMains } from "./takeOutMains.ts";

export interface SweepInput extends Sweep {
  readonly level_Vpk?: number;
}

export interface HarmonicCurve {
  /** Relative to order 1 at the same drive frequency; may end before the frequencies do. */
  readonly level_dB: readonly number[];
  readonly doubt_dB: readonly number[];
  /** Stands out of the noise; where it does not, the level is a limit. */
  readonly detected: readonly boolean[];
}

export interface SweepOfChannel {
  readonly name: string;
  readonly frequencies_Hz: readonly number[];
  readonly gain_dB: readonly number[];
  readonly phase_deg: readonly number[];
  readonly harmonics: Readonly<Record<string, HarmonicCurve>>;
  readonly clipped: boolean;
  readonly doubt: { readonly gain_dB: readonly number[]; readonly phase_deg: readonly number[] };
}

export interface SweepReport {
  readonly channels: readonly SweepOfChannel[];
  readonly start_s: number;
  /** Player's clock against the recorder's, in parts per million, with its 95 % half-width. */
  readonly clockOffset_ppm: number;
  readonly clockDoubt_ppm: number;
  readonly usable_s: number;
  readonly notes: readonly string[];
}

export interface SweepOptions {
  readonly names?: readonly string[];
  readonly frequencies_Hz?: readonly number[];
  readonly seconds?: number;
}

const leastSweep_s = 0.5;
/** Highest harmonic told apart. */
const highestOrder = 6;
/** Periods that the window of a response holds on each side, where there is room. */
const periods = 60;
/** A window is never shorter: recorders answer with filters this long. */
const shortest_s = 0.012;
const longest_s = 1.5;
/** Responses this long are taken out of what counts as noise. */
const explained_s = 0.3;
/** Harmonics are judged up to the stop frequency over this. */
const harmonicEnd = 1.6;
/** Points an octave when no frequencies are asked for. */
const perOctave = 6;

/**
 * Gain, phase and harmonics over frequency from one exponential sweep.
 *
 * The sweep is found in the recording by squeezing it into its response. Each order's response then stands at a lag of
 * its own, −L·ln n, and is read there by least squares against the sweep that was sent, over a window of so many
 * periods. What no order explains is noise, from which mains lines are taken out first.
 *
 *     sd of H = √(S·f·∫w²/(a²·L)),   S the noise density
 *
 * @throws BadInput  no such sweep in the recording, frequencies outside it, too short or long
 * @source  A. Farina, AES 108th Convention (2000); A. Novak, P. Lotton, L. Simon, JAES 63 (2015), synchronised sweeps
 *          (both remembered)
 */
export function analyseSweep(
  recording: Recording,
  fullScale_Vpk: number,
  sweep: SweepInput,
  options: SweepOptions = {},
): SweepReport {
  const { rate_Hz } = recording;
  const length = recording.samples[0]!.length;
  refuseLength("sweep", length, rate_Hz, recording.samples.length, leastSweep_s, options.seconds);
  refuseSweep(sweep, rate_Hz, length);
  const { audio } = channelsOf(recording, fullScale_Vpk, options.names);
  const L = growth_s(sweep);
  const start = startOf(audio, rate_Hz, sweep);
  const covered = coveredBy(start, length, rate_Hz, sweep);
  const frequencies_Hz = frequenciesFor(options.frequencies_Hz, covered);

  const orders = Array.from({ length: highestOrder }, (_, i) => i + 1).filter(
    (order) => order === 1 || order * 2 * sweep.start_Hz < 0.49 * rate_Hz,
  );
  const whole = stretchOf(audio, start, rate_Hz, sweep, room_s(sweep, 1));
  const half = orders.map((order) => Math.ceil(Math.min(longest_s, room_s(sweep, order)) * rate_Hz));
  const explained = half.map((reach, i) => Math.min(reach, Math.round((explained_s / (i + 1)) * rate_Hz)));
  const unstretched = sentOrders(whole, sweep, 0, half.slice(0, 1), explained);
  const clock = clockOf(firstOrder(whole, unstretched), audio.length, sweep, rate_Hz, covered);
  const sent = sentOrders(whole, sweep, clock.stretch, half, explained);
  let splitting = decomposition(whole, sent);
  splitting.pass();
  let quiet = whole;
  const mains = mainsIn(splitting.read().rest, rate_Hz);
  if (mains) {
    quiet = lessLines(quiet, mains.signals);
    // Afresh: hum that the orders had taken for theirs, they would give up only slowly.
    splitting = decomposition(quiet, sent);
    splitting.pass();
    // What the sweep's responses had taken for their own shows once most of it is gone.
    const more = mainsIn(splitting.read().rest, rate_Hz);
    if (more) {
      quiet = lessLines(quiet, more.signals);
      splitting.takeOut(more.signals);
    }
    splitting.pass();
  }
  splitting.pass();
  const parts = splitting.read();
  const { delay_s } = clock.stretch === 0 ? clock : clockOf(parts.orders[0]!, audio.length, sweep, rate_Hz, covered);

  const kept = keptBy(explained, quiet, sweep, rate_Hz);
  const noise = spectraOfRest(parts.rest, rate_Hz).map(
    (rest, c): Disturbance => ({ rest, hum: mains?.lines[c] ?? [], kept }),
  );
  const notes: string[] = [];
  const channels = audio.map(({ name, clipped }, c): SweepOfChannel => {
    const curve = frequencies_Hz.map((f) => responseAt(parts, c, f, rate_Hz, L, noise[c]!));
    const reference = sweep.level_Vpk ?? 1;
    if (clipped)
      notes.push(
        `${name}: the recorder was driven beyond its range (clipped); harmonics are not the amplifier's alone.`,
      );
    return {
      name,
      frequencies_Hz,
      gain_dB: curve.map(({ H }) => dB(Math.hypot(H.re, H.im) / reference)),
      phase_deg: curve.map(({ H }, i) =>
        principal(((Math.atan2(H.im, H.re) + 2 * Math.PI * frequencies_Hz[i]! * delay_s) * 180) / Math.PI),
      ),
      harmonics: Object.fromEntries(
        orders.slice(1).map((order) => [
          String(order),
          harmonicCurve(
            parts,
            c,
            order,
            frequencies_Hz,
            curve.map(({ H }) => H),
            rate_Hz,
            sweep,
            noise[c]!,
          ),
        ]),
      ),
      clipped,
      doubt: {
        gain_dB: curve.map(({ sd, H }) => 8.686 * Math.min(10, (1.96 * sd) / Math.hypot(H.re, H.im))),
        phase_deg: curve.map(({ sd, H }, i) =>
          Math.min(
            180,
            (180 / Math.PI) *
              1.96 *
              Math.hypot(sd / Math.hypot(H.re, H.im), clockPhase(clock.sd, L, frequencies_Hz[i]!, covered)),
          ),
        ),
      },
    };
  });
  refuseOtherRate(parts.rest, quiet, sweep);
  notes.push(...notesOn(parts, quiet, sweep, covered, mains !== undefined, clock, rate_Hz));
  return {
    channels,
    start_s: start / rate_Hz + delay_s,
    clockOffset_ppm: 1e6 * clock.stretch,
    clockDoubt_ppm: 1.96e6 * clock.sd,
    usable_s: length / rate_Hz,
    notes,
  };
}

const dB = (ratio: number) => 20 * Math.log10(Math.max(ratio, 1e-15));
const principal = (angle_deg: number) => angle_deg - 360 * Math.round(angle_deg / 360);

function refuseSweep({ start_Hz, stop_Hz, duration_s }: Sweep, rate_Hz: number, length: number): void {
  if (!(stop_Hz > 1.5 * start_Hz)) {
    throw new BadInput(
      "sweep.stop_Hz",
      `${stop_Hz} Hz after a start at ${start_Hz} Hz`,
      "a sweep upward by half its start frequency or more",
      "give start_Hz and stop_Hz as they were sent",
    );
  }
  if (!(start_Hz < 0.4 * rate_Hz)) {
    throw new BadInput(
      "sweep.start_Hz",
      `${start_Hz} Hz`,
      `below ${0.4 * rate_Hz} Hz at this sample rate`,
      "record at a higher rate",
    );
  }
  if (length < 0.5 * duration_s * rate_Hz) {
    throw new BadInput(
      "recording",
      `${(length / rate_Hz).toFixed(3)} s of sound for a sweep of ${duration_s} s`,
      "a recording that holds the sweep",
      "start the recorder before the sweep and stop it after its end",
    );
  }
}

/** The sweep's start in the channel where it stands out most. */
function startOf(audio: readonly Channel[], rate_Hz: number, sweep: Sweep): number {
  const loudest = [...audio].sort((a, b) => powerOf(b.samples_V) - powerOf(a.samples_V));
  for (const { samples_V } of loudest) {
    const { at, stands } = findStart(samples_V, rate_Hz, sweep);
    if (stands) return at;
  }
  throw new BadInput(
    "recording",
    "no sweep of the form that was given",
    `an exponential sweep from ${sweep.start_Hz} to ${sweep.stop_Hz} Hz in ${sweep.duration_s} s`,
    "check lead, level and channel, and that sweep is the one that was sent",
  );
}

function powerOf(signal: Float64Array): number {
  return signal.reduce((sum, value) => sum + value * value, 0);
}

interface Covered {
  readonly low_Hz: number;
  readonly high_Hz: number;
  readonly whole: boolean;
}

/** Frequencies that the sweep ran through while the recorder was on. */
function coveredBy(start: number, length: number, rate_Hz: number, sweep: Sweep): Covered {
  const L = growth_s(sweep);
  const early_s = Math.max(0, -start / rate_Hz);
  const late_s = Math.min(sweep.duration_s, (length - start) / rate_Hz);
  const missed = early_s > 0.01 || late_s < sweep.duration_s - 0.01;
  const low_Hz = sweep.start_Hz * Math.exp(early_s / L) * (early_s > 0.01 ? 1.1 : 1);
  const high_Hz =
    missed && late_s < sweep.duration_s - 0.01 ? (sweep.start_Hz * Math.exp(late_s / L)) / 1.1 : sweep.stop_Hz;
  return { low_Hz, high_Hz: Math.min(high_Hz, 0.49 * rate_Hz), whole: !missed };
}

function frequenciesFor(asked: readonly number[] | undefined, { low_Hz, high_Hz }: Covered): number[] {
  if (!asked) {
    const count = Math.floor(perOctave * Math.log2(high_Hz / low_Hz) + 1e-9);
    return Array.from({ length: count + 1 }, (_, i) => low_Hz * 2 ** (i / perOctave));
  }
  asked.forEach((frequency_Hz, i) => {
    if (frequency_Hz >= low_Hz * (1 - 1e-9) && frequency_Hz <= high_Hz * (1 + 1e-9)) return;
    throw new BadInput(
      `frequencies_Hz[${i}]`,
      `${frequency_Hz} Hz`,
      `${low_Hz.toPrecision(6)} to ${high_Hz.toPrecision(6)} Hz, where this recording holds the sweep`,
      "ask for frequencies within the sweep, below 0.49 of the sample rate",
    );
  });
  return [...asked];
}

/** The sweep with `margin_s` on both sides; silence where the recording has none. */
function stretchOf(audio: readonly Channel[], start: number, rate_Hz: number, sweep: Sweep, margin_s: number): Stretch {
  const sent = orderSweep(sweep, 1, rate_Hz, 0).length;
  const pad = Math.round(Math.min(longest_s, Math.max(0.05, margin_s)) * rate_Hz);
  const length = sent + 2 * pad;
  const channels = audio.map(({ samples_V }) => {
    const from = start - pad;
    const held = samples_V.subarray(Math.max(0, from), Math.max(0, Math.min(samples_V.length, from + length)));
    const room = new Float64Array(length);
    room.set(held, Math.max(0, -from));
    return room;
  });
  return { channels, pad, rate_Hz };
}

interface Hum {
  /** Per channel, the mains lines as a signal. */
  readonly signals: readonly Float64Array[];
  /** Per channel, frequency and peak of each line. */
  readonly lines: readonly (readonly { readonly frequency_Hz: number; readonly level_Vrms: number }[])[];
}

function mainsIn(rest: readonly Float64Array[], rate_Hz: number): Hum | undefined {
  const found = fitMains(rest, rate_Hz, [50, 60]).filter((fit) => fit.found);
  if (found.length === 0) return undefined;
  const signals = rest.map((signal, c) => {
    const without = withoutMains(signal, found, c);
    return signal.map((value, n) => value - without[n]!);
  });
  const lines = rest.map((_, c) => found.flatMap(({ channels }) => channels[c]!.filter((line) => line.detected)));
  return { signals, lines };
}

function lessLines(stretch: Stretch, lines: readonly Float64Array[]): Stretch {
  if (lines.length === 0) return stretch;
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

interface Judged {
  readonly H: Complex;
  /** Standard deviation along and across H. */
  readonly sd: number;
}

/**
 * Share of the noise at a frequency that the rest still holds. Each order took what lay about the instant at which it
 * passed there, and a record read as one Hann piece weighs its middle more.
 */
function keptBy(explained: readonly number[], { channels, pad }: Stretch, sweep: Sweep, rate_Hz: number) {
  const length = channels[0]!.length;
  const weightAt = (sample: number) =>
    length > longestPiece ? 1 : Math.sin((Math.PI * Math.min(length, Math.max(0, sample))) / length) ** 4 / (3 / 8);
  return (frequency_Hz: number) =>
    explained.reduce((share, reach, i) => {
      const drive_Hz = frequency_Hz / (i + 1);
      if (drive_Hz < sweep.start_Hz || drive_Hz > sweep.stop_Hz) return share;
      const passes = pad + growth_s(sweep) * Math.log(drive_Hz / sweep.start_Hz) * rate_Hz;
      return share - ((lagWindowTaken * reach) / length) * weightAt(passes);
    }, 1);
}

/** Less of the noise than this share says nothing about it. */
const leastKept = 0.15;
/** Share of a mains line's part in a response that may be left of it when it was taken out. */
const humLeft = 0.1;

/** Half window in seconds for a response at a frequency. */
function reach_s(frequency_Hz: number, room: number): number {
  return Math.min(room, longest_s, Math.max(shortest_s, periods / frequency_Hz));
}

/** A response, and what a shorter window makes of it: that shows what the window itself costs. */
function windowed(lags: Lags, channel: number, frequency_Hz: number, rate_Hz: number) {
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

function harmonicCurve(
  parts: Decomposed,
  channel: number,
  order: number,
  frequencies_Hz: readonly number[],
  fundamental: readonly Complex[],
  rate_Hz: number,
  sweep: Sweep,
  noise: Disturbance,
): HarmonicCurve {
  const highest_Hz = Math.min(sweep.stop_Hz / harmonicEnd, (0.49 * rate_Hz) / order);
  const end = frequencies_Hz.findIndex((f) => f > highest_Hz);
  const held = frequencies_Hz.slice(0, end < 0 ? undefined : end);
  const judged = held.map((f, i) => {
    const { H, sd } = responseAt(parts, channel, order * f, rate_Hz, growth_s(sweep), noise, order);
    const size = Math.hypot(H.re, H.im);
    const below = Math.hypot(fundamental[i]!.re, fundamental[i]!.im);
    const level = Math.sqrt(Math.max(size ** 2 - sd ** 2, (0.3 * sd) ** 2));
    // Below twice the start the window holds the sweep's own beginning.
    const early = f < 1.99 * sweep.start_Hz;
    return {
      level_dB: dB(level / below),
      doubt_dB: early ? 60 : -dB(Math.max(0.001, 1 - (1.96 * sd) / level)),
      detected: !early && size > 3 * sd,
    };
  });
  return {
    level_dB: judged.map(({ level_dB }) => level_dB),
    doubt_dB: judged.map(({ doubt_dB }) => doubt_dB),
    detected: judged.map(({ detected }) => detected),
  };
}

/** Points an octave at which the phase is read for the clock. */
const clockPoints = 12;

function clockOf(
  lags: Lags,
  channels: number,
  sweep: Sweep,
  rate_Hz: number,
  { low_Hz, high_Hz }: Covered,
): ClockOffset {
  const [from, to] = [2 * low_Hz, Math.min(high_Hz / 1.15, 0.42 * rate_Hz)];
  const count = Math.max(0, Math.floor(clockPoints * Math.log2(to / from)));
  const frequencies_Hz = Array.from({ length: count }, (_, i) => from * 2 ** (i / clockPoints));
  const perChannel = Array.from({ length: channels }, (_, c) => {
    const judged = frequencies_Hz.map((f) => windowed(lags, c, f, rate_Hz));
    const phaseSd_rad = judged.map(({ H, misfit }) => Math.min(3, misfit / Math.max(1e-300, Math.hypot(H.re, H.im))));
    return clockOffset({ frequencies_Hz, response: judged.map(({ H }) => H), phaseSd_rad }, growth_s(sweep));
  });
  // The channel that knows best speaks for the clock that all share.
  const sure = perChannel.filter(({ stretch }) => stretch !== 0);
  return (sure.length > 0 ? sure : perChannel).reduce((a, b) => (b.sd < a.sd ? b : a));
}

/** Phase that a clock's doubt leaves, a pure delay apart. */
function clockPhase(sd: number, L: number, frequency_Hz: number, { high_Hz }: Covered): number {
  return 2 * Math.PI * sd * L * frequency_Hz * Math.abs(Math.log(frequency_Hz / high_Hz));
}

/** More than this share of the power beside the sweep is another sound, or the sweep stretched. */
const otherSound = 0.05;

const shareOf = (left: Float64Array, channel: Float64Array) =>
  powerOf(left) / Math.max(powerOf(channel), Number.MIN_VALUE);

/** A file whose header tells another sample rate than it was made at holds the sweep, but not where it should. */
function refuseOtherRate(rest: readonly Float64Array[], { channels, rate_Hz }: Stretch, sweep: Sweep): void {
  const c = channels.findIndex((channel, i) => shareOf(rest[i]!, channel) > otherSound);
  const made_Hz = c < 0 ? undefined : rateOfSweep(channels[c]!, rate_Hz, sweep, usualRates_Hz);
  if (made_Hz === undefined) return;
  throw new BadInput(
    "recording",
    `a header that says ${rate_Hz} samples a second`,
    `one that tells the rate: the sweep fits a recording made at ${made_Hz}`,
    "set the header's rate right, or give the sweep as it was sent",
  );
}

function notesOn(
  { rest }: Decomposed,
  { channels }: Stretch,
  sweep: SweepInput,
  { whole, low_Hz, high_Hz }: Covered,
  hums: boolean,
  clock: { readonly stretch: number; readonly sd: number },
  rate_Hz: number,
): string[] {
  const notes = [
    "phase_deg is free of the delay to the sweep's start, found as what is left beside the phase that goes with the gain.",
  ];
  if (sweep.level_Vpk === undefined) notes.push("gain_dB is the level in dB over 1 V peak, as no level_Vpk was given.");
  if (!whole) {
    notes.push(
      `The recording holds the sweep from ${low_Hz.toPrecision(3)} to ${high_Hz.toPrecision(3)} Hz only; the rest was not recorded.`,
    );
  }
  if (hums) notes.push("Mains lines were fitted and taken out.");
  if (clock.stretch !== 0) {
    notes.push(
      `The player's clock runs ${(1e6 * clock.stretch).toFixed(1)} ± ${(1.96e6 * clock.sd).toFixed(1)} ppm against the recorder's; it is allowed for.`,
    );
  }
  if (sweep.stop_Hz > 0.5 * rate_Hz)
    notes.push("The sweep goes beyond half the sample rate; what lies there is not seen.");
  rest.forEach((left, c) => {
    const share = shareOf(left, channels[c]!);
    if (share > otherSound) {
      notes.push(
        `Channel ${c + 1}: ${(100 * share).toFixed(0)} % of the power is not explained by the sweep; noise, or another sound.`,
      );
    }
  });
  return notes;
}
