import { describe, expect, test } from "vitest";
import { cheapestMatching } from "./matching.ts";
import { randomStream } from "./random.ts";

const seed = "matching 1";
const random = randomStream(seed);

type Edge = readonly [from: number, to: number, cost: number];
const graph = (edges: readonly Edge[]) => ({
  from: edges.map(([from]) => from),
  to: edges.map(([, to]) => to),
  cost: edges.map(([, , cost]) => cost),
});

/** Least cost of every number of pairs, by trying all. */
function everyMatching(edges: readonly Edge[]): number[] {
  const least = [0];
  const pick = (from: number, used: number, pairs: number, total: number): void => {
    least[pairs] = Math.min(least[pairs] ?? Number.POSITIVE_INFINITY, total);
    for (let e = from; e < edges.length; e++) {
      const [a, b, cost] = edges[e]!;
      if (!((used >> a) & 1) && !((used >> b) & 1)) pick(e + 1, used | (1 << a) | (1 << b), pairs + 1, total + cost);
    }
  };
  pick(0, 0, 0, 0);
  return least;
}

describe("a matching", () => {
  // second method: every matching of every size tried
  test("is the cheapest of its size, in 300 small graphs with ties, odd rings and parts that do not meet", () => {
    for (let t = 0; t < 300; t++) {
      const n = 2 + random.integer(8);
      const share = 0.2 + 0.8 * random.uniform();
      const costs = random.uniform() < 0.5 ? 4 : 1000;
      const edges: Edge[] = [];
      for (let a = 0; a < n; a++) {
        for (let b = a + 1; b < n; b++) {
          if (random.uniform() < share && edges.length < 22) edges.push([a, b, random.integer(costs)]);
        }
      }
      const least = everyMatching(edges);
      for (let most = 0; most <= least.length; most++) {
        const { mate, pairs, exhausted, lacks } = cheapestMatching(n, graph(edges), most);
        const place = `${seed}, graph ${t}, at most ${most}`;
        expect(pairs, place).toBe(Math.min(most, least.length - 1));
        if (most < least.length) expect(exhausted, place).toBe(false);
        let cost = 0;
        mate.forEach((b, a) => {
          if (b < 0) return;
          expect(mate[b], place).toBe(a);
          if (b > a) cost += edges.find(([from, to]) => from === a && to === b)![2];
        });
        expect(cost, place).toBe(least[pairs]);
        for (const [a, b, own] of edges) expect(lacks(a, b, own), place).toBeGreaterThanOrEqual(0);
      }
    }
  });

  // second method: the proof itself, on a graph too large to try all: twice the cost is what the duals forbid to go
  // under; an edge left out that lacks nothing must not better it when it is put in
  test("tells by its proof which edges left out could better it", () => {
    for (let t = 0; t < 40; t++) {
      const n = 30;
      const at = Array.from({ length: n }, () => [random.integer(1000), random.integer(1000)] as const);
      const all: Edge[] = [];
      for (let a = 0; a < n; a++) {
        for (let b = a + 1; b < n; b++) {
          all.push([a, b, Math.abs(at[a]![0] - at[b]![0]) + Math.abs(at[a]![1] - at[b]![1])]);
        }
      }
      const some = all.filter(() => random.uniform() < 0.5);
      const first = cheapestMatching(n, graph(some), 12);
      const cost = ({ mate }: { mate: Int32Array }) =>
        mate.reduce((sum, b, a) => sum + (b > a ? all.find(([x, y]) => x === a && y === b)![2] : 0), 0);
      const idle = all.filter(([a, b, own]) => first.lacks(a, b, own) >= 0);
      expect(cost(cheapestMatching(n, graph(idle), 12)), `${seed}, ${t}`).toBe(cost(first));
      expect(cost(cheapestMatching(n, graph(all), 12)), `${seed}, ${t}`).toBeLessThanOrEqual(cost(first));
    }
  });
});
