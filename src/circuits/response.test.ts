import { readFileSync } from "node:fs";
import { join } from "node:path";
import { expect, test } from "vitest";
import circuits from "../../reference/circuits.json" with { type: "json" };
import { recordAccuracy } from "../../tests/accuracy.ts";
import { type NetlistInput, type Output, readNetlist, response, solveRest } from "./index.ts";

type PartInput = NetlistInput["parts"][number];
const at = (parts: PartInput[], input: string, output: Output, ...frequencies_Hz: number[]) => {
  const answer = response(readNetlist({ ground: "0", parts }), { input, output, frequencies_Hz });
  if (answer.state !== "solved") throw new Error(answer.reason);
  return answer;
};
/** Gain as a ratio with sign, for circuits without phase between. */
const ratio = (parts: PartInput[], input: string, output: Output): number => {
  const { gain_dB, phase_deg } = at(parts, input, output, 1000);
  return 10 ** (gain_dB[0]! / 20) * Math.sign(Math.cos((phase_deg[0]! * Math.PI) / 180));
};
const source = (id: string, node: string, dc_V = 0): PartInput => ({ id, kind: "voltage", between: [node, "0"], dc_V });
const resistor = (id: string, a: string, b: string, ohm: number): PartInput => ({
  id,
  kind: "resistor",
  between: [a, b],
  ohm,
});
const bypass = (id: string, node: string): PartInput => ({ id, kind: "capacitor", between: [node, "0"], uF: 1e9 });
const reference = <R>(name: string) => circuits.smallSignal.find((row) => row.name.startsWith(name)) as unknown as R;

/**
 * A three-halves valve that, with 4 V of drive, has just this mu and rp: gm = 1.5·G·√4 = mu/rp, current G·8.
 * The plate then stands `plate_V(grid)` = mu·(4 − grid) over the cathode.
 */
const valve = (id: string, mu: number, rp_ohm: number, plate: string, grid: string, cathode: string) => {
  const perveance_mA_per_V1p5 = (1e3 * mu) / rp_ohm / 3;
  const part: PartInput = { id, kind: "triode", law: { mu, perveance_mA_per_V1p5 }, plate, grid, cathode };
  return { part, current_A: (perveance_mA_per_V1p5 * 8) / 1e3, plate_V: (grid_V: number) => mu * (4 - grid_V) };
};

// source: worked by hand; at 1/(2πRC) a low pass loses 10·lg 2 = 3.0103 dB and turns by −45°, and |Z| = √2·R
test("an RC low pass at its corner", () => {
  const corner_Hz = 1 / (2 * Math.PI * 10e3 * 10e-9);
  const parts: PartInput[] = [
    source("IN", "in"),
    resistor("R", "in", "out", 10e3),
    { id: "C", kind: "capacitor", between: ["out", "0"], uF: 0.01 },
  ];
  const { gain_dB, phase_deg, inputImpedance_ohm, outputImpedance_ohm } = at(parts, "IN", "out", corner_Hz);
  expect(gain_dB[0]).toBeCloseTo(-10 * Math.log10(2), 10);
  expect(phase_deg[0]).toBeCloseTo(-45, 10);
  expect(inputImpedance_ohm[0]).toBeCloseTo(10e3 * Math.SQRT2, 6);
  expect(outputImpedance_ohm[0]).toBeCloseTo(10e3 / Math.SQRT2, 6);
});

// source: worked by hand; a series resonance of 1 H and 1 µF at 159.155 Hz leaves the coil's 100 Ω
test("a series resonance leaves the coil's resistance", () => {
  const parts: PartInput[] = [
    source("IN", "in"),
    { id: "L", kind: "inductor", between: ["in", "a"], H: 1, resistance_ohm: 100 },
    { id: "C", kind: "capacitor", between: ["a", "0"], uF: 1 },
  ];
  const { gain_dB, phase_deg, inputImpedance_ohm } = at(parts, "IN", "a", 1000 / (2 * Math.PI));
  expect(inputImpedance_ohm[0]).toBeCloseTo(100, 8);
  expect(gain_dB[0]).toBeCloseTo(20, 9);
  expect(phase_deg[0]).toBeCloseTo(-90, 7);
});

