import { cheapestMatching } from "../../maths/matching.ts";
import { type Costing, type Grouping, type Order, totalCost } from "./question.ts";

/** Partners of each valve that the first matching may choose among, and how many more it is offered a turn. */
const NEAREST = 9;
/** Whole numbers keep the matching exact; 2^40 steps to the dearest pair leave a rounding far below any reading. */
const STEPS = 2 ** 40;

/**
 * The best pairs of all that are allowed: most pairs first, then least cost.
 *
 * Each valve is first offered its nearest partners only. The matching's own proof then tells which of all other pairs
 * could better it; those are offered too, until none is left: what stands is the best of all pairs.
 */
export function bestPairs(costing: Costing, order: Order): Grouping {
  const { count } = costing;
  const wanted = Math.min(order.sizes.get(2)!, count >> 1);
  const offered = offers(costing, order.limit);
  for (;;) {
    const matching = cheapestMatching(count, offered, wanted);
    const lacking = matching.exhausted
      ? (a: number, b: number, cost: number) => (matching.couldJoin(a, b) ? cost - STEPS * 2 : 0)
      : matching.lacks;
    if (offered.addAll(lacking) > 0) continue;
    const groups = [...matching.mate].flatMap((b, a) => (b > a ? [[a, b]] : []));
    const cost = totalCost(costing, groups);
    return { groups, cost, bound: cost, mostSets: true, optimal: true, how: "best matching of all pairs" };
  }
}

/** A growing list of pairs on offer, with whole-number costs. */
function offers(costing: Costing, limit: number) {
  const n = costing.count;
  let dearest = 0;
  for (let a = 0; a < n; a++) {
    for (let b = a + 1; b < n; b++) {
      const cost = costing.pair(a, b);
      if (cost <= limit && cost > dearest) dearest = cost;
    }
  }
  const scale = dearest > 0 ? STEPS / dearest : 1;
  const from: number[] = [];
  const to: number[] = [];
  const cost: number[] = [];
  const known = new Set<number>();
  const offer = (a: number, b: number, whole: number): boolean => {
    const key = Math.min(a, b) * n + Math.max(a, b);
    if (known.has(key)) return false;
    known.add(key);
    from.push(a);
    to.push(b);
    cost.push(whole);
    return true;
  };
  /** Offers each valve the few pairs of least `figure` below 0; tells how many were new. */
  const addAll = (figure: (a: number, b: number, whole: number) => number): number => {
    let added = 0;
    const figures = new Float64Array(NEAREST);
    const partners = new Int32Array(NEAREST);
    const wholes = new Float64Array(NEAREST);
    for (let a = 0; a < n; a++) {
      let kept = 0;
      for (let b = 0; b < n; b++) {
        if (b === a) continue;
        const own = costing.pair(a, b);
        if (!(own <= limit)) continue;
        const whole = Math.round(own * scale);
        const value = figure(a, b, whole);
        if (!(value < 0) || (kept === NEAREST && value >= figures[kept - 1]!)) continue;
        let at = kept < NEAREST ? kept++ : NEAREST - 1;
        for (; at > 0 && figures[at - 1]! > value; at--) {
          figures[at] = figures[at - 1]!;
          partners[at] = partners[at - 1]!;
          wholes[at] = wholes[at - 1]!;
        }
        figures[at] = value;
        partners[at] = b;
        wholes[at] = whole;
      }
      for (let i = 0; i < kept; i++) if (offer(a, partners[i]!, wholes[i]!)) added++;
    }
    return added;
  };
  addAll((_a, _b, whole) => whole - 2 * STEPS);
  return { from, to, cost, addAll };
}
