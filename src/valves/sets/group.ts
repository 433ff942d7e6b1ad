import { alongLine } from "./alongLine.ts";
import { packed } from "./packing.ts";
import { bestPairs } from "./pairs.ts";
import type { Costing, Grouping, Order } from "./question.ts";

/** Chooses the way to group: along a line, by matching, or by packing; whichever proves most. */
export async function group(costing: Costing, order: Order, places: readonly (readonly number[])[]): Promise<Grouping> {
  const line = alongLine(costing, order);
  if (line !== undefined) return line;
  if (order.sizes.size === 1 && order.sizes.has(2)) return bestPairs(costing, order);
  return packed(costing, order, places);
}
