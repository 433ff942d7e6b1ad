import {
  type Netlist,
  type Output,
  type RestSolution,
  readNetlist,
  response,
  solveRest,
} from "../../circuits/index.ts";
import type { Model } from "../../claims/evidence.ts";
import type { UnitTruth, ValveTruth } from "../truth.ts";
import { type Fault, withFault } from "./fault.ts";

/** What a model says of its circuit, as far as the bench needs it. */
export type Wiring = Pick<Model, "netlist" | "positions" | "input" | "output" | "channels">;

/** Gas current of a section from which the bias of its own circuit moves by more than a meter's doubt. */
const gassy_uA = 1;

/**
 * A unit's own circuit: its resistors as they really are, the valves that stand in it, and what went wrong. A valve
 * with a screen is known here as the triode that its connection makes of it; a gassy one sends its current out of its
 * grid, into whatever resistance the circuit has there.
 */
export function unitCircuit(
  model: Wiring,
  resistors: UnitTruth["resistors"],
  fitted: Readonly<Record<string, ValveTruth>>,
  fault?: Fault,
): Netlist {
  const sections = new Map(
    model.positions.flatMap(({ position, sections }) =>
      Object.entries(sections).map(([section, part]) => [part, fitted[position]?.sections[section]] as const),
    ),
  );
  const netlist = readOnce(model.netlist);
  const circuit: Netlist = {
    ...netlist,
    parts: netlist.parts.flatMap((part): Netlist["parts"] => {
      if (part.kind === "resistor") return [{ ...part, ohm: part.ohm * (resistors[part.id] ?? 1) }];
      const truth = sections.get(part.id);
      if (truth === undefined || (part.kind !== "triode" && part.kind !== "pentode")) return [part];
      const { id, stage, channel, plate, grid, cathode } = part;
      const valve = { id, kind: "triode", stage, channel, plate, grid, cathode, law: truth.law } as const;
      if (truth.gridCurrent_uA < gassy_uA) return [valve];
      const gas = { id: `gas of ${id}`, kind: "current", between: [netlist.ground, grid] } as const;
      return [valve, { ...gas, between: [...gas.between], dc_mA: truth.gridCurrent_uA / 1000, ac_mA: 0 }];
    }),
  };
  return fault === undefined ? circuit : withFault(circuit, fault);
}

const alreadyRead = new WeakMap<object, Netlist>();

/** A model's net list as drawn, read once. */
export function readOnce(netlist: Wiring["netlist"]): Netlist {
  const known = alreadyRead.get(netlist) ?? readNetlist(netlist);
  alreadyRead.set(netlist, known);
  return known;
}

export function rest(circuit: Netlist): RestSolution {
  const solution = solveRest(circuit);
  if (solution.state !== "solved") throw new Error(`a demo unit finds no rest: ${solution.reason}`);
  return solution;
}

/** Standing voltages of all nodes to ground. */
export function restingVolts(circuit: Netlist): Readonly<Record<string, number>> {
  return rest(circuit).nodes;
}

export interface ChannelResponse {
  readonly gain_dB: readonly number[];
  readonly outputImpedance_ohm: readonly number[];
}

export function channelResponse(
  circuit: Netlist,
  input: string,
  output: Output,
  frequencies_Hz: readonly number[],
): ChannelResponse {
  const answer = response(circuit, { input, output, frequencies_Hz });
  if (answer.state !== "solved") throw new Error(`a demo unit has no response: ${answer.reason}`);
  return answer;
}

/** Output volts per ampere sent into a node, negative where it comes out upside down. */
export function transfer_ohm(circuit: Netlist, node: string, output: Output, frequency_Hz: number): number {
  const probe = { id: "leak", kind: "current", between: [circuit.ground, node], dc_mA: 0, ac_mA: 1 } as const;
  const driven: Netlist = { ...circuit, parts: [...circuit.parts, { ...probe, between: [...probe.between] }] };
  const answer = response(driven, { input: probe.id, output, frequencies_Hz: [frequency_Hz] });
  if (answer.state !== "solved") throw new Error(`a demo unit has no response: ${answer.reason}`);
  const ratio = 10 ** (answer.gain_dB[0]! / 20);
  const upright = Math.abs(answer.phase_deg[0]!) < 90 ? 1 : -1;
  return upright * ratio * answer.inputImpedance_ohm[0]!;
}