// source: worked by hand; capacitors of 1 and 3 µF divide by four, though nothing sets their direct voltage
test("a capacitive divider needs no path for direct current", () => {
  const parts: PartInput[] = [
    source("IN", "in"),
    { id: "C1", kind: "capacitor", between: ["in", "out"], uF: 1 },
    { id: "C2", kind: "capacitor", between: ["out", "0"], uF: 3 },
  ];
  expect(ratio(parts, "IN", "out")).toBeCloseTo(0.25, 12);
});

interface CommonCathode {
  inputs: { mu: number; rp_ohm: number; plateLoad_ohm: number; nextGrid_ohm: number; cathode_ohm?: number };
  results: { gain: number; zout_ohm: number };
}
const stage = (
  { mu, rp_ohm, plateLoad_ohm, nextGrid_ohm }: CommonCathode["inputs"],
  cathode_ohm: number,
  bypassed: boolean,
): PartInput[] => {
  const v = valve("V1", mu, rp_ohm, "a", "in", "k");
  const cathode_V = v.current_A * cathode_ohm;
  return [
    source("B", "ht", v.current_A * plateLoad_ohm + v.plate_V(-cathode_V) + cathode_V),
    source("IN", "in"),
    v.part,
    resistor("RL", "ht", "a", plateLoad_ohm),
    resistor("RK", "k", "0", cathode_ohm),
    { id: "CC", kind: "capacitor", between: ["a", "out"], uF: 1e6 },
    resistor("RG", "out", "0", nextGrid_ohm),
    ...(bypassed ? [bypass("CK", "k")] : []),
  ];
};
/** The formulas of the source leave the next grid's resistor out of the output impedance; it stands in the net list. */
const beside = (a: number, b: number): number => 1 / (1 / a + 1 / b);

// source: reference/circuits.json, Radiotron Designer's Handbook 4th ed. ch. 12 and 7: A = −mu·RL/(RL + rp [+ (mu + 1)·Rk])
test.each([
  ["common cathode, cathode bypassed", true],
  ["common cathode, cathode not bypassed", false],
] as const)("%s", (name, bypassed) => {
  const { inputs, results } = reference<CommonCathode>(name);
  const parts = stage(inputs, inputs.cathode_ohm ?? 1800, bypassed);
  expect(ratio(parts, "IN", "out") / results.gain).toBeCloseTo(1, 5);
  const { outputImpedance_ohm } = at(parts, "IN", "out", 1000);
  expect(outputImpedance_ohm[0]! / beside(results.zout_ohm, inputs.nextGrid_ohm)).toBeCloseTo(1, 5);
  recordAccuracy({
    area: "circuits",
    what: name,
    source: "Radiotron Designer's Handbook, 4th ed., ch. 7 and 12 (reference/circuits.json)",
    reached: `${Math.abs(ratio(parts, "IN", "out") / results.gain - 1).toExponential(1)} relative`,
    limit: "printed in 6 digits",
  });
});

// source: reference/circuits.json, partial bypass: shelf between f1 and f2, ratio f2/f1
test("a cathode capacitor makes a shelf", () => {
  const { inputs, results } = reference<{
    inputs: { mu: number; rp_ohm: number; RL_ohm: number; cathode_ohm: number; Ck_uF: number };
    results: { f1_Hz: number; f2_Hz: number; ratio: number };
  }>("partial bypass");
  const plain: PartInput[] = stage(
    { mu: inputs.mu, rp_ohm: inputs.rp_ohm, plateLoad_ohm: inputs.RL_ohm, nextGrid_ohm: 1e14 },
    inputs.cathode_ohm,
    false,
  );
  const parts: PartInput[] = [...plain, { id: "CK", kind: "capacitor", between: ["k", "0"], uF: inputs.Ck_uF }];
  const { gain_dB } = at(parts, "IN", "out", 1e-3, results.f1_Hz, results.f2_Hz, 1e5);
  expect(10 ** ((gain_dB[3]! - gain_dB[0]!) / 20)).toBeCloseTo(results.ratio, 4);
  // |H(f)/H(0)|² = (1 + (f/f1)²)/(1 + (f/f2)²)
  const r2 = results.ratio ** 2;
  expect(gain_dB[1]! - gain_dB[0]!).toBeCloseTo(10 * Math.log10(2 / (1 + 1 / r2)), 4);
  expect(gain_dB[2]! - gain_dB[0]!).toBeCloseTo(10 * Math.log10((1 + r2) / 2), 4);
});

