import { expect, test } from "vitest";
import { recordAccuracy } from "../../../tests/accuracy.ts";
import { randomStream } from "../../maths/random.ts";
import { alikePositions, type GainSums, lineOf, seatingBySums, seatings } from "./gainSums.ts";
import { setsBySums } from "./setsBySums.ts";
import { transportBound } from "./transportBound.ts";

const seed = "sets by sums 1";
const random = randomStream(seed);

/** Valves that shift some channels by place: `fed` tells for each position which channel, and which of three figures. */
function drawn(valves: number, own: readonly number[], fed: readonly (readonly [channel: number, figure: number])[]) {
  const shift = Array.from({ length: valves }, () => {
    const gain = random.normal(0, 0.3);
    const figures = [gain, 0.8 * gain + random.normal(0, 0.1), random.normal(0, 0.15)];
    return fed.map(([channel, figure]) => own.map((_, c) => (c === channel ? figures[figure]! : 0)));
  });
  return { own, shift } satisfies GainSums;
}

const ask = async (sums: GainSums, sets: number, limit = Number.MAX_VALUE, hasTime?: () => boolean) => {
  const size = sums.shift[0]!.length;
  const orders = seatings(size, alikePositions(sums));
  const seat = seatingBySums(sums, orders);
  const { groups, bound } = await setsBySums(sums, orders, { sizes: new Map([[size, sets]]), limit, hasTime }, []);
  return { groups, bound, cost: groups.reduce((sum, set) => sum + seat(set).cost, 0) };
};

/** Every way to make so many sets, every way to seat each. */
function leastOfAll({ own, shift }: GainSums, sets: number): number {
  const size = shift[0]!.length;
  const spread = (set: readonly number[], seated: readonly number[] = []): number => {
    if (seated.length < size) {
      return Math.min(...set.map((v, i) => spread(set.toSpliced(i, 1), [...seated, v])));
    }
    const gains = own.map((dB, c) => seated.reduce((sum, v, k) => sum + shift[v]![k]![c]!, dB));
    return Math.max(...gains) - Math.min(...gains);
  };
  const known = new Map<string, number>();
  const costOf = (set: readonly number[]) => {
    const key = set.join();
    if (!known.has(key)) known.set(key, spread(set));
    return known.get(key)!;
  };
  const fill = (left: readonly number[], missing: number, below: number): number => {
    if (missing === 0) return 0;
    let best = below;
    if (left.length > size * missing) best = Math.min(best, fill(left.slice(1), missing, best));
    const pick = (set: readonly number[], from: number): void => {
      if (set.length === size) {
        const own = costOf(set);
        if (own >= best) return;
        const rest = left.filter((v) => !set.includes(v));
        best = Math.min(best, own + fill(rest, missing - 1, best - own));
        return;
      }
      for (let i = from; i < left.length; i++) pick([...set, left[i]!], i + 1);
    };
    pick([left[0]!], 1);
    return best;
  };
  return fill([...shift.keys()], sets, Number.POSITIVE_INFINITY);
}

const KINDS = {
  "three channels of one valve, their parts unlike": [
    [0, 0.1, 0.25],
    [
      [0, 0],
      [1, 0],
      [2, 1],
    ],
  ],
  "a shared valve and one a channel": [
    [0, 0],
    [
      [0, 2],
      [0, 0],
      [1, 0],
    ],
  ],
  "two channels of two stages": [
    [0, 0],
    [
      [0, 0],
      [0, 1],
      [1, 0],
      [1, 1],
    ],
  ],
  "four channels of one valve": [
    [0, 0.3, 0.1, 0],
    [
      [0, 0],
      [1, 0],
      [2, 1],
      [3, 1],
    ],
  ],
} as const;

