import type { Boxes } from "./box.ts";
import { merged, type Pool, worthySets } from "./pool.ts";
import { boundOn, holders, type Packing, type Prices, reducedCosts } from "./prices.ts";
import type { Proof } from "./provenPrices.ts";
import { isLate, type Order } from "./question.ts";

const ROUNDS = 9;
const FIRST_TURNS = 260;
const TURNS = 240;
/** Sets weighed in all turns: some two seconds. */
const MOST_WEIGHED = 3e7;

/**
 * Prices that prove how little a packing can cost, where there are too many valves for a linear program: raised step by
 * step, sets that they overlook joining by turns. They come near the relaxed cost and never quite reach it.
 */
export function ascendedPrices(
  space: Boxes,
  packing: Packing,
  start: Pool,
  groups: readonly (readonly number[])[],
  order: Order,
  reachable: number,
): Proof | undefined {
  const usual = reachable / groups.length;
  const most = new Float64Array(packing.valves).fill(Number.POSITIVE_INFINITY);
  for (let j = 0; j < start.count; j++) {
    for (let k = j * start.widest; k < j * start.widest + start.size[j]!; k++) {
      most[start.members[k]!] = Math.min(most[start.members[k]!]!, start.cost[j]!);
    }
  }
  let pool = start;
  let prices = firstPrices(packing, most, groups, usual);
  let proof: Proof | undefined;
  let weighed = 0;
  let pace = 0.3;
  for (let round = 0; round < ROUNDS && weighed < MOST_WEIGHED && !isLate(order); round++) {
    const turns = Math.min(round === 0 ? FIRST_TURNS : TURNS, Math.ceil((MOST_WEIGHED - weighed) / pool.count));
    weighed += turns * pool.count;
    const ascent = ascend(packing, most, pool, prices, reachable, turns, pace, order.hasTime);
    pace = Math.min(0.3, 3 * ascent.pace);
    prices = ascent.prices;
    const overlooked = worthySets(space, prices, order.limit, round < 3 ? 30 : 80, () => 0.02 * usual, 2e7);
    if (overlooked === undefined) break;
    const bound = boundOn(overlooked, reducedCosts(overlooked, packing.valves, prices), packing, prices);
    if (proof === undefined || bound > proof.bound) proof = { prices, bound };
    pool = merged(pool, overlooked, prices, 0.6 * usual);
  }
  return proof;
}

/** Where all valves are used each bears a share of its set; else sets are worth what they cost on the mean. */
function firstPrices(
  { valves, made, isTight }: Packing,
  most: Float64Array,
  groups: readonly (readonly number[])[],
  usual: number,
): Prices {
  const valve = new Float64Array(valves + 1);
  if (isTight)
    for (const group of groups) for (const v of group) valve[v] = Math.min(usual / group.length, 0.9 * most[v]!);
  return { valve, size: new Map([...made.keys()].map((s) => [s, isTight ? 0 : usual])), triples: [], triple: [] };
}

interface Ascent {
  readonly prices: Prices;
  /** The bound by the sets of the pool alone. */
  readonly bound: number;
  /** How far each set of the pool is taken, about. */
  readonly parts: Float64Array;
  /** How large the last steps were, as a share of the way to the target; the next ascent may begin near it. */
  readonly pace: number;
}

/**
 * Raises a bound on the packing's cost over prices, each first member taking at most one set.
 *
 *     bound = Σ valve + Σ made·size − Σ triple + Σ over first members min(0, least cost(S) − worth(S) + triples it holds)
 *
 * Steps follow the mean of the sets found before, weighed towards the latest; that mean also tends to the sets in
 * parts which the relaxed problem takes.
 *
 * @param target  a cost that can be reached, which the bound cannot pass
 * @source F. Barahona and R. Anbil, The volume algorithm, Mathematical Programming 87, 2000 (remembered); triples:
 *         V. Chvátal's rank-one cuts over three rows, 1973 (remembered)
 */
