import { expect, test } from "vitest";
import { BadInput } from "../maths/badInput.ts";
import { gainsOf, type NetlistInput, readNetlist, response, solveRest } from "./index.ts";

type PartInput = NetlistInput["parts"][number];
const sound: PartInput[] = [
  { id: "B", kind: "voltage", between: ["ht", "0"], dc_V: 250 },
  { id: "IN", kind: "voltage", between: ["in", "0"] },
  { id: "RL", kind: "resistor", between: ["ht", "a"], ohm: 1e5 },
  { id: "RK", kind: "resistor", between: ["k", "0"], ohm: 1e3 },
  { id: "V1", kind: "triode", type: "12AX7", plate: "a", grid: "in", cathode: "k" },
];
const refusal = (work: () => unknown): BadInput => {
  try {
    work();
  } catch (error) {
    if (error instanceof BadInput) return error;
    throw error;
  }
  throw new Error("it was not refused");
};
const refused = (...parts: unknown[]) =>
  refusal(() => solveRest(readNetlist({ ground: "0", parts: [...sound, ...parts] })));

test("the sound net list is answered", () => {
  expect(solveRest(readNetlist({ ground: "0", parts: sound })).state).toBe("solved");
});

// Each slip a person makes in a net list: where it is named, and what the message must hold.
const slips: [slip: string, parts: unknown[], path: string, words: RegExp][] = [
  [
    "a name used twice",
    [{ id: "RL", kind: "resistor", between: ["a", "0"], ohm: 5 }],
    "netlist.parts[5].id",
    /RL.*parts\[2\]/,
  ],
  [
    "a negative resistance",
    [{ id: "R", kind: "resistor", between: ["a", "0"], ohm: -5 }],
    "netlist.parts[5].ohm",
    /-5/,
  ],
  [
    "a resistance that is text",
    [{ id: "R", kind: "resistor", between: ["a", "0"], ohm: "5k" }],
    "netlist.parts[5].ohm",
    /5k/,
  ],
  ["a missing value", [{ id: "C", kind: "capacitor", between: ["a", "0"] }], "netlist.parts[5].uF", /nothing/],
  ["an unknown kind", [{ id: "X", kind: "flux", between: ["a", "0"] }], "netlist.parts[5].kind", /flux/],
  [
    "an unknown type",
    [{ id: "V2", kind: "triode", type: "6SN8", plate: "ht", grid: "in", cathode: "k" }],
    "netlist.parts[5].type",
    /6SN8.*V2.*6SN7GT/,
  ],
  [
    "a valve without a curve",
    [{ id: "V2", kind: "triode", plate: "ht", grid: "in", cathode: "k" }],
    "netlist.parts[5].type",
    /V2/,
  ],
  [
    "a triode in a pentode's place",
    [{ id: "V2", kind: "pentode", type: "12AX7", plate: "ht", screen: "ht", grid: "in", cathode: "k" }],
    "netlist.parts[5].type",
    /12AX7.*V2.*"kind":"triode"/,
  ],
  [
    "a node behind a capacitor",
    [{ id: "C", kind: "capacitor", between: ["a", "far"], uF: 1 }],
    "netlist.parts[5].between[1]",
    /"far".*C.*resistor/,
  ],
  [
    "parts joined only to each other",
    [
      { id: "R", kind: "resistor", between: ["x", "y"], ohm: 5 },
      { id: "R2", kind: "resistor", between: ["x", "y"], ohm: 5 },
    ],
    "netlist.parts[5].between[0]",
    /"x".*R, R2.*"0"/,
  ],
  [
    "a floating grid",
    [
      { id: "C", kind: "capacitor", between: ["a", "g2"], uF: 1 },
      { id: "V2", kind: "triode", type: "12AX7", plate: "ht", grid: "g2", cathode: "k" },
    ],
    "netlist.parts[5].between[1]",
    /"g2".*C, V2/,
  ],
  [
    "a node between current sources",
    [
      { id: "I1", kind: "current", between: ["0", "x"], dc_mA: 1 },
      { id: "I2", kind: "current", between: ["x", "0"], dc_mA: 1 },
    ],
    "netlist.parts[5].between[1]",
    /"x".*I1, I2/,
  ],
  [
    "a secondary without ground",
    [
      {
        id: "T",
        kind: "transformer",
        windings: [
          { between: ["ht", "0"], turns: 10, resistance_ohm: 5 },
          { between: ["s1", "s2"], turns: 1 },
        ],
      },
      { id: "RS", kind: "resistor", between: ["s1", "s2"], ohm: 8 },
    ],
    "netlist.parts[5].windings[1].between[0]",
    /"s1".*T, RS/,
  ],
  [
    "two sources in parallel",
    [{ id: "B2", kind: "voltage", between: ["0", "ht"], dc_V: 5 }],
    "netlist.parts[5].between",
    /"B2".*"0".*"ht"/,
  ],
  [
    "a coil without resistance across a supply",
    [{ id: "L", kind: "inductor", between: ["ht", "0"], H: 5 }],
    "netlist.parts[5].between",
    /"L".*resistance_ohm/,
  ],
  [
    "a winding without resistance across a supply",
    [
      {
        id: "T",
        kind: "transformer",
        windings: [
          { between: ["ht", "0"], turns: 10 },
          { between: ["s", "0"], turns: 1 },
        ],
      },
    ],
    "netlist.parts[5].windings[0].between",
    /"T".*resistance_ohm/,
  ],
  [
    "a source joined to itself",
    [{ id: "B2", kind: "voltage", between: ["a", "a"], dc_V: 5 }],
    "netlist.parts[5].between",
    /two different nodes/,
  ],
  [
    "a plate joined to nothing",
    [{ id: "V2", kind: "triode", type: "12AX7", plate: "p2", grid: "in", cathode: "k" }],
    "netlist.parts[5].plate",
    /"p2".*plate of "V2"/,
  ],
  [
    "a cathode joined to nothing",
    [{ id: "V2", kind: "triode", type: "12AX7", plate: "ht", grid: "in", cathode: "k2" }],
    "netlist.parts[5].cathode",
    /"k2".*cathode of "V2"/,
  ],
  [
    "a diode without a law",
    [{ id: "D", kind: "diode", between: ["a", "0"] }],
    "netlist.parts[5].law",
    /"D".*saturation_A/,
  ],
  [
    "an open switch as the only way",
    [
      { id: "S", kind: "switch", between: ["a", "x"], closed: false },
      { id: "R", kind: "resistor", between: ["x", "y"], ohm: 5 },
    ],
    "netlist.parts[5].between[1]",
    /"x".*S, R/,
  ],
];
test.each(slips)("%s is refused by name", (_, parts, path, words) => {
  const error = refused(...parts);
  expect(error.path).toBe(path);
  expect(error.message).toMatch(words);
});

