import { expect, test } from "vitest";
import { recordAccuracy } from "../../tests/accuracy.ts";
import stages from "./fixtures/stages.json" with { type: "json" };
import { readNetlist, solveRest } from "./index.ts";

// source: fixtures/stages.py, solved by scipy from its own equations
test("eighteen stages of real amplifiers rest where an independent solution has them", () => {
  let worst = 0;
  for (const { name, netlist, volts } of stages as unknown as {
    name: string;
    netlist: unknown;
    volts: Record<string, number>;
  }[]) {
    const rest = solveRest(readNetlist(netlist));
    if (rest.state !== "solved") throw new Error(`${name}: ${rest.reason}`);
    for (const [node, value] of Object.entries(volts)) {
      const apart = Math.abs(rest.nodes[node]! - value) / (1e-3 + Math.abs(value));
      expect(apart, `${name}, ${node}`).toBeLessThan(1e-6);
      worst = Math.max(worst, apart);
    }
  }
  expect(stages.length).toBe(18);
  recordAccuracy({
    area: "Circuits",
    what: "Node voltages of 18 stages: followers, pairs on current sources, cascode, doubler, regulator, plus and minus rails",
    source: "scipy, from equations of its own (circuits/fixtures/stages.py)",
    reached: `${worst.toExponential(1)} relative at worst`,
    limit: "1e-6",
  });
});
