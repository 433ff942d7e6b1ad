import type { Netlist } from "../netlist.ts";

/** Something real that an output drives: a headphone, a loudspeaker, the next input. */
export interface Load {
  readonly name: string;
  readonly ohm: number;
  /** Level at which distortion is told; left out, a watt into a loudspeaker and one volt into all else. */
  readonly level_Vrms?: number | undefined;
}

const loudspeaker_ohm = 20;

export function levelOf({ ohm, level_Vrms }: Load): number {
  return level_Vrms ?? (ohm <= loudspeaker_ohm ? Math.sqrt(ohm) : 1);
}

/** The net list with a load joined from an output to ground. */
export function loaded(netlist: Netlist, output: string, { ohm }: Load): Netlist {
  const id = freeName(netlist);
  return { ...netlist, parts: [...netlist.parts, { id, kind: "resistor", between: [output, netlist.ground], ohm }] };
}

function freeName({ parts }: Netlist): string {
  const taken = new Set(parts.map(({ id }) => id));
  let name = "load";
  while (taken.has(name)) name += "′";
  return name;
}
