import type { Model } from "../claims/evidence.ts";
import { netlistParts, type Shop } from "../claims/index.ts";
import { BadInput } from "../maths/badInput.ts";
import type { Calculate } from "./calculate.ts";
import { groundOf } from "./probePlaces.ts";

/** A place that valves of a type might serve, as `valves.verdict` takes it. */
export interface ValvePlace {
  readonly position: string;
  readonly type: string;
  readonly gridLeak_ohm: number;
  readonly cathode_ohm?: number;
  readonly sections: readonly string[];
}

interface DeadResistances {
  readonly resistances: readonly { readonly ohm?: number }[];
}

/** More places than this are not judged at a time. */
const mostPlaces = 40;

/**
 * The positions of all models that take a type, each with the resistance that its grid current flows through: from
 * the grid to ground in the dead circuit, the greatest of its sections'. A position without such a way is left out.
 */
export async function placesFor(shop: Shop, type: string, calculate: Calculate): Promise<readonly ValvePlace[]> {
  const newest = new Map([...shop.models.values()].map(({ body }) => [body.model, body]));
  const found = await Promise.all(
    [...newest.values()].flatMap((model) =>
      model.positions
        .filter((position) => position.type === type)
        .map(({ position, sections }) => placeOf(model, position, type, sections, calculate)),
    ),
  );
  return found.filter((place) => place !== undefined).slice(0, mostPlaces);
}

async function placeOf(
  model: Model,
  position: string,
  type: string,
  sections: Readonly<Record<string, string>>,
  calculate: Calculate,
): Promise<ValvePlace | undefined> {
  const ground = groundOf(model);
  const parts = netlistParts(model).filter(({ id }) => Object.values(sections).includes(id));
  const grids = parts.map(({ grid }) => grid).filter((grid) => typeof grid === "string" && grid !== ground);
  if (grids.length === 0) return undefined;
  try {
    const { resistances } = await calculate<DeadResistances>("circuits.resistance", {
      netlist: model.netlist,
      between: grids.map((grid) => [grid, ground]),
    });
    const leaks = resistances.flatMap(({ ohm }) => ohm ?? []);
    if (leaks.length === 0) return undefined;
    const cathode_ohm = cathodeResistor(model, parts[0]?.cathode, ground);
    return {
      position: `${model.model} ${position}`,
      type,
      gridLeak_ohm: leaks.reduce((a, b) => Math.max(a, b)),
      ...(cathode_ohm !== undefined && { cathode_ohm }),
      sections: Object.keys(sections),
    };
  } catch (fault) {
    // A net list that can't be answered advises nothing; the model's own screens say what is wrong with it.
    if (fault instanceof BadInput) return undefined;
    throw fault;
  }
}

/** The resistor that sets the bias, where one stands between the cathode and ground. */
function cathodeResistor(model: Model, cathode: unknown, ground: string): number | undefined {
  const resistor = netlistParts(model).find(
    ({ kind, between }) =>
      kind === "resistor" && Array.isArray(between) && between.includes(cathode) && between.includes(ground),
  );
  return typeof resistor?.ohm === "number" ? resistor.ohm : undefined;
}
