import type { Circuit } from "../circuit.ts";
import type { Netlist, Part } from "../netlist.ts";
import { scaledPart } from "../scaled.ts";
import { straightEquations } from "../straight.ts";

/** One entry of the equations that a part puts there, and the power with which a factor on its value goes into it. */
interface Stamp {
  /** Place in the matrix, or row of the right-hand side. */
  readonly at: number;
  readonly value: number;
}

/** What a part alone puts into the equations at rest, told apart by how it goes with a factor on the part's value. */
export interface PartStamps {
  readonly fixed: readonly Stamp[];
  /** Goes as the factor: a resistance in a branch. */
  readonly rising: readonly Stamp[];
  /** Goes as one over the factor: a conductance. */
  readonly falling: readonly Stamp[];
  readonly drive: readonly Stamp[];
}

/**
 * Stamps of one part, found by solving for it alone and again with its value doubled: in binary numbers every entry
 * then stays, doubles or halves exactly.
 */
export function stampsOf(circuit: Circuit, place: number): PartStamps {
  const part = circuit.netlist.parts[place]!;
  const once = aloneEquations(circuit, place, part);
  const twice = aloneEquations(circuit, place, scaledPart(part, 2));
  const fixed: Stamp[] = [];
  const rising: Stamp[] = [];
  const falling: Stamp[] = [];
  for (const at of circuit.solvers.steady.pattern.places) {
    const value = once.steady[at]!;
    if (value === 0) continue;
    const doubled = twice.steady[at]!;
    (doubled === value ? fixed : doubled === 2 * value ? rising : falling).push({ at, value });
  }
  const drive = [...once.drive].flatMap((value, at) => (value === 0 ? [] : [{ at, value }]));
  return { fixed, rising, falling, drive };
}

function aloneEquations(circuit: Circuit, place: number, part: Part): ReturnType<typeof straightEquations> {
  const { layout, netlist } = circuit;
  const alone: Netlist = { ...netlist, parts: [part] };
  return straightEquations(alone, { ...layout, currentOf: layout.currentOf.slice(place, place + 1) });
}
