import { describe, expect, test } from "vitest";
import { recordAccuracy } from "../../../tests/accuracy.ts";
import { randomStream } from "../../maths/random.ts";
import { setsBySpread } from "./spread.ts";

const random = randomStream("sets 1");
const features = (values: readonly number[]) => Object.fromEntries(values.map((x, f) => [`f${f}`, x]));
const ask = (valves: readonly (readonly number[])[], sizes: readonly number[], limit = 1e9) =>
  setsBySpread({
    valves: valves.map((v, i) => ({ id: `T-${i}`, features: features(v) })),
    demand: sizes.map((size, i) => ({ unit: `u${i}`, positions: Array.from({ length: size }, (_, k) => `p${k}`) })),
    weights: features(valves[0]!.map(() => 1)),
    limit,
  });

/** Every way of handing valves to units, one by one. */
function everyWay(
  valves: readonly (readonly number[])[],
  sizes: readonly number[],
  limit: number,
): [sets: number, cost: number] {
  let best: [number, number] = [0, 0];
  const spread = (set: readonly number[]) =>
    valves[0]!.reduce(
      (sum, _, f) => sum + Math.max(...set.map((v) => valves[v]![f]!)) - Math.min(...set.map((v) => valves[v]![f]!)),
      0,
    );
  const fill = (unit: number, used: number, cost: number, sets: number): void => {
    if (sets > best[0] || (sets === best[0] && cost < best[1])) best = [sets, cost];
    if (unit === sizes.length) return;
    fill(unit + 1, used, cost, sets);
    const pick = (from: number, set: number[], now: number): void => {
      if (set.length === sizes[unit]!) {
        const own = spread(set);
        if (own <= limit) fill(unit + 1, now, cost + own, sets + 1);
        return;
      }
      for (let v = from; v < valves.length; v++) if (!((now >> v) & 1)) pick(v + 1, [...set, v], now | (1 << v));
    };
    pick(0, [], used);
  };
  fill(0, 0, 0, 0);
  return best;
}

