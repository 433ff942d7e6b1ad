import { describe, expect, test } from "vitest";
import ebb from "../../demo/netlists/ebb.json" with { type: "json" };
import { factorSparseReal } from "../../maths/linear/sparseReal.ts";
import { buildCircuit } from "../circuit.ts";
import { readNetlist } from "../netlist.ts";
import { settle } from "../settle.ts";
import { loadedRest } from "./loadedRest.ts";
import { cascode, lineStage, pushPull } from "./testing/netlists.ts";

// source: a second method, the whole circuit solved anew with the meter as a resistor in it
describe.each([
  ["headphone", readNetlist(ebb)],
  ["line stage", lineStage],
  ["push-pull", pushPull],
  ["cascode", cascode],
])("%s", (_, netlist) => {
  test.each([1e8, 1e7, 1e6, 1e5])(
    "a meter of %d ohm at any node shifts the rest to where a full solution has it",
    (ohm) => {
      const circuit = buildCircuit(netlist);
      const rest = settle(circuit);
      if (rest.state !== "solved") throw new Error(rest.reason);
      for (const node of circuit.nodeNames) {
        const at = circuit.unknownOf(node)!;
        const meter = { id: "METER", kind: "resistor", between: [node, netlist.ground], ohm } as const;
        const loaded = buildCircuit({
          ...netlist,
          parts: [...netlist.parts, { ...meter, between: [...meter.between] }],
        });
        const whole = settle(loaded);
        if (whole.state !== "solved") throw new Error(whole.reason);
        factorSparseReal(circuit.solvers.steady, rest.matrix);
        const found = loadedRest(circuit, rest.x, at, 1 / ohm).rest!;
        for (const name of circuit.nodeNames) {
          const expected = whole.x[loaded.unknownOf(name)!]!;
          expect(Math.abs(found.x[circuit.unknownOf(name)!]! - expected)).toBeLessThan(1e-5 * (1 + Math.abs(expected)));
        }
      }
    },
  );
});
