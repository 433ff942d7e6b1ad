import { type Costing, isLate, type Order, wantedSets } from "./question.ts";

/** Steps of all searches together; what they do not reach keeps a smaller share, which holds all the same. */
const MOST_STEPS = 1.5e6;
/** How much of its room a share takes, turn by turn: by halves first, so that neighbours get theirs. */
const TURNS = [0.5, 0.5, 0.5, 1] as const;
/** With more valves one turn must do. */
const MOST_TURNED = 600;

/**
 * A bound on the cost of so many sets: each valve bears a share such that no possible set bears more than it costs.
 *
 *     Σ share of its members + toll of its size ≤ cost, for every set
 *
 * Then sets of n valves in all cost at least the n smallest shares and their tolls. Shares begin as the cheapest set
 * that holds the valve, divided by the largest size, and rise as far as the sets allow. Holds where cost grows with a set and
 * `least(a, b)` is the cost of a pair.
 *
 * @param made  sets by size, as grouped
 */
export function sharesBound(costing: Costing, order: Order, made: ReadonlyMap<number, number>): number {
  const sizes = [...order.sizes.keys()].sort((a, b) => a - b);
  if (!costing.grows || sizes[0]! < 2) return 0;
  const smallest = sizes[0]!;
  const budget = { left: MOST_STEPS };
  const share = new Float64Array(costing.count);
  const lengths = Float64Array.from({ length: costing.count }, (_, v) =>
    isLate(order) ? 0 : (room(costing, share, v, smallest, budget) ?? 0),
  );
  lengths.forEach((length, v) => {
    share[v] = length / smallest;
  });
  for (const turn of costing.count > MOST_TURNED ? [1] : TURNS) {
    for (let v = 0; v < costing.count; v++) {
      if (budget.left <= 0 || isLate(order)) break;
      share[v]! += turn * Math.max(0, room(costing, share, v, smallest, budget) ?? 0);
    }
  }
  const isUniform = sizes.length === 1;
  const tolls = new Map(
    sizes.map((size) => [size, size === smallest ? 0 : (toll(costing, order, share, size) ?? Number.NaN)] as const),
  );
  if ([...tolls.values()].some(Number.isNaN)) return 0;
  const sorted = [...share].sort((a, b) => a - b);
  const borne = (valves: number) => sorted.slice(0, valves).reduce((sum, x) => sum + x, 0);
  const all = [...made].map(([size, count]) => ({ size, count, toll: tolls.get(size)! }));
  if (isUniform || [...made.values()].reduce((a, b) => a + b, 0) === wantedSets(order)) {
    return Math.max(
      0,
      borne(all.reduce((sum, m) => sum + m.size * m.count, 0)) + all.reduce((sum, m) => sum + m.toll * m.count, 0),
    );
  }
  return 0;
}

/** The least of cost less shares over the sets of a size, from every valve on. */
function toll(costing: Costing, order: Order, share: Float64Array, size: number): number | undefined {
  const budget = { left: MOST_STEPS };
  let least = Number.POSITIVE_INFINITY;
  for (let v = 0; v < costing.count; v++) {
    const own = isLate(order) ? undefined : room(costing, share, v, size, budget, least);
    if (own === undefined) return undefined;
    least = Math.min(least, own);
  }
  return least;
}

/** The least of cost less shares over the sets of a size that hold the valve; undefined when given up. */
function room(
  costing: Costing,
  share: Float64Array,
  valve: number,
  size: number,
  budget: { left: number },
  atMost = Number.POSITIVE_INFINITY,
): number | undefined {
  const { count } = costing;
  if (count < size) return Number.POSITIVE_INFINITY;
  const top = share.reduce((a, b) => Math.max(a, b), 0);
  const far = Float64Array.from({ length: count }, (_, u) => costing.least(valve, u));
  far[valve] = Number.POSITIVE_INFINITY;
  const nearest = smallestOf(far, size - 1);
  const net = [valve, ...nearest].reduce((sum, v) => sum - share[v]!, costing.cost([valve, ...nearest]));
  let best = Math.min(net, atMost);
  const reach = best + share[valve]! + (size - 1) * top;
  const others = Int32Array.from(far.keys())
    .filter((u) => far[u]! <= reach)
    .sort((a, b) => far[a]! - far[b]!);
  const members = [valve];
  const grow = (from: number, borne: number): boolean => {
    const missing = size - members.length;
    const costWith = costing.oneMore?.(members) ?? ((v: number) => costing.cost([...members, v]));
    for (let i = from; i <= others.length - missing; i++) {
      const u = others[i]!;
      if (far[u]! - borne - missing * top >= best) break;
      if (--budget.left <= 0) return false;
      const cost = costWith(u);
      const own = borne + share[u]!;
      if (cost - own - (missing - 1) * top >= best) continue;
      if (missing === 1) {
        best = cost - own;
        continue;
      }
      members.push(u);
      const goesOn = grow(i + 1, own);
      members.pop();
      if (!goesOn) return false;
    }
    return true;
  };
  return grow(0, share[valve]!) ? best : undefined;
}

function smallestOf(values: Float64Array, count: number): number[] {
  const kept: number[] = [];
  values.forEach((value, i) => {
    if (kept.length === count && value >= values[kept.at(-1)!]!) return;
    let at = kept.length;
    while (at > 0 && values[kept[at - 1]!]! > value) at--;
    kept.splice(at, 0, i);
    if (kept.length > count) kept.pop();
  });
  return kept;
}
