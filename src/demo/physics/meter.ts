import { type Netlist, response } from "../../circuits/index.ts";
import { restingVolts } from "./workingPoint.ts";

/** The input resistance of the bench's multimeters. */
export const meter_Mohm = 10;

/** From here on the meter is put into the circuit and the rest found anew; below, the divider is as good. */
const stiff_ohm = 1e5;
/** Slow enough that every capacitor is open. */
const still_Hz = 1e-6;

/**
 * What the meter reads at a node: V·M/(M + R), with the resistance R that the node has by itself.
 *
 * @param volts  the circuit at rest without the meter
 * @param own_ohm  R of the drawn circuit, which differs from this unit's by a few per cent
 */
export function meterReads(
  circuit: Netlist,
  volts: Readonly<Record<string, number>>,
  node: string,
  own_ohm: number,
): number {
  const meter_ohm = meter_Mohm * 1e6;
  if (own_ohm < stiff_ohm) return dividedReading(volts[node]!, own_ohm);
  const id = "the meter";
  const probed: Netlist = {
    ...circuit,
    parts: [...circuit.parts, { id, kind: "resistor", between: [node, circuit.ground], ohm: meter_ohm }],
  };
  return restingVolts(probed)[node]!;
}

/** What is left of a node's voltage once the meter's own resistance hangs on that of the node. */
export function dividedReading(volts: number, own_ohm: number): number {
  const meter_ohm = meter_Mohm * 1e6;
  return (volts * meter_ohm) / (meter_ohm + own_ohm);
}

const known = new WeakMap<object, Map<string, number>>();

/** Resistance of a node of a drawn circuit to ground, as direct current sees it; worked out once. */
export function ownResistance_ohm(circuit: Netlist, node: string): number {
  const kept = known.get(circuit) ?? new Map<string, number>();
  known.set(circuit, kept);
  const found = kept.get(node);
  if (found !== undefined) return found;
  const source = circuit.parts.find(({ kind }) => kind === "voltage")!.id;
  const answer = response(circuit, { input: source, output: node, frequencies_Hz: [still_Hz] });
  if (answer.state !== "solved") throw new Error(`a drawn circuit has no response: ${answer.reason}`);
  const ohm = answer.outputImpedance_ohm[0]!;
  kept.set(node, ohm);
  return ohm;
}
