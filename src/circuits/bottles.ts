import { catalogueEntry } from "../valves/model.ts";
import { isValve, type Netlist, type ValvePart } from "./netlist.ts";

/** Valve parts by the bottle they stand in, places in the net list; a valve alone is a bottle of its own. */
export type Bottles = ReadonlyMap<string, readonly number[]>;

/**
 * Which parts are sections of one bottle: those that name the same `bottle`, and where nothing is named V1a, V1b … of
 * one type, as many as the catalogue's type has sections. The bottle is then V1, also where only V1a of a type of two
 * sections is used; a part named V1 keeps the name to itself.
 */
export function bottlesOf(netlist: Netlist): Bottles {
  const bottles = new Map<string, number[]>();
  netlist.parts.forEach((part, i) => {
    if (!isValve(part)) return;
    const name = part.bottle ?? namedAlike(netlist, part) ?? part.id;
    bottles.set(name, [...(bottles.get(name) ?? []), i]);
  });
  for (const sections of bottles.values()) {
    sections.sort((a, b) => (netlist.parts[a]!.id < netlist.parts[b]!.id ? -1 : 1));
  }
  return bottles;
}

function namedAlike(netlist: Netlist, part: ValvePart): string | undefined {
  const stem = sectionName.exec(part.id)?.[1];
  const most = part.type === undefined ? undefined : catalogueEntry(part.type)?.sections;
  if (stem === undefined || most === 1) return undefined;
  const valves = netlist.parts.filter(isValve);
  if (valves.some(({ id, bottle }) => id === stem || bottle === stem)) return undefined;
  const sisters = valves
    .filter(
      (other) => other.bottle === undefined && other.type === part.type && sectionName.exec(other.id)?.[1] === stem,
    )
    .map(({ id }) => id)
    .sort();
  // Of two types under one stem, the type that comes first has the name.
  const first = valves.find(({ id, bottle }) => bottle === undefined && sectionName.exec(id)?.[1] === stem);
  if (first?.type !== part.type || sisters.indexOf(part.id) >= (most ?? sisters.length)) return undefined;
  return sisters.length > 1 || most !== undefined ? stem : undefined;
}

const sectionName = /^(.*\d)[a-d]$/i;
