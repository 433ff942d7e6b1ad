import { describe, expect, test } from "vitest";
import { recordAccuracy } from "../../tests/accuracy.ts";
import { randomStream } from "../maths/random.ts";
import type { Recording } from "./recording.ts";
import { piecesOf } from "./sweep/pieces.ts";
import { analyseSweep, type SweepInput } from "./sweep.ts";
import { sentSweep as sent } from "./testing/sentSweep.ts";
import { addComb, addNoise, addTone, mainsPhase } from "./testing/synthesiser.ts";

const recordingOf = (rate_Hz: number, ...samples: Float64Array[]): Recording => {
  return { rate_Hz, samples, truncated: false, bits: 24, float: true };
};

/** One-pole high-pass made by the bilinear transform, and its response by the formula. */
function highPass(signal: Float64Array, rate_Hz: number, corner_Hz: number): Float64Array {
  const keep = Math.exp((-2 * Math.PI * corner_Hz) / rate_Hz);
  let [before, out] = [0, 0];
  return signal.map((value) => {
    out = keep * out + ((1 + keep) / 2) * (value - before);
    before = value;
    return out;
  });
}

function highPassAt(frequency_Hz: number, rate_Hz: number, corner_Hz: number) {
  const keep = Math.exp((-2 * Math.PI * corner_Hz) / rate_Hz);
  const w = (2 * Math.PI * frequency_Hz) / rate_Hz;
  const angle = Math.atan2(Math.sin(w), 1 - Math.cos(w)) - Math.atan2(keep * Math.sin(w), 1 - keep * Math.cos(w));
  const size = (((1 + keep) / 2) * 2 * Math.sin(w / 2)) / Math.hypot(1 - keep * Math.cos(w), keep * Math.sin(w));
  return { dB: 20 * Math.log10(size), deg: (angle * 180) / Math.PI };
}

const sweep: SweepInput = { start_Hz: 20, stop_Hz: 20_000, duration_s: 2, level_Vpk: 0.5 };

describe("a sweep through a known curve and filter", () => {
  // source: by hand. x + 2·h₂·x²/a + 4·h₃·x³/a² of a sine of peak a has harmonics h₂ and h₃ over 1 + 3·h₃; the filter
  //         has its own closed form
  const [h2, h3, corner_Hz] = [2e-3, 1e-3, 8];
  const made = (fast: number, noise: number, seed: string) => {
    const rate_Hz = 48_000;
    const x = sent(rate_Hz, 3.1, sweep, 0.4321, fast);
    const a = sweep.level_Vpk!;
    const curved = x.map((v) => v + (2 * h2 * v * v) / a + (4 * h3 * v ** 3) / a ** 2);
    const signal = highPass(curved, rate_Hz, corner_Hz);
    addNoise(signal, randomStream(seed), rate_Hz, noise);
    return recordingOf(rate_Hz, signal);
  };
  const frequencies_Hz = [40, 63, 100, 500, 1000, 4000, 10_000, 12_500, 18_000];

  test.each([
    ["one clock", 0],
    ["two clocks", 120e-6],
  ])("%s: gain, phase and harmonics come out as made", (what, fast) => {
    const report = analyseSweep(made(fast, 1e-8, what), 1, sweep, { frequencies_Hz });
    const left = report.channels[0]!;
    expect(Math.abs(report.clockOffset_ppm - 1e6 * fast)).toBeLessThan(2);
    const gains = frequencies_Hz.map((f, i) => {
      return left.gain_dB[i]! - highPassAt(f, 48_000, corner_Hz).dB - 20 * Math.log10(1 + 3 * h3);
    });
    expect(Math.max(...gains.map(Math.abs))).toBeLessThan(0.01);
    const excess = frequencies_Hz.map((f, i) => left.phase_deg[i]! - highPassAt(f, 48_000, corner_Hz).deg);
    // A pure delay is free.
    const delay = excess.at(-1)! / frequencies_Hz.at(-1)!;
    const phases = excess.map((deg, i) => deg - delay * frequencies_Hz[i]!);
    expect(Math.max(...phases.map(Math.abs))).toBeLessThan(0.5);
    for (const [order, h] of [
      [2, h2],
      [3, h3],
    ] as const) {
      const { level_dB } = left.harmonics[order]!;
      expect(level_dB.length).toBe(order === 2 ? 7 : 6);
      const errors = level_dB.map((dB, i) => {
        const f = frequencies_Hz[i]!;
        const filter = highPassAt(order * f, 48_000, corner_Hz).dB - highPassAt(f, 48_000, corner_Hz).dB;
        return dB - 20 * Math.log10(h / (1 + 3 * h3)) - filter;
      });
      expect(Math.max(...errors.map(Math.abs))).toBeLessThan(0.3);
    }
    recordAccuracy({
      area: "bench",
      what: `Swept gain, 40 Hz to 18 kHz, ${what}`,
      source: "a curve and a filter worked by hand",
      reached: `${Math.max(...gains.map(Math.abs)).toFixed(4)} dB, ${Math.max(...phases.map(Math.abs)).toFixed(2)}° at worst`,
      limit: "0.01 dB, 0.5°",
    });
  });
});

