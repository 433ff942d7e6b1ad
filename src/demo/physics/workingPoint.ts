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

/** What a model says of its circuit, as far as the bench needs it. */
export type Wiring = Pick<Model, "netlist" | "positions" | "input" | "output" | "channels">;

/**
 * A unit's own circuit: its resistors as they really are, and the valves that stand in it. A valve with a screen is
 * known here as the triode that its connection makes of it.
 */
export function unitCircuit(
  model: Wiring,
  resistors: UnitTruth["resistors"],
  fitted: Readonly<Record<string, ValveTruth>>,
): Netlist {
  const laws = new Map(
    model.positions.flatMap(({ position, sections }) =>
      Object.entries(sections).map(([section, part]) => [part, fitted[position]?.sections[section]?.law] as const),
    ),
  );
  const netlist = readOnce(model.netlist);
  return {
    ...netlist,
    parts: netlist.parts.map((part) => {
      if (part.kind === "resistor") return { ...part, ohm: part.ohm * (resistors[part.id] ?? 1) };
      const law = laws.get(part.id);
      if (law === undefined || (part.kind !== "triode" && part.kind !== "pentode")) return part;
      const { id, stage, channel, plate, grid, cathode } = part;
      return { id, kind: "triode", stage, channel, plate, grid, cathode, law };
    }),
  };
}

const alreadyRead = new WeakMap<object, Netlist>();

function readOnce(netlist: Wiring["netlist"]): Netlist {
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
