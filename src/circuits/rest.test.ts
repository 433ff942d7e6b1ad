import { readFileSync } from "node:fs";
import { join } from "node:path";
import { expect, test } from "vitest";
import { recordAccuracy } from "../../tests/accuracy.ts";
import { type NetlistInput, readNetlist, solveRest } from "./index.ts";

type PartInput = NetlistInput["parts"][number];
const rest = (...parts: PartInput[]) => {
  const solved = solveRest(readNetlist({ ground: "0", parts }));
  if (solved.state !== "solved") throw new Error(solved.reason);
  return solved;
};
const supply = (volts: number, node = "ht"): PartInput => ({
  id: `B${node}`,
  kind: "voltage",
  between: [node, "0"],
  dc_V: volts,
});
const resistor = (id: string, a: string, b: string, ohm: number): PartInput => ({
  id,
  kind: "resistor",
  between: [a, b],
  ohm,
});

// source: worked by hand; 12 V over 1 kΩ + 3 kΩ is 3 mA, 9 V at the tap, 9 mW and 27 mW
test("a divider divides, and current runs from the first end to the second", () => {
  const { nodes, parts } = rest(supply(12), resistor("R1", "ht", "tap", 1000), resistor("R2", "tap", "0", 3000));
  expect(nodes.tap).toBeCloseTo(9, 12);
  expect(nodes["0"]).toBe(0);
  expect(parts.R1).toEqual({
    current_mA: expect.closeTo(3, 12),
    voltage_V: expect.closeTo(3, 12),
    power_mW: expect.closeTo(9, 11),
  });
  expect(parts.Bht!.current_mA).toBeCloseTo(-3, 12);
  expect(parts.Bht!.power_mW).toBeCloseTo(-36, 11);
});

// source: worked by hand after Thévenin; arms 1k/2k and 3k/1k on 10 V: open 6.6667 and 2.5 V, source resistances
// 2000/3 and 750 Ω, bridge 1 kΩ: I = (20/3 − 2.5)/(2000/3 + 750 + 1000) = 1.724138 mA
test("a loaded bridge", () => {
  const { parts } = rest(
    supply(10),
    resistor("R1", "ht", "x", 1000),
    resistor("R2", "x", "0", 2000),
    resistor("R3", "ht", "y", 3000),
    resistor("R4", "y", "0", 1000),
    resistor("RB", "x", "y", 1000),
  );
  expect(parts.RB!.current_mA).toBeCloseTo((1000 * (20 / 3 - 2.5)) / (2000 / 3 + 1750), 12);
});

// source: contract; a current source delivers dc_mA out of its second end. 2 mA into 5 kΩ is 10 V.
test("a current source delivers out of its second end", () => {
  const { nodes, parts } = rest(
    { id: "I", kind: "current", between: ["0", "x"], dc_mA: 2 },
    resistor("R", "x", "0", 5000),
  );
  expect(nodes.x).toBeCloseTo(10, 12);
  expect(parts.I).toEqual({ current_mA: 2, voltage_V: expect.closeTo(-10, 12), power_mW: expect.closeTo(-20, 12) });
});

// source: worked by hand: with a drive of 4 V, perveance 1.5 gives 1.5·4^1.5 = 12 mA; 500 Ω puts the cathode at 6 V, so
// the plate must stand at mu·(4 + 6) = 200 V over it, and 5 kΩ drops 60 V: supply 266 V. gm = 1.5·1.5·√4 = 4.5 mS.
test("a three-halves valve with cathode bias rests where the hand says", () => {
  const { nodes, parts } = rest(
    supply(266),
    resistor("RA", "ht", "a", 5000),
    resistor("RK", "k", "0", 500),
    resistor("RG", "g", "0", 1e6),
    { id: "V1", kind: "triode", law: { mu: 20, perveance_mA_per_V1p5: 1.5 }, plate: "a", grid: "g", cathode: "k" },
  );
  const off = Math.max(
    ...[
      [nodes.a!, 206],
      [nodes.k!, 6],
      [parts.V1!.plate_mA!, 12],
      [parts.V1!.gm_mS!, 4.5],
      [parts.V1!.rp_ohm!, 20_000 / 4.5],
      [parts.V1!.mu!, 20],
      [parts.V1!.plate_V!, 200],
      [parts.V1!.grid_V!, -6],
      [parts.V1!.dissipation_W!, 2.4],
    ].map(([got, want]) => Math.abs(got! / want! - 1)),
  );
  expect(off).toBeLessThan(1e-9);
  expect(parts.V1!.current_mA).toBe(parts.V1!.plate_mA);
  recordAccuracy({
    area: "circuits",
    what: "working point and slopes of a three-halves valve with cathode bias",
    source: "worked by hand from Child's law",
    reached: `${off.toExponential(1)} relative`,
    limit: "1e-6 relative",
  });
});

