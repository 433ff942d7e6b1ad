import { describe, expect, test } from "vitest";
import { recordAccuracy } from "../../../tests/accuracy.ts";
import { boltzmann_J_per_K, charge_C } from "../junction.ts";
import { readNetlist } from "../netlist.ts";
import { capacitor, type Parts, resistor, source } from "../testing/parts.ts";
import { type Distortion, type DistortionQuestion, distortion } from "./distortion.ts";
import fixtures from "./fixtures/steady.json" with { type: "json" };

function solved(parts: Parts, question: DistortionQuestion): Distortion {
  const answer = distortion(readNetlist({ ground: "0", parts }), question);
  if (answer.state !== "solved") throw new Error(answer.reason);
  return answer;
}

/** Amplitudes 0 to 10 of a wave given by the angle of a cosine's drive, by the rectangle rule. */
function fourier(wave: (angle: number) => number, points = 1 << 14): number[] {
  const values = Array.from({ length: points }, (_, n) => wave((2 * Math.PI * n) / points));
  return Array.from({ length: 11 }, (_, k) => {
    let [re, im] = [0, 0];
    values.forEach((value, n) => {
      const angle = (2 * Math.PI * k * n) / points;
      re += value * Math.cos(angle);
      im += value * Math.sin(angle);
    });
    return ((k === 0 ? 1 : 2) * Math.hypot(re, im)) / points;
  });
}

function bisect(f: (x: number) => number, low: number, high: number): number {
  let [a, b] = [low, high];
  for (let n = 0; n < 200 && b - a > 0; n++) {
    const middle = (a + b) / 2;
    if (middle === a || middle === b) break;
    if (f(middle) > 0) b = middle;
    else a = middle;
  }
  return (a + b) / 2;
}

const relative = (found: number, wanted: number): number => Math.abs(found / wanted - 1);