test("hum does not spoil a response, and hiss alone is no sweep", () => {
  const rate_Hz = 44_100;
  const random = randomStream("swept hum");
  const signal = sent(rate_Hz, 3, sweep, 0.3);
  const { theta } = mainsPhase(random, 49.98, { kind: "steady" }, rate_Hz, signal.length);
  addComb(signal, theta, [
    { order: 1, peak: 5e-3, phase_rad: 1 },
    { order: 3, peak: 2e-3, phase_rad: 2 },
  ]);
  addNoise(signal, random, rate_Hz, 1e-7);
  const left = analyseSweep(recordingOf(rate_Hz, signal), 1, sweep, { frequencies_Hz: [45, 50, 55, 150, 1000] })
    .channels[0]!;
  expect(Math.max(...left.gain_dB.map(Math.abs))).toBeLessThan(0.1);
  const hiss = new Float64Array(3 * rate_Hz);
  addNoise(hiss, random, rate_Hz, 1e-6);
  expect(() => analyseSweep(recordingOf(rate_Hz, hiss), 1, sweep)).toThrow(/no sweep/);
  addTone(hiss, rate_Hz, 1000, 0.3, 0);
  expect(() => analyseSweep(recordingOf(rate_Hz, hiss), 1, sweep)).toThrow(/no sweep/);
});

// source: a straight wire has gain 1 and no harmonics, whatever hums beside it; hard ends ripple beyond stop/1.2
test("steady hum beside a long sweep is not taken for its own", () => {
  const rate_Hz = 16_000;
  const long = { ...sweep, stop_Hz: 6500, duration_s: 6 };
  const signal = sent(rate_Hz, 7, long, 0.5);
  addTone(signal, rate_Hz, 50, 1e-3, 0.4);
  addNoise(signal, randomStream("long sweep"), rate_Hz, 1e-8);
  const left = analyseSweep(recordingOf(rate_Hz, signal), 1, long).channels[0]!;
  left.gain_dB.forEach((dB, i) => {
    if (left.frequencies_Hz[i]! > long.stop_Hz / 1.2) return;
    expect(Math.abs(dB), `${left.frequencies_Hz[i]} Hz`).toBeLessThan(0.002 + left.doubt.gain_dB[i]!);
    expect(left.doubt.gain_dB[i]!).toBeLessThan(0.05);
  });
  const second = left.harmonics["2"]!;
  expect(Math.max(...second.level_dB.filter((_, i) => second.doubt_dB[i]! < 60))).toBeLessThan(-70);
});

test("a recording that ends early gives what it holds, and says so", () => {
  const rate_Hz = 44_100;
  const signal = sent(rate_Hz, 3, sweep, 0.3).subarray(0, 2 * rate_Hz);
  const report = analyseSweep(recordingOf(rate_Hz, signal), 1, sweep);
  expect(report.channels[0]!.frequencies_Hz.at(-1)!).toBeLessThan(7200);
  expect(Math.abs(report.channels[0]!.gain_dB.at(-1)!)).toBeLessThan(0.1);
  expect(report.notes.join(" ")).toMatch(/was not recorded/);
  expect(() => analyseSweep(recordingOf(rate_Hz, signal), 1, sweep, { frequencies_Hz: [100, 15_000] })).toThrow(
    expect.objectContaining({ path: "frequencies_Hz[1]" }),
  );
});

// source: by hand. x + 2·h₂·x²/a of a sine of peak a has a second harmonic h₂; a straight wire has gain 1
test("a long sweep is read in parts, to the same figures", () => {
  const rate_Hz = 24_000;
  const long = { ...sweep, stop_Hz: 9000, duration_s: 22 };
  const h2 = 1e-3;
  const signal = sent(rate_Hz, 23, long, 0.5, 30e-6).map((v) => v + (2 * h2 * v * v) / long.level_Vpk!);
  addTone(signal, rate_Hz, 50, 1e-3, 0.4);
  addNoise(signal, randomStream("sweep in parts"), rate_Hz, 1e-8);
  expect(piecesOf(long, rate_Hz, 6).length).toBeGreaterThan(1);
  const report = analyseSweep(recordingOf(rate_Hz, signal), 1, long, { seconds: 60 });
  expect(Math.abs(report.clockOffset_ppm - 30)).toBeLessThan(1);
  const left = report.channels[0]!;
  const inside = left.frequencies_Hz.map((f, i) => ({ f, i })).filter(({ f }) => f > 40 && f < long.stop_Hz / 1.2);
  const gains = inside.map(({ i }) => Math.abs(left.gain_dB[i]!));
  expect(Math.max(...gains)).toBeLessThan(0.005);
  const second = left.harmonics["2"]!;
  const seconds = inside
    .filter(({ f }) => f < 5000)
    .map(({ i }) => Math.abs(second.level_dB[i]! - 20 * Math.log10(h2)));
  expect(Math.max(...seconds)).toBeLessThan(0.1);
  const third = left.harmonics["3"]!;
  expect(Math.max(...inside.filter(({ f }) => f < 3500).map(({ i }) => third.level_dB[i]!))).toBeLessThan(-90);
});
