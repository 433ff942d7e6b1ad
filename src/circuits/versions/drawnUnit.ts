import type { Random } from "../../maths/random.ts";
import type { ValveModel } from "../../valves/model.ts";
import type { Fitted } from "../circuit.ts";
import { isValve, type Netlist } from "../netlist.ts";
import type { ValveFactor } from "../valve.ts";
import type { ValvePosition } from "./positions.ts";

/** A valve of the shelf, with the curves fitted to its own readings, a section each. */
export interface ShelfValve {
  readonly id: string;
  readonly type: string;
  readonly models: Readonly<Record<string, ValveModel>>;
}

/** One unit as it might be built: factors on its parts, and what stands in its valve positions. */
export interface DrawnUnit {
  readonly values: ReadonlyMap<string, number>;
  readonly factors: ReadonlyMap<string, ValveFactor>;
  readonly models: ReadonlyMap<string, ValveModel>;
}

/** Half-width of a normal distribution that holds 99 %, in standard deviations. */
const per99 = 2.5758293035489;

/**
 * Draws a unit: every part with a tolerance from a normal distribution whose 99 % are the tolerance; valves from the
 * shelf, none twice in one unit, where it has enough of the type for all its positions, else by their tolerances.
 */
export function drawUnit(
  netlist: Netlist,
  positions: readonly ValvePosition[],
  shelf: ReadonlyMap<string, readonly ShelfValve[]>,
  chance: Random,
): DrawnUnit {
  const values = new Map<string, number>();
  const factors = new Map<string, ValveFactor>();
  for (const part of netlist.parts) {
    const lot = chance.fork(part.id);
    if (isValve(part)) {
      const { current = 0, mu = 0 } = part.tolerance ?? {};
      if (current > 0 || mu > 0) factors.set(part.id, { current: factor(lot, current), mu: factor(lot, mu) });
    } else if ("tolerance" in part && part.tolerance) values.set(part.id, factor(lot, part.tolerance));
  }
  const models = new Map<string, ValveModel>();
  for (const type of new Set(positions.map((position) => position.type))) {
    const places = positions.filter((position) => position.type === type);
    const valves = [...(shelf.get(type) ?? [])];
    if (valves.length < places.length) continue;
    const lot = chance.fork(`shelf ${type}`);
    for (const place of places) {
      const [valve] = valves.splice(lot.integer(valves.length), 1);
      stand(valve!, place, models);
      for (const part of Object.values(place.sections)) factors.delete(part);
    }
  }
  return { values, factors, models };
}

/** Puts a valve into a position. */
export function stand(valve: ShelfValve, place: ValvePosition, models: Map<string, ValveModel>): void {
  for (const [section, part] of Object.entries(place.sections)) {
    const model = valve.models[section];
    if (model) models.set(part, model);
  }
}

/** The unit with one part, or one position's valve, as the version has it. */
export function withoutSpreadOf(unit: DrawnUnit, parts: readonly string[]): Fitted {
  const without = <T>(map: ReadonlyMap<string, T>): ReadonlyMap<string, T> => {
    if (!parts.some((part) => map.has(part))) return map;
    const left = new Map(map);
    for (const part of parts) left.delete(part);
    return left;
  };
  return { values: without(unit.values), factors: without(unit.factors), models: without(unit.models) };
}

/** No part comes out at nothing or less, however wide its tolerance. */
const least = 0.02;

const factor = (lot: Random, tolerance: number): number =>
  tolerance > 0 ? Math.max(least, lot.normal(1, tolerance / per99)) : 1;