describe("closed forms", () => {
  const [mu, perveance, supply_V, load] = [20, 2e-3, 250, 47_000];
  const valve: Parts[number] = {
    id: "V1",
    kind: "triode",
    plate: "a",
    grid: "g",
    cathode: "0",
    law: { mu, perveance_mA_per_V1p5: perveance * 1e3 },
  };
  const stage = [source("HT", "ht", supply_V), source("IN", "g", -5), resistor("RL", "ht", "a", load), valve];
  const plate_V = (grid_V: number): number =>
    bisect((va) => perveance * Math.max(0, grid_V + va / mu) ** 1.5 - (supply_V - va) / load, -1000, 1000);

  // source: worked by hand. i = G·E^1.5, E = Vg + (HT − R·i)/mu; differentiating twice,
  // i' = f'/(1 + f'R/mu), i'' = f''·(1 − R·i'/mu)²/(1 + f'R/mu); a small cosine A gives h2 = A·i''/(4·i')
  test("three-halves law into a resistor, small drive: the series' second term", () => {
    const amplitude_Vpk = 0.001;
    const { harmonics_pct } = solved(stage, { input: "IN", output: "a", frequency_Hz: 1000, amplitude_Vpk });
    const drive = -5 + plate_V(-5) / mu;
    const slope = 1.5 * perveance * Math.sqrt(drive);
    const curvature = (0.75 * perveance) / Math.sqrt(drive);
    const first = slope / (1 + (slope * load) / mu);
    const second = (curvature * (1 - (load / mu) * first) ** 2) / (1 + (slope * load) / mu);
    expect(relative(harmonics_pct[0]!, (100 * amplitude_Vpk * second) / (4 * first))).toBeLessThan(1e-4);
  });

  // source: the same equation solved at 16,384 angles by halving, and Fourier sums
  test.each([0.5, 5, 20])("three-halves law into a resistor, %s V: quadrature", (amplitude_Vpk) => {
    const answer = solved(stage, { input: "IN", output: "a", frequency_Hz: 1000, amplitude_Vpk });
    const wanted = fourier((angle) => plate_V(-5 + amplitude_Vpk * Math.cos(angle)));
    const worst = Math.max(
      ...answer.harmonics_pct.slice(0, 4).map((h, i) => relative(h, (100 * wanted[i + 2]!) / wanted[1]!)),
    );
    expect(worst).toBeLessThan(1e-5);
    expect(relative(answer.fundamental_Vrms * Math.SQRT2, wanted[1]!)).toBeLessThan(1e-7);
    expect(answer.mean_V).toBeCloseTo(wanted[0]!, 4);
    recordAccuracy({
      area: "circuits",
      what: `harmonics 2 to 5 of a three-halves stage driven by ${amplitude_Vpk} V`,
      source: "quadrature of the closed form",
      reached: worst.toExponential(1),
      limit: "1e-5 relative",
    });
  });

  // source: e^(z·cos x) = I₀(z) + 2·Σ I_k(z)·cos kx (Abramowitz and Stegun 9.6.34), so h_k = I_k(z)/I₁(z)
  test("a diode across a source: ratios of modified Bessel functions", () => {
    const temperature_C = 25;
    const thermal_V = (boltzmann_J_per_K / charge_C) * (temperature_C + 273.15);
    const z = 3;
    const parts: Parts = [
      source("IN", "in"),
      { id: "D1", kind: "diode", between: ["in", "out"], law: { saturation_A: 1e-9, emission: 1, temperature_C } },
    ];
    const { harmonics_pct } = solved(parts, {
      input: "IN",
      output: "out",
      frequency_Hz: 50,
      amplitude_Vpk: z * thermal_V,
      load_ohm: 1e-3,
    });
    const bessel = (k: number): number => {
      let term = (z / 2) ** k / Array.from({ length: k }, (_, i) => i + 1).reduce((a, b) => a * b, 1);
      let sum = 0;
      for (let m = 0; m < 40; m++) {
        sum += term;
        term *= (z / 2) ** 2 / ((m + 1) * (m + 1 + k));
      }
      return sum;
    };
    harmonics_pct.forEach((h, i) => {
      expect(relative(h, (100 * bessel(i + 2)) / bessel(1))).toBeLessThan(1e-6);
    });
  });

  // source: diode and resistor in series solved at 16,384 angles by halving, and Fourier sums
  test.each([1, 5, 100])("two diodes that clip %s V", (amplitude_Vpk) => {
    const law = { saturation_A: 1e-14, emission: 1, temperature_C: 25 };
    const thermal_V = (boltzmann_J_per_K / charge_C) * 298.15;
    const ohm = 10_000;
    const answer = solved(
      [
        source("IN", "in"),
        resistor("R1", "in", "a", ohm),
        { id: "D1", kind: "diode", between: ["a", "0"], law },
        { id: "D2", kind: "diode", between: ["0", "a"], law },
      ],
      { input: "IN", output: "a", frequency_Hz: 1000, amplitude_Vpk },
    );
    const wanted = fourier((angle) => {
      const volts = amplitude_Vpk * Math.cos(angle);
      return bisect((v) => v + 2 * ohm * law.saturation_A * Math.sinh(v / thermal_V) - volts, -2, 2);
    });
    for (const k of [3, 5, 7, 9]) {
      expect(relative(answer.harmonics_pct[k - 2]!, (100 * wanted[k]!) / wanted[1]!)).toBeLessThan(1e-4);
    }
    for (const k of [2, 4, 6]) expect(answer.harmonics_pct[k - 2]).toBeLessThan(1e-9);
  });

  // source: half a cosine is 1/π + cos/2 + (2/π)·Σ ±cos(2m·x)/(4m² − 1): h2 = 4/(3π), h4 = 4/(15π), odd orders none
  test("a valve straight above cut-off, biased there: half a cosine", () => {
    const answer = solved(
      [
        source("HT", "ht", 100),
        source("IN", "g"),
        {
          id: "V1",
          kind: "triode",
          plate: "ht",
          grid: "g",
          cathode: "k",
          model: {
            kind: "triode",
            current_A: 1e-3,
            mu: 1e4,
            exponent: 1,
            offset_V: -0.01,
            bend: 0,
            lowPlate_V: 0,
            softness_V: 0,
            softness: 0,
            knee_V: 0,
          },
        },
      ],
      { input: "IN", output: "k", frequency_Hz: 1000, amplitude_Vpk: 10, load_ohm: 1e-3 },
    );
    expect(relative(answer.harmonics_pct[0]!, 400 / (3 * Math.PI))).toBeLessThan(1e-4);
    expect(relative(answer.harmonics_pct[2]!, 400 / (15 * Math.PI))).toBeLessThan(1e-4);
    expect(answer.harmonics_pct[1]).toBeLessThan(0.01);
  });

  // source: voltage divider and 1/√(1 + (2πfRC)²) by hand
  test("nothing bends: output by the divider, no harmonics", () => {
    const parts = [source("IN", "in"), resistor("R1", "in", "out", 1000), capacitor("C1", "out", "0", 0.1)];
    const answer = solved(parts, {
      input: "IN",
      output: "out",
      frequency_Hz: 2000,
      amplitude_Vpk: 2,
      load_ohm: 1000,
    });
    const wanted = Math.SQRT2 * (0.5 / Math.hypot(1, 2 * Math.PI * 2000 * 500 * 1e-7));
    expect(relative(answer.output_Vrms, wanted)).toBeLessThan(1e-12);
    expect(answer.power_mW).toBeCloseTo((wanted ** 2 / 1000) * 1e3, 10);
    expect(answer.thd_pct).toBe(0);
  });

  test("a valve beside a straight path leaves it without harmonics", () => {
    const parts = [
      ...stage,
      source("HT2", "b", 10),
      resistor("R1", "g", "out", 1000),
      resistor("R2", "out", "b", 1000),
    ];
    const answer = solved(parts, { input: "IN", output: "out", frequency_Hz: 1000, amplitude_Vpk: 5 });
    expect(answer.output_Vrms).toBeCloseTo(2.5 / Math.SQRT2, 12);
    expect(Math.max(...answer.harmonics_pct)).toBeLessThan(1e-9);
  });
});

describe("independent integration in time", () => {
  // source: fixtures/steady.py, each circuit's own differential equations by scipy's Radau, periodic state by shooting
  test.each(fixtures.cases)("$name", ({ name, netlist, question, answer }) => {
    const found = distortion(readNetlist(netlist), question as DistortionQuestion);
    if (found.state !== "solved") throw new Error(found.reason);
    const errors = found.harmonics_pct.map((h, i) => Math.abs(h - answer.harmonics_pct[i]!) / answer.thd_pct);
    expect(relative(found.output_Vrms, answer.output_Vrms)).toBeLessThan(1e-5);
    expect(relative(found.thd_pct, answer.thd_pct)).toBeLessThan(1e-4);
    expect(Math.max(...errors)).toBeLessThan(1e-4);
    recordAccuracy({
      area: "circuits",
      what: `distortion of ${name}: ${answer.thd_pct.toFixed(2)} %`,
      source: "independent integration in time (scipy Radau, shooting)",
      reached: `${relative(found.thd_pct, answer.thd_pct).toExponential(1)} of THD`,
      limit: "1e-4",
    });
  });
});
