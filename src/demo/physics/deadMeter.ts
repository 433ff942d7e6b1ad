import { type Netlist, solveRest } from "../../circuits/index.ts";

/** What holds a node that nothing else joins to the chassis; far over every resistance that is read. */
const air_ohm = 1e12;
const copper_ohm = 1e-3;
/** Small enough that no junction on the way is opened. */
const meter_mA = 1e-4;

/**
 * What an ohmmeter reads from a node to ground with the unit unplugged and discharged: resistors and copper alone;
 * valves are cold, capacitors open, rectified supplies block, and a heater winding conducts.
 */
export function deadResistance_ohm(circuit: Netlist, node: string): number {
  const ways = circuit.parts.filter(({ kind }) => ["resistor", "inductor", "transformer"].includes(kind));
  const windings = circuit.parts
    .filter((part) => part.kind === "voltage" && part.stage === "heaters")
    .map((part): Netlist["parts"][number] => {
      if (part.kind !== "voltage") throw new RangeError(`${part.id} is no source`);
      return { id: part.id, kind: "resistor", between: part.between, ohm: copper_ohm };
    });
  const nodes = new Set(
    [...ways, ...windings].flatMap((part) =>
      part.kind === "transformer"
        ? part.windings.flatMap(({ between }) => between)
        : "between" in part
          ? part.between
          : [],
    ),
  );
  const air = [...nodes, node]
    .filter((name) => name !== circuit.ground)
    .map((name, i): Netlist["parts"][number] => ({
      id: `air ${i}`,
      kind: "resistor",
      between: [name, circuit.ground],
      ohm: air_ohm,
    }));
  const answer = solveRest({
    ground: circuit.ground,
    parts: [
      ...ways,
      ...windings,
      ...air,
      { id: "the ohmmeter", kind: "current", between: [circuit.ground, node], dc_mA: meter_mA, ac_mA: 0 },
    ],
  });
  if (answer.state !== "solved") throw new Error(`an unplugged unit has no resistance: ${answer.reason}`);
  return (1e3 * answer.nodes[node]!) / meter_mA;
}
