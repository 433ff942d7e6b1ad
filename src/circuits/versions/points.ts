import type { Netlist } from "../netlist.ts";

export interface NamedPoint {
  readonly name: string;
  readonly node: string;
  readonly stage?: string | undefined;
  readonly channel?: string | undefined;
  /** How far from its rest it may lie, as a share, by design. */
  readonly tolerance?: number | undefined;
}

/** Test points of a net list; one written as a bare node is named by it, and belongs to the stage of a part there. */
export function namedPoints(netlist: Netlist): readonly NamedPoint[] {
  return (netlist.testPoints ?? []).map((point) => (typeof point === "string" ? { name: point, node: point } : point));
}
