import type { Boxes } from "./box.ts";
import type { PartsProgram } from "./partsProgram.ts";
import type { Pool } from "./pool.ts";
import { boundOn, type Packing, type Prices, reducedCosts } from "./prices.ts";
import { isLate, type Order } from "./question.ts";
import { overheldTriples } from "./triples.ts";
import { worthy } from "./worthy.ts";

const ROUNDS = 60;
/** Sets of each first member that are weighed, and that join, in a round. */
const WEIGHED = 100;
const JOINING = 8;
const MOST_WEIGHED = 2500;
/** Prices lean no nearer to the best known than this, and by so much less after a round that found sets. */
const MOST_LEANING = 0.98;
const UPRIGHTER = 0.1;
/** Prices of sets larger than this are far out at first: they begin leaning so far. */
const LARGE = 6;
const LEANING = 0.7;
/** And their sets hold so many triples that the sets weighed soon swell: triples are cut off so often at most. */
const MOST_LARGE_CUTS = 2;
/** Once sets still missing can lower the relaxed cost by less than this share, triples are cut off. */
const CLOSE = 1e-3;
/** A round of triples that raises the bound by less than this share is the last but one. */
const LEAST_RISE = 1e-4;

export interface Proof {
  readonly prices: Prices;
  /** No packing costs less. */
  readonly bound: number;
}

/**
 * Prices that prove how little a packing can cost: sets taken in parts, sets joining until none is left that could
 * lower the cost, and triples held more than once cut off.
 *
 * Prices of a program that knows few sets yet can be so far out that too many sets seem worth their cost; then sets are
 * weighed at prices that lean towards the best known, which prove as much, until the program's own can be looked through.
 *
 * @param reachable  a cost that can be reached; the bound is raised no further
 * @param nearBy     prices to lean towards before any bound is proven, such as each valve's share of its set
 * @returns undefined where time ended before any bound was found
 * @source P. Gilmore and R. Gomory, A linear programming approach to the cutting-stock problem, 1961; triples:
 *         M. Jepsen and others, Subset-row inequalities, Operations Research 56, 2008; leaning prices: P. Wentges,
 *         Weighted Dantzig-Wolfe decomposition, International Transactions in Operational Research 4, 1997 (remembered)
 */
export function provenPrices(
  program: PartsProgram,
  space: Boxes,
  packing: Packing,
  start: Pool,
  order: Order,
  reachable: number,
  nearBy: Prices,
): Proof | undefined {
  const usual = reachable / [...packing.made.values()].reduce((a, b) => a + b, 0);
  let proof: Proof | undefined;
  let risen = 0;
  let stale = 0;
  let cuts = 0;
  let weighed = WEIGHED;
  let lean = start.widest > LARGE ? LEANING : 0;
  const known = new Set<string>();
  program.add(start, Array(start.count).keys());
  for (let round = 0; round < ROUNDS && !isLate(order); round++) {
    const taken = program.solve(order);
    if (taken === undefined) break;
    const weighAt = (prices: Prices) =>
      worthy(space, prices, order.limit, weighed, () => -1e-9 * usual, 2e7, order.hasTime);
    let prices = leaning(taken.prices, proof?.prices ?? nearBy, lean);
    let pool = weighAt(prices);
    while (pool === undefined && lean < MOST_LEANING && !isLate(order)) {
      lean = (1 + lean) / 2;
      prices = leaning(taken.prices, proof?.prices ?? nearBy, lean);
      pool = weighAt(prices);
    }
    if (pool === undefined) break;
    const reduced = reducedCosts(pool, packing.valves, prices);
    const bound = boundOn(pool, reduced, packing, prices);
    if (proof === undefined || bound > proof.bound) proof = { prices, bound };
    if (proof.bound >= reachable * (1 - 1e-9)) break;
    const added = program.add(pool, cheapestOfEach(pool, reduced, -1e-9 * usual));
    const relaxed = taken.parts.reduce((sum, part, j) => sum + part * taken.sets.cost[j]!, 0);
    if (relaxed - bound > CLOSE * relaxed) {
      if (lean > 0) {
        lean = added > 0 ? Math.max(0, lean - UPRIGHTER) : lean > UPRIGHTER ? lean / 2 : 0;
        continue;
      }
      if (added > 0) continue;
      if (weighed < MOST_WEIGHED) {
        // So many sets that begin with one valve could lower the cost that not all of them were weighed.
        weighed *= 3;
        continue;
      }
    }
    if (proof.bound < risen * (1 + LEAST_RISE) && ++stale > 1) break;
    risen = proof.bound;
    if (start.widest > LARGE && MOST_LARGE_CUTS <= cuts++) break;
    const triples = overheldTriples(taken.sets, packing.valves, taken.parts, known, packing.valves, 3);
    for (const triple of triples) known.add(triple.join(" "));
    program.cut(triples);
    if (triples.length === 0 && added === 0) break;
  }
  return proof;
}

function leaning(prices: Prices, towards: Prices, lean: number): Prices {
  if (lean === 0) return prices;
  const between = (own: number, other: number) => (1 - lean) * own + lean * other;
  return {
    valve: prices.valve.map((price, v) => between(price, towards.valve[v] ?? 0)),
    size: new Map([...prices.size].map(([size, price]) => [size, between(price, towards.size.get(size) ?? 0)])),
    triples: prices.triples,
    triple: prices.triple.map((price, t) => between(price, towards.triple[t] ?? 0)),
  };
}

/** For each first member its few sets of least reduced cost below `bar`. */
function* cheapestOfEach(pool: Pool, reduced: Float64Array, bar: number): Generator<number> {
  for (let v = 0; v + 1 < pool.start.length; v++) {
    const own: number[] = [];
    for (let j = pool.start[v]!; j < pool.start[v + 1]!; j++) if (reduced[j]! < bar) own.push(j);
    own.sort((a, b) => reduced[a]! - reduced[b]!);
    yield* own.slice(0, JOINING);
  }
}
