import { describe, expect, test } from "vitest";
import { recordAccuracy } from "../../tests/accuracy.ts";
import { randomStream } from "../maths/random.ts";
import type { Recording } from "./recording.ts";
import { analyseTap } from "./tap.ts";
import { struck } from "./testing/struck.ts";
import { addTone } from "./testing/synthesiser.ts";

const recordingOf = (rate_Hz: number, ...samples: Float64Array[]): Recording => {
  return { rate_Hz, samples, truncated: false, bits: 24, float: true };
};

describe("rings with known poles", () => {
  // source: made with these values; Q = πfτ
  test("two close ones among hum and a weaker tap are told apart", () => {
    const rate_Hz = 22_050;
    const signal = struck(
      randomStream("close rings"),
      rate_Hz,
      4,
      [0.6, 2.1],
      [
        { frequency_Hz: 640, decay_s: 0.08, peaks: [0.1, 0.04] },
        { frequency_Hz: 646, decay_s: 0.06, peaks: [0.05, 0.07] },
        { frequency_Hz: 2417, decay_s: 0.012, peaks: [0.03, 0.02] },
      ],
      3e-7,
    );
    addTone(signal, rate_Hz, 50.02, 2e-3, 1);
    addTone(signal, rate_Hz, 150.06, 1e-3, 2);
    const { taps, resonances } = analyseTap(recordingOf(rate_Hz, signal), 2);
    expect(taps).toBe(2);
    expect(resonances.map(({ frequency_Hz }) => Math.round(frequency_Hz))).toEqual([640, 646, 2417]);
    const [a, b, c] = resonances as [(typeof resonances)[0], (typeof resonances)[0], (typeof resonances)[0]];
    expect(Math.abs(a.decay_ms / 80 - 1)).toBeLessThan(0.01);
    expect(Math.abs(b.decay_ms / 60 - 1)).toBeLessThan(0.01);
    expect(Math.abs(c.q / (Math.PI * 2417 * 0.012) - 1)).toBeLessThan(0.01);
    expect(Math.abs(a.peak_Vpk / 0.2 - 1)).toBeLessThan(0.02);
    expect(Math.abs(b.peak_Vpk / 0.14 - 1)).toBeLessThan(0.02);
    recordAccuracy({
      area: "bench",
      what: "Decay of two resonances 6 Hz apart",
      source: "rings made with known poles",
      reached: `${(100 * Math.abs(a.decay_ms / 80 - 1)).toFixed(3)} % and ${(100 * Math.abs(b.decay_ms / 60 - 1)).toFixed(3)} %`,
      limit: "1 %",
    });
  });
});

// source: made with these values
test("a tap on what still rings counts for what it struck itself", () => {
  const rate_Hz = 11_025;
  for (const seed of ["one", "two", "three"]) {
    const ring = { frequency_Hz: 210, decay_s: 0.2, peaks: [0.05, 0.06] };
    const signal = struck(randomStream(seed), rate_Hz, 2, [0.5, 0.8], [ring], 3e-7);
    const { taps, resonances } = analyseTap(recordingOf(rate_Hz, signal), 1);
    expect(taps).toBe(2);
    const { peak_Vpk, doubt } = resonances[0]!;
    // The tap before still rings with 0.011 V.
    expect(Math.abs(peak_Vpk - 0.06)).toBeLessThan(1.5 * doubt.peak_Vpk);
    expect(doubt.peak_Vpk).toBeLessThan(0.0006);
  }
});

// source: made with these values; hum is 40 dB under the rings and would fill the list
test("of a long recording with many taps the hardest in a row are judged, its hum taken out of the quiet between", () => {
  const rate_Hz = 8000;
  const random = randomStream("many taps");
  const taps_s = Array.from({ length: 60 }, (_, i) => 1 + 1.1 * i + 0.1 * random.uniform());
  const rings = [310, 1470].map((frequency_Hz) => ({
    frequency_Hz,
    decay_s: 60 / (Math.PI * frequency_Hz),
    peaks: taps_s.map((_, i) => (i === 40 ? 0.2 : 0.05)),
  }));
  const signal = struck(random, rate_Hz, 68, taps_s, rings, 1e-6);
  for (const order of [1, 2, 3, 5, 6, 7, 9, 11]) addTone(signal, rate_Hz, 50.03 * order, 2e-3 / order, order);
  const { taps, resonances, notes } = analyseTap(recordingOf(rate_Hz, signal), 1);
  expect(taps).toBe(60);
  expect(notes.join(" ")).toMatch(/Of this long recording .* Mains lines were fitted and taken out/);
  expect(resonances.map(({ frequency_Hz }) => Math.round(frequency_Hz)).sort((a, b) => a - b)).toEqual([310, 1470]);
  for (const { q, peak_Vpk, doubt } of resonances) {
    expect(Math.abs(q - 60)).toBeLessThan(2 * doubt.q);
    expect(Math.abs(peak_Vpk - 0.2)).toBeLessThan(2 * doubt.peak_Vpk);
  }
});

test("hiss, silence, a constant voltage and a steady tone ring nowhere", () => {
  const rate_Hz = 16_000;
  const hiss = struck(randomStream("hiss"), rate_Hz, 2, [], [], 1e-6);
  const tone = struck(randomStream("tone"), rate_Hz, 2, [], [], 1e-6);
  addTone(tone, rate_Hz, 440, 0.1, 0);
  for (const signal of [hiss, tone, new Float64Array(2 * rate_Hz), new Float64Array(2 * rate_Hz).fill(0.2)]) {
    const { resonances, undecided } = analyseTap(recordingOf(rate_Hz, signal), 1);
    expect(resonances).toEqual([]);
    expect(undecided).toMatch(/tap/);
  }
});
