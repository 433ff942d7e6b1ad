import type { Chosen, Place } from "./program.ts";
import type { Item, Ripping } from "./strips.ts";

/** What is cut and opened so far. */
interface Cutting {
  readonly left: Map<string, number>;
  readonly open: Map<number, number>;
  readonly taken: number[];
  cost: number;
}

/**
 * A plan by hand's rule: the largest panel first, each where it counts least, a new board only when it must; panels
 * that are to match together, from the board that takes them all for least.
 *
 * A stretch's opening counts by the share of it that the item takes, so that full boards win.
 */
export function greedyPlan(
  items: readonly Item[],
  rippings: readonly Ripping[],
  places: readonly Place[],
  penalty: number,
  kerf_mm: number,
  matched: readonly (readonly number[])[] = [],
): Chosen {
  const byItem = new Map<number, number[]>();
  for (const [k, { item }] of places.entries()) {
    const here = byItem.get(item);
    if (here) here.push(k);
    else byItem.set(item, [k]);
  }
  const area_dm2 = new Map<number, number>();
  for (const item of items) area_dm2.set(item.panel, (area_dm2.get(item.panel) ?? 0) + item.area_dm2);
  const areaOf = (group: readonly number[]) => group.reduce((sum, panel) => sum + (area_dm2.get(panel) ?? 0), 0);
  const together = new Set(matched.flat());
  const single = [...area_dm2.keys()].filter((panel) => !together.has(panel)).map((panel) => [panel]);
  const groups = [...matched, ...single].toSorted((a, b) => areaOf(b) - areaOf(a));

  /** The group cut as well, from one board where that is said; nothing where it finds no room. */
  const withGroup = (from: Cutting, group: readonly number[], board?: number): Cutting | undefined => {
    const now: Cutting = {
      left: new Map(from.left),
      open: new Map(from.open),
      taken: [...from.taken],
      cost: from.cost,
    };
    const mine = items.flatMap((item, i) => (group.includes(item.panel) ? [i] : []));
    for (const i of mine.toSorted((a, b) => items[b]!.area_dm2 - items[a]!.area_dm2)) {
      const best = cheapest(now, i, board);
      if (best === undefined) return undefined;
      take(now, best, i);
    }
    return now;
  };

  const cheapest = ({ left, open }: Cutting, i: number, board?: number): number | undefined => {
    const need = items[i]!.length_mm + kerf_mm;
    let best: { k: number; count: number } | undefined;
    for (const k of byItem.get(i) ?? []) {
      const { ripping, bay, cost: own } = places[k]!;
      const { segment, bays, area_dm2: whole_dm2, board: of } = rippings[ripping]!;
      if (board !== undefined && of !== board) continue;
      const already = open.get(segment);
      if (already !== undefined && already !== ripping) continue;
      const long_mm = bays[bay]!.length_mm + kerf_mm;
      if (need > (left.get(`${ripping} ${bay}`) ?? long_mm) + 1e-9) continue;
      const stretch = ((need / long_mm) * whole_dm2) / bays.length;
      const count = own + (already === undefined ? 0.5 * whole_dm2 + 0.5 * stretch : 0);
      if (best === undefined || count < best.count) best = { k, count };
    }
    return best?.k;
  };

  const take = (now: Cutting, k: number, i: number) => {
    const { ripping, bay, cost } = places[k]!;
    const { segment, bays, area_dm2: whole_dm2 } = rippings[ripping]!;
    if (!now.open.has(segment)) now.cost += whole_dm2;
    now.open.set(segment, ripping);
    const key = `${ripping} ${bay}`;
    now.left.set(key, (now.left.get(key) ?? bays[bay]!.length_mm + kerf_mm) - items[i]!.length_mm - kerf_mm);
    now.cost += cost;
    now.taken.push(k);
  };

  let cutting: Cutting = { left: new Map(), open: new Map(), taken: [], cost: 0 };
  for (const group of groups) {
    const boards = together.has(group[0]!) ? [...new Set(rippings.map(({ board }) => board))] : [undefined];
    const ways = boards.flatMap((board) => withGroup(cutting, group, board) ?? []);
    if (ways.length > 0) cutting = ways.reduce((a, b) => (b.cost < a.cost ? b : a));
    else cutting.cost += penalty * group.length;
  }
  return { places: cutting.taken, cost: cutting.cost };
}
