import { type Bottles, bottlesOf } from "./bottles.ts";
import { isValve, type Netlist } from "./netlist.ts";

/** Where a valve's heater stands: between two nodes of the net list, or at a potential that the net list states. */
export type Heater =
  | { readonly by: "nodes"; readonly between: readonly [string, string] }
  | { readonly by: "potential"; readonly heater_V: number };

/**
 * Heaters of the valves that have one in the net list, by part: what the valve itself says, else the resistor named by
 * its bottle and `h`, such as `V1h` for `V1a` and `V1b`.
 */
export function heatersOf(netlist: Netlist, bottles: Bottles = bottlesOf(netlist)): ReadonlyMap<string, Heater> {
  const resistors = new Map(
    netlist.parts.flatMap((part) => (part.kind === "resistor" ? [[part.id, part] as const] : [])),
  );
  const heaters = new Map<string, Heater>();
  for (const [bottle, sections] of bottles) {
    for (const place of sections) {
      const part = netlist.parts[place]!;
      if (!isValve(part)) continue;
      const drawn = part.heater ?? resistors.get(`${bottle}h`) ?? resistors.get(`${part.id}h`);
      if (drawn !== undefined) heaters.set(part.id, { by: "nodes", between: drawn.between });
      else if (part.heater_V !== undefined) heaters.set(part.id, { by: "potential", heater_V: part.heater_V });
    }
  }
  return heaters;
}

/** Potentials of a heater's ends. */
export function heaterEnds(heater: Heater, volts: (node: string) => number): readonly number[] {
  return heater.by === "nodes" ? heater.between.map(volts) : [heater.heater_V];
}
