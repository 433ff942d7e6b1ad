import { describe, expect, test } from "vitest";
import { recordAccuracy } from "../../tests/accuracy.ts";
import { randomStream } from "../maths/random.ts";
import { analyseNoise } from "./noise.ts";
import type { Recording } from "./recording.ts";
import { addComb, addNoise, addTone, mainsPhase } from "./testing/synthesiser.ts";
import { analyseTone } from "./tone.ts";
import { weight468 } from "./weighting.ts";

const recordingOf = (rate_Hz: number, ...samples: Float64Array[]): Recording => ({
  rate_Hz,
  samples,
  truncated: false,
  bits: 24,
  float: false,
});

// source: white noise of density e over 19,980 Hz is e·√19980; A-weighted white noise fills 12467.2 Hz
//         (integral of the closed form, reference notes); one line adds its power
test("hiss, hum and a stray line are told apart", () => {
  const random = randomStream("noise report");
  const rate_Hz = 44100;
  const signal = new Float64Array(4 * rate_Hz);
  const { theta, mean_Hz } = mainsPhase(random, 50.06, { kind: "steady" }, rate_Hz, signal.length);
  addComb(signal, theta, [
    { order: 1, peak: 1e-3, phase_rad: 0.5 },
    { order: 2, peak: 2e-4, phase_rad: -1 },
  ]);
  addTone(signal, rate_Hz, 3217.4, 1e-4, 0.3);
  addNoise(signal, random, rate_Hz, 2e-7);
  const { channels } = analyseNoise(recordingOf(rate_Hz, signal), 2, undefined, 50);
  const left = channels[0]!;
  expect(left.hiss_Vrms / (4e-7 * Math.sqrt(19980))).toBeCloseTo(1, 1.7);
  expect(left.hissA_Vrms / (4e-7 * Math.sqrt(12467.2))).toBeCloseTo(1, 1.7);
  expect(left.mains.lines.map(({ order }) => order)).toEqual([1, 2]);
  expect(Math.abs(left.mains.frequency_Hz - mean_Hz)).toBeLessThan(2 * left.mains.doubt_Hz);
  const phase = (((0.5 + theta[0]!) * 180) / Math.PI) % 360;
  expect(Math.cos(((left.mains.lines[0]!.phase_deg - phase) * Math.PI) / 180)).toBeGreaterThan(0.9999);
  expect(left.otherLines).toHaveLength(1);
  expect(left.otherLines[0]!.frequency_Hz).toBeCloseTo(3217.4, 1);
  expect(left.otherLines[0]!.level_Vrms / (2e-4 * Math.SQRT1_2)).toBeCloseTo(1, 1.5);
  const power = (1e-3 ** 2 + 2e-4 ** 2 + 1e-4 ** 2) / 2 + 2e-7 ** 2 * 19980;
  expect(left.noise_Vrms / (2 * Math.sqrt(power))).toBeCloseTo(1, 2);
  expect(left.noise468_Vqp).toBeGreaterThan(2e-4 * Math.SQRT1_2 * weight468(3217.4));
});

describe("a tone with known harmonics", () => {
  // source: made with known amplitudes; THD = √(0.8² + 0.6²)·h by hand
  test.each([
    [1e-4, 1e-7, 0.005],
    [1e-6, 1e-9, 0.26],
  ])("THD of %f comes out right, mains and unsynchronised clocks about", (thd, density, share) => {
    const errors: number[] = [];
    const levels: number[] = [];
    for (let i = 0; i < 3; i++) {
      const random = randomStream(`tone ${thd} ${i}`);
      const rate_Hz = [16000, 32000][random.integer(2)]!;
      const signal = new Float64Array(Math.round((1.5 + random.uniform()) * rate_Hz));
      const tone_Hz = 400 + 600 * random.uniform();
      addTone(signal, rate_Hz, tone_Hz, 0.7, 6 * random.uniform());
      addTone(signal, rate_Hz, 2 * tone_Hz, 0.7 * 0.8 * thd, 6 * random.uniform());
      addTone(signal, rate_Hz, 3 * tone_Hz, 0.7 * 0.6 * thd, 6 * random.uniform());
      const { theta } = mainsPhase(random, 49.97, { kind: "walk", Hz_per_rts: 0.002 }, rate_Hz, signal.length);
      addComb(signal, theta, [{ order: 1, peak: 3e-5, phase_rad: 1 }]);
      addNoise(signal, random, rate_Hz, density);
      const figures = analyseTone(recordingOf(rate_Hz, signal), 1).channels[0]!;
      errors.push(figures.thd_pct / 100 / thd - 1);
      levels.push((1.96 * (figures.level_Vrms - 0.7 * Math.SQRT1_2)) / figures.doubt.level_Vrms);
    }
    expect(Math.max(...errors.map(Math.abs))).toBeLessThan(share);
    expect(Math.max(...levels.map(Math.abs))).toBeLessThan(4);
    recordAccuracy({
      area: "bench",
      what: `THD of ${(20 * Math.log10(thd)).toFixed(0)} dB`,
      source: "tones with known harmonics, drawn by the tests",
      reached: `${(100 * Math.max(...errors.map(Math.abs))).toFixed(2)} % of its value at worst`,
      limit: `${100 * share} %`,
    });
  });

  test("the analysis itself adds less than −200 dB", () => {
    const signal = new Float64Array(44100);
    addTone(signal, 44100, 997.13, 1, 0.2);
    const figures = analyseTone(recordingOf(44100, signal), 1).channels[0]!;
    expect(figures.sinad_dB).toBeGreaterThan(200);
  });
});

test("a record too short names the least length", () => {
  expect(() => analyseTone(recordingOf(8000, new Float64Array(1000)), 1)).toThrow(/at least 0\.5 s/);
  expect(() => analyseNoise(recordingOf(8000, new Float64Array(1000)), 1)).toThrow(/at least 1 s/);
});

test("a clipped tone is named, a loud one is not", () => {
  const loud = new Float64Array(8000);
  addTone(loud, 8000, 440.3, 0.999, 0);
  const grain = 2 ** 15;
  const stored = (signal: Float64Array, gain: number) =>
    signal.map((v) => Math.max(-grain, Math.min(grain - 1, Math.round(v * gain * grain))) / grain);
  const of = (gain: number) =>
    analyseTone({ ...recordingOf(8000, stored(loud, gain)), bits: 16 }, 1).channels[0]!.clipped;
  expect(of(1)).toBe(false);
  expect(of(1.05)).toBe(true);
});
