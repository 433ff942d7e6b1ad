import { linearSolver, terms } from "../../maths/linearSolver.ts";
import { PROVEN_SETS } from "./everySet.ts";
import { improve } from "./improve.ts";
import { manySets } from "./many.ts";
import { nearestBound } from "./nearestBound.ts";
import { mostPossible, provenSets } from "./proven.ts";
import { type Costing, type Grouping, isLate, type Order, totalCost, wantedSets } from "./question.ts";
import { sharesBound } from "./shares.ts";

const MOST_NEIGHBOUR_SETS = 2500;
const SEARCH_s = 2;
/** So few sets are searched without pricing them first. */
const SMALL = 400;
/** Beyond so many valves exchanges alone must do. */
const MOST_SEARCHED = 300;

/**
 * Sets of any sizes as a packing problem: each set that may be made is a yes or no, each valve is in one at most;
 * most sets first, then least cost.
 *
 * Up to `PROVEN_SETS` valves the answer is proven. With more valves `manySets` prices and regroups; where it can't, sets
 * of near neighbours are listed and searched by branch and bound (HiGHS), and `bound` is what the nearest neighbours
 * alone would cost.
 */
export async function packed(
  costing: Costing,
  order: Order,
  places: readonly (readonly number[])[],
): Promise<Grouping> {
  const found = improve(costing, order, places);
  const proven = costing.count <= PROVEN_SETS ? await provenSets(costing, order, found) : undefined;
  if (proven?.optimal) {
    const cost = totalCost(costing, proven.groups);
    return { ...proven, cost, bound: cost, how: "every set that could matter weighed" };
  }
  const many = proven === undefined ? await manySets(costing, order, found) : undefined;
  const groups = proven?.groups ?? many?.groups ?? (await amongNeighbours(costing, order, places, found));
  const cost = totalCost(costing, groups);
  const mostSets = proven?.mostSets || groups.length === mostPossible(costing.count, order);
  const sizes = new Map<number, number>();
  for (const group of groups) sizes.set(group.length, (sizes.get(group.length) ?? 0) + 1);
  const bound = Math.min(
    cost,
    many?.isPriced
      ? many.bound
      : Math.max(proven?.bound ?? 0, many?.bound ?? 0, boundFor(costing, sizes), sharesBound(costing, order, sizes)),
  );
  return {
    groups,
    cost,
    bound,
    mostSets,
    optimal: mostSets && cost <= bound * (1 + 1e-9),
    how: many ? "sets priced and regrouped region by region" : "sets of near neighbours weighed, and exchanges",
  };
}

async function amongNeighbours(
  costing: Costing,
  order: Order,
  places: readonly (readonly number[])[],
  found: number[][],
): Promise<number[][]> {
  if (costing.count > MOST_SEARCHED || isLate(order)) return found;
  const sets = neighbourSets(costing, order, places, found);
  if (sets.length === 0) return found;
  const groups = await solve(costing, order, sets, found.length === wantedSets(order));
  if (groups.length !== found.length) return groups.length > found.length ? groups : found;
  return totalCost(costing, groups) < totalCost(costing, found) ? groups : found;
}

/** For sets of several sizes the shares of the smallest valves' claims, taken size by size, would overlap; the least is kept. */
function boundFor(costing: Costing, sizes: ReadonlyMap<number, number>): number {
  const bounds = [...sizes].map(([size, sets]) => nearestBound(costing, size, sets));
  return sizes.size === 1 ? bounds[0]! : Math.max(0, ...bounds);
}

function neighbourSets(
  costing: Costing,
  order: Order,
  places: readonly (readonly number[])[],
  found: readonly (readonly number[])[],
): number[][] {
  const keys = new Map<string, number[]>();
  const add = (group: readonly number[]): void => {
    const sorted = [...group].sort((a, b) => a - b);
    if (costing.cost(sorted) <= order.limit) keys.set(sorted.join(","), sorted);
  };
  for (const group of found) add(group);
  const share = MOST_NEIGHBOUR_SETS / (costing.count * order.sizes.size);
  for (const size of order.sizes.keys()) {
    let near = size - 1;
    while (near < costing.count - 1 && choose(near + 1, size - 1) <= share) near++;
    for (let v = 0; v < costing.count; v++) {
      const neighbours = [...Array(costing.count).keys()]
        .filter((u) => u !== v)
        .map((u) => ({ u, far: distance(places, v, u) }))
        .sort((a, b) => a.far - b.far)
        .slice(0, near)
        .map(({ u }) => u);
      for (const rest of subsets(neighbours, size - 1)) add([v, ...rest]);
    }
  }
  return [...keys.values()];
}

