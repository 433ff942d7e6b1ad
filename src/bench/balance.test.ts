import { expect, test } from "vitest";
import { randomStream } from "../maths/random.ts";
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
