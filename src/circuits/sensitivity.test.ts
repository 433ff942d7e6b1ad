import { expect, test } from "vitest";
import ebb from "../demo/netlists/ebb.json" with { type: "json" };
import flood from "../demo/netlists/flood.json" with { type: "json" };
import { type Netlist, readNetlist, restSensitivities, solveRest } from "./index.ts";

/** The output's voltage with one value of one part changed by a share. */
function moved(netlist: Netlist, node: string, id: string, value: string, share: number): number {
  const factor = 1 + share;
  const fitted =
    value === "current" || value === "mu"
      ? { factors: new Map([[id, { current: 1, mu: 1, [value]: factor }]]) }
      : { values: new Map([[id, factor]]) };
  const rest = solveRest(netlist, fitted);
  if (rest.state !== "solved") throw new Error(rest.reason);
  return rest.nodes[node]!;
}

// second method: each value moved both ways and the circuit solved again
test.each([
  ["Ebb", ebb, "k2L"],
  ["Flood", flood, "k2R"],
] as const)("%s: one adjoint solve gives what moving every value gives", (_, drawn, node) => {
  const netlist = readNetlist(drawn);
  const slopes = restSensitivities(netlist, node);
  if (slopes.state !== "solved") throw new Error(slopes.reason);
  expect(slopes.parts.length).toBeGreaterThan(30);
  const largest = Math.max(...slopes.parts.map(({ perShare_V }) => Math.abs(perShare_V)));
  expect(largest).toBeGreaterThan(1);
  for (const { part, value, perShare_V } of slopes.parts) {
    const slope = (moved(netlist, node, part, value, 1e-4) - moved(netlist, node, part, value, -1e-4)) / 2e-4;
    expect(Math.abs(slope - perShare_V), `${part} ${value}`).toBeLessThan(1e-5 * largest);
  }
});

// source: worked by hand; 12 V over 1 kΩ + 3 kΩ: dV/dlnR2 = 12·R1·R2/(R1 + R2)² = 2.25 V, R1 the opposite, source 9 V
test("a divider's slopes", () => {
  const slopes = restSensitivities(
    readNetlist({
      ground: "0",
      parts: [
        { id: "B", kind: "voltage", between: ["ht", "0"], dc_V: 12 },
        { id: "R1", kind: "resistor", between: ["ht", "tap"], ohm: 1000 },
        { id: "R2", kind: "resistor", between: ["tap", "0"], ohm: 3000 },
      ],
    }),
    "tap",
  );
  if (slopes.state !== "solved") throw new Error(slopes.reason);
  expect(slopes.volts).toBeCloseTo(9, 12);
  expect(slopes.parts.map(({ perShare_V }) => perShare_V)).toEqual([9, -2.25, 2.25].map((v) => expect.closeTo(v, 10)));
});
