import { BadInput } from "../maths/badInput.ts";
import { rolesOf } from "./channels.ts";
import { FlatTops } from "./flatTops.ts";
import { refuseLength } from "./length.ts";
import { usualRates_Hz } from "./noTone.ts";
import type { Recording } from "./recording.ts";
import { type RecordingStream, streamOf } from "./recordingStream.ts";
import { eachBlock } from "./stretches.ts";
import { type ClockOffset, clockOffset } from "./sweep/clockOffset.ts";
import { firstOrder, type Stretch, sentOrders } from "./sweep/correlate.ts";
import { findStart, rateOfSweep, type Searched, searched } from "./sweep/findStart.ts";
import { type Piece, piecesOf, readPiece } from "./sweep/pieces.ts";
import { type JudgedPiece, judgePiece, windowed } from "./sweep/responses.ts";
import { growth_s, type Sweep } from "./sweep/sweepSignal.ts";
import type { Complex } from "./sweep/transfer.ts";

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
  /** Longest transform in which a sweep is taken whole; longer ones are read in parts. */
  readonly mostWhole?: number;
}

const leastSweep_s = 0.5;
/** Highest harmonic told apart. */
const highestOrder = 6;
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
  recording: Recording | RecordingStream,
  fullScale_Vpk: number,
  sweep: SweepInput,
  options: SweepOptions = {},
): SweepReport {
  const stream = streamOf(recording);
  const { rate_Hz, frames: length } = stream;
  refuseLength("sweep", length, rate_Hz, stream.channels, leastSweep_s, options.seconds);
  refuseSweep(sweep, rate_Hz, length);
  const { names, audio } = rolesOf(stream.channels, options.names);
  const { powers, tops } = overall(stream);
  const { start, heard } = startOf(stream, audio, powers, sweep);
  const covered = coveredBy(start, length, rate_Hz, sweep);
  const frequencies_Hz = frequenciesFor(options.frequencies_Hz, covered);

  const pieces = piecesOf(sweep, rate_Hz, highestOrder, options.mostWhole);
  const onlyOne = pieces.length === 1 ? readPiece(stream, audio, fullScale_Vpk, start, pieces[0]!) : undefined;
  const read = (piece: Piece) => onlyOne ?? readPiece(stream, audio, fullScale_Vpk, start, piece);
  const forClock_Hz = clockFrequencies(covered, rate_Hz);
  const unstretched = pieces.map((piece) => firstResponses(read(piece), piece, sweep, forClock_Hz));
  const clock = clockOf(unstretched, audio.length, sweep);

  const judged = pieces.map((piece) =>
    judgePiece(read(piece), piece, sweep, clock.stretch, {
      frequencies_Hz: withinPiece(frequencies_Hz, piece, sweep),
      clock_Hz: clock.stretch === 0 ? [] : withinPiece(forClock_Hz, piece, sweep),
      highestDrive_Hz: sweep.stop_Hz / harmonicEnd,
      highest_Hz: 0.49 * rate_Hz,
    }),
  );
  const { delay_s } =
    clock.stretch === 0
      ? clock
      : clockOf(
          judged.map((piece) => piece.clock),
          audio.length,
          sweep,
        );
  const at = placesIn(judged, frequencies_Hz);

  const L = growth_s(sweep);
  const notes: string[] = [];
  const channels = audio.map((place, c): SweepOfChannel => {
    const name = names[place]!;
    const { clipped } = tops[place]!;
    const curve = frequencies_Hz.map((_, i) => at(i).piece.channels[c]!.first[at(i).place]!);
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
        harmonicsTold(sweep, rate_Hz).map((order) => {
          const told = frequencies_Hz.map((_, i) => at(i).piece.channels[c]!.harmonics[order - 2]?.[at(i).place]);
          const end = told.indexOf(undefined);
          const held = told.slice(0, end < 0 ? undefined : end).map((one) => one!);
          return [
            String(order),
            {
              level_dB: held.map(({ level_dB }) => level_dB),
              doubt_dB: held.map(({ doubt_dB }) => doubt_dB),
              detected: held.map(({ detected }) => detected),
            },
          ];
        }),
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
  const unexplained = audio.map((_, c) => shareLeft(judged, c));
  refuseOtherRate(unexplained, rate_Hz, heard);
  notes.push(
    ...notesOn(
      unexplained,
      sweep,
      covered,
      judged.some(({ hums }) => hums),
      clock,
      rate_Hz,
    ),
  );
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

/** Power and flat tops of every channel of the file. */
function overall(stream: RecordingStream) {
  const powers = Array.from({ length: stream.channels }, () => 0);
  const tops = powers.map(() => new FlatTops(stream));
  eachBlock(stream, { first: 0, count: stream.frames }, (block) => {
    block.forEach((samples, c) => {
      tops[c]!.look(samples);
      for (let n = 0; n < samples.length; n++) powers[c]! += samples[n]! ** 2;
    });
  });
  return { powers, tops };
}

/** The sweep's start in the channel where it stands out most, and what was heard there. */
function startOf(stream: RecordingStream, audio: readonly number[], powers: readonly number[], sweep: Sweep) {
  for (const place of audio.toSorted((a, b) => powers[b]! - powers[a]!)) {
    const heard = searched(stream, place, sweep);
    const { at, stands } = findStart(heard);
    if (stands) return { start: at, heard };
  }
  throw new BadInput(
    "recording",
    "no sweep of the form that was given",
    `an exponential sweep from ${sweep.start_Hz} to ${sweep.stop_Hz} Hz in ${sweep.duration_s} s`,
    "check lead, level and channel, and that sweep is the one that was sent",
  );
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

/** Orders of which harmonics are told: those that fit below half the sample rate for an octave at least. */
function harmonicsTold(sweep: Sweep, rate_Hz: number): number[] {
  return Array.from({ length: highestOrder - 1 }, (_, i) => i + 2).filter(
    (order) => order * 2 * sweep.start_Hz < 0.49 * rate_Hz,
  );
}

/** The frequencies that the sweep passes in a piece. */
function withinPiece(frequencies_Hz: readonly number[], piece: Piece, sweep: Sweep): number[] {
  return frequencies_Hz.filter((f) => isWithin(f, piece, sweep));
}

function isWithin(frequency_Hz: number, { from_s, to_s }: Piece, sweep: Sweep): boolean {
  const at_s = growth_s(sweep) * Math.log(frequency_Hz / sweep.start_Hz);
  return (from_s === 0 || at_s >= from_s) && at_s < to_s;
}

/** Where each of the frequencies was judged: which piece, and which of its frequencies. */
function placesIn(judged: readonly JudgedPiece[], frequencies_Hz: readonly number[]) {
  const where = frequencies_Hz.map((f) => {
    const piece = judged.find((one) => one.frequencies_Hz.includes(f))!;
    return { piece, place: piece.frequencies_Hz.indexOf(f) };
  });
  return (i: number) => where[i]!;
}

/** Share of a channel's power, while the sweep ran, that the sweep does not explain. */
function shareLeft(judged: readonly JudgedPiece[], c: number): number {
  const sum = (of: (piece: JudgedPiece) => readonly number[]) =>
    judged.reduce((total, piece) => total + of(piece)[c]!, 0);
  return (
    sum((piece) => piece.restPower) /
    Math.max(
      sum((piece) => piece.power),
      Number.MIN_VALUE,
    )
  );
}

/** Points an octave at which the phase is read for the clock. */
const clockPoints = 12;

function clockFrequencies({ low_Hz, high_Hz }: Covered, rate_Hz: number): number[] {
  const [from, to] = [2 * low_Hz, Math.min(high_Hz / 1.15, 0.42 * rate_Hz)];
  const count = Math.max(0, Math.floor(clockPoints * Math.log2(to / from)));
  return Array.from({ length: count }, (_, i) => from * 2 ** (i / clockPoints));
}

/** A response of every channel and how far a shorter window leads elsewhere. */
export interface ClockReading {
  readonly frequency_Hz: number;
  readonly channels: readonly { readonly H: Complex; readonly misfit: number }[];
}

/** First order at the clock's frequencies in a piece, the sweep taken as it was sent. */
function firstResponses(stretch: Stretch, piece: Piece, sweep: Sweep, all_Hz: readonly number[]): ClockReading[] {
  const frequencies_Hz = withinPiece(all_Hz, piece, sweep);
  if (frequencies_Hz.length === 0) return [];
  const lags = firstOrder(stretch, sentOrders(stretch, sweep, 0, piece.half.slice(0, 1), piece.explained));
  return frequencies_Hz.map((frequency_Hz) => ({
    frequency_Hz,
    channels: stretch.channels.map((_, c) => windowed(lags, c, frequency_Hz, stretch.rate_Hz)),
  }));
}

function clockOf(read: readonly (readonly ClockReading[])[], channels: number, sweep: Sweep): ClockOffset {
  const all = read.flat();
  const frequencies_Hz = all.map(({ frequency_Hz }) => frequency_Hz);
  const perChannel = Array.from({ length: channels }, (_, c) => {
    const judged = all.map((one) => one.channels[c]!);
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

/** A file whose header tells another sample rate than it was made at holds the sweep, but not where it should. */
function refuseOtherRate(unexplained: readonly number[], rate_Hz: number, heard: Searched): void {
  if (unexplained.every((share) => share <= otherSound)) return;
  const made_Hz = rateOfSweep(heard, usualRates_Hz);
  if (made_Hz === undefined) return;
  throw new BadInput(
    "recording",
    `a header that says ${rate_Hz} samples a second`,
    `one that tells the rate: the sweep fits a recording made at ${made_Hz}`,
    "set the header's rate right, or give the sweep as it was sent",
  );
}

function notesOn(
  unexplained: readonly number[],
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
  unexplained.forEach((share, c) => {
    if (share > otherSound) {
      notes.push(
        `Channel ${c + 1}: ${(100 * share).toFixed(0)} % of the power is not explained by the sweep; noise, or another sound.`,
      );
    }
  });
  return notes;
}
