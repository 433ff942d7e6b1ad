import { expect, test } from "vitest";
import { recordAccuracy } from "../../../tests/accuracy.ts";
import { randomStream } from "../../maths/random.ts";
import { boxes } from "./box.ts";
import { halved } from "./halves.ts";
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

// second method: the search over every set
test("sets of seven to nine, small ones among them, keep a bound that never passes the best and is within 1 % of it", async () => {
  for (const list of [
    [8, 8],
    [7, 4, 3],
    [9, 6],
    [8, 8, 2],
  ]) {
    const places = draw(list.reduce((a, b) => a + b, 0) + random.integer(2), 2);
    const costing = spreadCosting(places);
    const order = { sizes: sizesOf(list), limit: Number.MAX_VALUE };
    const found = improve(costing, order, places);
    const best = (await provenSets(costing, order, found))!;
    expect(best.optimal).toBe(true);
    const least = totalCost(costing, best.groups);
    const many = (await manySets(costing, order, found))!;
    expect(many.bound, seed).toBeLessThanOrEqual(least * (1 + 1e-7));
    expect(many.bound, seed).toBeGreaterThan(0.99 * least);
    expect(sizesOf(many.groups.map((g) => g.length))).toEqual(order.sizes);
    expect(totalCost(costing, many.groups), seed).toBeLessThan(least * 1.01);
  }
});

const used_s = () => {
  const { user, system } = process.cpuUsage();
  return (user + system) / 1e6;
};
/** Time is the processor's, so that a busy machine is asked no less. */
function ask(places: readonly (readonly number[])[], sizes: readonly number[], seconds: number) {
  const begun_s = used_s();
  return setsBySpread({
    valves: places.map((place, i) => ({
      id: `T-${i}`,
      features: Object.fromEntries(place.map((x, f) => [`f${f}`, x])),
    })),
    demand: sizes.map((size, i) => ({ unit: `u${i}`, positions: Array.from({ length: size }, (_, k) => `p${k}`) })),
    weights: Object.fromEntries(places[0]!.map((_, f) => [`f${f}`, 1])),
    limit: Number.MAX_VALUE,
    hasTime: () => used_s() - begun_s < seconds,
  });
}
const many = (count: number, size: number) => new Array<number>(count).fill(size);

test("halves of large sets bound them, and never pass the best", async () => {
  const places = draw(17, 2);
  const costing = spreadCosting(places);
  const order = { sizes: sizesOf([8, 8]), limit: Number.MAX_VALUE };
  const best = (await provenSets(costing, order, improve(costing, order, places)))!;
  const least = totalCost(costing, best.groups);
  const space = boxes(costing)!;
  const inner = best.groups.map((group) => group.map((v) => space.own.indexOf(v)));
  const { groups, factor } = halved(space, inner, 6);
  const halves = totalCost(
    costing,
    groups.map((group) => group.map((v) => space.own[v]!)),
  );
  expect(groups.map((g) => g.length)).toEqual([4, 4, 4, 4]);
  expect(halves / factor).toBeLessThanOrEqual(least * (1 + 1e-9));
});

for (const { what, valves, features, sizes, limit_pct, seconds = 2 } of [
  { what: "60 fours chosen from 400 valves", valves: 400, features: 2, sizes: many(60, 4), limit_pct: 1 },
  { what: "25 fours that use all of 100 valves", valves: 100, features: 2, sizes: many(25, 4), limit_pct: 1 },
  {
    what: "27 sets of two to five from 120 valves",
    valves: 120,
    features: 2,
    sizes: [...many(16, 2), ...many(8, 3), 4, 4, 5],
    limit_pct: 1,
  },
  { what: "6 eights that use all of 48 valves", valves: 48, features: 2, sizes: many(6, 8), limit_pct: 4, seconds: 6 },
  {
    what: "36 sets of two to five from 150 valves",
    valves: 150,
    features: 3,
    sizes: [...many(20, 2), ...many(12, 3), 4, 4, 4, 5],
    limit_pct: 2,
  },
]) {
  test(`${what} of ${features} features are proven within ${limit_pct} % in ${seconds} s of processor time`, async () => {
    const answer = await ask(draw(valves, features), sizes, seconds);
    expect(answer.sets).toHaveLength(sizes.length);
    const gap_pct = (100 * answer.gap) / answer.totalCost;
    expect(gap_pct, seed).toBeLessThan(limit_pct);
    recordAccuracy({
      area: "valves",
      what: `gap of ${what} of ${features} features`,
      source: "bound by prices that hold for every set",
      reached: `${gap_pct.toFixed(2)} %`,
      limit: `${limit_pct} %`,
    });
  });
}

const draws = Number(process.env.STILLGLOW_DRAWS ?? 0);

// By command, since it takes long: STILLGLOW_DRAWS=3 npx vitest run src/valves/sets/many.test.ts
test.runIf(draws > 0)(
  "all valves in fours and in larger sets come within 1 or 2 %, given a minute",
  async () => {
    for (let t = 0; t < draws; t++) {
      for (const [valves, features, size, limit_pct] of [
        [400, 2, 4, 1],
        [400, 3, 4, 1],
        [2000, 2, 4, 2],
        [96, 2, 8, 2],
        [48, 3, 8, 1],
        [200, 2, 8, 2],
        [60, 2, 12, 1],
      ] as const) {
        const begun_s = used_s();
        const answer = await ask(draw(valves, features), many(valves / size, size), 60);
        const gap_pct = (100 * answer.gap) / answer.totalCost;
        const taken = `${gap_pct.toFixed(2)} % in ${(used_s() - begun_s).toFixed(0)} s`;
        console.log(`${valves} valves of ${features} features in sets of ${size}: ${taken}`);
        expect.soft(gap_pct, `${valves}, ${features}, ${size}, draw ${t}`).toBeLessThan(limit_pct);
      }
    }
  },
  3_600_000,
);

function* splits(left: number, most: number): Generator<number[]> {
  if (left === 0) yield [];
  for (let part = Math.min(left, most); part >= 2; part--) {
    for (const rest of splits(left - part, part)) yield [part, ...rest];
  }
}

test.runIf(draws > 0)(
  "every way to split 24 valves into sets of two and more is proven best",
  async () => {
    let longest_s = 0;
    for (let t = 0; t < draws; t++) {
      for (let features = 1; features <= 4; features++) {
        for (const sizes of splits(24, 24)) {
          const begun_s = used_s();
          const answer = await ask(draw(24, features), sizes, 8);
          longest_s = Math.max(longest_s, used_s() - begun_s);
          expect.soft(answer.optimal, `${sizes.join("+")}, ${features} features, draw ${t}`).toBe(true);
        }
      }
    }
    console.log(`every split of 24 valves: at most ${longest_s.toFixed(1)} s of processor time`);
  },
  7_200_000,
);

// second method: the search over every set
test("a few large sets divided valve by valve are the best that every set weighed gives", async () => {
  for (let t = 0; t < 60; t++) {
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
