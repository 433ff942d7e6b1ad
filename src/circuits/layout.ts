import { BadInput } from "../maths/badInput.ts";
import { endsOf, type Netlist, type Part } from "./netlist.ts";

/** Where each node's voltage and each part's current stand among the unknowns; whatever the parts' values are. */
export interface Layout {
  readonly size: number;
  readonly nodeNames: readonly string[];
  /** Unknown of each node, −1 for ground. */
  readonly unknowns: ReadonlyMap<string, number>;
  /** First current unknown of each part, −1 where it has none. */
  readonly currentOf: Int32Array;
}

/** Under this a resistor's current becomes an unknown: its conductance would drown its neighbours'. */
const smallest_ohm = 1;

const mostUnknowns = 500;

/** @throws BadInput for a net list too large */
export function layoutOf(netlist: Netlist, path: string): Layout {
  const nodeNames = orderedNodes(netlist);
  const unknowns = new Map(nodeNames.map((node, i) => [node, i]));
  unknowns.set(netlist.ground, -1);
  const currentOf = new Int32Array(netlist.parts.length).fill(-1);
  let size = nodeNames.length;
  netlist.parts.forEach((part, i) => {
    const count = currentUnknowns(part);
    if (count === 0) return;
    currentOf[i] = size;
    size += count;
  });
  if (size > mostUnknowns) {
    throw new BadInput(
      `${path}.parts`,
      `a net list with ${size} unknown voltages and currents`,
      `at most ${mostUnknowns}, so that an answer comes in time`,
      "leave out stages that do not matter here",
    );
  }
  return { size, nodeNames, unknowns, currentOf };
}

/** Few neighbours first: then most rows of the elimination have nothing to do. */
function orderedNodes(netlist: Netlist): string[] {
  const neighbours = new Map<string, Set<string>>();
  for (const part of netlist.parts) {
    const nodes = endsOf(part).map(([, node]) => node);
    for (const node of nodes) {
      if (node === netlist.ground) continue;
      const set = neighbours.get(node) ?? new Set();
      for (const other of nodes) if (other !== node && other !== netlist.ground) set.add(other);
      neighbours.set(node, set);
    }
  }
  const ordered: string[] = [];
  while (neighbours.size > 0) {
    let next = "";
    let fewest = Number.POSITIVE_INFINITY;
    for (const [node, set] of neighbours) {
      if (set.size < fewest) [next, fewest] = [node, set.size];
    }
    const around = neighbours.get(next)!;
    neighbours.delete(next);
    for (const a of around) {
      const set = neighbours.get(a)!;
      set.delete(next);
      for (const b of around) if (b !== a) set.add(b);
    }
    ordered.push(next);
  }
  return ordered;
}

function currentUnknowns(part: Part): number {
  switch (part.kind) {
    case "resistor":
      return part.ohm < smallest_ohm ? 1 : 0;
    case "voltage":
    case "inductor":
      return 1;
    case "switch":
      return part.closed ? 1 : 0;
    case "transformer":
      return part.windings.length + 1;
    default:
      return 0;
  }
}
