import { type Netlist, readNetlist } from "../../circuits/index.ts";
import { positionsOf } from "../../circuits/versions/index.ts";
import type { Shop } from "../../claims/index.ts";
import type { Calculate } from "../calculate.ts";
import { withCurves } from "../fittedCurves.ts";
import { ValveShelf } from "../valveShelf.ts";

export interface CurvedValve {
  readonly id: string;
  readonly type: string;
  readonly models: Readonly<Record<string, object>>;
}

/** More valves of a type than these say nothing new of its spread. */
const mostOfType = 60;

/**
 * The shop's own valves that could stand in a net list: of its types, fitted nowhere, each section's curve fitted to
 * its own readings.
 */
export async function curvedShelf(shop: Shop, written: unknown, calculate: Calculate): Promise<readonly CurvedValve[]> {
  const netlist = readNetlist(written);
  const shelf = new ValveShelf(shop);
  const types = [...new Set(positionsOf(netlist).map(({ type }) => type))];
  const found = await Promise.all(
    types.map(async (type) => {
      const free = freeOfType(shop, shelf, type);
      const readings = shelf.readingsOfValves(type, free);
      if (!readings) return [];
      const curved = await withCurves(free, sectionsFor(netlist, type), readings, calculate, kindOf(netlist, type));
      return curved.map(({ id, models }) => ({ id, type, models }));
    }),
  );
  return found.flat();
}

/** Valves of the newest trays that were read and stand nowhere, those read first last. */
function freeOfType(shop: Shop, shelf: ValveShelf, type: string): readonly string[] {
  const found: { readonly valve: string; readonly seq: number }[] = [];
  for (const { body } of shelf.batches.toReversed()) {
    if (found.length >= mostOfType) break;
    if (body.type !== type) continue;
    for (const valve of body.valves) {
      const first = shop.fittedIn.has(valve) ? undefined : shelf.readingsOf(valve)[0];
      if (first) found.push({ valve, seq: first.seq });
    }
  }
  const byReading = found.toSorted((a, b) => a.seq - b.seq);
  return byReading.slice(-mostOfType).map(({ valve }) => valve);
}

function sectionsFor(netlist: Netlist, type: string): Readonly<Record<string, string>> {
  return Object.assign(
    {},
    ...positionsOf(netlist)
      .filter((p) => p.type === type)
      .map(({ sections }) => sections),
  );
}

function kindOf(netlist: Netlist, type: string): "triode" | "pentode" {
  return netlist.parts.some((part) => part.kind === "pentode" && part.type === type) ? "pentode" : "triode";
}
