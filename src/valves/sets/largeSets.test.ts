import { expect, test } from "vitest";
import { randomStream } from "../../maths/random.ts";
import { boxes } from "./box.ts";
import { worthyBoxes } from "./largeSets.ts";
import { spreadCosting } from "./spread.ts";

const seed = "large sets 1";
const random = randomStream(seed);

// second method: every set of the size weighed one by one
test("the sets worth most are found box by box, as many as are asked for and no other below them", () => {
  for (let t = 0; t < 24; t++) {
    const features = 1 + (t % 3);
    const count = 9 + random.integer(4);
    const size = 5 + random.integer(3);
    const isCoarse = t % 4 === 0;
    const places = Array.from({ length: count }, () =>
      Array.from({ length: features }, () => (isCoarse ? random.integer(4) : random.normal())),
    );
    const costing = spreadCosting(places);
    const space = boxes(costing)!;
    const valve = Float64Array.from({ length: count + 1 }, (_, v) => (v < count ? random.normal(0.5, 0.4) : 0));
    const limit = t % 5 === 0 ? 4 : Number.MAX_VALUE;
    const keep = 1 + random.integer(5);
    const within = random.normal(0, 1);
    const free = random.normal(0, 0.3);
    const all: { first: number; figure: number }[] = [];
    const pick = (from: number, set: readonly number[]): void => {
      if (set.length === size) {
        const cost = costing.cost(set.map((v) => space.own[v]!));
        const figure = set.reduce((sum, v) => sum - valve[v]!, cost - free);
        if (cost <= limit) all.push({ first: set[0]!, figure });
        return;
      }
      for (let v = from; v < count; v++) pick(v + 1, [...set, v]);
    };
    pick(0, []);
    const pool = worthyBoxes(space, { valve, size: new Map([[size, free]]) }, limit, keep, () => within)!;
    for (let v = 0; v < count; v++) {
      const least = all
        .filter(({ first, figure }) => first === v && figure < within)
        .map(({ figure }) => figure)
        .sort((a, b) => a - b);
      const found: number[] = [];
      for (let j = pool.start[v]!; j < pool.start[v + 1]!; j++) {
        const own = [...pool.members.subarray(j * size, (j + 1) * size)];
        expect(pool.cost[j]).toBeCloseTo(costing.cost(own.map((u) => space.own[u]!)), 9);
        found.push(own.reduce((sum, u) => sum - valve[u]!, pool.cost[j]! - free));
      }
      expect(found.length, `${seed}, ${t}, ${v}`).toBe(Math.min(keep, least.length));
      found.forEach((figure, i) => {
        expect(figure, `${seed}, ${t}, ${v}`).toBeCloseTo(least[i]!, 9);
      });
      const next = least[keep] ?? within;
      expect(pool.leftOut[v]!, `${seed}, ${t}, ${v}`).toBeLessThanOrEqual(next + 1e-9);
    }
  }
});
