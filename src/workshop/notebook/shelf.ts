import { type Netlist, readNetlist } from "../../circuits/index.ts";
import { positionsOf } from "../../circuits/versions/index.ts";
import type { Evidence } from "../../claims/evidence.ts";
import type { Shop } from "../../claims/index.ts";
import type { Calculate } from "../calculate.ts";
import { withCurves } from "../fittedCurves.ts";
import { readingsOfType } from "../valveTable.ts";

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
export async function curvedShelf(
  shop: Shop,
  evidence: readonly Evidence[],
  written: unknown,
  calculate: Calculate,
): Promise<readonly CurvedValve[]> {
  const netlist = readNetlist(written);
  const types = [...new Set(positionsOf(netlist).map(({ type }) => type))];
  const found = await Promise.all(
    types.map(async (type) => {
      const readings = readingsOfType(shop, evidence, type);
      if (!readings) return [];
      const free = [...readings.byValve.keys()].filter((valve) => !shop.fittedIn.has(valve)).slice(-mostOfType);
      const curved = await withCurves(free, sectionsFor(netlist, type), readings, calculate, kindOf(netlist, type));
      return curved.map(({ id, models }) => ({ id, type, models }));
    }),
  );
  return found.flat();
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
