import { catalogueEntry } from "../../valves/model.ts";
import { isValve, type Netlist } from "../netlist.ts";

/** A place in the chassis that takes one valve, with the net list's part for each of its sections. */
export interface ValvePosition {
  readonly position: string;
  readonly type: string;
  readonly sections: Readonly<Record<string, string>>;
}

/**
 * Valve positions by the names of their parts: `V1a` and `V1b` of one type stand in position `V1`, `V2` in `V2`.
 *
 * Parts whose type the catalogue knows with fewer sections than their letters say stand each for itself. Valves
 * without a type have no position, for no valve on a shelf could be said to fit.
 */
export function positionsOf(netlist: Netlist): readonly ValvePosition[] {
  const positions: { position: string; type: string; sections: Record<string, string> }[] = [];
  for (const part of netlist.parts) {
    if (!isValve(part) || part.type === undefined) continue;
    const { id, type } = part;
    const [, stem, letter] = /^(.*\d)([a-z])$/.exec(id) ?? [];
    const most = catalogueEntry(type)?.sections ?? 2;
    if (stem === undefined || letter === undefined || most < 2) {
      positions.push({ position: id, type, sections: { a: id } });
      continue;
    }
    const held = positions.find((one) => one.position === stem && one.type === type && !(letter in one.sections));
    if (held && Object.keys(held.sections).length < most) held.sections[letter] = id;
    else {
      const taken = positions.some((one) => one.position === stem);
      positions.push({ position: taken ? id : stem, type, sections: { [letter]: id } });
    }
  }
  return positions;
}