// source: reference/circuits.json, cathode follower: A = mu·RL/(rp + (mu + 1)·RL), Zout = rp/(mu + 1) ∥ Rk
test.each(["cathode follower", "cathode follower, 6AS7G section into 300 ohm headphone"])("%s", (name) => {
  const { inputs, results } = circuits.smallSignal.find((row) => row.name === name) as unknown as {
    inputs: { mu: number; rp_ohm: number; cathode_ohm: number; load_ohm?: number };
    results: { gain: number; zout_ohm: number };
  };
  const v = valve("V1", inputs.mu, inputs.rp_ohm, "ht", "in", "k");
  const cathode_V = v.current_A * inputs.cathode_ohm;
  const parts: PartInput[] = [
    source("B", "ht", v.plate_V(-1) + cathode_V),
    source("IN", "in", cathode_V - 1),
    v.part,
    resistor("RK", "k", "0", inputs.cathode_ohm),
  ];
  expect(at(parts, "IN", "k", 1000).outputImpedance_ohm[0]! / results.zout_ohm).toBeCloseTo(1, 5);
  const load: PartInput[] =
    inputs.load_ohm === undefined
      ? []
      : [{ id: "CO", kind: "capacitor", between: ["k", "out"], uF: 1e9 }, resistor("RL", "out", "0", inputs.load_ohm)];
  expect(ratio([...parts, ...load], "IN", load.length > 0 ? "out" : "k") / results.gain).toBeCloseTo(1, 5);
});

// source: reference/circuits.json, grounded grid: A = (mu + 1)·RL/(rp + RL), Zin = (rp + RL)/(mu + 1)
test("grounded grid", () => {
  const { inputs, results } = reference<{
    inputs: { mu: number; rp_ohm: number; plateLoad_ohm: number };
    results: { gain: number; zin_ohm: number };
  }>("grounded grid");
  const v = valve("V1", inputs.mu, inputs.rp_ohm, "a", "0", "k");
  const parts: PartInput[] = [
    source("B", "ht", v.current_A * inputs.plateLoad_ohm + v.plate_V(-2) + 2),
    source("IN", "k", 2),
    v.part,
    resistor("RL", "ht", "a", inputs.plateLoad_ohm),
  ];
  expect(ratio(parts, "IN", "a") / results.gain).toBeCloseTo(1, 5);
  expect(at(parts, "IN", "a", 1000).inputImpedance_ohm[0]! / results.zin_ohm).toBeCloseTo(1, 5);
});

// source: reference/circuits.json, White follower: printed gain 0.97 and 3.44 Ω in a journal article of 1999
test("White cathode follower", () => {
  const { inputs, results } = reference<{
    inputs: { mu: number; rp_ohm: number; upperPlateResistor_ohm: number };
    results: { gain: number; zout_ohm: number };
  }>("White cathode follower");
  const upper = valve("V1", inputs.mu, inputs.rp_ohm, "p", "in", "out");
  const lower = valve("V2", inputs.mu, inputs.rp_ohm, "out", "g", "k");
  const cathode_V = 200 * lower.current_A;
  const out_V = cathode_V + lower.plate_V(-cathode_V);
  const parts: PartInput[] = [
    source("B", "ht", out_V + upper.plate_V(-1) + upper.current_A * inputs.upperPlateResistor_ohm),
    source("IN", "in", out_V - 1),
    upper.part,
    lower.part,
    resistor("RA", "ht", "p", inputs.upperPlateResistor_ohm),
    { id: "CG", kind: "capacitor", between: ["p", "g"], uF: 1e3 },
    resistor("RG", "g", "0", 1e12),
    resistor("RK", "k", "0", 200),
    bypass("CK", "k"),
  ];
  expect(ratio(parts, "IN", "out") / results.gain).toBeCloseTo(1, 5);
  expect(at(parts, "IN", "out", 1000).outputImpedance_ohm[0]! / results.zout_ohm).toBeCloseTo(1, 5);
});

