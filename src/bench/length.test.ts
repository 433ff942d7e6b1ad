import { describe, expect, test } from "vitest";
import type { BadInput } from "../maths/badInput.ts";
import { balanceOfTone } from "./balance.ts";
import { analyseNoise } from "./noise.ts";
import type { Recording } from "./recording.ts";
import type { RecordingStream } from "./recordingStream.ts";
import { analyseSweep } from "./sweep.ts";
import { analyseTap } from "./tap.ts";
import { analyseTone } from "./tone.ts";
import { analyseTwoTone } from "./twoTone.ts";

const rate_Hz = 96_000;
const silence = (seconds: number): Recording => {
  const channel = new Float64Array(rate_Hz * seconds);
  return { rate_Hz, samples: [channel, channel], truncated: false, bits: 24, float: false };
};
const sweep = { start_Hz: 20, stop_Hz: 20_000, duration_s: 20 };
type Either = Recording | RecordingStream;
const streamed = {
  tone: (r: Either, seconds?: number) => analyseTone(r, 1, { seconds }),
  noise: (r: Either, seconds?: number) => analyseNoise(r, 1, undefined, undefined, seconds),
  tap: (r: Either, seconds?: number) => analyseTap(r, 1, undefined, seconds),
  balance: (recording: Either, seconds?: number) =>
    balanceOfTone({ recording, fullScale_Vpk: 1, driven: "both", field: "recordings[0]" }, seconds),
};
const inMemory = {
  twoTone: (r: Recording, seconds?: number) => analyseTwoTone(r, 1, "difference", { seconds }),
  sweep: (r: Recording, seconds?: number) => analyseSweep(r, 1, sweep, { seconds }),
};

/** A recording that says how long it is and breaks when it is read. */
const unread = (seconds: number, rate_Hz: number): RecordingStream => ({
  rate_Hz,
  channels: 2,
  frames: seconds * rate_Hz,
  truncated: false,
  bits: 24,
  float: false,
  read() {
    throw new Error("it was read");
  },
});

const refusalOf = (work: () => unknown): BadInput => {
  try {
    work();
  } catch (error) {
    return error as BadInput;
  }
  throw new Error("not refused");
};

// source: the contract: what would take longer than 10 s is refused with its limit, unless seconds grants it
test.each(Object.entries(inMemory))(
  "a minute of stereo at 96 kHz is refused by %s at once, with what to grant",
  (_, of) => {
    const begun = performance.now();
    const refusal = refusalOf(() => of(silence(60)));
    expect(performance.now() - begun).toBeLessThan(1000);
    expect(refusal.path).toMatch(/recording$/);
    const granted = /grant seconds: (\d+)/.exec(refusal.message);
    expect(Number(granted?.[1])).toBeGreaterThan(10);
    expect(refusal.message).toMatch(/at most \d+ sample values .* within 10 s/);
  },
);

describe.each(Object.entries(streamed))("%s", (_, of) => {
  // source: the contract grants a minute of stereo at 96 kHz its 10 s; an hour at 192 kHz needs `seconds`, 600 at most
  test("begins on a minute of stereo at 96 kHz, and on an hour at 192 kHz when that is granted", () => {
    expect(() => of(unread(60, 96_000))).toThrow("it was read");
    expect(() => of(unread(3600, 192_000), 600)).toThrow("it was read");
  });

  test("refuses an hour at once, with what to grant", () => {
    const granted = /grant seconds: (\d+)/.exec(refusalOf(() => of(unread(3600, 192_000))).message);
    expect(Number(granted?.[1])).toBeGreaterThan(300);
    expect(Number(granted?.[1])).toBeLessThanOrEqual(600);
  });
});

test("what was to be granted is enough, and a second less is not", () => {
  const asked = (seconds?: number) => refusalOf(() => inMemory.twoTone(silence(10), seconds));
  const needed = Number(/grant seconds: (\d+)/.exec(asked().message)?.[1]);
  expect(asked(needed - 1).message).toMatch(/grant seconds/);
  expect(asked(needed).message).not.toMatch(/grant seconds/);
});
