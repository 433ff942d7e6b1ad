import { assign } from "./assign.ts";
import { group } from "./group.ts";
import { type Featured, placesOf } from "./places.ts";
import type { Costing, SetsAnswer, Wanted } from "./question.ts";

export interface FeaturedValve extends Featured {
  readonly id: string;
}

export interface SpreadQuestion {
  readonly valves: readonly FeaturedValve[];
  readonly demand: readonly Wanted[];
  readonly weights: Readonly<Record<string, number>>;
  readonly limit: number;
  /** Once false, the best sets found so far are returned, with the gap that is proven for them. */
  readonly hasTime?: (() => boolean) | undefined;
}

/**
 * Sets of alike valves: cost of a set = Σ over features of weight · (largest − smallest).
 *
 * As many units as can be, then the least total cost, no set over the limit. One feature, and pairs:
 * proven for any number; other sets: proven to 24 valves, beyond that often; else `gap` says how far from a
 * bound that holds.
 *
 * @throws BadInput  a valve lacks a weighted feature
 */
export async function setsBySpread({ valves, demand, weights, limit, hasTime }: SpreadQuestion): Promise<SetsAnswer> {
  const places = placesOf(valves, weights, "valves");
  const costing = spreadCosting(places);
  return assign({
    ids: valves.map((v) => v.id),
    demand,
    limit,
    hasTime,
    costing,
    grouping: (order) => group(costing, order, places),
    places,
  });
}

export function spreadCosting(places: readonly (readonly number[])[]): Costing {
  const features = places[0]?.length ?? 0;
  const cost = (members: readonly number[]): number => {
    let sum = 0;
    for (let f = 0; f < features; f++) {
      let low = Number.POSITIVE_INFINITY;
      let high = Number.NEGATIVE_INFINITY;
      for (const m of members) {
        const x = places[m]![f]!;
        if (x < low) low = x;
        if (x > high) high = x;
      }
      sum += high - low;
    }
    return sum;
  };
  const oneMore = (members: readonly number[]): ((v: number) => number) => {
    const low = new Float64Array(features).fill(Number.POSITIVE_INFINITY);
    const high = new Float64Array(features).fill(Number.NEGATIVE_INFINITY);
    for (const m of members) {
      for (let f = 0; f < features; f++) {
        low[f] = Math.min(low[f]!, places[m]![f]!);
        high[f] = Math.max(high[f]!, places[m]![f]!);
      }
    }
    return (v) => {
      const place = places[v]!;
      let sum = 0;
      for (let f = 0; f < features; f++) {
        const x = place[f]!;
        sum += Math.max(x, high[f]!) - Math.min(x, low[f]!);
      }
      return sum;
    };
  };
  const flat = Float64Array.from(
    { length: places.length * features },
    (_, i) => places[Math.floor(i / features)]![i % features]!,
  );
  const pair = (a: number, b: number): number => {
    let sum = 0;
    for (let f = 0, i = a * features, k = b * features; f < features; f++) sum += Math.abs(flat[i + f]! - flat[k + f]!);
    return sum;
  };
  return {
    count: places.length,
    cost,
    oneMore,
    pair,
    least: pair,
    grows: true,
    box: { features, at: flat },
    ...(features <= 1 ? { line: places.map((p) => p[0] ?? 0) } : {}),
  };
}
