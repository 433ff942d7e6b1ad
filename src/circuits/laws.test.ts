import fc from "fast-check";
import { expect, test } from "vitest";
import { type NetlistInput, readNetlist, response, solveRest } from "./index.ts";

type PartInput = NetlistInput["parts"][number];
const ohm = fc.double({ min: 2, max: 6, noNaN: true }).map((lg) => 10 ** lg);
const volts = fc.double({ min: -100, max: 100, noNaN: true });

/** A mesh that always has an answer: a chain of nodes, a resistor from each to ground, and some across. */
const mesh = fc.record({
  chain: fc.array(fc.tuple(ohm, ohm), { minLength: 2, maxLength: 8 }),
  across: fc.array(fc.tuple(fc.nat(7), fc.nat(7), ohm), { maxLength: 5 }),
});
type Mesh = typeof mesh extends fc.Arbitrary<infer M> ? M : never;
const partsOf = ({ chain, across }: Mesh): PartInput[] => [
  ...chain.flatMap(([series, shunt], i): PartInput[] => [
    { id: `S${i}`, kind: "resistor", between: [`n${i}`, `n${i + 1}`], ohm: series },
    { id: `P${i}`, kind: "resistor", between: [`n${i + 1}`, "0"], ohm: shunt },
  ]),
  ...across.map(
    ([a, b, ohms], i): PartInput => ({
      id: `X${i}`,
      kind: "resistor",
      between: [`n${a % (chain.length + 1)}`, `n${b % (chain.length + 1)}`],
      ohm: ohms,
    }),
  ),
];
const nodesOf = (parts: PartInput[]) => {
  const solved = solveRest(readNetlist({ ground: "0", parts }));
  if (solved.state !== "solved") throw new Error(solved.reason);
  return solved.nodes;
};
const source = (id: string, node: string, dc_V: number): PartInput => ({
  id,
  kind: "voltage",
  between: [node, "0"],
  dc_V,
});

test("voltages of two sources add, and scale with their sources", () => {
  fc.assert(
    fc.property(mesh, volts, volts, fc.double({ min: -5, max: 5, noNaN: true }), (m, a, b, scale) => {
      const parts = partsOf(m);
      const with_ = (x: number, y: number) => nodesOf([source("A", "n0", x), source("B", "n2", y), ...parts]);
      const [one, other, both, scaled] = [with_(a, 0), with_(0, b), with_(a, b), with_(a * scale, b * scale)];
      for (const node of Object.keys(both)) {
        expect(Math.abs(both[node]! - one[node]! - other[node]!)).toBeLessThan(1e-8);
        expect(Math.abs(scaled[node]! - scale * both[node]!)).toBeLessThan(1e-8);
      }
    }),
  );
});

test("a current in at one node moves another as much as the other way round", () => {
  fc.assert(
    fc.property(mesh, fc.nat(8), fc.nat(8), (m, i, j) => {
      const [a, b] = [`n${i % (m.chain.length + 1)}`, `n${j % (m.chain.length + 1)}`];
      const moved = (into: string, at: string) =>
        nodesOf([
          { id: "I", kind: "current", between: ["0", into], dc_mA: 1 },
          { id: "R0", kind: "resistor", between: ["n0", "0"], ohm: 1e5 },
          ...partsOf(m),
        ])[at]!;
      expect(Math.abs(moved(a, b) / moved(b, a) - 1)).toBeLessThan(1e-9);
    }),
  );
});

/** Two stages with a diode and a pentode, bent enough that order and balance could go wrong. */
const bent: PartInput[] = [
  source("B", "ht", 280),
  source("IN", "in", 0),
  { id: "RL", kind: "resistor", between: ["ht", "a"], ohm: 1e5 },
  { id: "RK", kind: "resistor", between: ["k", "0"], ohm: 1500 },
  { id: "V1", kind: "triode", type: "12AX7", plate: "a", grid: "in", cathode: "k" },
  { id: "CC", kind: "capacitor", between: ["a", "g2"], uF: 0.1 },
  { id: "RG", kind: "resistor", between: ["g2", "0"], ohm: 47e4 },
  { id: "V2", kind: "pentode", type: "EL34", plate: "a2", screen: "s2", grid: "g2", cathode: "k2" },
  { id: "RS", kind: "resistor", between: ["ht", "s2"], ohm: 470 },
  { id: "RK2", kind: "resistor", between: ["k2", "0"], ohm: 270 },
  {
    id: "T",
    kind: "transformer",
    windings: [
      { between: ["ht", "a2"], turns: 2000, resistance_ohm: 150 },
      { between: ["out", "0"], turns: 100, resistance_ohm: 0.4 },
    ],
    primaryInductance_H: 15,
    leakage_H: 0.01,
  },
  { id: "RO", kind: "resistor", between: ["out", "0"], ohm: 8 },
  { id: "D", kind: "diode", between: ["k2", "d"], law: { saturation_A: 1e-12, emission: 1.8 } },
  { id: "RD", kind: "resistor", between: ["d", "0"], ohm: 1e4 },
];

