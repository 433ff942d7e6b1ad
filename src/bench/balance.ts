import { BadInput } from "../maths/badInput.ts";
import { harmonics, type Side, sidesAtTone, sidesOverall } from "./balance/sidesAtTone.ts";
import { rolesOf } from "./channels.ts";
import { findToneOf } from "./findTone.ts";
import { FlatTops } from "./flatTops.ts";
import { refuseLength } from "./length.ts";
import type { Recording } from "./recording.ts";
import { type RecordingStream, streamOf } from "./recordingStream.ts";
import { cutUp, eachBlock, notesOnStretches, scaleInPlace } from "./stretches.ts";
import { analyseSweep, type SweepInput } from "./sweep.ts";

export type Driven = "both" | "left" | "right";

export interface BalanceRecording {
  readonly recording: Recording | RecordingStream;
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
/** Mains and what is not the tone are looked at up to here, or as far as the tone's harmonics reach. */
const passband_Hz = 7000;
/** Of both channels in a stretch, of which several copies are held. */
const mostValues = 2 ** 20;
/** An undriven channel that is louder than the driven one by this much was exchanged with it. */
const exchanged_dB = 6;

/**
 * Balance of two channels at a tone that both hold, fitted at one frequency: 20·lg of left over right. A recording of any
 * length is read a stretch at a time.
 *
 *     sd = 8.69·√(S/T·(1/A_L² + 1/A_R²)) dB
 *
 * @throws BadInput  no tone, no channels named left and right
 */
export function balanceOfTone(given: BalanceRecording, seconds?: number): Balance {
  const { field, driven, fullScale_Vpk } = given;
  const stream = streamOf(given.recording);
  const { rate_Hz, frames } = stream;
  atField(field, () => refuseLength("balance", frames, rate_Hz, stream.channels, leastBalance_s, seconds));
  const places = placesOf(stream, given);
  const tops = places.map(() => new FlatTops(stream));
  const power = powersIn(stream, places);
  const loudest = power[1]! > power[0]! ? 1 : 0;
  const leading = driven === "both" ? loudest : driven === "left" ? 0 : 1;
  const start_Hz = toneIn(stream, places[leading]!) ?? toneIn(stream, places[loudest]!);
  if (start_Hz === undefined) {
    throw new BadInput(
      `${field}.recording`,
      "no tone that stands out of the noise",
      "a recording of one steady tone",
      "check generator, lead and channel, or record for longer",
    );
  }
  const cut = cutUp({ ...stream, channels: 2 }, Math.max(passband_Hz, (harmonics + 0.5) * start_Hz), mostValues);
  const stretches = cut.stretches.map((stretch) => {
    const low = places.map(() => cut.thinner(stretch.count));
    eachBlock(stream, stretch, (channels) => {
      places.forEach((place, c) => {
        tops[c]!.look(channels[place]!);
        scaleInPlace(channels[place]!, fullScale_Vpk);
        low[c]!.push(channels[place]!);
      });
    });
    return sidesAtTone([low[0]!.end(), low[1]!.end()], cut.low_Hz, start_Hz);
  });
  const [l, r] = sidesOverall(stretches);
  const sides = [
    { name: "left", clipped: tops[0]!.clipped, line: l },
    { name: "right", clipped: tops[1]!.clipped, line: r },
  ] as const;
  const [sizeL, sizeR] = [levelOf(l), levelOf(r)];
  const difference_dB = 20 * Math.log10(sizeL / sizeR);
  const doubt_dB = Math.min(60, 8.686 * 1.96 * Math.sqrt(l.variance_V2 / sizeL ** 2 + r.variance_V2 / sizeR ** 2));
  const notes = [
    ...clippedNotes(field, sides),
    ...notAloneNotes(field, sides[leading]!),
    ...notesOnStretches(stretches.length, frames / rate_Hz).map((note) => `${field}: ${note}`),
  ];
  const dust = arithmetic * Math.max(sizeL, sizeR);
  const floor = ({ re, im, variance_V2 }: Side) => Math.hypot(re, im) < Math.max(3 * Math.sqrt(variance_V2), dust);
  if (driven === "both") {
    for (const { line, name } of sides) {
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

function notAloneNotes(field: string, { name, line }: { readonly name: string; readonly line: Side }) {
  const tone_V2 = (line.re ** 2 + line.im ** 2) / 2;
  if (line.rest_V2 < otherSound ** 2 * tone_V2) return [];
  return [`${field}: the tone in the ${name} channel is not alone; one steady tone is expected, not music or noise.`];
}

/** Which channel is the louder is told by so many looks of this length, spread over the recording. */
const looks = 40;
const look_samples = 2 ** 15;

/** Sums of squares of both channels, of the whole recording or of looks at it. */
function powersIn(stream: RecordingStream, places: readonly [number, number]): [number, number] {
  const power: [number, number] = [0, 0];
  const { frames } = stream;
  const count = Math.min(looks, Math.ceil(frames / look_samples));
  for (let i = 0; i < count; i++) {
    const first = Math.floor((i * frames) / count);
    const next = Math.floor(((i + 1) * frames) / count);
    eachBlock(stream, { first, count: Math.min(look_samples, next - first) }, (channels) => {
      places.forEach((place, c) => {
        for (const value of channels[place]!) power[c]! += value * value;
      });
    });
  }
  return power;
}

/** Rough frequency of a channel's tone. */
function toneIn(stream: RecordingStream, place: number): number | undefined {
  let rooms: Float64Array[] = [];
  const pieceAt = (from: number, count: number) => {
    if (rooms[0]?.length !== count) rooms = Array.from({ length: stream.channels }, () => new Float64Array(count));
    stream.read(from, rooms);
    return rooms[place]!;
  };
  return findToneOf(pieceAt, stream.frames, stream.rate_Hz, undefined);
}

/** A level this share of the other channel's is rounding. */
const arithmetic = 1e-10;

/** Amplitude with what noise adds to it taken off; never below what noise alone would be read as. */
function levelOf({ re, im, variance_V2 }: Side): number {
  return Math.sqrt(Math.max(re * re + im * im - variance_V2, variance_V2, Number.MIN_VALUE));
}

/** Differences are averaged over this band where the sweep holds it. */
const averaged_Hz = [100, 10_000] as const;

/** The same from an exponential sweep: over frequency, and its mean from 100 Hz to 10 kHz in dB over log frequency. */
export function balanceOfSweep(given: BalanceRecording, sweep: SweepInput, seconds?: number): Balance {
  const { field, driven } = given;
  placesOf(streamOf(given.recording), given);
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
      ...clippedNotes(field, [l, r]),
      ...(driven === "both" || crosstalk === undefined ? [] : exchangedNotes(field, driven, crosstalk)),
    ],
  };
}

/** Which channels of the file are left and right. */
function placesOf(stream: RecordingStream, { names, field }: BalanceRecording): [number, number] {
  const { names: all, audio } = atField(field, () => rolesOf(stream.channels, names));
  const [left, right] = [all.indexOf("left"), all.indexOf("right")];
  if (left >= 0 && right >= 0) return [left, right];
  const mono = stream.channels === 1;
  throw new BadInput(
    mono ? `${field}.recording` : `${field}.channels`,
    mono ? "a recording of one channel" : `channels named ${audio.map((place) => all[place]).join(", ")}`,
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

function clippedNotes(
  field: string,
  channels: readonly { readonly name: string; readonly clipped: boolean }[],
): string[] {
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