// source: reference/circuits.json, two valves in series with the output at the upper cathode
test("series-balanced stage", () => {
  const { inputs, results } = reference<{
    inputs: { mu: number; rp_ohm: number; R_ohm: number };
    results: { gain: number; zout_ohm: number };
  }>("SRPP");
  const lower = valve("V1", inputs.mu, inputs.rp_ohm, "a", "in", "k");
  const upper = valve("V2", inputs.mu, inputs.rp_ohm, "ht", "a", "out");
  const bias_V = lower.current_A * inputs.R_ohm;
  const parts: PartInput[] = [
    source("B", "ht", 2 * (bias_V + lower.plate_V(-bias_V))),
    source("IN", "in"),
    lower.part,
    upper.part,
    resistor("R", "out", "a", inputs.R_ohm),
    resistor("RK", "k", "0", inputs.R_ohm),
    bypass("CK", "k"),
  ];
  expect(ratio(parts, "IN", "out") / results.gain).toBeCloseTo(1, 5);
  expect(at(parts, "IN", "out", 1000).outputImpedance_ohm[0]! / results.zout_ohm).toBeCloseTo(1, 5);
});

// source: reference/circuits.json, long-tailed pair; the differential gain between the plates is its own column
test("long-tailed pair, and an output between two nodes", () => {
  const { inputs, results } = reference<{
    inputs: { mu: number; rp_ohm: number; plateLoad_ohm: number; tail_ohm: number };
    results: { gain1: number; gain2: number };
  }>("long-tailed");
  const one = valve("V1", inputs.mu, inputs.rp_ohm, "a1", "in", "k");
  const two = valve("V2", inputs.mu, inputs.rp_ohm, "a2", "g2", "k");
  const tail_V = 2 * one.current_A * inputs.tail_ohm;
  const parts: PartInput[] = [
    source("B", "ht", tail_V + one.plate_V(-1) + one.current_A * inputs.plateLoad_ohm),
    source("IN", "in", tail_V - 1),
    source("G2", "g2", tail_V - 1),
    one.part,
    two.part,
    resistor("RL1", "ht", "a1", inputs.plateLoad_ohm),
    resistor("RL2", "ht", "a2", inputs.plateLoad_ohm),
    resistor("RT", "k", "0", inputs.tail_ohm),
  ];
  expect(ratio(parts, "IN", "a1") / results.gain1).toBeCloseTo(1, 4);
  expect(ratio(parts, "IN", "a2") / results.gain2).toBeCloseTo(1, 4);
  expect(ratio(parts, "IN", ["a2", "a1"]) / (results.gain2 - results.gain1)).toBeCloseTo(1, 4);
});

// source: worked by hand; 10:1 sees 100·(8 + 0.5) + 100 Ω at mid band, the secondary stands at its share of a tenth;
// seen from the load: 0.5 + 100/100 Ω with the source at zero
test("an output transformer reflects its load", () => {
  const parts: PartInput[] = [
    source("IN", "in"),
    {
      id: "T",
      kind: "transformer",
      windings: [
        { between: ["in", "0"], turns: 1000, resistance_ohm: 100 },
        { between: ["s", "0"], turns: 100, resistance_ohm: 0.5 },
      ],
    },
    resistor("RL", "s", "0", 8),
  ];
  expect(ratio(parts, "IN", "s")).toBeCloseTo(((0.1 * 850) / 950) * (8 / 8.5), 10);
  const { inputImpedance_ohm, outputImpedance_ohm } = at(parts, "IN", "s", 1000);
  expect(inputImpedance_ohm[0]).toBeCloseTo(950, 8);
  expect(outputImpedance_ohm[0]).toBeCloseTo(beside(8, 1.5), 8);
});

// source: worked by hand; with the secondary shorted only the leakage is left, with it open leakage and magnetising
// inductance; the bass corner is R/(2πL) with R the source beside the reflected load
test("a transformer's inductances show where they are measured", () => {
  const transformer = { id: "T", kind: "transformer", primaryInductance_H: 20, leakage_H: 0.01 } as const;
  const windings: Extract<PartInput, { kind: "transformer" }>["windings"] = [
    { between: ["p", "0"], turns: 1000 },
    { between: ["s", "0"], turns: 100 },
  ];
  const seen = (load: PartInput) =>
    at([source("IN", "p"), { ...transformer, windings }, load], "IN", "s", 100).inputImpedance_ohm[0]!;
  expect(seen({ id: "S", kind: "switch", between: ["s", "0"], closed: true }) / (2 * Math.PI * 100 * 0.01)).toBeCloseTo(
    1,
    4,
  );
  expect(seen(resistor("R", "s", "0", 1e14)) / (2 * Math.PI * 100 * 20.01)).toBeCloseTo(1, 9);

  const corner_Hz = 400 / (2 * Math.PI * 20);
  const bass: PartInput[] = [
    source("IN", "in"),
    resistor("RS", "in", "p", 800),
    { ...transformer, leakage_H: 0, windings },
    resistor("R", "s", "0", 8),
  ];
  const { gain_dB } = at(bass, "IN", "s", corner_Hz, 1e5);
  expect(gain_dB[1]! - gain_dB[0]!).toBeCloseTo(10 * Math.log10(2), 6);
});

