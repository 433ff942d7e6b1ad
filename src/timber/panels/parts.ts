import type { Place } from "./program.ts";
import type { Item, Ripping } from "./strips.ts";

/** A part of the question that shares no board and no panel with any other. */
export interface Part {
  readonly items: readonly Item[];
  readonly rippings: readonly Ripping[];
  readonly places: readonly Place[];
  /** Number of each of its places in the whole question. */
  readonly whole: readonly number[];
}

/**
 * Splits the question where no panel could come from boards of two parts: by species, mostly. The best plans of the
 * parts together are the best plan.
 */
export function partsOf(
  items: readonly Item[],
  rippings: readonly Ripping[],
  places: readonly Place[],
  matched: readonly (readonly number[])[],
): Part[] {
  const parent = new Map<string, string>();
  const root = (name: string): string => {
    const up = parent.get(name);
    if (up === undefined) return name;
    const top = root(up);
    parent.set(name, top);
    return top;
  };
  const join = (a: string, b: string) => {
    const [one, other] = [root(a), root(b)];
    if (one !== other) parent.set(one, other);
  };
  for (const { item, ripping } of places) join(`panel ${items[item]!.panel}`, `board ${rippings[ripping]!.board}`);
  for (const [first, ...rest] of matched) for (const panel of rest) join(`panel ${panel}`, `panel ${first!}`);
  const groups = new Map<string, number[]>();
  for (const [i, { panel }] of items.entries()) {
    const name = root(`panel ${panel}`);
    groups.set(name, [...(groups.get(name) ?? []), i]);
  }
  return [...groups].map(([name, mine]) => {
    const mineToo = rippings.flatMap(({ board }, r) => (root(`board ${board}`) === name ? [r] : []));
    const item = new Map(mine.map((i, k) => [i, k]));
    const ripping = new Map(mineToo.map((r, k) => [r, k]));
    const whole = places.flatMap((place, k) => (item.has(place.item) ? [k] : []));
    return {
      items: mine.map((i) => items[i]!),
      rippings: mineToo.map((r) => rippings[r]!),
      places: whole.map((k) => {
        const place = places[k]!;
        return { ...place, item: item.get(place.item)!, ripping: ripping.get(place.ripping)! };
      }),
      whole,
    };
  });
}
