import { linearSolver, terms } from "../../maths/linearSolver.ts";
import { type EverySet, membersOf, sumsOver } from "./everySet.ts";
import { isLate, type Order } from "./question.ts";

/** Prices under which every set that could be made pays its own way: cost + Σ price of its valves ≥ worth of its size. */
export interface Prices {
  readonly valve: Float64Array;
  readonly worth: ReadonlyMap<number, number>;
  /** What a wanted set of a size that is not made forgoes. */
  readonly waived: ReadonlyMap<number, number>;
  /** No choice of exactly so many sets costs less. */
  readonly bound: number;
  /** How far the relaxed problem falls short of the number of sets. */
  readonly short: number;
}

const MOST_ROUNDS = 80;
const ROUND_s = 3;
const ADDED_PER_VALVE = 12;

/**
 * The packing of exactly `wanted` sets with sets taken in parts: the least cost, and the prices that prove it.
 *
 *     min Σ cost·x   with  Σ x over sets that hold v ≤ 1,  Σ x over sets of a size ≤ as many as ordered,  Σ x = wanted
 *
 * Sets are brought in by their reduced cost until none is left that could help, so that the linear program stays
 * small while the prices hold for all sets. A missing set is paid with `missing`.
 *
 * @source P. Gilmore and R. Gomory, A linear programming approach to the cutting-stock problem, 1961 (remembered)
 */
export async function relaxed(
  every: EverySet,
  order: Order,
  wanted: number,
  known: readonly number[],
  missing: number,
  costOf: (set: number) => number,
): Promise<Prices | undefined> {
  const highs = await linearSolver();
  const sizeOf = new Map<number, number>();
  const used = new Set<number>();
  const take = (set: number, size: number): void => {
    used.add(set);
    sizeOf.set(set, size);
  };
  for (const { size, from, to } of every.bySize) {
    for (const set of known) if (set >= from && set < to) take(set, size);
    for (const set of cheapest(every, from, to, costOf, Number.POSITIVE_INFINITY)) take(set, size);
  }
  for (let round = 0; round < MOST_ROUNDS; round++) {
    if (isLate(order)) return undefined;
    const text = lpText(every, order, wanted, [...used], sizeOf, missing, costOf);
    const result = highs.solve(text, { time_limit: ROUND_s, output_flag: false });
    if (result.Status !== "Optimal") return undefined;
    const rows = new Map((result.Rows as { Name: string; Dual: number }[]).map((r) => [r.Name, r.Dual]));
    const valve = Float64Array.from({ length: every.count }, (_, v) => Math.max(0, -(rows.get(`v${v}`) ?? 0)));
    const total = rows.get("total") ?? 0;
    const waived = new Map([...order.sizes.keys()].map((s) => [s, Math.max(0, -(rows.get(`s${s}`) ?? 0))] as const));
    const worth = new Map([...waived].map(([s, w]) => [s, total - w] as const));
    const sum = sumsOver(valve);
    let least = 0;
    let added = 0;
    for (const { size, from, to } of every.bySize) {
      const own = worth.get(size)!;
      const reduced = (set: number) => costOf(set) + sum(every.mask[set]!) - own;
      for (const set of cheapest(every, from, to, reduced, -1e-9)) {
        least = Math.min(least, reduced(set));
        if (used.has(set)) continue;
        take(set, size);
        added++;
      }
    }
    const short = (result.Columns as Record<string, { Primal?: number }>).missing?.Primal ?? 0;
    if (added === 0) {
      // Prices lowered by what rounding left, so that they hold for every set.
      for (const [size, w] of worth) worth.set(size, w + least);
      const value = boundOf(valve, order, wanted, total + least, waived);
      return { valve, worth, waived, bound: value, short };
    }
  }
  return undefined;
}

function boundOf(
  valve: Float64Array,
  order: Order,
  wanted: number,
  total: number,
  waived: ReadonlyMap<number, number>,
): number {
  let bound = total * wanted;
  for (const q of valve) bound -= q;
  for (const [size, count] of order.sizes) bound -= count * (waived.get(size) ?? 0);
  return bound;
}

/** For each valve the few sets that begin with it and have the least figure, all below `under`. */
function cheapest(every: EverySet, from: number, to: number, figure: (set: number) => number, under: number): number[] {
  const sets: number[][] = Array.from({ length: every.count }, () => []);
  const figures: number[][] = Array.from({ length: every.count }, () => []);
  for (let set = from; set < to; set++) {
    const value = figure(set);
    if (!(value < under)) continue;
    const first = 31 - Math.clz32(every.mask[set]! & -every.mask[set]!);
    const [kept, own] = [sets[first]!, figures[first]!];
    if (kept.length === ADDED_PER_VALVE && value >= own[ADDED_PER_VALVE - 1]!) continue;
    let at = kept.length;
    while (at > 0 && own[at - 1]! > value) at--;
    kept.splice(at, 0, set);
    own.splice(at, 0, value);
    if (kept.length > ADDED_PER_VALVE) {
      kept.pop();
      own.pop();
    }
  }
  return sets.flat();
}

function lpText(
  every: EverySet,
  order: Order,
  wanted: number,
  chosen: readonly number[],
  sizeOf: ReadonlyMap<number, number>,
  missing: number,
  costOf: (set: number) => number,
): string {
  const byValve: string[][] = Array.from({ length: every.count }, () => []);
  const bySize = new Map([...order.sizes.keys()].map((size) => [size, [] as string[]]));
  for (const set of chosen) {
    for (const v of membersOf(every.mask[set]!)) byValve[v]!.push(`+ x${set}`);
    bySize.get(sizeOf.get(set)!)!.push(`+ x${set}`);
  }
  const all = [...chosen.map((set) => `+ x${set}`), "+ missing"];
  return [
    "Minimize",
    ` obj: ${terms([...chosen.map((set) => `+ ${costOf(set)} x${set}`), `+ ${missing} missing`])}`,
    "Subject To",
    ...byValve.flatMap((sets, v) => (sets.length > 0 ? [` v${v}: ${terms(sets)} <= 1`] : [])),
    ...[...bySize].flatMap(([s, sets]) => (sets.length > 0 ? [` s${s}: ${terms(sets)} <= ${order.sizes.get(s)}`] : [])),
    ` total: ${terms(all)} = ${wanted}`,
    "End",
  ].join("\n");
}