// source: worked by hand; with more than two windings each carries half the leakage by turns squared, so that the halves
// of a push-pull primary are alike and any one shorted shows the whole at another, by their turns squared
test("leakage of three windings is the same whichever half is asked", () => {
  const windings = (["a", "b", "s"] as const).map((node, i) => ({
    between: [node, "0"] as [string, string],
    turns: i === 2 ? 100 : 500,
    resistance_ohm: 1e-6,
  }));
  const seen = (driven: string, shorted: string) =>
    at(
      [
        source("IN", driven),
        { id: "T", kind: "transformer", windings, leakage_H: 0.01 },
        resistor("R", shorted, "0", 1e-6),
        ...["a", "b", "s"].filter((n) => n !== driven && n !== shorted).map((n) => resistor(`O${n}`, n, "0", 1e12)),
      ],
      "IN",
      driven,
      1000,
    ).inputImpedance_ohm[0]!;
  const whole_ohm = 2 * Math.PI * 1000 * 0.01;
  expect(seen("a", "b") / whole_ohm).toBeCloseTo(1, 6);
  expect(seen("b", "s") / whole_ohm).toBeCloseTo(1, 6);
  expect(seen("s", "a") / (whole_ohm / 25)).toBeCloseTo(1, 6);
});

// source: worked by hand; a 1 mA source into 10 kΩ beside 30 kΩ: gain against its own voltage 1, 7.5 kΩ both ways
test("a current source is measured against its own voltage", () => {
  const parts: PartInput[] = [
    { id: "I", kind: "current", between: ["0", "x"], ac_mA: 1 },
    resistor("R1", "x", "0", 10e3),
    resistor("R2", "x", "y", 20e3),
    resistor("R3", "y", "0", 10e3),
  ];
  const { gain_dB, phase_deg, inputImpedance_ohm, outputImpedance_ohm } = at(parts, "I", "y", 50);
  expect(gain_dB[0]).toBeCloseTo(20 * Math.log10(1 / 3), 10);
  expect(phase_deg[0]).toBeCloseTo(0, 10);
  expect(inputImpedance_ohm[0]).toBeCloseTo(7500, 8);
  expect(outputImpedance_ohm[0]).toBeCloseTo(7500, 8);
});

// source: contract; other sources stand at zero whatever their ac_V
test("only the input is driven", () => {
  const parts = (ac_V: number): PartInput[] => [
    { ...source("IN", "in"), ac_V: 5 } as PartInput,
    { ...source("IN2", "in2"), ac_V } as PartInput,
    resistor("R1", "in", "out", 1000),
    resistor("R2", "in2", "out", 1000),
  ];
  expect(ratio(parts(0), "IN", "out")).toBeCloseTo(0.5, 12);
  expect(ratio(parts(7), "IN", "out")).toBeCloseTo(0.5, 12);
});

test("no signal and no current have answers that are numbers", () => {
  const parts: PartInput[] = [
    source("IN", "in"),
    source("B", "ht", 100),
    resistor("R", "ht", "0", 1000),
    resistor("R2", "in", "x", 1000),
  ];
  const { gain_dB, phase_deg, inputImpedance_ohm, outputImpedance_ohm, notes } = at(parts, "IN", "ht", 1000);
  expect([gain_dB[0], phase_deg[0], outputImpedance_ohm[0]]).toEqual([-400, 0, 0]);
  expect(inputImpedance_ohm[0]).toBe(1e15);
  expect(notes.join()).toMatch(/nothing arrives.*no current/);
});

