import { expect, test } from "vitest";
import { randomStream } from "../../maths/random.ts";
import { buildCircuit, refit } from "../circuit.ts";
import stages from "../fixtures/stages.json" with { type: "json" };
import { readNetlist } from "../netlist.ts";
import { settle } from "../settle.ts";
import { unitDraws } from "./drawUnits.ts";
import { solveLanes, unitLanes } from "./unitLanes.ts";
import { variedOf } from "./varied.ts";
import { writtenUnits } from "./written/writtenUnits.ts";

interface Drawn {
  name: string;
  netlist: { ground: string; parts: { kind: string; tolerance?: unknown }[] };
}

// second method: every drawn unit solved alone, by the full solver
test.each((stages as unknown as Drawn[]).map((stage) => [stage.name, stage] as const))(
  "%s: units solved side by side are the units solved one by one",
  (_, { netlist }) => {
    const parts = netlist.parts.map((part) => ({
      ...part,
      tolerance: part.kind === "triode" ? { current: 0.3, mu: 0.1 } : part.kind === "resistor" ? 0.05 : 0.1,
    }));
    const drawn = readNetlist({ ...netlist, parts });
    const circuit = buildCircuit(drawn);
    const rest = settle(circuit);
    if (rest.state !== "solved") throw new Error(rest.reason);
    const units = unitLanes(circuit, rest, variedOf(drawn, 0, {}), 32)!;
    const draws = unitDraws(units, randomStream(20_261_125));
    draws.draw();
    solveLanes(units);
    const side = units.elimination.answers.slice();
    const sideDone = units.done.slice();
    writtenUnits(units)!.solve(true);
    // Written out, a unit takes as many steps as the other of its pair: it may come nearer.
    for (const [l, done] of sideDone.entries()) if (done) expect(units.done[l]).toBe(1);
    for (const [i, volts] of side.entries()) {
      const own = units.elimination.answers[i]!;
      if (sideDone[i % 32]) expect(Math.abs(own - volts) / (1 + Math.abs(volts))).toBeLessThan(1e-8);
    }
    let solved = 0;
    for (let l = 0; l < 32; l++) {
      if (units.done[l] === 0) continue;
      solved++;
      const alone = settle(refit(circuit, draws.fitted(l)), rest.x);
      if (alone.state !== "solved") throw new Error(alone.reason);
      circuit.nodeNames.forEach((node, i) => {
        const volts = units.elimination.answers[units.pivotOfColumn[i]! * 32 + l]!;
        expect(Math.abs(volts - alone.x[i]!) / (1 + Math.abs(alone.x[i]!)), node).toBeLessThan(1e-7);
      });
    }
    // The others go the slow way; they must stay few.
    expect(solved).toBeGreaterThanOrEqual(30);
  },
);
