import { expect, test } from "vitest";
import { recordAccuracy } from "../../tests/accuracy.ts";
import { randomStream } from "../maths/random.ts";
import { fitMains } from "./mains.ts";
import { addComb, addNoise, drawLines, mainsPhase, type Wander } from "./testing/synthesiser.ts";

const rms = (values: readonly number[]) => Math.sqrt(values.reduce((sum, v) => sum + v * v, 0) / values.length);

/** A bench drawn by chance: two channels on one recorder, one mains, hiss with or without flicker. */
function drawBench(seed: string, wander: Wander, seconds: number, rate_Hz: number) {
  const random = randomStream(seed);
  const length = Math.round(seconds * rate_Hz);
  const nominal_Hz = [50, 60, 57][random.integer(3)]!;
  const { theta, mean_Hz } = mainsPhase(
    random,
    nominal_Hz * (1 + 0.01 * (2 * random.uniform() - 1)),
    wander,
    rate_Hz,
    length,
  );
  const lines = [drawLines(random, 20, 1e-3), drawLines(random, 20, 3e-4)];
  const density = 10 ** (-7 + random.uniform());
  const signals = lines.map((made) => {
    const signal = new Float64Array(length);
    addComb(signal, theta, made);
    addNoise(signal, random, rate_Hz, density, random.uniform() < 0.5 ? 0 : 150);
    return signal;
  });
  return { nominal_Hz, theta, mean_Hz, lines, density, signals };
}

const wanders: [string, Wander, number][] = [
  ["steady", { kind: "steady" }, 4],
  ["walking", { kind: "walk", Hz_per_rts: 0.002 }, 8],
  ["swinging", { kind: "swing", Hz: 0.015, period_s: 7 }, 8],
];

// source: the bound √(S/T) of each line (Rife and Boorstyn 1974); at 36 dB over S/T it is 0.19 dB for 95 %
test.each(wanders)("lines of a %s mains come out at their levels", (name, wander, seconds) => {
  const strong_dB: number[] = [];
  const weak: number[] = [];
  const frequency: number[] = [];
  let false_ = 0;
  const benches = 6;
  for (let i = 0; i < benches; i++) {
    const seed = `levels ${name} ${i}`;
    const bench = drawBench(seed, wander, seconds, 8000);
    const [fit] = fitMains(bench.signals, 8000, [bench.nominal_Hz], { orders: 40 });
    expect(fit!.found, seed).toBe(true);
    frequency.push((1.96 * (fit!.frequency_Hz - bench.mean_Hz)) / fit!.doubt_Hz);
    bench.lines.forEach((made, c) => {
      for (const line of fit!.channels[c]!) {
        const peak = made.find(({ order }) => order === line.order)?.peak;
        if (peak === undefined) {
          if (line.detected) false_++;
          continue;
        }
        const noise = Math.sqrt(line.noise_V2_per_Hz / seconds);
        const over_dB = 20 * Math.log10((peak * Math.SQRT1_2) / noise);
        const measured = Math.hypot(line.re, line.im);
        if (over_dB > 36) strong_dB.push(20 * Math.log10(measured / peak));
        else if (over_dB > 6) weak.push((measured - peak) / noise);
      }
    });
  }
  const within = strong_dB.filter((e) => Math.abs(e) < 0.2).length / strong_dB.length;
  expect(strong_dB.length, name).toBeGreaterThan(30);
  expect(within, name).toBeGreaterThan(0.93);
  expect(rms(weak), name).toBeLessThan(1.2 + 1.2 / Math.sqrt(weak.length));
  expect(rms(frequency), name).toBeLessThan(2);
  expect(false_, name).toBeLessThanOrEqual(2);
  recordAccuracy({
    area: "bench",
    what: `Levels of mains lines 36 dB and more over S/T, ${name} mains`,
    source: "benches drawn by the tests' own synthesiser; bound after Rife and Boorstyn (1974)",
    reached: `${(100 * within).toFixed(0)} % within 0.2 dB; weak lines scatter ${rms(weak).toFixed(2)} times the bound`,
    limit: "95 %; 1.2 times",
  });
});

// source: Cramér-Rao bound of a comb, √(3 / (π²T³ Σ k²A²/S)), reference notes of sine fits
test("a steady mains frequency comes out near its bound", () => {
  const ratios: number[] = [];
  for (let i = 0; i < 8; i++) {
    const { nominal_Hz, mean_Hz, lines, density, signals } = drawBench(`bound ${i}`, { kind: "steady" }, 3, 8000);
    const [fit] = fitMains(signals, 8000, [nominal_Hz], { orders: 40 });
    const information = lines.flat().reduce((sum, { order, peak }) => sum + (order * peak) ** 2 / density ** 2, 0);
    const bound_Hz = Math.sqrt(3 / (Math.PI ** 2 * 3 ** 3 * information));
    ratios.push((fit!.frequency_Hz - mean_Hz) / bound_Hz);
  }
  expect(rms(ratios)).toBeLessThan(2);
});

test("noise alone has no comb", () => {
  let found = 0;
  for (let i = 0; i < 16; i++) {
    const random = randomStream(`nothing ${i}`);
    const signals = [0, 1].map(() => {
      const signal = new Float64Array(3 * 8000);
      addNoise(signal, random, 8000, 1e-7, i % 2 ? 0 : 200);
      return signal;
    });
    if (fitMains(signals, 8000, [50], { orders: 40 })[0]!.found) found++;
  }
  expect(found).toBeLessThanOrEqual(1);
});

// source: made: building and own supply, orders 8 and 7 one hertz apart
test("two families in one recording keep their lines apart", () => {
  const random = randomStream("two families");
  const rate_Hz = 8000;
  const length = 6 * rate_Hz;
  const building = mainsPhase(random, 50.02, { kind: "walk", Hz_per_rts: 0.002 }, rate_Hz, length);
  const own = mainsPhase(random, 57.003, { kind: "steady" }, rate_Hz, length);
  const signal = new Float64Array(length);
  const first = drawLines(random, 12, 1e-4);
  const second = drawLines(random, 12, 5e-4);
  addComb(signal, building.theta, first);
  addComb(signal, own.theta, second);
  addNoise(signal, random, rate_Hz, 1e-7);
  const fits = fitMains([signal], rate_Hz, [50, 57], { orders: 40 });
  expect(Math.abs(fits[0]!.frequency_Hz - building.mean_Hz)).toBeLessThan(2 * fits[0]!.doubt_Hz);
  expect(Math.abs(fits[1]!.frequency_Hz - own.mean_Hz)).toBeLessThan(2 * fits[1]!.doubt_Hz);
  [first, second].forEach((made, f) => {
    for (const { order, peak } of made) {
      const line = fits[f]!.channels[0]![order - 1]!;
      expect(Math.abs(line.level_Vrms - peak * Math.SQRT1_2), `family ${f} order ${order}`).toBeLessThan(
        2.2 * line.doubt_Vrms,
      );
    }
  });
});
