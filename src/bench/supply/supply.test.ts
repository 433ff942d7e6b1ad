import { describe, expect, test } from "vitest";
import { randomStream } from "../../maths/random.ts";
import type { Recording } from "../recording.ts";
import { analyseSupply, usualLimits } from "./supply.ts";

const rate_Hz = 44_100;

function recordingOf(
  wave: (phase: number, time_s: number) => number,
  frequency_Hz: number,
  noise: number,
  seed: string,
): Recording {
  const chance = randomStream(seed);
  const samples = new Float64Array(3 * rate_Hz).map((_, n) => {
    const time_s = n / rate_Hz;
    return wave(2 * Math.PI * frequency_Hz * time_s + 0.4, time_s) + noise * chance.normal();
  });
  return { rate_Hz, samples: [samples], truncated: false, bits: 24, float: false };
}

const limits = { ...usualLimits, nominal_V: 230 };
const judge = (recording: Recording, volts_per_V = 230 * Math.SQRT2) =>
  analyseSupply(recording, 1, { volts_per_V, limits });

describe("a supply on trial", () => {
  // source: a sine: crest factor √2, 2·acos(0.95)/π of the cycle within 5 % of the peak
  test("a clean regenerated sine at 57.03 Hz is proven", () => {
    const report = judge(recordingOf(Math.sin, 57.03, 1e-4, "clean"));
    expect(report.state).toBe("proven");
    expect(report.frequency_Hz).toBeCloseTo(57.03, 3);
    expect(report.level_Vrms).toBeCloseTo(230, 0);
    expect(report.crestFactor).toBeCloseTo(Math.SQRT2, 2);
    expect(Math.abs(report.flat_pct - (200 * Math.acos(0.95)) / Math.PI)).toBeLessThan(1.5);
    expect(report.thd_pct).toBeLessThan(0.05);
  });

  // source: a sine cut at 0.85 of its peak, its r.m.s. and fundamental by quadrature over one cycle
  test("cut peaks and the volts lost with them are found", () => {
    const cut = 0.85;
    const clipped = (phase: number) => Math.max(-cut, Math.min(cut, Math.sin(phase)));
    const points = Array.from({ length: 100_000 }, (_, i) => clipped((2 * Math.PI * i) / 100_000));
    const rms = Math.sqrt(points.reduce((sum, value) => sum + value * value, 0) / points.length);
    const first =
      (2 / points.length) *
      points.reduce((sum, value, i) => sum + value * Math.sin((2 * Math.PI * i) / points.length), 0);
    const report = judge(recordingOf(clipped, 57, 1e-4, "cut"));
    expect(report.crestFactor).toBeCloseTo(cut / rms, 2);
    expect(report.thd_pct).toBeCloseTo((100 * Math.sqrt(2 * rms ** 2 - first ** 2)) / first, 1);
    expect(report.state).toBe("refuted");
    expect(report.reasons.join(" ")).toMatch(/peaks are cut/);
    expect(report.tests.find(({ name }) => name === "level")?.state).toBe("refuted");
  });

  test("a sagging supply shows in its blocks", () => {
    const report = judge(recordingOf((phase, t) => (t > 1 && t < 1.4 ? 0.9 : 1) * Math.sin(phase), 60, 1e-4, "sag"));
    expect(report.lowest_Vrms / report.highest_Vrms).toBeCloseTo(0.9, 2);
  });

  test("near its limit nothing is claimed", () => {
    const third = 0.0206;
    const wobbling = (phase: number, t: number) =>
      Math.sin(phase) + (third + 0.002 * Math.sin(2 * Math.PI * 0.7 * t)) * Math.sin(3 * phase);
    const report = judge(recordingOf(wobbling, 50, 1e-4, "near"));
    expect(report.tests.find(({ name }) => name === "distortion")?.state).toBe("undecided");
    expect(report.state).not.toBe("proven");
  });

  test("silence, a whistle and a snippet are refused", () => {
    expect(() => judge(recordingOf(() => 0, 50, 1e-4, "still"))).toThrow(/nothing that stands out/);
    expect(() => judge(recordingOf(Math.sin, 3000, 1e-4, "whistle"))).toThrow(/a tone of 3000/);
    const short = recordingOf(Math.sin, 50, 1e-4, "short");
    expect(() => judge({ ...short, samples: [short.samples[0]!.subarray(0, 20_000)] })).toThrow(/at least 0.7 s/);
  });
});