test("a ground that no part is joined to is refused", () => {
  const error = refusal(() => solveRest(readNetlist({ ground: "gnd", parts: sound })));
  expect([error.path, error.message]).toEqual(["netlist.ground", expect.stringContaining('"gnd"')]);
  expect(refusal(() => readNetlist({ parts: sound })).path).toBe("netlist.ground");
});

test("a test point on no node is refused", () => {
  const netlist = readNetlist({ ground: "0", parts: sound, testPoints: ["a", { name: "plate", node: "b" }] });
  expect(refusal(() => solveRest(netlist)).path).toBe("netlist.testPoints[1].node");
});

test("an input that is no source and an output that is no node are refused", () => {
  const netlist = readNetlist({ ground: "0", parts: sound });
  const asked = (input: string, output: string | [string, string]) =>
    refusal(() => response(netlist, { input, output, frequencies_Hz: [1000] }));
  expect(asked("RL", "a").path).toBe("input");
  expect(asked("RL", "a").message).toMatch(/a resistor; .*B, IN/);
  expect(asked("nobody", "a").path).toBe("input");
  expect(asked("IN", "b").path).toBe("output");
  expect(asked("IN", ["a", "b"]).path).toBe("output[1]");
});

test("valves tried in a place that holds none are refused", () => {
  const netlist = readNetlist({ ground: "0", parts: sound });
  const model = {
    kind: "triode",
    current_A: 1e-3,
    mu: 50,
    exponent: 1.5,
    offset_V: 0,
    bend: 0,
    lowPlate_V: 0,
    softness_V: 0,
    softness: 0,
    knee_V: 0,
  } as const;
  expect(refusal(() => gainsOf(netlist, ["IN"], ["a"], 1000)({ V9: model })).message).toMatch(/V9.*V1/);
  expect(refusal(() => gainsOf(netlist, ["IN"], ["a", "k"], 1000)).message).toMatch(/2 outputs for 1 inputs/);
});

test("what would take too long is refused with its limit", () => {
  const parts: PartInput[] = [{ id: "IN", kind: "voltage", between: ["n0", "0"] }];
  for (let i = 0; i < 34; i++) {
    for (let j = i + 1; j < 34; j++)
      parts.push({ id: `R${i}-${j}`, kind: "resistor", between: [`n${i}`, `n${j}`], ohm: 1000 });
  }
  parts.push({ id: "RG", kind: "resistor", between: ["n1", "0"], ohm: 1000 });
  const netlist = readNetlist({ ground: "0", parts });
  const frequencies_Hz = Array.from({ length: 200_000 }, (_, i) => i + 1);
  const error = refusal(() => response(netlist, { input: "IN", output: "n2", frequencies_Hz }));
  expect(error.path).toBe("frequencies_Hz");
  expect(error.message).toMatch(/200000 frequencies.*at most \d+/);

  const windings = (i: number) =>
    Array.from({ length: 20 }, (_, w) => ({
      between: [`t${i}w${w}`, "0"] as [string, string],
      turns: 1,
      resistance_ohm: 1,
    }));
  const coils = Array.from(
    { length: 30 },
    (_, i): PartInput => ({ id: `T${i}`, kind: "transformer", windings: windings(i) }),
  );
  expect(refusal(() => solveRest(readNetlist({ ground: "0", parts: coils }))).message).toMatch(
    /1230 unknown.*at most 500/,
  );
});
