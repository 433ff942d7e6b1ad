import { isValve, type Netlist } from "./netlist.ts";

/** Valve parts by the bottle they stand in, places in the net list; a valve alone is a bottle of its own. */
export type Bottles = ReadonlyMap<string, readonly number[]>;

/**
 * Which parts are sections of one bottle: those that name the same `bottle`, and V1a, V1b … of one type where nothing
 * is named.
 */
export function bottlesOf(netlist: Netlist): Bottles {
  const bottles = new Map<string, number[]>();
  netlist.parts.forEach((part, i) => {
    if (!isValve(part)) return;
    const name = part.bottle ?? namedAlike(netlist, i) ?? part.id;
    bottles.set(name, [...(bottles.get(name) ?? []), i]);
  });
  for (const sections of bottles.values()) {
    sections.sort((a, b) => (netlist.parts[a]!.id < netlist.parts[b]!.id ? -1 : 1));
  }
  return bottles;
}

function namedAlike(netlist: Netlist, place: number): string | undefined {
  const part = netlist.parts[place]!;
  const stem = sectionName.exec(part.id)?.[1];
  if (stem === undefined || !isValve(part)) return undefined;
  const sisters = netlist.parts.filter(
    (other) =>
      isValve(other) &&
      other.bottle === undefined &&
      other.type === part.type &&
      sectionName.exec(other.id)?.[1] === stem,
  );
  return sisters.length > 1 ? stem : undefined;
}

const sectionName = /^(.*\d)[a-d]$/i;
