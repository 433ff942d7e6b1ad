import { expect, test } from "vitest";
import { readNetlist, response, solveRest } from "../../circuits/index.ts";
import ebb from "./ebb.json" with { type: "json" };
import flood from "./flood.json" with { type: "json" };

test.each([
  ["Ebb", ebb],
  ["Flood", flood],
])("%s rests within the ratings of its valves and the watts of its resistors, both channels alike", (_, drawn) => {
  const rest = solveRest(readNetlist(drawn));
  if (rest.state !== "solved") throw new Error(rest.reason);
  expect(rest.notes).toEqual([]);
  for (const [node, volts] of Object.entries(rest.nodes)) {
    if (node.endsWith("L")) expect(volts).toBeCloseTo(rest.nodes[`${node.slice(0, -1)}R`]!, 6);
  }
  for (const point of drawn.testPoints) expect(rest.nodes).toHaveProperty(point.node);
});

// source: heater ratings of reference/tubes.json, 6.3 V; makers allow 5 to 10 per cent
test.each([ebb, flood])("heaters get 6.3 V within 2 %", (drawn) => {
  const rest = solveRest(readNetlist(drawn));
  if (rest.state !== "solved") throw new Error(rest.reason);
  for (const id of ["V1h", "V2h"]) expect(Math.abs(rest.parts[id]!.voltage_V / 6.3 - 1)).toBeLessThan(0.02);
});

test.each([
  ["Ebb", ebb, 12, 24],
  ["Flood", flood, 18, 30],
] as const)(
  "%s amplifies both channels alike and flat within 1 dB from 20 Hz to 20 kHz",
  (_, drawn, low_dB, high_dB) => {
    const netlist = readNetlist(drawn);
    const gains = (["L", "R"] as const).map((side) => {
      const answer = response(netlist, {
        input: `IN${side}`,
        output: `out${side}`,
        frequencies_Hz: [20, 1000, 20_000],
      });
      if (answer.state !== "solved") throw new Error(answer.reason);
      return answer.gain_dB;
    });
    for (const [bass, middle, treble] of gains as [number, number, number][]) {
      expect(middle).toBeGreaterThan(low_dB);
      expect(middle).toBeLessThan(high_dB);
      expect(Math.abs(bass - middle)).toBeLessThan(1);
      expect(Math.abs(treble - middle)).toBeLessThan(1);
    }
    expect(gains[0]![1]).toBeCloseTo(gains[1]![1]!, 6);
  },
);
