import type { Boxes } from "./box.ts";

/** A set cut into parts, and what the parts cost in all, at most, for each unit of the set's own cost. */
export interface Parts {
  readonly groups: readonly (readonly number[])[];
  readonly factor: number;
}

/**
 * Sets cut in halves until none is larger than `largest`.
 *
 * Cut across its longest side, a box of sides a ≥ b, c, … leaves two that together are no longer than a that way and
 * no wider than b, c, … each: the halves cost at most
 *
 *     a + 2·(b + c + …) ≤ (2 − 1/features)·(a + b + c + …)
 *
 * so that what the parts of all sets must cost at least, divided by that for each time they were cut, the sets must
 * cost at least too. Parts keep their sizes whatever the set, large half first.
 */
export function halved(space: Boxes, groups: readonly (readonly number[])[], largest: number): Parts {
  let parts = groups;
  let cuts = 0;
  for (; parts.some((set) => set.length > largest); cuts++) {
    parts = parts.flatMap((set) => (set.length > largest ? cut(space, set) : [set]));
  }
  return { groups: parts, factor: (2 - 1 / space.features) ** cuts };
}

function cut({ features, at }: Boxes, set: readonly number[]): number[][] {
  let longest = 0;
  let length = -1;
  for (let f = 0; f < features; f++) {
    const along = set.map((v) => at[v * features + f]!);
    const own = Math.max(...along) - Math.min(...along);
    if (own > length) [longest, length] = [f, own];
  }
  const sorted = [...set].sort((a, b) => at[a * features + longest]! - at[b * features + longest]!);
  const middle = Math.ceil(set.length / 2);
  return [sorted.slice(0, middle), sorted.slice(middle)];
}
