import { expect, test } from "vitest";
import { recordAccuracy } from "../../../tests/accuracy.ts";
import { randomStream } from "../../maths/random.ts";
import { improve } from "./improve.ts";
import { manySets } from "./many.ts";
import { provenSets } from "./proven.ts";
import { totalCost } from "./question.ts";
import { bestSplit } from "./split.ts";
import { setsBySpread, spreadCosting } from "./spread.ts";

const seed = "many sets 1";
const random = randomStream(seed);
const draw = (count: number, features: number): number[][] =>
  Array.from({ length: count }, () => Array.from({ length: features }, () => random.normal()));
const sizesOf = (list: readonly number[]): Map<number, number> =>
  list.reduce((sizes, size) => sizes.set(size, (sizes.get(size) ?? 0) + 1), new Map<number, number>());

// second method: the search over every set of up to 24 valves (itself held against all ways in sets.test.ts)
test("the way for many valves comes within 1 % of the best, and its bound never passes it", async () => {
  let worst = 0;
  let loosest = 0;
  const kinds = [
    [4, 4, 4, 4, 4],
    [4, 4, 4, 4],
    [3, 3, 3, 3, 3, 3],
    [2, 2, 3, 3, 4, 4],
    [2, 3, 4, 5],
  ];
  for (let t = 0; t < 10; t++) {
    const list = kinds[t % kinds.length]!;
    const used = list.reduce((a, b) => a + b, 0);
    const places = draw(t % 2 ? used : Math.min(24, used + 1 + random.integer(6)), 2 + random.integer(2));
    const costing = spreadCosting(places);
    const order = { sizes: sizesOf(list), limit: Number.MAX_VALUE };
    const found = improve(costing, order, places);
    const best = (await provenSets(costing, order, found))!;
    expect(best.optimal).toBe(true);
    const least = totalCost(costing, best.groups);
    const many = (await manySets(costing, order, found))!;
    const cost = totalCost(costing, many.groups);
    const members = many.groups.flat();
    expect(new Set(members).size, `${seed}, ${t}`).toBe(members.length);
    expect(sizesOf(many.groups.map((g) => g.length)), `${seed}, ${t}`).toEqual(order.sizes);
    expect(many.bound, `${seed}, ${t}`).toBeLessThanOrEqual(least * (1 + 1e-7));
    if (many.optimal) expect(cost, `${seed}, ${t}`).toBeLessThanOrEqual(least * (1 + 1e-7));
    worst = Math.max(worst, cost / least - 1);
    loosest = Math.max(loosest, 1 - many.bound / least);
  }
  expect(worst, seed).toBeLessThan(0.01);
  recordAccuracy({
    area: "valves",
    what: "total cost of threes, fours and mixed sets by the way for many valves, worst of 10 cases of up to 24 valves",
    source: "search over every set",
    reached: `${(100 * worst).toFixed(2)} % over the best, bound at most ${(100 * loosest).toFixed(1)} % under it`,
    limit: "1 %",
  });
});

test("sixty fours from 400 valves and mixed sizes from 120 are proven within 1 %, and so are twenty-five fours that use all of 100", async () => {
  const ask = (places: readonly (readonly number[])[], sizes: readonly number[]) =>
    setsBySpread({
      valves: places.map((place, i) => ({
        id: `T-${i}`,
        features: Object.fromEntries(place.map((x, f) => [`f${f}`, x])),
      })),
      demand: sizes.map((size, i) => ({ unit: `u${i}`, positions: Array.from({ length: size }, (_, k) => `p${k}`) })),
      weights: Object.fromEntries(places[0]!.map((_, f) => [`f${f}`, 1])),
      limit: Number.MAX_VALUE,
    });
  const fours = await ask(draw(400, 2), new Array<number>(60).fill(4));
  expect(fours.sets).toHaveLength(60);
  expect(fours.gap / fours.totalCost, seed).toBeLessThan(0.01);
  recordAccuracy({
    area: "valves",
    what: "gap of 60 fours chosen from 400 valves of two features",
    source: "bound by prices that hold for every set",
    reached: `${((100 * fours.gap) / fours.totalCost).toFixed(2)} %`,
    limit: "1 %",
  });
  const all = await ask(draw(100, 2), new Array<number>(25).fill(4));
  expect(all.sets).toHaveLength(25);
  expect(all.gap / all.totalCost, seed).toBeLessThan(0.01);
  recordAccuracy({
    area: "valves",
    what: "gap of 25 fours that use all of 100 valves of two features",
    source: "bound by prices that hold for every set",
    reached: `${((100 * all.gap) / all.totalCost).toFixed(2)} %`,
    limit: "1 %",
  });
  const mixed = await ask(draw(120, 2), [...new Array<number>(16).fill(2), ...new Array<number>(8).fill(3), 4, 4, 5]);
  expect(mixed.sets).toHaveLength(27);
  expect(mixed.gap / mixed.totalCost, seed).toBeLessThan(0.01);
});

// second method: the search over every set
test("a few large sets divided valve by valve are the best that every set weighed gives", async () => {
  for (let t = 0; t < 30; t++) {
    const list = [
      [4, 5],
      [5, 5],
      [3, 3, 3],
      [4, 3, 2],
      [6, 3],
    ][t % 5]!;
    const places = draw(list.reduce((a, b) => a + b, 0) + random.integer(4), 1 + random.integer(3)).map((place) =>
      t % 3 === 0 ? place.map((x) => Math.round(2 * x)) : place,
    );
    const costing = spreadCosting(places);
    const order = { sizes: sizesOf(list), limit: Number.MAX_VALUE };
    const found = improve(costing, order, places);
    const split = bestSplit(costing, order, found)!;
    const best = (await provenSets(costing, order, found))!;
    expect(totalCost(costing, split), `${seed}, ${t}`).toBeCloseTo(totalCost(costing, best.groups), 9);
    expect(sizesOf(split.map((g) => g.length)), `${seed}, ${t}`).toEqual(order.sizes);
    expect(new Set(split.flat()).size).toBe(split.flat().length);
  }
});

// source: the sets themselves: every set of 24 valves in 11 and 13 is too many to list within the time an answer may take
test("eleven and thirteen of 24 valves are proven best", async () => {
  const answer = await setsBySpread({
    valves: draw(24, 3).map((place, i) => ({ id: `T-${i}`, features: { a: place[0]!, b: place[1]!, c: place[2]! } })),
    demand: [11, 13].map((size, i) => ({
      unit: `u${i}`,
      positions: Array.from({ length: size }, (_, k) => `p${k}`),
    })),
    weights: { a: 1, b: 1, c: 1 },
    limit: Number.MAX_VALUE,
  });
  expect(answer.sets).toHaveLength(2);
  expect(answer.optimal).toBe(true);
});
