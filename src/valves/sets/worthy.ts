import type { Boxes } from "./box.ts";
import { worthyBoxes } from "./largeSets.ts";
import { joined, type Pool, type Worths } from "./pool.ts";
import { worthySets } from "./smallSets.ts";

/** Larger sets are looked for box by box, since they are too many to be grown member by member. */
const LARGEST = 6;

/**
 * For each valve the sets that begin with it and cost the least beside what they are worth: of each size the way that
 * suits it.
 *
 * @returns undefined where it would take more than `steps` or time ends
 */
export function worthy(
  boxes: Boxes,
  worths: Worths,
  limit: number,
  keep: number,
  within: (first: number) => number,
  steps?: number,
  hasTime?: () => boolean,
): Pool | undefined {
  const sizes = [...worths.size];
  const small = sizes.filter(([size]) => size <= LARGEST);
  if (small.length === sizes.length) return worthySets(boxes, worths, limit, keep, within, steps, hasTime);
  const large = sizes.filter(([size]) => size > LARGEST);
  const those = worthyBoxes(boxes, { ...worths, size: new Map(large) }, limit, keep, within, steps, hasTime);
  if (small.length === 0 || those === undefined) return those;
  const these = worthySets(boxes, { ...worths, size: new Map(small) }, limit, keep, within, steps, hasTime);
  return these && joined(these, those);
}
