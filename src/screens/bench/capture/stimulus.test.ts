import { expect, test } from "vitest";
import { stimulusSamples } from "./stimulus.ts";

// source: by hand. An exponential sweep of 2 s from 20 Hz to 20.48 kHz rises by an octave every 0.2 s
const sweep = { start_Hz: 20, stop_Hz: 20_480, duration_s: 2 };

/** Zero crossings upward in a tenth of a second about an instant, per second. */
function frequencyAt(samples: Float32Array, rate_Hz: number, at_s: number): number {
  const [from, to] = [Math.round((at_s - 0.02) * rate_Hz), Math.round((at_s + 0.02) * rate_Hz)];
  let crossings = 0;
  for (let n = from; n < to; n++) if (samples[n]! < 0 && samples[n + 1]! >= 0) crossings++;
  return crossings / ((to - from) / rate_Hz);
}

test("a sweep rises as it should, and falls silent where the player could only sound it at another frequency", () => {
  const rate_Hz = 16_000;
  const samples = stimulusSamples({ kind: "sweep", sweep, level: 0.5 }, rate_Hz, 2);
  expect(frequencyAt(samples, rate_Hz, 1) / 640).toBeCloseTo(1, 1);
  expect(frequencyAt(samples, rate_Hz, 1.6) / 5120).toBeCloseTo(1, 1);
  // Half the rate, 8 kHz, is passed at 0.2·log₂(400) = 1.7288 s.
  expect(Math.max(...samples.subarray(Math.ceil(1.7288 * rate_Hz)))).toBe(0);
  expect(Math.max(...samples.subarray(Math.round(1.7 * rate_Hz), Math.round(1.728 * rate_Hz)))).toBeGreaterThan(0.4);
});

test("at twice its stop frequency or more the whole sweep sounds", () => {
  const rate_Hz = 48_000;
  const samples = stimulusSamples({ kind: "sweep", sweep, level: 0.5 }, rate_Hz, 2);
  expect(frequencyAt(samples, rate_Hz, 1.8) / 10_240).toBeCloseTo(1, 1);
  expect(Math.max(...samples.subarray(-20))).toBeGreaterThan(0.4);
});
