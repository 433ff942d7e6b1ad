import { BadInput, quote } from "../maths/badInput.ts";
import { FlatTops } from "./flatTops.ts";
import type { Recording } from "./recording.ts";

/** One channel of a recording in volts. */
export interface Channel {
  readonly name: string;
  readonly samples_V: Float64Array;
  readonly clipped: boolean;
}

export interface Channels {
  /** Channels with sound to be judged, in file order. */
  readonly audio: readonly Channel[];
  /** The channel named `mains`: a reference of the building's mains. */
  readonly mains?: Channel;
}

const usualNames = ["left", "right"];

/** Names in file order: as given, else left, right, 3, 4, … */
export function channelNames(count: number, given?: readonly string[]): string[] {
  const names = Array.from({ length: count }, (_, i) => usualNames[i] ?? String(i + 1));
  if (!given) return names;
  if (given.length !== count) {
    throw new BadInput(
      "channels",
      `${given.length} names for a recording of ${count}`,
      "one name for each channel of the file",
      "name what each channel holds, in order",
    );
  }
  given.forEach((name, i) => {
    if (given.indexOf(name) === i) return;
    throw new BadInput(`channels[${i}]`, quote(name), "every name once", "give each channel its own name");
  });
  return [...given];
}

/** What each channel of a recording holds, by its place in the file. */
export interface Roles {
  readonly names: readonly string[];
  readonly audio: readonly number[];
  readonly mains?: number;
}

/** @throws BadInput at `channels` when names and channels do not match, or only the mains was recorded */
export function rolesOf(count: number, given?: readonly string[]): Roles {
  const names = channelNames(count, given);
  const audio = names.flatMap((name, c) => (name === "mains" ? [] : [c]));
  if (audio.length === 0) {
    throw new BadInput("channels", quote(names), "at least one channel besides `mains`", "record the output as well");
  }
  const mains = names.indexOf("mains");
  return mains < 0 ? { names, audio } : { names, audio, mains };
}

/** @throws BadInput at `channels` when names and channels do not match, or only the mains was recorded */
export function channelsOf(recording: Recording, fullScale_Vpk: number, given?: readonly string[]): Channels {
  const { names } = rolesOf(recording.samples.length, given);
  const all = recording.samples.map((samples, i) => ({
    name: names[i]!,
    samples_V: inVolts(samples, fullScale_Vpk),
    clipped: isClipped(samples, recording),
  }));
  const audio = all.filter(({ name }) => name !== "mains");
  const mains = all.find(({ name }) => name === "mains");
  return mains ? { audio, mains } : { audio };
}

function inVolts(samples: Float64Array, fullScale_Vpk: number): Float64Array {
  const volts = new Float64Array(samples.length);
  for (let n = 0; n < volts.length; n++) volts[n] = samples[n]! * fullScale_Vpk;
  return volts;
}

/** Did the recorder run out of range in these samples, 1 being digital full scale? */
export function isClipped(samples: Float64Array, stored: Pick<Recording, "bits" | "float">): boolean {
  const tops = new FlatTops(stored);
  tops.look(samples);
  return tops.clipped;
}
