import type { Shop } from "../../claims/index.ts";

/** Slots of a place that nothing stands in, as far as was written down; nothing where its slots were never counted. */
export function slotsFree(shop: Shop, place: string): number | undefined {
  const capacity = capacityOf(shop, place);
  return capacity === undefined ? undefined : Math.max(0, capacity - shop.runs.slotsOf(place).length);
}

/** The first slot that is free. */
export function freeSlot(shop: Shop, place: string): number | undefined {
  const capacity = capacityOf(shop, place);
  if (capacity === undefined) return undefined;
  const taken = new Set(shop.runs.slotsOf(place).map(({ slot }) => slot));
  for (let slot = 1; slot <= capacity; slot++) if (!taken.has(slot)) return slot;
  return undefined;
}

function capacityOf(shop: Shop, place: string): number | undefined {
  const known = shop.shop?.places.find(({ id }) => id === place);
  return known && (known.capacity ?? 1);
}
