import { expect, test } from "vitest";
import signal from "../../reference/signal.json" with { type: "json" };
import { recordAccuracy } from "../../tests/accuracy.ts";
import ebb from "../demo/netlists/ebb.json" with { type: "json" };
import { noiseInBand, outputNoise, readNetlist } from "./index.ts";
import type { NetlistInput } from "./netlist.ts";

const fourKT = 4 * 1.380649e-23 * 293.15;

function inBand(parts: NetlistInput["parts"], output = "out") {
  const answer = noiseInBand(readNetlist({ ground: "0", parts }), { output });
  if (answer.state !== "solved") throw new Error(answer.reason);
  return answer;
}

/** A-weighting between the rows of the published table, straight in dB over log f. */
function tableA(frequency_Hz: number): number {
  const rows = signal.weighting_A.table;
  const above = rows.findIndex(({ exact_frequency_Hz }) => exact_frequency_Hz >= frequency_Hz);
  const at = Math.max(above < 0 ? rows.length - 1 : above, 1);
  const [a, b] = [rows[at - 1]!, rows[at]!];
  const share = Math.log(frequency_Hz / a.exact_frequency_Hz) / Math.log(b.exact_frequency_Hz / a.exact_frequency_Hz);
  return 10 ** ((a.A_dB + share * (b.A_dB - a.A_dB)) / 20);
}

// source: closed form √(4kTR·19980 Hz), and the same density weighted by the rows of IEC 61672-1 table 3, printed to 0.1 dB
test("a resistor's noise over the band, plain and A-weighted", () => {
  const answer = inBand([{ id: "R", kind: "resistor", between: ["out", "0"], ohm: 10_000 }]);
  expect(answer.noise_Vrms / Math.sqrt(fourKT * 10_000 * 19_980)).toBeCloseTo(1, 6);
  let weighted = 0;
  for (let f = 20.5; f < 20_000; f++) weighted += tableA(f) ** 2;
  const ratio = answer.noiseA_Vrms / Math.sqrt(fourKT * 10_000 * weighted);
  expect(Math.abs(ratio - 1)).toBeLessThan(0.01);
  expect(answer.shares).toEqual([{ part: "R", share: 1 }]);
  recordAccuracy({
    area: "Circuits",
    what: "A-weighted noise of a 10 kΩ resistor, 20 Hz to 20 kHz",
    source: `4kT·R weighted by the table of ${signal.weighting_A.source}`,
    reached: `${((ratio - 1) * 100).toFixed(2)} %`,
    limit: "1 %, the table's rounding to 0.1 dB",
  });
});

// source: closed form; white noise through one corner: ∫df/(1 + (f/fc)²) = fc·(atan(20000/fc) − atan(20/fc))
test("noise behind a capacitor falls off", () => {
  const corner_Hz = 1 / (2 * Math.PI * 10_000 * 1e-8);
  const answer = inBand([
    { id: "R", kind: "resistor", between: ["out", "0"], ohm: 10_000 },
    { id: "C", kind: "capacitor", between: ["out", "0"], uF: 0.01 },
  ]);
  const band_Hz = corner_Hz * (Math.atan(20_000 / corner_Hz) - Math.atan(20 / corner_Hz));
  expect(answer.noise_Vrms / Math.sqrt(fourKT * 10_000 * band_Hz)).toBeCloseTo(1, 5);
});

// source: Schottky 1918 by hand: 1 mA through a diode is 2q·1 mA; its slope resistance kT/q/1 mA is all that it meets
test("a diode's shot noise", () => {
  const answer = inBand([
    { id: "I", kind: "current", between: ["0", "out"], dc_mA: 1 },
    { id: "D", kind: "diode", between: ["out", "0"], law: { saturation_A: 1e-14, emission: 1, temperature_C: 25 } },
  ]);
  const slope_ohm = (1.380649e-23 * 298.15) / 1.602176634e-19 / 1e-3;
  expect(answer.noise_Vrms / (slope_ohm * Math.sqrt(2 * 1.602176634e-19 * 1e-3 * 19_980))).toBeCloseTo(1, 6);
});

// second method: the density at single frequencies, added up by the trapezium rule on a fine grid
test("Ebb's band is the sum of its density", () => {
  const netlist = readNetlist(ebb);
  const frequencies_Hz = Array.from({ length: 2001 }, (_, i) => 20 * 1000 ** (i / 2000));
  const fine = outputNoise(netlist, { output: "outL", frequencies_Hz });
  const band = noiseInBand(netlist, { output: "outL" });
  if (fine.state !== "solved" || band.state !== "solved") throw new Error("no rest");
  let power = 0;
  for (let i = 1; i <= 2000; i++) {
    const [a, b] = [fine.V_per_rtHz[i - 1]!, fine.V_per_rtHz[i]!];
    power += ((a * a + b * b) / 2) * (frequencies_Hz[i]! - frequencies_Hz[i - 1]!);
  }
  expect(band.noise_Vrms / Math.sqrt(power)).toBeCloseTo(1, 4);
  expect(band.noiseA_Vrms).toBeLessThan(band.noise_Vrms);
});
