import type { NetlistInput } from "../netlist.ts";

export type Parts = NetlistInput["parts"];

/** Exact parts of a net list written by hand, for tests that say only what matters to them. */
export const resistor = (id: string, a: string, b: string, ohm: number): Parts[number] => ({
  id,
  kind: "resistor",
  between: [a, b],
  ohm,
});
export const capacitor = (id: string, a: string, b: string, uF: number): Parts[number] => ({
  id,
  kind: "capacitor",
  between: [a, b],
  uF,
});
/** A source from a node to ground. */
export const source = (id: string, node: string, dc_V = 0): Parts[number] => ({
  id,
  kind: "voltage",
  between: [node, "0"],
  dc_V,
});
