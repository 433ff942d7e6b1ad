import { expect, test } from "vitest";
import { randomStream } from "../maths/random.ts";
import { analyseNoise } from "./noise.ts";
import { addComb, addNoise, addTone, mainsPhase, type Wander } from "./testing/synthesiser.ts";

const rate_Hz = 16_000;
const density = 3e-8;

/** Hum of four lines and hiss in 3 s. */
function humming(seed: string, wander: Wander = { kind: "walk", Hz_per_rts: 0.002 }) {
  const random = randomStream(seed);
  const signal = new Float64Array(3 * rate_Hz);
  const { theta, mean_Hz } = mainsPhase(random, 49.97, wander, rate_Hz, signal.length);
  addComb(signal, theta, [
    { order: 1, peak: 5e-5, phase_rad: 1 },
    { order: 2, peak: 3e-5, phase_rad: 2 },
    { order: 3, peak: 2e-5, phase_rad: 0 },
    { order: 7, peak: 1e-5, phase_rad: 1 },
  ]);
  addNoise(signal, random, rate_Hz, density);
  return { signal, theta, mean_Hz };
}

const read = (signal: Float64Array) =>
  analyseNoise({ rate_Hz, samples: [signal], truncated: false, bits: 24, float: true }, 1).channels[0]!;

// source: made with these values; a stray 60 dB over the hum beside an order of the mains, and another of its own
test("steady tones far over the hum mislead neither the mains nor the hiss", () => {
  const { signal, mean_Hz } = humming("stray");
  addTone(signal, rate_Hz, 66.07 * mean_Hz, 5e-2, 0.3);
  addTone(signal, rate_Hz, 1234.5, 2e-3, 0.7);
  const { mains, otherLines, hiss_Vrms, doubt } = read(signal);
  expect(Math.abs(mains.frequency_Hz - mean_Hz)).toBeLessThan(1.5 * mains.doubt_Hz);
  expect(mains.doubt_Hz).toBeLessThan(0.02);
  expect(mains.lines.map(({ order }) => order)).toEqual([1, 2, 3, 7]);
  expect(mains.lines[0]!.level_Vrms / (5e-5 * Math.SQRT1_2)).toBeCloseTo(1, 1.5);
  const levels = otherLines.map(({ level_Vrms }) => level_Vrms).sort((a, b) => b - a);
  expect(levels[0]! / (5e-2 * Math.SQRT1_2)).toBeCloseTo(1, 4);
  expect(levels[1]! / (2e-3 * Math.SQRT1_2)).toBeCloseTo(1, 3);
  expect(Math.abs(hiss_Vrms - density * Math.sqrt(7980))).toBeLessThan(2 * doubt.hiss_Vrms);
});

// source: made so; rectifier buzz is a row of strong high orders, which is mains however strong
test("a row of strong high orders stays mains", () => {
  const { signal, theta } = humming("buzz", { kind: "steady" });
  addComb(
    signal,
    theta,
    [36, 38, 40, 42, 44].map((order) => ({ order, peak: 1e-3, phase_rad: order })),
  );
  const { mains, otherLines } = read(signal);
  expect(mains.lines.map(({ order }) => order)).toEqual([1, 2, 3, 7, 36, 38, 40, 42, 44]);
  expect(otherLines).toEqual([]);
});

// source: made so. 50.01 Hz beats with blocks of whole periods of 1000.7 Hz at 2 Hz
test("a steady tone is not made to follow the hum beside it", () => {
  const signal = new Float64Array(6 * rate_Hz);
  addTone(signal, rate_Hz, 1000.7, 0.05, 0);
  addTone(signal, rate_Hz, 50.01, 1e-3, 0);
  addNoise(signal, randomStream("beats"), rate_Hz, 3e-7);
  const { otherLines, mains } = read(signal);
  expect(mains.lines.map(({ order }) => order)).toEqual([1]);
  expect(otherLines.map(({ frequency_Hz }) => frequency_Hz.toFixed(2))).toEqual(["1000.70"]);
});