describe("sets by spread", () => {
  // second method: every way tried
  test("are as many and as cheap as the best of all ways, in 80 small cases of every kind", async () => {
    for (let t = 0; t < 80; t++) {
      const kinds = 1 + random.integer(3);
      const valves = Array.from({ length: 3 + random.integer(6) }, () =>
        Array.from({ length: kinds }, () => (random.uniform() < 0.5 ? random.integer(5) : 5 * random.uniform())),
      );
      const same = random.uniform() < 0.4 ? 2 : 0;
      const sizes = Array.from({ length: 1 + random.integer(3) }, () => same || 1 + random.integer(6));
      const limit = random.uniform() < 0.5 ? 100 : 6 * random.uniform();
      const answer = await ask(valves, sizes, limit);
      const [sets, cost] = everyWay(valves, sizes, limit);
      expect(answer.sets.length, `case ${t}`).toBe(sets);
      expect(Math.abs(answer.totalCost - cost), `case ${t}`).toBeLessThan(1e-7);
      expect(answer.optimal).toBe(true);
      const used = answer.sets.flatMap((set) => Object.values(set.positions));
      expect(new Set(used).size).toBe(used.length);
      expect([...used, ...answer.reserve].sort()).toEqual(valves.map((_, i) => `T-${i}`).sort());
    }
  });

  // source: the proof is the matching's own duals; checked against every way above. Times are on a loaded machine.
  test("of 400 valves in pairs are proven best", async () => {
    const valves = Array.from({ length: 400 }, () => [random.normal(), random.normal(), random.normal()]);
    const answer = await ask(
      valves,
      Array.from({ length: 200 }, () => 2),
    );
    expect(answer.sets).toHaveLength(200);
    expect(answer.optimal).toBe(true);
    expect(answer.gap).toBe(0);
    recordAccuracy({
      area: "valves",
      what: "total cost of sets against every way tried, 80 small cases; 400 valves in pairs proven",
      source: "exhaustive search in the test",
      reached: "equal to 1e-7",
      limit: "1e-7",
    });
  });

  // source: worked by hand: four well-parted heaps of six, each spanning 1 in both features
  test("of 24 valves in sixes, eights and mixed sizes are proven best", async () => {
    const heaps = [0, 10, 25, 45].flatMap((at) =>
      Array.from({ length: 6 }, (_, i) => [at + (i === 0 ? 0 : i === 5 ? 1 : random.uniform()), at + (i % 2)]),
    );
    const sixes = await ask(heaps, [6, 6, 6, 6]);
    expect(sixes.totalCost).toBeCloseTo(8, 9);
    const valves = Array.from({ length: 24 }, () => [random.normal(), random.normal(), random.normal()]);
    for (const sizes of [
      [8, 8, 8],
      [2, 3, 4, 5, 6],
      [5, 5, 5, 5],
    ]) {
      const answer = await ask(valves, sizes);
      expect(answer.sets).toHaveLength(sizes.length);
      expect(answer.optimal).toBe(true);
      expect(answer.gap).toBe(0);
    }
  });

  test("of 24 valves in fours are proven best, and no exchange of two valves betters them", async () => {
    const valves = Array.from({ length: 24 }, () => [random.normal(), random.normal()]);
    const answer = await ask(valves, [4, 4, 4, 4, 4, 4]);
    expect(answer.optimal).toBe(true);
    const sets = answer.sets.map((set) => Object.values(set.positions).map((id) => Number(id.slice(2))));
    const cost = (set: number[]) =>
      [0, 1].reduce(
        (sum, f) => sum + Math.max(...set.map((v) => valves[v]![f]!)) - Math.min(...set.map((v) => valves[v]![f]!)),
        0,
      );
    for (const a of sets) {
      for (const b of sets) {
        if (a === b) continue;
        for (let i = 0; i < 4; i++) {
          for (let k = 0; k < 4; k++) {
            expect(cost(a.with(i, b[k]!)) + cost(b.with(k, a[i]!))).toBeGreaterThan(cost(a) + cost(b) - 1e-9);
          }
        }
      }
    }
  });

  // source: worked by hand; only one pair lies within 0.5
  test("leave the later unit without valves when there are not enough", async () => {
    const answer = await setsBySpread({
      valves: [1, 1.2, 5].map((x, i) => ({ id: `T-${i}`, features: { g: x } })),
      demand: [
        { unit: "late", positions: ["L", "R"], due: "2027-05-01" },
        { unit: "early", positions: ["L", "R"], due: "2027-03-01" },
      ],
      weights: { g: 1 },
      limit: 0.5,
    });
    expect(answer.sets.map((s) => s.unit)).toEqual(["early"]);
    expect(answer.unplaced).toEqual(["late"]);
    expect(answer.reserve).toEqual(["T-2"]);
  });

  // source: the proof is the matching's own duals, held against every pair
  test("of 2,000 valves in pairs are proven best, all paired or a part of them, with and without a limit", async () => {
    const valves = Array.from({ length: 2000 }, () => [random.normal(), random.normal(), random.normal()]);
    for (const [pairs, limit] of [
      [1000, 1e9],
      [300, 1e9],
      [1000, 0.5],
    ] as const) {
      const answer = await ask(
        valves,
        Array.from({ length: pairs }, () => 2),
        limit,
      );
      expect(answer.optimal).toBe(true);
      expect(answer.gap).toBe(0);
      if (limit > 1) expect(answer.sets).toHaveLength(pairs);
      else expect(answer.sets.every((set) => set.cost <= limit)).toBe(true);
    }
  });
});

// second method: the same question with all the time it asks for
test("searches cut short return sets that stand, and a gap that reaches below what more time finds", async () => {
  const seed = "cut short 1";
  const random = randomStream(seed);
  for (const [count, sizes] of [
    [90, Array.from({ length: 18 }, () => 4)],
    [24, [9, 8, 7]],
    [60, [...Array.from({ length: 8 }, () => 3), ...Array.from({ length: 6 }, () => 5)]],
  ] as const) {
    const question = {
      valves: Array.from({ length: count }, (_, i) => ({
        id: `T-${i}`,
        features: { a: random.normal(), b: random.normal(), c: random.normal() },
      })),
      demand: sizes.map((size, i) => ({ unit: `u${i}`, positions: Array.from({ length: size }, (_, k) => `p${k}`) })),
      weights: { a: 1, b: 1, c: 1 },
      limit: 9,
    };
    const full = await setsBySpread(question);
    for (const most of [0, 3, 40, 400]) {
      let asked = 0;
      const cut = await setsBySpread({ ...question, hasTime: () => ++asked <= most });
      const used = cut.sets.flatMap((s) => Object.values(s.positions));
      expect(new Set(used).size, `seed ${seed}`).toBe(used.length);
      for (const { cost } of cut.sets) expect(cost).toBeLessThanOrEqual(question.limit + 1e-9);
      expect(asked).toBeGreaterThan(0);
      if (cut.sets.length === full.sets.length) {
        expect(cut.totalCost - cut.gap, `seed ${seed}, ${count}, ${most}`).toBeLessThanOrEqual(full.totalCost + 1e-9);
        expect(cut.totalCost).toBeGreaterThan(full.totalCost - full.gap - 1e-9);
      }
      if (cut.optimal) expect(cut.totalCost).toBeCloseTo(full.totalCost, 9);
    }
  }
});
