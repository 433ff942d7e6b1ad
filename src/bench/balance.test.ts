import { expect, test } from "vitest";
import { randomStream } from "../maths/random.ts";
import { sidesOverall } from "./balance/sidesAtTone.ts";
import { type BalanceRecording, balanceOfTone } from "./balance.ts";
import { balanceChange } from "./balanceChange.ts";
import { addComb, addNoise, addTone, drawLines, mainsPhase } from "./testing/synthesiser.ts";

const given = (rate_Hz: number, samples: Float64Array[], more: Partial<BalanceRecording> = {}): BalanceRecording => ({
  recording: { rate_Hz, samples, truncated: false, bits: 24, float: true },
  fullScale_Vpk: 1,
  driven: "both",
  field: "recordings[0]",
  ...more,
});

function pair(seed: string, rate_Hz: number, seconds: number, peaks: [number, number], density: number) {
  const random = randomStream(seed);
  const tone_Hz = 300 + 2000 * random.uniform();
  const { theta } = mainsPhase(random, 49.97, { kind: "steady" }, rate_Hz, Math.round(seconds * rate_Hz));
  return peaks.map((peak) => {
    const signal = new Float64Array(Math.round(seconds * rate_Hz));
    addTone(signal, rate_Hz, tone_Hz, peak, 6 * random.uniform());
    addTone(signal, rate_Hz, 2 * tone_Hz, peak / 300, 6 * random.uniform());
    addComb(signal, theta, drawLines(random, 6, 1e-5));
    addNoise(signal, random, rate_Hz, density);
    return signal;
  });
}

test("exchanged channels, a silent channel, one channel alone and hiss are named", () => {
  const samples = pair("exchanged", 8000, 1, [0.001, 0.5], 1e-7);
  expect(balanceOfTone(given(8000, samples, { driven: "left" })).notes.join(" ")).toMatch(/exchanged/);
  const [, right] = samples;
  const silent = balanceOfTone(given(8000, [new Float64Array(8000), right!]));
  expect(Number.isFinite(silent.difference_dB)).toBe(true);
  expect(silent.notes.join(" ")).toMatch(/left channel holds no tone/);
  expect(() => balanceOfTone(given(8000, [right!]))).toThrow(
    expect.objectContaining({ path: "recordings[0].recording" }),
  );
  const hiss = pair("hiss", 8000, 1, [0, 0], 1e-6);
  expect(() => balanceOfTone(given(8000, hiss))).toThrow(/no tone/);
});

// source: judged by hand. A control's tracks differ by position, a gain error does not
test("a difference that moves with the control is told from one that stays", () => {
  const at = (differences: number[], doubt_dB = 0.01) =>
    balanceChange(differences.map((difference_dB, position) => ({ position, difference_dB, doubt_dB })))!;
  expect(at([0.8, 0.81, 0.79]).state).toBe("stays");
  expect(at([2.1, 0.9, 0.3, 0.25]).state).toBe("changes");
  expect(at([2.1, 0.9], 2).state).toBe("undecided");
  expect(balanceChange([{ position: 1, difference_dB: 1, doubt_dB: 0.1 }])).toBeUndefined();
});

// source: by hand; the right side stands a quarter turn behind, its noise of 1 and −1 cancels over two stretches
test("stretches are joined along the phase of the louder side", () => {
  const stretch = (turn: number, noise: number) =>
    [
      { re: 10 * Math.cos(turn), im: 10 * Math.sin(turn), variance_V2: 0.02, rest_V2: 1 },
      { re: 3 * Math.sin(turn) + noise, im: -3 * Math.cos(turn) + 0 * noise, variance_V2: 0.04, rest_V2: 2 },
    ] as const;
  const [left, right] = sidesOverall([stretch(1, 1), stretch(1, -1)]);
  expect([left.re, left.im, left.variance_V2]).toEqual([10, 0, 0.01]);
  expect(Math.hypot(right.re, right.im)).toBeCloseTo(3, 12);
  expect([right.variance_V2, right.rest_V2]).toEqual([0.02, 2]);
  const [, turned] = sidesOverall([stretch(0.2, 0), stretch(2.9, 0)]);
  expect(Math.hypot(turned.re, turned.im)).toBeCloseTo(3, 12);
});
