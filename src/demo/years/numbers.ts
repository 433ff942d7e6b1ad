import type { Random } from "../../maths/random.ts";

/** Names of units, orders, valves and boards begin with the year's last two figures, and are counted through it. */
export class Numbers {
  private readonly counts = new Map<string, number>();

  next(prefix: string, date: string, between: string, digits: number): string {
    const year = `${prefix}${date.slice(2, 4)}${between}`;
    const count = (this.counts.get(year) ?? 0) + 1;
    this.counts.set(year, count);
    return `${year}${String(count).padStart(digits, "0")}`;
  }
}

/** Shares out a whole number by weights, so that the parts are whole and add up. */
export function sharedOut(total: number, weights: readonly number[]): readonly number[] {
  const sum = weights.reduce((a, b) => a + b, 0);
  let [given, upTo] = [0, 0];
  return weights.map((weight) => {
    upTo += weight;
    const share = Math.round((total * upTo) / sum) - given;
    given += share;
    return share;
  });
}

/** One of several, by their weights. */
export function drawn<T>(of: readonly (readonly [what: T, weight: number])[], chance: Random): T {
  let left = chance.uniform() * of.reduce((sum, [, weight]) => sum + weight, 0);
  for (const [what, weight] of of) {
    left -= weight;
    if (left < 0) return what;
  }
  return of.at(-1)![0];
}
