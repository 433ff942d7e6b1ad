import { BadInput } from "../maths/badInput.ts";
import { type Channel, channelsOf } from "./channels.ts";
import { findTone } from "./findTone.ts";
import { fitLines, type JointLine, productTrack } from "./jointLines.ts";
import { refuseLength } from "./length.ts";
import { benchOf } from "./mains/comb.ts";
import { fitMains } from "./mains.ts";
import type { Recording } from "./recording.ts";
import { analyseSweep, type SweepInput } from "./sweep.ts";
import { withoutMains } from "./takeOutMains.ts";
import { fitTone } from "./toneFit.ts";

export type Driven = "both" | "left" | "right";

export interface BalanceRecording {
  readonly recording: Recording;
  readonly fullScale_Vpk: number;
  readonly names?: readonly string[];
  readonly driven: Driven;
  /** Field of the input that names it, for errors. */
  readonly field: string;
}

/** Left over right in one recording. */
export interface Balance {
  readonly difference_dB: number;
  readonly doubt_dB: number;
  /** Undriven over driven channel, where one alone is driven. */
  readonly crosstalk_dB?: number;
  readonly crosstalkDoubt_dB?: number;
  readonly overFrequency?: {
    readonly frequencies_Hz: readonly number[];
    readonly difference_dB: readonly number[];
    readonly doubt_dB: readonly number[];
  };
  readonly notes: readonly string[];
}

const leastBalance_s = 0.5;
/** Harmonics fitted beside the tone, so that they do not count as noise. */
const harmonics = 5;
/** An undriven channel that is louder than the driven one by this much was exchanged with it. */
const exchanged_dB = 6;

/**
 * Balance of two channels at a tone that both hold, fitted at one frequency: 20·lg of left over right.
 *
 *     sd = 8.69·√(S/T·(1/A_L² + 1/A_R²)) dB
 *
 * @throws BadInput  no tone, no channels named left and right
 */
export function balanceOfTone(given: BalanceRecording, seconds?: number): Balance {
  const { recording, field, driven } = given;
  const { rate_Hz } = recording;
  const length = recording.samples[0]!.length;
  atField(field, () => refuseLength("balance", length, rate_Hz, recording.samples.length, leastBalance_s, seconds));
  const [left, right] = sides(given);
  const leading = driven === "both" ? louder(left, right) : driven === "left" ? left : right;
  const start_Hz =
    findTone(leading.samples_V, rate_Hz, undefined) ?? findTone(louder(left, right).samples_V, rate_Hz, undefined);
  if (start_Hz === undefined) {
    throw new BadInput(
      `${field}.recording`,
      "no tone that stands out of the noise",
      "a recording of one steady tone",
      "check generator, lead and channel, or record for longer",
    );
  }
  const { comb } = fitTone(louder(left, right).samples_V, rate_Hz, start_Hz, 1);
  const orders = Array.from({ length: harmonics }, (_, i) => i + 1).filter(
    (order) => order === 1 || order * start_Hz < 0.499 * rate_Hz,
  );
  const tracks = orders.map((order) => productTrack([comb.track, comb.track], [order, 0], length / rate_Hz));
  const first = [left, right].map(({ samples_V }) => fitLines(benchOf([samples_V], rate_Hz), tracks));
  const found = fitMains(
    first.map((fit) => fit.left),
    rate_Hz,
    [50, 60],
    { exclude_Hz: tracks.map(({ carrier_Hz }) => carrier_Hz) },
  ).filter((fit) => fit.found);
  const [l, r] = [left, right].map(({ samples_V }, c) => {
    if (found.length === 0) return first[c]!.lines[0]!;
    const rest = first[c]!.left;
    const quiet = withoutMains(rest, found, c);
    const signal = samples_V.map((value, n) => value - (rest[n]! - quiet[n]!));
    const line = fitLines(benchOf([signal], rate_Hz), tracks).lines[0]!;
    const near = found
      .flatMap(({ channels }) => channels[c]!)
      .filter(
        ({ detected, frequency_Hz }) =>
          detected && Math.abs(frequency_Hz - line.frequency_Hz) < (1.5 * rate_Hz) / length,
      )
      .reduce((sum, { doubt_Vrms }) => sum + 2 * (doubt_Vrms / 1.96) ** 2, 0);
    return { ...line, variance_V2: line.variance_V2 + near };
  }) as [JointLine, JointLine];
  const [sizeL, sizeR] = [levelOf(l), levelOf(r)];
  const difference_dB = 20 * Math.log10(sizeL / sizeR);
  const doubt_dB = Math.min(60, 8.686 * 1.96 * Math.sqrt(l.variance_V2 / sizeL ** 2 + r.variance_V2 / sizeR ** 2));
  const notes = [
    ...clippedNotes(field, [left, right]),
    ...notAloneNotes(field, leading, first[leading === left ? 0 : 1]!),
  ];
  const dust = arithmetic * Math.max(sizeL, sizeR);
  const floor = ({ re, im, variance_V2 }: JointLine) => Math.hypot(re, im) < Math.max(3 * Math.sqrt(variance_V2), dust);
  if (driven === "both") {
    for (const [line, { name }] of [
      [l, left],
      [r, right],
    ] as const) {
      if (floor(line))
        notes.push(`${field}: the ${name} channel holds no tone that stands out of the noise; is it driven?`);
    }
    return { difference_dB, doubt_dB, notes };
  }
  const quietLine = driven === "left" ? r : l;
  const crosstalk_dB = driven === "left" ? -difference_dB : difference_dB;
  if (floor(quietLine)) {
    notes.push(`${field}: crosstalk lies in the noise; it is at most ${(crosstalk_dB + doubt_dB).toFixed(1)} dB.`);
  }
  notes.push(...exchangedNotes(field, driven, crosstalk_dB));
  return { difference_dB, doubt_dB, crosstalk_dB, crosstalkDoubt_dB: doubt_dB, notes };
}

