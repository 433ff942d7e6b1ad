import { isLate, type Order } from "./question.ts";

/** Ways to part the members of two sets that are tried at most. */
const MOST_PARTINGS = 1000;

/**
 * Betters sets of one size two by two: their members are parted anew in the best of all ways, until no two sets can be
 * bettered. Valves left over come in for any one member.
 *
 * @param spare  valves in no set
 */
export function regroupedTwos(
  sets: readonly (readonly number[])[],
  spare: readonly number[],
  cost: (set: readonly number[]) => number,
  order: Pick<Order, "limit" | "hasTime">,
): number[][] {
  const groups = sets.map((set) => [...set]);
  const size = groups[0]?.length ?? 0;
  const costs = groups.map(cost);
  const left = [...spare];
  const partings = halvesOf(2 * size);
  if (partings.length > MOST_PARTINGS) return groups;
  // A set is weighed against others again only after one of the two has changed.
  const changed = groups.map((_, g) => g + 1);
  const seen = groups.map(() => groups.map(() => 0));
  let clock = groups.length + 1;
  for (let helped = true; helped; ) {
    helped = false;
    for (let g = 0; g < groups.length; g++) {
      for (let i = 0; i < left.length; i++) {
        for (let k = 0; k < size; k++) {
          const own = groups[g]!.with(k, left[i]!);
          const total = cost(own);
          if (total >= costs[g]! - 1e-12) continue;
          [left[i], groups[g], costs[g]] = [groups[g]![k]!, own, total];
          changed[g] = clock++;
          helped = true;
        }
      }
      for (let h = 0; h < g; h++) {
        if (Math.max(changed[g]!, changed[h]!) <= seen[g]![h]!) continue;
        if (isLate(order)) return groups;
        const all = [...groups[g]!, ...groups[h]!];
        let best: { one: number[]; other: number[]; a: number; b: number } | undefined;
        let least = costs[g]! + costs[h]! - 1e-12;
        for (const [mine, theirs] of partings) {
          const one = mine.map((i) => all[i]!);
          const a = cost(one);
          if (a >= least || a > order.limit) continue;
          const other = theirs.map((i) => all[i]!);
          const b = cost(other);
          if (a + b >= least || b > order.limit) continue;
          best = { one, other, a, b };
          least = a + b;
        }
        seen[g]![h] = clock;
        if (best === undefined) continue;
        [groups[g], groups[h]] = [best.one, best.other];
        [costs[g], costs[h]] = [best.a, best.b];
        changed[g] = ++clock;
        changed[h] = clock++;
        helped = true;
      }
    }
  }
  return groups;
}

/** Every way to part so many in two halves; the first stays in the first half. */
function halvesOf(count: number): (readonly [number[], number[]])[] {
  const all = [...Array(count).keys()];
  const found: (readonly [number[], number[]])[] = [];
  const grow = (half: readonly number[], from: number): void => {
    if (2 * half.length === count) {
      found.push([[...half], all.filter((i) => !half.includes(i))]);
      return;
    }
    for (let i = from; i < count; i++) grow([...half, i], i + 1);
  };
  if (count > 0 && count <= 12) grow([0], 1);
  return found;
}
