import { BadInput, quote } from "../maths/badInput.ts";
import type { ValveModel } from "../valves/model.ts";
import { checkNetlist } from "./check.ts";
import { buildCircuit, refit } from "./circuit.ts";
import { isValve, type Netlist } from "./netlist.ts";
import { difference, inDecibels, type Output, portsOf } from "./response.ts";
import { settle } from "./settle.ts";
import { answerTo, answerVector, factorAt, smallSignal } from "./smallSignal.ts";

/** Curves of the valves tried, by the part they stand in; parts not named keep the net list's own. */
export type Candidate = Readonly<Record<string, ValveModel>>;

/**
 * Gains of several channels at one frequency, ready to be asked for one set of valves after another.
 *
 * Each channel drives its own source, all others at zero. The working point of the net list's own valves is found
 * once; every candidate starts from it, so that a set costs a few steps of Newton and one solve a channel.
 *
 * @param inputs   ids of sources, one a channel
 * @param outputs  nodes or pairs of nodes, one a channel
 * @returns a function from valves to the channels' gains in dB
 * @throws BadInput as `response`; also when the circuit finds no rest with these valves
 */
export function gainsOf(
  netlist: Netlist,
  inputs: readonly string[],
  outputs: readonly Output[],
  frequency_Hz: number,
  path = "netlist",
): (candidate: Candidate) => number[] {
  if (inputs.length !== outputs.length) {
    throw new BadInput(
      "output",
      `${outputs.length} outputs for ${inputs.length} inputs`,
      "as many outputs as inputs, one a channel",
      "give both lists in the same order",
    );
  }
  checkNetlist(netlist, path, true);
  const circuit = buildCircuit(netlist, path);
  const list = inputs.length > 1;
  const ports = inputs.map((input, i) => portsOf(circuit, { input, output: outputs[i]! }, list ? `[${i}]` : ""));
  const own = settle(circuit);
  const start = own.state === "solved" ? own.x : undefined;
  const positions = new Map(netlist.parts.filter(isValve).map((part) => [part.id, part.kind]));

  return (candidate) => {
    for (const [position, model] of Object.entries(candidate)) checkPosition(positions, position, model, path);
    const tried = refit(circuit, { models: new Map(Object.entries(candidate)) });
    const settled = settle(tried, start);
    if (settled.state !== "solved") {
      throw new BadInput(
        path,
        settled.reason,
        "a circuit that comes to rest",
        "check the net list and the valves' curves",
      );
    }
    const signal = smallSignal(tried, settled.x);
    const singular = factorAt(signal, frequency_Hz);
    if (singular >= 0) {
      throw new BadInput(path, "an unknown that nothing determines", "a circuit with one answer", "check the net list");
    }
    const answer = answerVector(signal);
    return ports.map((port) => {
      answerTo(signal, port.drive, answer);
      const out = difference(answer, port.plus, port.minus);
      if (port.source.kind === "voltage") return inDecibels(out).gain_dB;
      const source = difference(answer, port.source.plus, port.source.minus);
      return inDecibels(out).gain_dB - inDecibels(source).gain_dB;
    });
  };
}

function checkPosition(
  positions: ReadonlyMap<string, ValveModel["kind"]>,
  position: string,
  model: ValveModel,
  path: string,
): void {
  const kind = positions.get(position);
  if (kind === undefined) {
    throw new BadInput(
      path,
      `no valve ${quote(position)} in the net list`,
      `one of ${[...positions.keys()].join(", ")}`,
      "name positions by the ids of valves in the net list",
    );
  }
  if (kind === "pentode" && model.kind === "triode") {
    throw new BadInput(
      path,
      `a triode's curve for pentode ${quote(position)}`,
      "a pentode's curve",
      "give a pentode's model",
    );
  }
}

/** `gainsOf` for a list of candidates: one list of channel gains in dB for each. */
export function gains_dB(
  netlist: Netlist,
  inputs: readonly string[],
  outputs: readonly Output[],
  frequency_Hz: number,
  candidates: readonly Candidate[],
): number[][] {
  return candidates.map(gainsOf(netlist, inputs, outputs, frequency_Hz));
}
