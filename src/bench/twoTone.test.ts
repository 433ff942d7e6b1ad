import { describe, expect, test } from "vitest";
import type { Recording } from "./recording.ts";
import { analyseTwoTone } from "./twoTone.ts";

const recordingOf = (rate_Hz: number, ...samples: Float64Array[]): Recording => {
  return { rate_Hz, samples, truncated: false, bits: 24, float: true };
};

/** Two tones through y = x + c₂x² + c₃x³, whose products follow by hand from the cosines' products. */
function throughCurve(
  rate_Hz: number,
  seconds: number,
  a: [number, number],
  b: [number, number],
  c2: number,
  c3: number,
) {
  return new Float64Array(Math.round(seconds * rate_Hz)).map((_, n) => {
    const t = (2 * Math.PI * n) / rate_Hz;
    const x = a[1] * Math.cos(a[0] * t + 0.3) + b[1] * Math.cos(b[0] * t + 1.1);
    return x + c2 * x * x + c3 * x ** 3;
  });
}

describe("tones through a known curve", () => {
  // source: worked by hand. x² holds A·B at b ± a; x³ holds ¾A²B at b ± 2a, and lifts b by ¾B³ + 3/2·A²B
  test("modulation", () => {
    const [A, B, c2, c3] = [0.4, 0.1, 2e-3, 3e-3];
    const signal = throughCurve(44100, 1.7, [60.03, A], [7003.1, B], c2, c3);
    const left = analyseTwoTone(recordingOf(44100, signal), 1, "modulation").channels[0]!;
    const high = B + c3 * (0.75 * B ** 3 + 1.5 * A * A * B);
    const by_hand = (100 * Math.hypot(2 * c2 * A * B, 2 * 0.75 * c3 * A * A * B)) / high;
    expect(left.imd_pct / by_hand).toBeCloseTo(1, 6);
    expect(left.products.map(({ label }) => label)).toEqual(["b-a", "b+a", "b-2a", "b+2a"]);
  });

  // source: worked by hand, as above, with equal tones
  test("difference", () => {
    const [A, c2, c3] = [0.3, 1e-3, 2e-3];
    const signal = throughCurve(96000, 1.1, [19001.7, A], [20003.9, A], c2, c3);
    const left = analyseTwoTone(recordingOf(96000, signal), 3, "difference", { tones_Hz: [20000, 19000] }).channels[0]!;
    const tone = A + 2.25 * c3 * A ** 3;
    const by_hand = (100 * Math.hypot(c2 * A * A, 2 * 0.75 * c3 * A ** 3)) / (2 * tone);
    expect(left.imd_pct / by_hand).toBeCloseTo(1, 6);
    expect(left.tones[0]!.level_Vrms).toBeCloseTo(3 * tone * Math.SQRT1_2, 6);
  });
});

test("a product beyond half the rate is left out and said", () => {
  const signal = throughCurve(44100, 1, [19000, 0.3], [21000, 0.3], 1e-3, 1e-3);
  const { channels, notes } = analyseTwoTone(recordingOf(44100, signal), 1, "difference");
  expect(channels[0]!.products.map(({ label }) => label)).toEqual(["b-a", "2a-b"]);
  expect(notes.join(" ")).toMatch(/2b-a at 23000/);
});

test("one tone, or tones whose products coincide are refused in words", () => {
  const lone = throughCurve(16000, 1, [1000, 0.3], [2000, 0], 0, 0);
  expect(() => analyseTwoTone(recordingOf(16000, lone), 1, "difference")).toThrow(/no two tones/);
  const octave = throughCurve(16000, 1, [1000, 0.3], [2000, 0.3], 1e-3, 0);
  expect(() => analyseTwoTone(recordingOf(16000, octave), 1, "difference")).toThrow(/falls on/);
});
