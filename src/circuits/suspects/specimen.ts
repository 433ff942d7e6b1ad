import { checkNetlist } from "../check.ts";
import { buildCircuit, type Circuit, refit } from "../circuit.ts";
import type { Netlist, Part } from "../netlist.ts";
import { scaled } from "../scaled.ts";
import { type Settled, settle, type Unsettled } from "../settle.ts";
import { type CircuitSolvers, solversOf } from "../solvers.ts";
import { type StraightEquations, straightEquations } from "../straight.ts";
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
  /** Solvers for the pattern with one way more between two nodes, by their names. */
  readonly widened: Map<string, CircuitSolvers>;
}

/** @throws BadInput as `solveRest` for a net list that can't be answered */
export function patternUnit(netlist: Netlist, path: string): Pattern | Unsettled {
  checkNetlist(netlist, path, true);
  const circuit = buildCircuit(netlist, path);
  const rest = settle(circuit);
  if (rest.state !== "solved") return rest;
  return { netlist, circuit, rest, values: toleratedValues(netlist), widened: new Map() };
}

/**
 * A specimen at rest.
 *
 * @param off    relative deviation of each tolerated value; left out, all as the net list says
 * @param start  unknowns to start from; the pattern's own where left out
 * @returns nothing where no rest was found
 */
export function specimen(pattern: Pattern, edit: Edit, off?: Float64Array, start?: Float64Array): Specimen | undefined {
  const circuit = circuitOf(pattern, edit, off);
  const from = start?.length === circuit.size ? start : pattern.rest.x;
  const rest = settle(circuit, from.length === circuit.size ? from : undefined);
  return rest.state === "solved" ? { circuit, rest } : undefined;
}

/** The parts of a net list with a fault among them. */
export function editedParts(parts: readonly Part[], { instead, added = [] }: Edit): Part[] {
  return [...parts.map((part, i) => instead?.get(i) ?? part), ...added];
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
  const solvers = widenedSolvers(pattern, edit.added ?? [], straight);
  return quieted({ ...bent, netlist: drawn, ...straight, solvers }, edit);
}

function quieted(circuit: Circuit, { silent }: Edit): Circuit {
  if (silent === undefined) return circuit;
  return { ...circuit, devices: circuit.devices.filter(({ part }) => !silent.includes(part)) };
}

/** A part that comes after the net list's own may join nodes that nothing joined before. */
function widenedSolvers(
  { netlist, circuit, widened }: Pattern,
  added: readonly Part[],
  straight: StraightEquations,
): CircuitSolvers {
  const pairs = added
    .filter((part) => part.kind === "resistor")
    .map(({ between }) => between)
    .filter((between) => !between.includes(netlist.ground));
  if (pairs.length === 0) return circuit.solvers;
  const key = JSON.stringify(pairs);
  const known = widened.get(key);
  if (known !== undefined) return known;
  const made = solversOf(circuit.layout, straight, circuit.devices);
  widened.set(key, made);
  return made;
}
