import { heaterEnds, heatersOf } from "../heaters.ts";
import { isValve, type Netlist } from "../netlist.ts";
import type { RestSolution } from "../rest.ts";

/** Where a valve's heater stands against ground, as far as the net list says. */
export interface HeaterLevel {
  /** The end that lies further from the cathode. */
  readonly heater_V: number;
  /** The net list has a heater for this valve. */
  readonly known: boolean;
}

/** Potential of each valve's heater, by the net list's part; a valve without one is taken to have it at ground. */
export function heaterLevels(netlist: Netlist, rest: RestSolution): ReadonlyMap<string, HeaterLevel> {
  const heaters = heatersOf(netlist);
  const volts = (node: string) => rest.nodes[node] ?? 0;
  return new Map(
    netlist.parts.filter(isValve).map((part) => {
      const heater = heaters.get(part.id);
      const ends = heater ? heaterEnds(heater, volts) : [volts(netlist.ground)];
      const cathode_V = volts(part.cathode);
      const further = (a: number, b: number) => (Math.abs(b - cathode_V) > Math.abs(a - cathode_V) ? b : a);
      return [part.id, { heater_V: ends.reduce(further), known: heater !== undefined }];
    }),
  );
}
