import { expect, test } from "vitest";
import { randomStream } from "../../maths/random.ts";
import { addNoise } from "../testing/synthesiser.ts";
import { highPassOf } from "./highPass.ts";
import { analyseSwitchOn, type SwitchOnQuestion } from "./switchOn.ts";

const rate_Hz = 8000;
const question: SwitchOnQuestion = { coupling: "dc", load_ohm: 300, settled_mV: 15 };

/** A jack that jumps to `peak_V` at 1.5 s and falls to its rest, behind a first-order high-pass where a corner is given. */
function jack(peak_V: number, fall_s: number, rest_V: number, noise: number, corner_Hz = 0, seconds = 8) {
  const signal = new Float64Array(seconds * rate_Hz).map((_, n) => {
    const t = n / rate_Hz - 1.5;
    if (t < 0) return 0;
    // source: x = p·e^{−t/τ} + r through s/(s + ω) is p·(e^{−ωt}·ω − e^{−t/τ}/τ)/(ω − 1/τ) + r·e^{−ωt}
    const w = 2 * Math.PI * corner_Hz;
    const a = 1 / fall_s;
    const slow = Math.exp(-w * t);
    return w === 0
      ? peak_V * Math.exp(-a * t) + rest_V
      : (peak_V * (w * slow - a * Math.exp(-a * t))) / (w - a) + rest_V * slow;
  });
  addNoise(signal, randomStream(`jack ${peak_V} ${corner_Hz}`), rate_Hz, noise);
  return signal.map((value) => (value + 0.02) / 4);
}

const of = (signal: Float64Array, more: Partial<SwitchOnQuestion> = {}) =>
  analyseSwitchOn({ rate_Hz, samples: [signal], truncated: false, bits: 24, float: true }, 4, { ...question, ...more });

// source: by hand. 2 V that falls with 0.2 s stays above 15 mV for 0.2·ln(2/0.015) s and puts p²τ/2R into 300 ohm
test("a pulse that falls, and what stays, come out as made", () => {
  const { channels, seesDirectVoltage } = of(jack(2, 0.2, 0.006, 1e-6), {
    limits: { rest_mV: 15, pulse_Vpk: 1, settle_s: 5, energy_mJ: 5 },
  });
  const [left] = channels;
  expect(seesDirectVoltage).toBe(true);
  expect(left!.switched_s).toBeCloseTo(1.5, 3);
  expect(Math.abs(left!.rest_mV! - 6)).toBeLessThan(Math.max(left!.doubt.rest_mV!, 0.02));
  expect(left!.pulse_Vpk).toBeCloseTo(2.006, 2);
  expect(Math.abs(left!.settle_s! - 0.2 * Math.log(2 / 0.015))).toBeLessThan(0.02);
  expect(left!.energy_mJ / ((1000 * 4 * 0.2) / 2 / 300)).toBeCloseTo(1, 2);
  expect(left!.tests.map(({ name, state }) => `${name} ${state}`)).toEqual([
    "rest proven",
    "pulse refuted",
    "settling proven",
    "energy proven",
  ]);
});

// source: the same pulse worked through a high-pass by hand; undoing it must give the pulse back within the doubt
test("a recorder that forgets says so, and its doubt reaches to what it hid", () => {
  const signal = jack(2, 0.2, 0.3, 1e-6, 2);
  const blind = of(signal, { coupling: "ac" });
  expect(blind.channels[0]!.rest_mV).toBeUndefined();
  expect(blind.notes.join(" ")).toMatch(/passes no direct voltage/);
  const frequencies_Hz = [5, 10, 20, 40, 80, 160];
  const gain_dB = frequencies_Hz.map((f) => -10 * Math.log10(1 + (2 / f) ** 2));
  const highPass = highPassOf(frequencies_Hz, gain_dB)!;
  expect(Math.abs(highPass.corner_Hz - 2)).toBeLessThan(Math.max(highPass.doubt_Hz, 0.1));
  const told = of(signal, { coupling: "ac", highPass });
  expect(told.seesDirectVoltage).toBe(false);
  expect(told.notes.join(" ")).toMatch(/high-pass at/);
  const { energy_mJ, doubt } = told.channels[0]!;
  expect(Math.abs(energy_mJ - (1000 * 4 * 0.2) / 2 / 300)).toBeLessThan(3 * doubt.energy_mJ);
  expect(
    highPassOf(
      frequencies_Hz,
      frequencies_Hz.map(() => 0.01),
    )!.corner_Hz,
  ).toBe(0);
});

test("no pulse, a late start, a cut pulse, a record that ends early and a dead input are told apart", () => {
  const quiet = of(jack(0, 0.2, 0, 1e-6)).channels[0]!;
  expect(quiet.reasons.join(" ")).toMatch(/no pulse stands out/);
  expect(quiet.doubt.pulse_Vpk).toBe(quiet.pulse_Vpk);
  const late = of(jack(2, 0.2, 0.006, 1e-6).subarray(1.52 * rate_Hz), { limits: { rest_mV: 15 } });
  expect(late.channels[0]!.state).toBe("undecided");
  expect(late.notes.join(" ")).toMatch(/before switching on/);
  const cut = jack(2, 0.2, 0, 1e-6).map((value) => Math.min(0.25, value * 2) * 4);
  const clipped = of(cut, { limits: { pulse_Vpk: 6 } }).channels[0]!;
  expect([clipped.clipped, clipped.state]).toEqual([true, "undecided"]);
  const short = of(jack(2, 2, 0, 1e-6, 0, 4), { limits: { settle_s: 10 } }).channels[0]!;
  expect(short.settle_s).toBeUndefined();
  expect(short.state).toBe("undecided");
  expect(() => of(new Float64Array(16_000).fill(0.1))).toThrow(expect.objectContaining({ path: "recording" }));
});
