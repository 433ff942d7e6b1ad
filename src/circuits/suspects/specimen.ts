import { checkNetlist } from "../check.ts";
import { buildCircuit, type Circuit, refit } from "../circuit.ts";
import type { Netlist, Part } from "../netlist.ts";
import { scaled } from "../scaled.ts";
import { type Settled, settle, type Unsettled } from "../settle.ts";
import { type CircuitSolvers, solversOf } from "../solvers.ts";
import { straightEquations } from "../straight.ts";
import type { ValveFactor } from "../valve.ts";
import type { Edit } from "./edit.ts";
import { type ToleratedValue, toleratedValues } from "./tolerances.ts";

/** One unit thought through: a fault or none, and how far each value of its parts lies from the net list's. */
export interface Specimen {
  readonly circuit: Circuit;
  readonly rest: Settled;
}

/** The good unit that all specimens are changed from. */
export interface Pattern {
  readonly netlist: Netlist;
  readonly circuit: Circuit;
  readonly rest: Settled;
  readonly values: readonly ToleratedValue[];
  /** Solvers with room for every way that a fault may add between two nodes. */
  readonly wide: CircuitSolvers;
}

/**
 * @param ways  pairs of nodes that some fault joins
 * @throws BadInput as `solveRest` for a net list that can't be answered
 */
export function patternUnit(
  netlist: Netlist,
  ways: readonly (readonly [string, string])[],
  path: string,
): Pattern | Unsettled {
  checkNetlist(netlist, path, true);
  const circuit = buildCircuit(netlist, path);
  const rest = settle(circuit);
  if (rest.state !== "solved") return rest;
  const joined: Part[] = ways.map((between, i) => ({
    id: `\u0000way${i}`,
    kind: "resistor",
    between: [...between],
    ohm: 1e6,
  }));
  const straight = straightEquations({ ...netlist, parts: [...netlist.parts, ...joined] }, circuit.layout);
  const wide = solversOf(circuit.layout, straight, circuit.devices);
  return { netlist, circuit, rest, values: toleratedValues(netlist), wide };
}

/**
 * A specimen at rest.
 *
 * @param off    relative deviation of each tolerated value; left out, all as the net list says
 * @param start  unknowns to start from; the pattern's own where left out
 * @returns nothing where no rest was found
 */
export function specimen(pattern: Pattern, edit: Edit, off?: Float64Array, start?: Float64Array): Specimen | undefined {
  const bare = circuitOf(pattern, edit, off);
  const from = start?.length === bare.size ? start : pattern.rest.x;
  for (const circuit of [insulated(bare), bare]) {
    const rest = settle(circuit, from.length === circuit.size ? from : undefined);
    if (rest.state === "solved") return { circuit, rest };
  }
  return undefined;
}

/** The parts of a net list with a fault among them. */
export function editedParts(parts: readonly Part[], { instead, added = [] }: Edit): Part[] {
  return [...parts.map((part, i) => instead?.get(i) ?? part), ...added];
}

/** What insulation leaks from every node: too little to read, and it holds a node that a break leaves to nothing else. */
const insulation_S = 1e-12;

function insulated(circuit: Circuit): Circuit {
  const { size, nodeNames } = circuit;
  const steady = circuit.steady.slice();
  for (let i = 0; i < nodeNames.length; i++) steady[i * size + i]! += insulation_S;
  return { ...circuit, steady };
}

function circuitOf(pattern: Pattern, edit: Edit, off: Float64Array | undefined): Circuit {
  const { netlist, circuit, values } = pattern;
  const own = new Map<string, number>();
  const factors = new Map<string, ValveFactor>(edit.factors);
  values.forEach((value, i) => {
    const share = off?.[i] ?? 0;
    if (share === 0) return;
    const { id } = netlist.parts[value.part]!;
    if (value.of === "value") own.set(id, 1 + share);
    else {
      const factor = factors.get(id) ?? { current: 1, mu: 1 };
      factors.set(id, { ...factor, [value.of]: factor[value.of] * (1 + share) });
    }
  });
  const faulted: Netlist = { ...netlist, parts: editedParts(netlist.parts, edit) };
  const fitted = { factors, models: edit.models };
  const drawn = scaled(faulted, own);
  if (edit.relaid) return quieted(buildCircuit(drawn, circuit.path, fitted), edit);
  const straight = straightEquations(drawn, circuit.layout);
  const bent = factors.size > 0 || edit.models !== undefined ? refit(circuit, fitted) : circuit;
  const solvers = edit.added?.some(({ kind }) => kind === "resistor") ? pattern.wide : circuit.solvers;
  return quieted({ ...bent, netlist: drawn, ...straight, solvers }, edit);
}

function quieted(circuit: Circuit, { silent }: Edit): Circuit {
  if (silent === undefined) return circuit;
  return { ...circuit, devices: circuit.devices.filter(({ part }) => !silent.includes(part)) };
}
