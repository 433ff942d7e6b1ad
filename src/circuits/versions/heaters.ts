import type { Netlist } from "../netlist.ts";
import type { RestSolution } from "../rest.ts";
import { positionsOf } from "./positions.ts";

/** Where a valve's heater stands against ground, as far as the net list says. */
export interface HeaterLevel {
  readonly heater_V: number;
  /** The net list has a heater for this valve. */
  readonly known: boolean;
}

/**
 * Mean potential of each valve's heater, by the net list's part.
 *
 * A heater is a resistor named by its valve's position and `h`, such as `V1h` for `V1a` and `V1b`; a valve without
 * one is taken to have its heater at ground.
 */
export function heaterLevels(netlist: Netlist, rest: RestSolution): ReadonlyMap<string, HeaterLevel> {
  const byId = new Map(netlist.parts.map((part) => [part.id, part]));
  return new Map(
    positionsOf(netlist).flatMap(({ position, sections }) => {
      const heater = byId.get(`${position}h`);
      const isHeater = heater?.kind === "resistor";
      const heater_V = isHeater
        ? heater.between.reduce((sum, node) => sum + (rest.nodes[node] ?? 0), 0) / 2
        : (rest.nodes[netlist.ground] ?? 0);
      return Object.values(sections).map((part) => [part, { heater_V, known: isHeater }] as const);
    }),
  );
}