// source: reference/circuits.json, 12AX7 stage of a textbook, with the slopes that differentiating its own curve gives
test("a published 12AX7 stage, from the published curve parameters", () => {
  const { inputs, results, resultsByDifferentiation } = circuits.solvedStages[0]!;
  const model = {
    kind: "triode",
    current_A: 2 / inputs.kG1,
    mu: inputs.mu,
    exponent: inputs.x,
    offset_V: 0,
    bend: 0,
    lowPlate_V: Math.sqrt(inputs.kVB),
    softness_V: 0,
    softness: 1 / inputs.kP,
    knee_V: 0,
  } as const;
  const parts: PartInput[] = [
    source("B", "ht", inputs.supply_V),
    source("IN", "in"),
    { id: "V1", kind: "triode", model, plate: "a", grid: "in", cathode: "k" },
    resistor("RL", "ht", "a", inputs.plateLoad_ohm),
    resistor("RK", "k", "0", inputs.cathode_ohm),
  ];
  const rest = solveRest(readNetlist({ ground: "0", parts }));
  if (rest.state !== "solved") throw new Error(rest.reason);
  const v = rest.parts.V1!;
  // Printed precision: three digits.
  expect(v.plate_mA).toBeCloseTo(results.plate_mA, 2);
  expect(Math.abs(v.plate_V! - results.plateCathode_V)).toBeLessThan(0.5);
  expect(v.grid_V).toBeCloseTo(results.gridCathode_V, 2);
  expect(v.gm_mS).toBeCloseTo(results.gm_mS, 2);
  expect(v.rp_ohm! / resultsByDifferentiation.rp_ohm).toBeCloseTo(1, 4);
  expect(v.mu! / resultsByDifferentiation.mu).toBeCloseTo(1, 4);
  expect(ratio(parts, "IN", "a") / resultsByDifferentiation.gainUnbypassed).toBeCloseTo(1, 4);
  expect(ratio([...parts, bypass("CK", "k")], "IN", "a") / resultsByDifferentiation.gainBypassed).toBeCloseTo(1, 4);
  recordAccuracy({
    area: "circuits",
    what: "12AX7 stage from published curve parameters: current, voltages, gm",
    source: "university electronics textbook, ch. 6 (reference/circuits.json)",
    reached: `${v.plate_mA!.toFixed(4)} mA, ${v.plate_V!.toFixed(2)} V, ${v.grid_V!.toFixed(4)} V, ${v.gm_mS!.toFixed(3)} mS`,
    limit: "printed 1.07 mA, 221 V, −1.61 V, 1.88 mS",
  });
});

interface Solved {
  netlist: unknown;
  output: string;
  response: {
    frequency_Hz: number;
    gain_re: number;
    gain_im: number;
    inputImpedance_ohm: number;
    outputImpedance_ohm: number;
  }[];
}

// source: fixtures/ladders.py, an independent solution by numpy's complex solver
test("random ladders with valves answer as an independent solution does", () => {
  const ladders = JSON.parse(readFileSync(join(import.meta.dirname, "fixtures/ladders.json"), "utf8")) as Solved[];
  let worst = 0;
  for (const { netlist, output, response: wanted } of ladders) {
    const { parts } = readNetlist(netlist);
    const got = at(parts, "IN", output, ...wanted.map((w) => w.frequency_Hz));
    wanted.forEach((w, i) => {
      const size = 10 ** (got.gain_dB[i]! / 20);
      const angle = (got.phase_deg[i]! * Math.PI) / 180;
      const off = Math.hypot(size * Math.cos(angle) - w.gain_re, size * Math.sin(angle) - w.gain_im);
      worst = Math.max(
        worst,
        off / Math.hypot(w.gain_re, w.gain_im),
        Math.abs(got.inputImpedance_ohm[i]! / w.inputImpedance_ohm - 1),
        Math.abs(got.outputImpedance_ohm[i]! / w.outputImpedance_ohm - 1),
      );
    });
  }
  expect(worst).toBeLessThan(1e-8);
  recordAccuracy({
    area: "circuits",
    what: "gain, phase, input and output impedance of eight random ladders with three-halves valves",
    source: "independent solution in numpy, src/circuits/fixtures/ladders.py",
    reached: `${worst.toExponential(1)} relative`,
    limit: "1e-6 relative",
  });
});