function ascend(
  packing: Packing,
  most: Float64Array,
  pool: Pool,
  from: Prices,
  target: number,
  turns: number,
  firstPace = 0.3,
  hasTime?: () => boolean,
): Ascent {
  const n = packing.valves;
  const { widest, members, start, cost, size, count } = pool;
  const sizes = [...packing.made.keys()];
  const held = holders(pool, n, from.triples);
  const cuts = held.length;
  // Steps in the worth of a size are damped, as it moves all sets at once. Where every valve is used one size's worth
  // is already in the prices of its members.
  const damping = sizes.map((s, i) =>
    packing.isTight && i === 0 ? 0 : 1 / Math.max(1, Math.sqrt(packing.made.get(s)!)),
  );
  const sizeAt = new Int32Array(widest + 1);
  sizes.forEach((s, i) => {
    sizeAt[s] = i;
  });

  let best = { valve: from.valve.slice(), worth: sizes.map((s) => from.size.get(s)!), triple: [...from.triple] };
  const trial = { valve: from.valve.slice(), worth: [...best.worth], triple: [...best.triple] };
  const penalty = new Float64Array(count);
  const picked = new Int32Array(n);
  const g = { valve: new Float64Array(n), size: new Float64Array(sizes.length), triple: new Float64Array(cuts) };
  const mean = { valve: new Float64Array(n), size: new Float64Array(sizes.length), triple: new Float64Array(cuts) };
  const parts = new Float64Array(count);
  let partsScale = 1;
  const taken = new Uint8Array(count);

  const evaluate = (): number => {
    const { valve, worth, triple } = trial;
    let bound = 0;
    for (let v = 0; v < n; v++) bound += valve[v]!;
    sizes.forEach((s, i) => {
      bound += packing.made.get(s)! * worth[i]!;
    });
    if (cuts > 0) {
      penalty.fill(0);
      for (let t = 0; t < cuts; t++) {
        const own = triple[t]!;
        bound -= own;
        if (own === 0) continue;
        const sets = held[t]!;
        for (let i = 0; i < sets.length; i++) penalty[sets[i]!]! += own;
      }
    }
    g.valve.fill(1);
    sizes.forEach((s, i) => {
      g.size[i] = packing.made.get(s)!;
    });
    for (let v = 0; v < n; v++) {
      let least = 0;
      let at = -1;
      for (let j = start[v]!; j < start[v + 1]!; j++) {
        let reduced = cost[j]! - worth[sizeAt[size[j]!]!]! + penalty[j]!;
        for (let k = j * widest; k < (j + 1) * widest; k++) reduced -= valve[members[k]!]!;
        if (reduced < least) {
          least = reduced;
          at = j;
        }
      }
      picked[v] = at;
      if (at < 0) continue;
      bound += least;
      for (let k = at * widest; k < (at + 1) * widest; k++) if (members[k]! < n) g.valve[members[k]!]!--;
      g.size[sizeAt[size[at]!]!]!--;
    }
    if (cuts > 0) {
      for (let v = 0; v < n; v++) if (picked[v]! >= 0) taken[picked[v]!] = 1;
      for (let t = 0; t < cuts; t++) {
        let sum = -1;
        const sets = held[t]!;
        for (let i = 0; i < sets.length; i++) sum += taken[sets[i]!]!;
        g.triple[t] = sum;
      }
      for (let v = 0; v < n; v++) if (picked[v]! >= 0) taken[picked[v]!] = 0;
    }
    return bound;
  };
  const blend = (alpha: number): void => {
    const mix = (to: Float64Array, by: Float64Array) => {
      for (let i = 0; i < to.length; i++) to[i] = (1 - alpha) * to[i]! + alpha * by[i]!;
    };
    mix(mean.valve, g.valve);
    mix(mean.size, g.size);
    mix(mean.triple, g.triple);
    if (alpha >= 1) {
      parts.fill(0);
      partsScale = 1;
    } else partsScale *= 1 - alpha;
    for (let v = 0; v < n; v++) if (picked[v]! >= 0) parts[picked[v]!]! += alpha / partsScale;
    if (partsScale < 1e-100) {
      for (let j = 0; j < count; j++) parts[j]! *= partsScale;
      partsScale = 1;
    }
  };
  /** Where a price stands at its end, a step against it counts for nothing. */
  const able = {
    valve: (v: number) =>
      mean.valve[v]! < 0 ? !packing.isTight || best.valve[v]! > 0 : best.valve[v]! < (packing.isTight ? most[v]! : 0),
    triple: (t: number) => best.triple[t]! > 0 || mean.triple[t]! > 0,
  };

  let bound = evaluate();
  blend(1);
  let pace = firstPace;
  let misses = 0;
  let mixing = firstPace < 0.1 ? 0.05 : 0.1;
  for (let turn = 0; turn < turns; turn++) {
    if (turn % 8 === 7 && hasTime?.() === false) break;
    let norm = 0;
    for (let v = 0; v < n; v++) if (able.valve(v)) norm += mean.valve[v]! ** 2;
    for (let i = 0; i < sizes.length; i++) norm += (damping[i]! * mean.size[i]!) ** 2;
    for (let t = 0; t < cuts; t++) if (able.triple(t)) norm += mean.triple[t]! ** 2;
    if (norm < 1e-12) break;
    const goal = Math.min(target, bound + Math.max(0.03 * Math.abs(target), 0.3 * (target - bound)));
    if (goal - bound <= 1e-9 * Math.abs(target)) break;
    const step = (pace * (goal - bound)) / norm;
    for (let v = 0; v < n; v++) {
      const next = best.valve[v]! + step * mean.valve[v]!;
      trial.valve[v] = packing.isTight ? Math.min(Math.max(0, next), most[v]!) : Math.min(0, next);
    }
    sizes.forEach((_, i) => {
      trial.worth[i] = best.worth[i]! + step * damping[i]! ** 2 * mean.size[i]!;
    });
    for (let t = 0; t < cuts; t++) trial.triple[t] = Math.max(0, best.triple[t]! + step * mean.triple[t]!);
    const value = evaluate();
    let along = 0;
    let own = 0;
    let old = 0;
    for (let v = 0; v < n; v++) {
      along += g.valve[v]! * mean.valve[v]!;
      own += g.valve[v]! ** 2;
      old += mean.valve[v]! ** 2;
    }
    const spread = own + old - 2 * along;
    const ideal = spread > 0 ? (old - along) / spread : mixing;
    blend(Math.min(mixing, Math.max(mixing / 10, ideal)));
    if (value > bound) {
      pace *= along < 0 ? 1 : 1.1;
      if (pace > 1.8) pace = 1.8;
      bound = value;
      best = { valve: trial.valve.slice(), worth: [...trial.worth], triple: [...trial.triple] };
      misses = 0;
    } else if (++misses >= 10) {
      pace *= 0.75;
      misses = 0;
    }
    if (turn % 100 === 99 && mixing > 0.01) mixing /= 1.5;
  }
  for (let j = 0; j < count; j++) parts[j]! *= partsScale;
  return {
    prices: {
      valve: best.valve,
      size: new Map(sizes.map((s, i) => [s, best.worth[i]!])),
      triples: from.triples,
      triple: best.triple,
    },
    bound,
    parts,
    pace,
  };
}
