import { catalogueEntry } from "../../valves/model.ts";
import type { Netlist } from "../netlist.ts";
import type { RestSolution } from "../rest.ts";
import { positionsOf } from "./positions.ts";

export interface Heat {
  readonly total_W: number;
  /** What each part turns into heat, most first; heaters by their valve's position where the net list has none. */
  readonly parts: readonly { readonly part: string; readonly heat_W: number }[];
  readonly notes: readonly string[];
}

/** Parts that turn less than this into heat are not named. */
const leastNamed_W = 1e-6;

/**
 * Heat at rest of all that stands in the case.
 *
 *     sum of V·I over the parts that take power up, and V·A of each valve's heater
 *
 * @remarks Heaters are those of the net list (parts of a stage named heaters); where it has none, the catalogue's.
 * What the mains transformer itself loses is in it only as far as the net list has its windings; rails of direct
 * current carry no ripple.
 */
export function heatOf(netlist: Netlist, rest: RestSolution): Heat {
  const notes: string[] = [];
  const parts = netlist.parts.flatMap(({ id, kind }) => {
    const power_W = (rest.parts[id]?.power_mW ?? 0) / 1e3;
    return kind === "voltage" || kind === "current" || power_W <= 0 ? [] : [{ part: id, heat_W: power_W }];
  });
  if (!netlist.parts.some(({ stage }) => stage === "heaters")) {
    const positions = positionsOf(netlist);
    for (const { position, type } of positions) {
      const heater = catalogueEntry(type)?.heater;
      if (heater) parts.push({ part: `${position} heater`, heat_W: heater.V * heater.A });
    }
    if (positions.length > 0) notes.push("the net list has no stage heaters; heater heat is the catalogue's");
  }
  const total_W = parts.reduce((sum, { heat_W }) => sum + heat_W, 0);
  return {
    total_W,
    parts: parts.filter(({ heat_W }) => heat_W >= leastNamed_W).sort((a, b) => b.heat_W - a.heat_W),
    notes,
  };
}