// second method: every grouping and every seating tried
test("sets by added gains are the best of all ways in small cases, and their bound never passes the best", async () => {
  let worst = 0;
  for (const [what, [own, fed]] of Object.entries(KINDS)) {
    for (const spare of [0, 1]) {
      const sums = drawn(8 + (fed.length === 3 ? 1 : 0) + spare, own, fed);
      const sets = Math.floor(sums.shift.length / fed.length);
      const least = leastOfAll(sums, sets);
      const { groups, bound, cost } = await ask(sums, sets);
      expect(new Set(groups.flat()).size, what).toBe(sets * fed.length);
      expect(bound, `${seed}, ${what}`).toBeLessThanOrEqual(least * (1 + 1e-9) + 1e-12);
      expect(await transportBound(sums, sets), what).toBeLessThanOrEqual(least + 1e-12);
      expect(cost, `${seed}, ${what}`).toBeGreaterThan(least - 1e-9);
      worst = Math.max(worst, cost - least, least - bound);
    }
  }
  expect(worst, seed).toBeLessThan(1e-6);
  recordAccuracy({
    area: "valves",
    what: "sets in a circuit of three or four positions by added gains, 8 small cases: over the best, and bound under it",
    source: "every grouping and every seating tried",
    reached: `${worst.toExponential(0)} dB`,
    limit: "1e-6 dB",
  });
});

/** Figures that another language draws alike: src/valves/sets/fixtures/partition.py. */
const figure = (v: number, f: number) => 0.4 * Math.sin(1.7 * (v + 1) + 0.3 * (f + 1) * (v + 1) ** 2);

test("36 valves in threes and in fours over unlike channels are as cheap as a general solver proves", async () => {
  // source: scipy.optimize.milp over every set (fixtures/partition.py)
  for (const [size, own, least] of [
    [3, [0, 0.1, 0.25], 0.283255624],
    [4, [0, 0.1, 0.25, 0.3], 0.362442532],
  ] as const) {
    const shift = Array.from({ length: 36 }, (_, v) =>
      own.map((_, k) => own.map((_, c) => (c === k ? figure(v, k === 0 ? 0 : 1) : 0))),
    );
    const { cost, bound } = await ask({ own, shift }, 36 / size);
    expect(cost, `size ${size}`).toBeCloseTo(least, 6);
    expect(bound, `size ${size}`).toBeGreaterThan(least - 1e-6);
  }
  recordAccuracy({
    area: "valves",
    what: "imbalance of 36 valves in 12 threes and in 9 fours, a channel each, their parts unlike: proven best",
    source: "scipy.optimize.milp over every set (valves/sets/fixtures/partition.py)",
    reached: "equal to 1e-6 dB",
    limit: "1e-6 dB",
  });
});

// source: worked by hand: gains 0, 1, 2, … in three channels alike make runs of three, each 2 dB wide
test("channels alike with one valve each lie along one line", () => {
  const alike = (own: readonly number[]): GainSums => ({
    own,
    shift: [0, 1, 2, 3, 4, 5].map((dB) => own.map((_, k) => own.map((_, c) => (c === k ? dB : 0)))),
  });
  expect(lineOf(alike([3, 3, 3]))).toEqual([0, 1, 2, 3, 4, 5]);
  expect(lineOf(alike([3, 3, 4]))).toBeUndefined();
  expect(
    lineOf(
      drawn(
        6,
        [0, 0],
        [
          [0, 0],
          [0, 0],
          [1, 0],
        ],
      ),
    ),
  ).toBeUndefined();
});

test("a search cut short returns sets that stand and a bound that holds", async () => {
  const sums = drawn(9, ...(KINDS["a shared valve and one a channel"] as unknown as [number[], [number, number][]]));
  const least = leastOfAll(sums, 3);
  for (const most of [0, 1, 3, 10]) {
    let asked = 0;
    const { groups, bound, cost } = await ask(sums, 3, Number.MAX_VALUE, () => ++asked <= most);
    expect(new Set(groups.flat()).size).toBe(groups.flat().length);
    if (groups.length === 3) {
      expect(cost).toBeGreaterThan(least - 1e-9);
      expect(bound).toBeLessThanOrEqual(least + 1e-9);
    }
  }
});
