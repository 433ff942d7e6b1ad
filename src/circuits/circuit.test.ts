import { readFileSync } from "node:fs";
import { expect, test } from "vitest";
import { buildCircuit, refit } from "./circuit.ts";
import { readNetlist } from "./netlist.ts";
import { solveRest } from "./rest.ts";
import { settle } from "./settle.ts";

const ebb = JSON.parse(readFileSync(new URL("../demo/netlists/ebb.json", import.meta.url), "utf8"));

// source: the same unit written out by hand: values in the net list itself instead of factors on them
test("factors on values solve as a net list with those values written in it", () => {
  const values = new Map([
    ["R4L", 1.05],
    ["HT", 0.97],
    ["L1", 1.2],
    ["R12", 30],
  ]);
  const written = structuredClone(ebb);
  for (const part of written.parts) {
    const factor = values.get(part.id);
    if (factor === undefined) continue;
    for (const key of ["ohm", "dc_V", "H", "resistance_ohm"]) if (key in part) part[key] *= factor;
  }
  const byHand = solveRest(readNetlist(written));
  const fitted = solveRest(readNetlist(ebb), { values });
  if (byHand.state !== "solved" || fitted.state !== "solved") throw new Error("no rest");
  for (const [node, volts] of Object.entries(byHand.nodes)) expect(fitted.nodes[node]).toBeCloseTo(volts, 8);
  expect(fitted.parts.R4L!.current_mA).toBeCloseTo(byHand.parts.R4L!.current_mA, 9);
});

test("a circuit refitted and refitted back is the circuit as built", () => {
  const circuit = buildCircuit(readNetlist(ebb));
  const drawn = refit(circuit, { values: new Map([["R4L", 1.05]]) });
  const back = refit(drawn, { values: new Map() });
  expect(drawn.steady).not.toEqual(circuit.steady);
  expect(back.steady).toEqual(circuit.steady);
  expect(settle(back)).toMatchObject({ x: (settle(circuit) as { x: Float64Array }).x });
});
