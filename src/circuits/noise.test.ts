import { expect, test } from "vitest";
import circuits from "../../reference/circuits.json" with { type: "json" };
import { type NetlistInput, outputNoise, readNetlist } from "./index.ts";
import { valveNoise_ohm } from "./noise.ts";

type PartInput = NetlistInput["parts"][number];
const noise = (parts: PartInput[], ...frequencies_Hz: number[]) => {
  const answer = outputNoise(readNetlist({ ground: "0", parts }), { output: "out", frequencies_Hz });
  if (answer.state !== "solved") throw new Error(answer.reason);
  return answer;
};
const johnson = circuits.noise.filter(({ name }) => name === "Johnson noise") as {
  inputs: { R_ohm: number; B_Hz: number };
  results: { e_uV: number };
}[];

// source: reference/circuits.json, √(4kTRB) at 293.15 K
test.each(johnson.map((row) => [row.inputs.R_ohm, row] as const))(
  "a resistor of %d ohm alone",
  (ohm, { inputs, results }) => {
    const { V_per_rtHz } = noise([{ id: "R", kind: "resistor", between: ["out", "0"], ohm }], 1000);
    expect(V_per_rtHz[0]! * Math.sqrt(inputs.B_Hz) * 1e6).toBeCloseTo(results.e_uV, 4);
  },
);

// source: worked by hand (Nyquist): any two-pole of resistors and coils makes the noise of its resistance; 1 kΩ beside
// 3 kΩ is 750 Ω, beside a capacitor less by its corner: half the power at 1/(2πRC)
test("a network makes the noise of its resistance", () => {
  const parts: PartInput[] = [
    { id: "R1", kind: "resistor", between: ["out", "0"], ohm: 1000 },
    { id: "R2", kind: "resistor", between: ["out", "0"], ohm: 3000 },
  ];
  const alone = Math.sqrt(4 * 1.380649e-23 * 293.15 * 750);
  expect(noise(parts, 1000).V_per_rtHz[0]! / alone).toBeCloseTo(1, 12);
  const corner_Hz = 1 / (2 * Math.PI * 750 * 1e-6);
  const filtered = noise([...parts, { id: "C", kind: "capacitor", between: ["out", "0"], uF: 1 }], corner_Hz);
  expect(filtered.V_per_rtHz[0]! / alone).toBeCloseTo(Math.SQRT1_2, 12);
  const coil = noise([{ id: "L", kind: "inductor", between: ["out", "0"], H: 1e-9, resistance_ohm: 750 }], 1000);
  expect(coil.V_per_rtHz[0]! / alone).toBeCloseTo(1, 9);
});

// source: worked by hand with Harris's 2.5/gm (reference/circuits.json, noise): gm 4.5 mS, rp 4444 Ω from 12 mA at a drive
// of 4 V; output power = 4kT·(2.5/gm)·(gm·R)² + 4kT·R²/RL with R = RL beside rp
test("a triode stage makes its equivalent resistance's noise times its gain, and its load's", () => {
  const { V_per_rtHz, parts } = noise(
    [
      { id: "B", kind: "voltage", between: ["ht", "0"], dc_V: 80 + 12 * 5 },
      { id: "RL", kind: "resistor", between: ["ht", "out"], ohm: 5000 },
      { id: "V1", kind: "triode", law: { mu: 20, perveance_mA_per_V1p5: 1.5 }, plate: "out", grid: "0", cathode: "0" },
    ],
    1000,
  );
  const fourKT = 4 * 1.380649e-23 * 293.15;
  const load = 1 / (1 / 5000 + 4.5e-3 / 20);
  const valve = Math.sqrt((fourKT * 2.5) / 4.5e-3) * 4.5e-3 * load;
  const resistor = Math.sqrt(fourKT / 5000) * load;
  expect(parts.V1![0]! / valve).toBeCloseTo(1, 8);
  expect(parts.RL![0]! / resistor).toBeCloseTo(1, 8);
  expect(V_per_rtHz[0]! / Math.hypot(valve, resistor)).toBeCloseTo(1, 8);
});

interface EquivalentRow {
  name: string;
  inputs: { gm_mS: number; Ia_mA?: number; Ig2_mA?: number };
  results: { Req_ohm: number };
}
// source: reference/circuits.json, noise: Harris 1941 for triodes, Spangenberg 1948 for pentodes
test.each((circuits.noise as EquivalentRow[]).filter(({ name }) => name.includes("equivalent")))(
  "$name at $inputs.gm_mS mS",
  ({ name, inputs, results }) => {
    const current_A = Float64Array.of((inputs.Ia_mA ?? 1) / 1e3, 0, (inputs.Ig2_mA ?? 0) / 1e3);
    const kind = name.startsWith("pentode") ? "pentode" : "triode";
    expect(valveNoise_ohm(kind, current_A, inputs.gm_mS / 1e3) / results.Req_ohm).toBeCloseTo(1, 5);
  },
);