test("the order of parts does not matter", () => {
  const question = { input: "IN", output: "out", frequencies_Hz: [20, 1000, 20e3] };
  const first = nodesOf(bent);
  const heard = response(readNetlist({ ground: "0", parts: bent }), question);
  if (heard.state !== "solved") throw new Error(heard.reason);
  fc.assert(
    fc.property(fc.shuffledSubarray(bent, { minLength: bent.length }), (parts) => {
      const again = nodesOf(parts);
      for (const node of Object.keys(first)) expect(Math.abs(again[node]! - first[node]!)).toBeLessThan(1e-8);
      const answer = response(readNetlist({ ground: "0", parts }), question);
      if (answer.state !== "solved") throw new Error(answer.reason);
      for (const [i, gain] of answer.gain_dB.entries()) expect(gain).toBeCloseTo(heard.gain_dB[i]!, 8);
    }),
    { numRuns: 30 },
  );
});

// property: power given and power taken balance (Tellegen), whatever bends; and current into every node is nothing
test("power balances in a circuit with valves, diode and transformer", () => {
  fc.assert(
    fc.property(
      fc.double({ min: 5, max: 400, noNaN: true }),
      fc.double({ min: -3, max: 1, noNaN: true }),
      (supply, grid) => {
        const parts = bent.map((part) =>
          part.id === "B" ? source("B", "ht", supply) : part.id === "IN" ? source("IN", "in", grid) : part,
        );
        const solved = solveRest(readNetlist({ ground: "0", parts }));
        if (solved.state !== "solved") throw new Error(solved.reason);
        const powers = Object.values(solved.parts).map(({ power_mW }) => power_mW);
        const given = powers.filter((p) => p < 0).reduce((a, b) => a - b, 0);
        expect(Math.abs(powers.reduce((a, b) => a + b, 0)) / given).toBeLessThan(1e-7);
      },
    ),
    { numRuns: 60 },
  );
});

// second method: the small-signal gain is the slope of the working point, found here by moving the input a little
test("gain at a low frequency is the slope of the working point", () => {
  const moved = (dc_V: number) => nodesOf(bent.map((part) => (part.id === "IN" ? source("IN", "in", dc_V) : part))).a!;
  const slope = (moved(1e-4) - moved(-1e-4)) / 2e-4;
  const without = bent.filter((part) => part.id !== "CC");
  const answer = response(readNetlist({ ground: "0", parts: without }), {
    input: "IN",
    output: "a",
    frequencies_Hz: [10],
  });
  if (answer.state !== "solved") throw new Error(answer.reason);
  expect(10 ** (answer.gain_dB[0]! / 20) / -slope).toBeCloseTo(1, 6);
});

// property: a rest is found for circuits nobody drew; valves of all kinds at random values, joined at random
test("random valve circuits come to rest", () => {
  const types = ["6SN7GT", "12AX7", "6AS7G", "300B", "EL34", "6V6GT"] as const;
  const valve = fc.record({
    type: fc.constantFrom(...types),
    law: fc.option(
      fc.record({
        mu: fc.double({ min: 2, max: 100, noNaN: true }),
        perveance_mA_per_V1p5: fc.double({ min: 0.1, max: 20, noNaN: true }),
      }),
    ),
    ohms: fc.tuple(ohm, ohm, ohm, ohm),
    joins: fc.tuple(fc.nat(), fc.nat(), fc.nat(), fc.nat()),
    diode: fc.boolean(),
  });
  fc.assert(
    fc.property(
      fc.array(valve, { minLength: 1, maxLength: 6 }),
      fc.double({ min: 10, max: 800, noNaN: true }),
      volts,
      (valves, supply, input) => {
        const parts: PartInput[] = [source("B", "ht", supply), source("IN", "in", input)];
        const nodes = ["in", "ht", "0"];
        valves.forEach(({ type, law, ohms, joins, diode }, i) => {
          const join = (n: number) => nodes[n % nodes.length]!;
          const [plate, grid, cathode, screen] = [`a${i}`, `g${i}`, `k${i}`, `s${i}`];
          const pentode = (type === "EL34" || type === "6V6GT") && law === null;
          parts.push(
            pentode
              ? { id: `V${i}`, kind: "pentode", type, plate, screen, grid, cathode }
              : { id: `V${i}`, kind: "triode", type, ...(law === null ? {} : { law }), plate, grid, cathode },
            { id: `RA${i}`, kind: "resistor", between: [join(joins[0]), plate], ohm: ohms[0] },
            { id: `RK${i}`, kind: "resistor", between: [cathode, join(joins[1])], ohm: ohms[1] },
            { id: `RG${i}`, kind: "resistor", between: [grid, join(joins[2])], ohm: ohms[2] },
          );
          if (pentode) parts.push({ id: `RS${i}`, kind: "resistor", between: [join(joins[3]), screen], ohm: ohms[3] });
          if (diode) {
            parts.push(
              { id: `RD${i}`, kind: "resistor", between: [join(joins[3]), `d${i}`], ohm: ohms[3] },
              { id: `D${i}`, kind: "diode", between: [`d${i}`, join(joins[1])], law: { saturation_A: 1e-12 } },
            );
          }
          nodes.push(plate, grid, cathode);
        });
        expect(solveRest(readNetlist({ ground: "0", parts })).state).toBe("solved");
      },
    ),
    { numRuns: 200 },
  );
});
