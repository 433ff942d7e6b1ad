import type { Chosen, Place } from "./program.ts";
import type { Item, Ripping } from "./strips.ts";

/**
 * A plan by hand's rule: the largest panel first, each where it counts least, a new board only when it must.
 *
 * A stretch's opening counts by the share of it that the item takes, so that full boards win.
 */
export function greedyPlan(
  items: readonly Item[],
  rippings: readonly Ripping[],
  places: readonly Place[],
  penalty: number,
  kerf_mm: number,
): Chosen {
  const byItem = new Map<number, number[]>();
  for (const [k, { item }] of places.entries()) {
    const here = byItem.get(item);
    if (here) here.push(k);
    else byItem.set(item, [k]);
  }
  const left = new Map<string, number>();
  const open = new Map<number, number>();
  const panels = [...new Set(items.map(({ panel }) => panel))];
  const area_dm2 = new Map<number, number>();
  for (const item of items) area_dm2.set(item.panel, (area_dm2.get(item.panel) ?? 0) + item.area_dm2);
  panels.sort((a, b) => area_dm2.get(b)! - area_dm2.get(a)!);
  const taken: number[] = [];
  let cost = 0;
  for (const panel of panels) {
    const mine = items.flatMap((item, i) => (item.panel === panel ? [i] : []));
    const [keptLeft, keptOpen, begun, costBefore] = [new Map(left), new Map(open), taken.length, cost];
    const isPlaced = mine.every((i) => {
      const need = items[i]!.length_mm + kerf_mm;
      let best: { k: number; count: number } | undefined;
      for (const k of byItem.get(i) ?? []) {
        const { ripping, strip, cost: own } = places[k]!;
        const { segment, length_mm, area_dm2, strips_mm } = rippings[ripping]!;
        const already = open.get(segment);
        if (already !== undefined && already !== ripping) continue;
        const room = left.get(`${ripping} ${strip}`) ?? length_mm + kerf_mm;
        if (need > room + 1e-9) continue;
        const stretch = ((need / (length_mm + kerf_mm)) * area_dm2) / strips_mm.length;
        const count = own + (already === undefined ? 0.5 * area_dm2 + 0.5 * stretch : 0);
        if (best === undefined || count < best.count) best = { k, count };
      }
      if (!best) return false;
      const { ripping, strip, cost: own } = places[best.k]!;
      const { segment, length_mm, area_dm2 } = rippings[ripping]!;
      if (!open.has(segment)) cost += area_dm2;
      open.set(segment, ripping);
      left.set(`${ripping} ${strip}`, (left.get(`${ripping} ${strip}`) ?? length_mm + kerf_mm) - need);
      cost += own;
      taken.push(best.k);
      return true;
    });
    if (isPlaced) continue;
    left.clear();
    for (const [key, value] of keptLeft) left.set(key, value);
    open.clear();
    for (const [key, value] of keptOpen) open.set(key, value);
    taken.length = begun;
    cost = costBefore + penalty;
  }
  return { places: taken, cost };
}
