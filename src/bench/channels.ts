import { BadInput, quote } from "../maths/badInput.ts";
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

/** @throws BadInput at `channels` when names and channels do not match, or only the mains was recorded */
export function channelsOf(recording: Recording, fullScale_Vpk: number, given?: readonly string[]): Channels {
  const names = channelNames(recording.samples.length, given);
  const all = recording.samples.map((samples, i) => ({
    name: names[i]!,
    samples_V: inVolts(samples, fullScale_Vpk),
    clipped: isClipped(samples, recording),
  }));
  const audio = all.filter(({ name }) => name !== "mains");
  if (audio.length === 0) {
    throw new BadInput("channels", quote(names), "at least one channel besides `mains`", "record the output as well");
  }
  const mains = all.find(({ name }) => name === "mains");
  return mains ? { audio, mains } : { audio };
}

function inVolts(samples: Float64Array, fullScale_Vpk: number): Float64Array {
  const volts = new Float64Array(samples.length);
  for (let n = 0; n < volts.length; n++) volts[n] = samples[n]! * fullScale_Vpk;
  return volts;
}

/** Below this level a flat top is grain, not the end of the recorder's range. */
const loud = 0.5;

/**
 * Did the recorder run out of range? Then many samples stand exactly at the highest (or lowest) value and few just
 * inside it; a sine's density falls off so slowly there that it never looks alike.
 */
export function isClipped(samples: Float64Array, { bits, float }: Pick<Recording, "bits" | "float">): boolean {
  let high = Number.NEGATIVE_INFINITY;
  let low = Number.POSITIVE_INFINITY;
  for (let n = 0; n < samples.length; n++) {
    const value = samples[n]!;
    if (value > high) high = value;
    if (value < low) low = value;
  }
  const grain = float ? 2 ** -23 : 2 ** (1 - bits);
  return isFlatAt(samples, high, 1, grain) || isFlatAt(samples, low, -1, grain);
}

function isFlatAt(samples: Float64Array, extreme: number, sign: 1 | -1, grain: number): boolean {
  if (extreme * sign < loud) return false;
  let at = 0;
  let inside = 0;
  let longest = 0;
  let run = 0;
  const near = 10.5 * grain;
  for (let n = 0; n < samples.length; n++) {
    const below = (extreme - samples[n]!) * sign;
    if (below > near) {
      run = 0;
    } else if (below === 0) {
      at++;
      run++;
      if (run > longest) longest = run;
    } else {
      run = 0;
      inside++;
    }
  }
  return longest >= 2 && at >= 4 && at > inside;
}