// source: the diode law turned round: V = n·(kT/q)·ln(1 + I/Is); at 25 °C kT/q = 25.692579 mV (SI 2019)
test("a diode takes the voltage that its law asks for its current", () => {
  const volts = 1.5 * 0.025692579 * Math.log(1 + 2e-3 / 1e-12);
  const { parts } = rest(supply(volts + 2e-3 * 4700), resistor("R", "ht", "d", 4700), {
    id: "D",
    kind: "diode",
    between: ["d", "0"],
    law: { saturation_A: 1e-12, emission: 1.5, temperature_C: 25 },
  });
  expect(parts.D!.current_mA).toBeCloseTo(2, 6);
  expect(parts.D!.voltage_V).toBeCloseTo(volts, 7);
});

// source: worked by hand: perveance 0.4 mA/V^1.5 carries 50 mA at (50/0.4)^(2/3) = 25 V
test("a rectifier section drops what its perveance asks", () => {
  const { parts } = rest(
    supply(275),
    { id: "D", kind: "rectifier", between: ["ht", "k"], law: { perveance_mA_per_V1p5: 0.4 } },
    resistor("R", "k", "0", 5000),
  );
  expect(parts.D!.voltage_V).toBeCloseTo(25, 9);
  expect(parts.D!.current_mA).toBeCloseTo(50, 9);
});

// source: worked by hand: 8 mA·(1 − 1 V/2 V)² = 2 mA, and 2 mA through 500 Ω is that 1 V
test.each(["n", "p"] as const)("a %s-channel field-effect transistor holds its current", (polarity) => {
  const sign = polarity === "n" ? 1 : -1;
  const { parts, nodes } = rest(
    supply(sign * 20),
    resistor("RD", "ht", "d", 1000),
    { id: "J", kind: "jfet", drain: "d", gate: "0", source: "s", polarity, law: { saturation_mA: 8, pinchOff_V: 2 } },
    resistor("RS", "s", "0", 500),
  );
  expect(parts.J!.current_mA).toBeCloseTo(sign * 2, 9);
  expect(nodes.s).toBeCloseTo(sign, 9);
});

// source: Ebers and Moll's law turned round: Vbe = (kT/q)·ln(1 + Ic/Is), emitter current Ic·(1 + 1/gain)
test.each(["n", "p"] as const)("a %s-type bipolar current source holds its current", (polarity) => {
  const sign = polarity === "n" ? 1 : -1;
  const emitter_V = 3 - 0.025692579 * Math.log(1 + 5e-3 / 1e-14);
  const { parts } = rest(
    supply(sign * 20),
    supply(sign * 3, "b"),
    resistor("RC", "ht", "c", 1000),
    {
      id: "Q",
      kind: "bipolar",
      collector: "c",
      base: "b",
      emitter: "e",
      polarity,
      law: { saturation_A: 1e-14, gain: 100 },
    },
    resistor("RE", "e", "0", emitter_V / (5e-3 * 1.01)),
  );
  expect(parts.Q!.current_mA).toBeCloseTo(sign * 5, 6);
});

// source: worked by hand; at rest a coil is its resistance, a capacitor and an open switch nothing, windings their copper
test("coils conduct, capacitors and transformers' couplings do not", () => {
  const { nodes, parts } = rest(
    supply(10),
    { id: "L", kind: "inductor", between: ["ht", "a"], H: 5, resistance_ohm: 100 },
    resistor("R", "a", "0", 900),
    { id: "C", kind: "capacitor", between: ["ht", "c"], uF: 1 },
    resistor("RC", "c", "0", 1000),
    {
      id: "T",
      kind: "transformer",
      windings: [
        { between: ["ht", "p"], turns: 1000, resistance_ohm: 50 },
        { between: ["s", "0"], turns: 100 },
      ],
      primaryInductance_H: 10,
      leakage_H: 0.01,
    },
    resistor("RP", "p", "0", 200),
    resistor("RS", "s", "0", 8),
    { id: "S1", kind: "switch", between: ["ht", "x"], closed: true },
    { id: "S2", kind: "switch", between: ["ht", "x"], closed: true },
    resistor("RX", "x", "0", 1000),
    { id: "S3", kind: "switch", between: ["ht", "y"], closed: false },
    resistor("RY", "y", "0", 1000),
  );
  expect(nodes.a).toBeCloseTo(9, 12);
  expect(parts.L!.current_mA).toBeCloseTo(10, 11);
  expect(nodes.c).toBe(0);
  expect(nodes.p).toBeCloseTo(8, 12);
  expect(nodes.s).toBeCloseTo(0, 12);
  expect(parts.T!.current_mA).toBeCloseTo(40, 11);
  expect(parts.T!.windings![1]!.current_mA).toBeCloseTo(0, 12);
  expect(parts.S1!.current_mA).toBeCloseTo(5, 4);
  expect(parts.S2!.current_mA).toBeCloseTo(5, 4);
  expect(nodes.x).toBeCloseTo(10, 7);
  expect(nodes.y).toBe(0);
});