export function distance(places: readonly (readonly number[])[], a: number, b: number): number {
  return places[a]!.reduce((sum, x, f) => sum + Math.abs(x - places[b]![f]!), 0);
}

function choose(n: number, k: number): number {
  let product = 1;
  for (let i = 1; i <= k; i++) product *= (n - k + i) / i;
  return product;
}

function* subsets(items: readonly number[], size: number, from = 0): Generator<number[]> {
  if (size === 0) yield [];
  else
    for (let i = from; i <= items.length - size; i++)
      for (const rest of subsets(items, size - 1, i + 1)) yield [items[i]!, ...rest];
}

/**
 * The relaxed problem prices every set; a small problem of the best-priced sets gives a good answer; sets priced
 * higher than that answer lies above the relaxed one cannot be in a better one and are left out of the last search.
 */
async function solve(
  costing: Costing,
  order: Order,
  sets: readonly (readonly number[])[],
  placesAll: boolean,
): Promise<number[][]> {
  const costs = sets.map((set) => costing.cost(set));
  const unit = Math.max(...costs) || 1;
  // One set more must outweigh all that the others could save.
  const reward = placesAll ? 0 : wantedSets(order) + 1;
  const objective = costs.map((c) => c / unit - reward);
  const highs = await linearSolver();
  const search = (chosen: readonly number[], time_limit: number) => {
    const text = lpText(costing.count, order, sets, objective, chosen, placesAll, true);
    const result = highs.solve(text, { mip_rel_gap: 0, mip_abs_gap: 1e-9, time_limit, output_flag: false });
    const columns = result.Columns as Readonly<Record<string, { Primal?: number }>>;
    const taken = chosen.filter((j) => (columns[`x${j}`]?.Primal ?? 0) > 0.5);
    const members = taken.flatMap((j) => sets[j]!);
    const isWhole = new Set(members).size === members.length;
    return {
      groups: isWhole ? taken.map((j) => [...sets[j]!]) : [],
      value: isWhole && taken.length > 0 ? taken.reduce((sum, j) => sum + objective[j]!, 0) : Number.POSITIVE_INFINITY,
    };
  };
  const all = [...sets.keys()];
  if (sets.length <= SMALL) return search(all, SEARCH_s).groups;

  const relaxed = highs.solve(lpText(costing.count, order, sets, objective, all, placesAll, false), {
    time_limit: SEARCH_s,
    output_flag: false,
  });
  const columns = relaxed.Columns as Readonly<Record<string, { Dual?: number }>>;
  if (relaxed.Status !== "Optimal") return isLate(order) ? [] : search(all, SEARCH_s).groups;
  const prices = all.map((j) => Math.max(columns[`x${j}`]?.Dual ?? 0, 0));
  const ranked = [...all].sort((a, b) => prices[a]! - prices[b]!);
  const first = search(ranked.slice(0, SMALL), SEARCH_s / 2);
  const room = first.value - relaxed.ObjectiveValue + 1e-7;
  const able = ranked.filter((j) => prices[j]! <= room);
  if (able.length <= SMALL) return first.groups;
  const second = search(able, isLate(order) ? SEARCH_s / 4 : SEARCH_s);
  return (second.value <= first.value ? second : first).groups;
}

function lpText(
  count: number,
  order: Order,
  sets: readonly (readonly number[])[],
  objective: readonly number[],
  chosen: readonly number[],
  placesAll: boolean,
  whole: boolean,
): string {
  const cost = (j: number) => `${objective[j]! < 0 ? "-" : "+"} ${Math.abs(objective[j]!)} x${j}`;
  const lines = ["Minimize", ` obj: ${terms(chosen.map(cost))}`, "Subject To"];
  const byValve: string[][] = Array.from({ length: count }, () => []);
  for (const j of chosen) for (const v of sets[j]!) byValve[v]!.push(`+ x${j}`);
  byValve.forEach((all, v) => {
    if (all.length > 0) lines.push(` v${v}: ${terms(all)} <= 1`);
  });
  for (const [size, wanted] of order.sizes) {
    const all = chosen.filter((j) => sets[j]!.length === size).map((j) => `+ x${j}`);
    if (all.length > 0) lines.push(` s${size}: ${terms(all)} ${placesAll ? "=" : "<="} ${wanted}`);
  }
  if (whole) lines.push("Binary", ` ${terms(chosen.map((j) => `x${j}`))}`);
  lines.push("End");
  return lines.join("\n");
}