/** More than this share of a tone's level beside it is another sound. */
const otherSound = 0.3;

function notAloneNotes(field: string, { name }: Channel, fit: { lines: readonly JointLine[]; left: Float64Array }) {
  const rest_V2 = fit.left.reduce((sum, value) => sum + value * value, 0) / fit.left.length;
  const tone_V2 = (fit.lines[0]!.re ** 2 + fit.lines[0]!.im ** 2) / 2;
  if (rest_V2 < otherSound ** 2 * tone_V2) return [];
  return [`${field}: the tone in the ${name} channel is not alone; one steady tone is expected, not music or noise.`];
}

/** A level this share of the other channel's is rounding. */
const arithmetic = 1e-10;

/** Amplitude with what noise adds to it taken off; never below what noise alone would be read as. */
function levelOf({ re, im, variance_V2 }: JointLine): number {
  return Math.sqrt(Math.max(re * re + im * im - variance_V2, variance_V2, Number.MIN_VALUE));
}

/** Differences are averaged over this band where the sweep holds it. */
const averaged_Hz = [100, 10_000] as const;

/** The same from an exponential sweep: over frequency, and its mean from 100 Hz to 10 kHz in dB over log frequency. */
export function balanceOfSweep(given: BalanceRecording, sweep: SweepInput, seconds?: number): Balance {
  const { field, driven } = given;
  const [left, right] = sides(given);
  const report = atField(field, () =>
    analyseSweep(given.recording, given.fullScale_Vpk, sweep, { names: given.names, seconds }),
  );
  const of = (name: string) => report.channels.find((channel) => channel.name === name)!;
  const [l, r] = [of("left"), of("right")];
  const { frequencies_Hz } = l;
  const difference = l.gain_dB.map((gain, i) => gain - r.gain_dB[i]!);
  const doubt = l.doubt.gain_dB.map((d, i) => Math.hypot(d, r.doubt.gain_dB[i]!));
  const middle = [...frequencies_Hz.keys()].filter(
    (i) => frequencies_Hz[i]! >= averaged_Hz[0] && frequencies_Hz[i]! <= averaged_Hz[1],
  );
  const over = middle.length > 0 ? middle : [...frequencies_Hz.keys()];
  const difference_dB = over.reduce((sum, i) => sum + difference[i]!, 0) / over.length;
  const doubt_dB = Math.sqrt(over.reduce((sum, i) => sum + doubt[i]! ** 2, 0)) / over.length;
  const crosstalk = driven === "both" ? undefined : driven === "left" ? -difference_dB : difference_dB;
  return {
    difference_dB,
    doubt_dB,
    ...(crosstalk === undefined ? {} : { crosstalk_dB: crosstalk, crosstalkDoubt_dB: doubt_dB }),
    overFrequency: { frequencies_Hz, difference_dB: difference, doubt_dB: doubt },
    notes: [
      ...clippedNotes(field, [left, right]),
      ...(driven === "both" || crosstalk === undefined ? [] : exchangedNotes(field, driven, crosstalk)),
    ],
  };
}

function sides({ recording, fullScale_Vpk, names, field }: BalanceRecording): [Channel, Channel] {
  const { audio } = atField(field, () => channelsOf(recording, fullScale_Vpk, names));
  const left = audio.find(({ name }) => name === "left");
  const right = audio.find(({ name }) => name === "right");
  if (left && right) return [left, right];
  const mono = recording.samples.length === 1;
  throw new BadInput(
    mono ? `${field}.recording` : `${field}.channels`,
    mono ? "a recording of one channel" : `channels named ${audio.map(({ name }) => name).join(", ")}`,
    "one channel named left and one named right",
    mono ? "record both channels into one file" : "say which channels hold left and right",
  );
}

/** The same fault, filed under the recording it came from. */
function atField<T>(field: string, work: () => T): T {
  try {
    return work();
  } catch (error) {
    if (error instanceof BadInput && /^(recording|channels)/.test(error.path)) {
      throw BadInput.at(`${field}.${error.path}`, error);
    }
    throw error;
  }
}

function louder(a: Channel, b: Channel): Channel {
  const power = ({ samples_V }: Channel) => samples_V.reduce((sum, value) => sum + value * value, 0);
  return power(b) > power(a) ? b : a;
}

function clippedNotes(field: string, channels: readonly Channel[]): string[] {
  return channels
    .filter(({ clipped }) => clipped)
    .map(
      ({ name }) => `${field}: the ${name} channel drove the recorder beyond its range (clipped); its level reads low.`,
    );
}

function exchangedNotes(field: string, driven: "left" | "right", crosstalk_dB: number): string[] {
  if (crosstalk_dB < exchanged_dB) return [];
  const other = driven === "left" ? "right" : "left";
  return [
    `${field}: ${driven} is said to be driven but ${other} is louder by ${crosstalk_dB.toFixed(1)} dB; the channels seem exchanged.`,
  ];
}
