import type { Pool } from "./pool.ts";
import type { Triple } from "./prices.ts";

/** How much more than one set in parts a triple must hold to be worth a price. */
const LEAST_EXCESS = 0.02;

/**
 * Triples of valves that sets in parts hold more than once: of sets that hold two or three of them only one can be
 * taken, while the relaxed problem takes halves of three.
 *
 * @returns the worst first, at most `most`, each valve in at most `perValve`
 */
export function overheldTriples(
  pool: Pool,
  valves: number,
  parts: ArrayLike<number>,
  known: ReadonlySet<string>,
  most: number,
  perValve: number,
): Triple[] {
  const { widest, members, count } = pool;
  const together = Array.from({ length: valves }, () => new Map<number, number>());
  const holding = Array.from({ length: valves }, () => [] as number[]);
  for (let j = 0; j < count; j++) {
    const part = parts[j]!;
    if (part < 0.01) continue;
    for (let k = j * widest; k < (j + 1) * widest && members[k]! < valves; k++) {
      const a = members[k]!;
      holding[a]!.push(j);
      for (let l = k + 1; l < (j + 1) * widest && members[l]! < valves; l++) {
        const b = members[l]!;
        together[a]!.set(b, (together[a]!.get(b) ?? 0) + part);
      }
    }
  }
  const found: { triple: Triple; excess: number }[] = [];
  const all = (a: number, b: number, c: number): number => {
    let sum = 0;
    for (const j of holding[a]!) {
      let hits = 0;
      for (let k = j * widest; k < (j + 1) * widest; k++) if (members[k] === b || members[k] === c) hits++;
      if (hits === 2) sum += parts[j]!;
    }
    return sum;
  };
  for (let a = 0; a < valves; a++) {
    const near = [...together[a]!].filter(([, part]) => part > 0.05);
    for (const [b, ab] of near) {
      for (const [c, bc] of together[b]!) {
        const ac = together[a]!.get(c);
        if (ac === undefined || bc < 0.05 || ab + bc + ac <= 1 + LEAST_EXCESS) continue;
        const excess = ab + bc + ac - 2 * all(a, b, c) - 1;
        if (excess > LEAST_EXCESS && !known.has(`${a} ${b} ${c}`)) found.push({ triple: [a, b, c], excess });
      }
    }
  }
  found.sort((x, y) => y.excess - x.excess);
  const often = new Uint16Array(valves);
  const kept: Triple[] = [];
  for (const { triple } of found) {
    if (kept.length >= most) break;
    if (triple.some((v) => often[v]! >= perValve)) continue;
    for (const v of triple) often[v]!++;
    kept.push(triple);
  }
  return kept;
}
