import { bottlesOf } from "../bottles.ts";
import { isValve, type Netlist } from "../netlist.ts";

/** A place in the chassis that takes one valve, with the net list's part for each of its sections. */
export interface ValvePosition {
  readonly position: string;
  readonly type: string;
  readonly sections: Readonly<Record<string, string>>;
}

/**
 * Valve positions: the net list's bottles (`bottles.ts`), sections named by the letter that ends their part's name, else
 * a, b … in order.
 *
 * Valves without a type have no position, for no valve on a shelf could be said to fit.
 */
export function positionsOf(netlist: Netlist): readonly ValvePosition[] {
  return [...bottlesOf(netlist)].flatMap(([position, places]): ValvePosition[] => {
    const parts = places.map((place) => netlist.parts[place]!).filter(isValve);
    const type = parts[0]?.type;
    if (type === undefined) return [];
    const letters = parts.map(({ id }) => /\d([a-d])$/i.exec(id)?.[1]?.toLowerCase());
    const areLettered = parts.length > 1 || parts[0]!.id !== position;
    const isTold = areLettered && new Set(letters).size === parts.length && !letters.includes(undefined);
    const sections = parts.map(({ id }, i) => [isTold ? letters[i]! : "abcd"[i % 4]!, id] as const);
    return [{ position, type, sections: Object.fromEntries(sections) }];
  });
}