// source: worked by hand; a milliohm beside megohms: 1 A through 1 mΩ is 1 mV, and 5 MΩ to ground carries nothing of it
test("very small and very large resistances stand side by side", () => {
  const { parts } = rest(
    { id: "I", kind: "current", between: ["b", "a"], dc_mA: 1000 },
    resistor("R", "a", "b", 1e-3),
    resistor("RG", "b", "0", 5e6),
  );
  expect(parts.R!.voltage_V * 1e3).toBeCloseTo(1, 9);
  expect(parts.R!.current_mA).toBeCloseTo(1000, 7);
});

// source: the law itself; −30 V on the grid stops a mu-20 valve at 250 V (12.5 V of drive missing)
test("a valve cut off says so and gives no slope that is not a number", () => {
  const { parts, notes } = rest(supply(250), supply(-30, "g"), resistor("RA", "ht", "a", 1e5), {
    id: "V1",
    kind: "triode",
    law: { mu: 20, perveance_mA_per_V1p5: 1 },
    plate: "a",
    grid: "g",
    cathode: "0",
  });
  expect(parts.V1!.plate_mA).toBe(0);
  expect(parts.V1!.gm_mS).toBe(0);
  expect(parts.V1).not.toHaveProperty("rp_ohm");
  expect(parts.V1).not.toHaveProperty("mu");
  expect(notes.join()).toContain("V1 is cut off");
});

// source: the law; two valves in series, both cut off, leave the node between them to leakage alone
test("a node between two valves that are cut off still has an answer, with a word on it", () => {
  const law = { mu: 20, perveance_mA_per_V1p5: 1 };
  const { nodes, notes } = rest(
    supply(100),
    supply(-90, "g"),
    { id: "V1", kind: "triode", law, plate: "ht", grid: "g", cathode: "m" },
    { id: "V2", kind: "triode", law, plate: "m", grid: "g", cathode: "0" },
  );
  expect(Number.isFinite(nodes.m)).toBe(true);
  expect(notes.join()).toContain("held only by leakage");
});

interface Solved {
  netlist: unknown;
  nodes: Record<string, number>;
}

// source: fixtures/ladders.py, an independent solution by numpy and scipy (grounded supplies taken as known nodes)
test("random ladders with valves rest where an independent solution has them", () => {
  const ladders = JSON.parse(readFileSync(join(import.meta.dirname, "fixtures/ladders.json"), "utf8")) as Solved[];
  let worst = 0;
  for (const { netlist, nodes } of ladders) {
    const solved = solveRest(readNetlist(netlist));
    if (solved.state !== "solved") throw new Error(solved.reason);
    for (const [node, volts] of Object.entries(nodes)) {
      worst = Math.max(worst, Math.abs(solved.nodes[node]! - volts) / Math.max(1e-3, Math.abs(volts)));
    }
  }
  expect(ladders.length).toBe(8);
  expect(worst).toBeLessThan(1e-9);
  recordAccuracy({
    area: "circuits",
    what: "node voltages of eight random ladders with three-halves valves",
    source: "independent solution in numpy and scipy, src/circuits/fixtures/ladders.py",
    reached: `${worst.toExponential(1)} relative`,
    limit: "1e-6 relative",
  });
});

// source: reference/tubes.json, 6SN7GT plate 300 V and 2.5 W a section
test("ratings of the catalogue that are exceeded are named", () => {
  const { notes } = rest(supply(350), supply(0, "g"), {
    id: "V1a",
    kind: "triode",
    type: "6SN7GT",
    plate: "ht",
    grid: "g",
    cathode: "0",
  });
  expect(notes.join("\n")).toMatch(/V1a \(6SN7GT\): plate voltage 350\.0 V exceeds the rating of 300 V/);
  expect(notes.join("\n")).toMatch(/V1a \(6SN7GT\): plate dissipation .* exceeds the rating of 2\.5 W/);
});

// source: worked by hand; two valves each fed from the other's plate: the gain round the loop is far over one, so the
// even rest can't last (Eccles and Jordan, 1919); with the cross-feeds to ground instead it does
test("a rest that a real circuit would leave is named", () => {
  const pair = (one: string, other: string) =>
    rest(
      supply(300),
      resistor("RA1", "ht", "a1", 47e3),
      resistor("RA2", "ht", "a2", 47e3),
      resistor("RK", "k", "0", 10e3),
      resistor("R1", one, "g2", 470e3),
      resistor("R2", "g2", "0", 270e3),
      resistor("R3", other, "g1", 470e3),
      resistor("R4", "g1", "0", 270e3),
      { id: "V1", kind: "triode", type: "6SN7GT", plate: "a1", grid: "g1", cathode: "k" },
      { id: "V2", kind: "triode", type: "6SN7GT", plate: "a2", grid: "g2", cathode: "k" },
    ).notes.join();
  expect(pair("a1", "a2")).toContain("latch");
  expect(pair("0", "0")).toBe("");
});
