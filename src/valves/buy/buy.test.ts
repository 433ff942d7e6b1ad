import { describe, expect, test } from "vitest";
import { recordAccuracy } from "../../../tests/accuracy.ts";
import { randomStream } from "../../maths/random.ts";
import { alikeSets } from "../sets/alike.ts";
import { setsBySpread } from "../sets/spread.ts";
import { fewerThan, logGamma, logPasses } from "./betaBinomial.ts";
import { type BuyQuestion, howManyToBuy } from "./buy.ts";

const asked = (question: BuyQuestion) => howManyToBuy(question, { random: randomStream("buy"), hasTime: () => true });

describe("the beta-binomial law", () => {
  // source: worked by hand: ln Γ(5) = ln 24, ln Γ(½) = ½ ln π; a = b = 1 makes every count equally likely
  test("meets its closed forms", () => {
    expect(logGamma(5)).toBeCloseTo(Math.log(24), 11);
    expect(logGamma(0.5)).toBeCloseTo(0.5 * Math.log(Math.PI), 11);
    const even = { mean: 0.5, likeness: 1 / 3 };
    for (let k = 0; k <= 10; k++) expect(Math.exp(logPasses(even, 10, k))).toBeCloseTo(1 / 11, 11);
    expect(fewerThan(even, 10, 4)).toBeCloseTo(4 / 11, 11);
  });

  // source: worked by hand, n = 3, p = 0.9: P(fewer than 2) = 0.001 + 3·0.9·0.01 = 0.028
  test("nears the binomial where pieces of a batch are not alike", () => {
    expect(fewerThan({ mean: 0.9, likeness: 1e-9 }, 3, 2)).toBeCloseTo(0.028, 6);
  });
});

describe("how many to buy", () => {
  // source: with thousands tested in many like batches the rate is known: binomial, P(at least 20 of n at 0.8) ≥ 0.9
  // first at n = 28 (scipy 1.10, stats.binom.sf(19, 27, 0.8) = 0.8444, sf(19, 28, 0.8) = 0.90997)
  test("comes to the binomial number once the rate is known and batches are alike", () => {
    const answer = asked({
      past: Array.from({ length: 200 }, () => ({ tested: 1000, passed: 800 })),
      perSet: 2,
      sets: 10,
      confidence: 0.9,
    });
    expect(answer.buy).toBe(28);
    expect(answer.chance).toBeCloseTo(0.91, 2);
  });

  test("is more the less is known, the more batches differ, and the more confidence is asked", () => {
    const buy = (past: { tested: number; passed: number }[], confidence = 0.9) =>
      asked({ past, perSet: 2, sets: 10, confidence }).buy!;
    const much = buy(Array.from({ length: 10 }, () => ({ tested: 50, passed: 40 })));
    expect(buy([{ tested: 10, passed: 8 }])).toBeGreaterThan(much);
    expect(buy(Array.from({ length: 10 }, (_, i) => ({ tested: 50, passed: i % 2 ? 48 : 32 })))).toBeGreaterThan(much);
    expect(buy([{ tested: 10, passed: 8 }], 0.97)).toBeGreaterThan(buy([{ tested: 10, passed: 8 }]));
  });

  test("says undecided, with the reason, where nothing passed", () => {
    const answer = asked({ past: [{ tested: 400, passed: 0 }], perSet: 4, sets: 100, confidence: 0.99 });
    expect(answer.state).toBe("undecided");
    expect(answer.reason).toMatch(/chance/);
    expect(answer.buy).toBeUndefined();
  });

  // source: truth drawn here: six past batches and the next one come from one shop's law; the purchase is played out.
  // 60 shops of a kind give a standard error of 3.9 %, all together 2.2 %.
  test("reaches its confidence when played back on shops whose batches differ", () => {
    const random = randomStream("buy 1");
    const rateOf = (mean: number, sd: number) => Math.min(0.99, Math.max(0.05, mean + random.normal(0, sd)));
    const passes = (n: number, rate: number) => {
      let k = 0;
      for (let i = 0; i < n; i++) if (random.uniform() < rate) k++;
      return k;
    };
    const reached: number[] = [];
    for (const sd of [0, 0.04, 0.08]) {
      let enough = 0;
      const shops = 60;
      for (let shop = 0; shop < shops; shop++) {
        const mean = 0.6 + 0.3 * random.uniform();
        const past = Array.from({ length: 6 }, () => {
          const tested = 20 + random.integer(40);
          return { tested, passed: passes(tested, rateOf(mean, sd)) };
        });
        const { buy } = asked({ past, perSet: 4, sets: 5, confidence: 0.9 });
        if (passes(buy!, rateOf(mean, sd)) >= 20) enough++;
      }
      reached.push(enough / shops);
    }
    for (const share of reached) expect(share).toBeGreaterThan(0.78);
    expect(reached.reduce((a, b) => a + b, 0) / 3).toBeLessThan(0.98);
    recordAccuracy({
      area: "valves",
      what: "purchases of confidence 90 % that were enough, batches' rates differing by 0, 4, 8 % (60 shops each)",
      source: "shops drawn in the test, purchase played out",
      reached: reached.map((x) => `${(100 * x).toFixed(0)} %`).join(", "),
      limit: "78 %",
    });
  });
});

describe("how many to buy where valves must match", () => {
  // source: worked by hand: with a limit of 0.1, valves at 0, 0.05, 0.2, 0.29, 0.5 make two pairs, and no three
  test("sets of alike valves are counted", () => {
    const line = [0.2, 0, 0.5, 0.05, 0.29].map((x) => Float64Array.of(x));
    expect(alikeSets(line, 2, 0.1)).toHaveLength(2);
    expect(alikeSets(line, 3, 0.1)).toHaveLength(0);
    expect(alikeSets(line, 3, 0.29)).toHaveLength(1);
    expect(alikeSets(line, 1, 0)).toHaveLength(5);
  });

  // second method: the best sets of `setsBySpread`, which proves that no more can be made
  test("the quick way to form sets never makes more than can be made, and hardly fewer", async () => {
    const seed = "alike 1";
    const random = randomStream(seed);
    let quick = 0;
    let most = 0;
    for (let t = 0; t < 40; t++) {
      const size = t % 4 === 3 ? 3 : 2;
      const n = size === 3 ? 16 : 12 + random.integer(50);
      const places = Array.from({ length: n }, () => [random.normal(), random.normal()]);
      const limit = [0.3, 0.6, 1.2][t % 3]!;
      const own = alikeSets(places, size, limit).length;
      const best = await setsBySpread({
        valves: places.map((p, i) => ({ id: `${i}`, features: { a: p[0]!, b: p[1]! } })),
        demand: Array.from({ length: Math.floor(n / size) }, (_, i) => ({
          unit: `${i}`,
          positions: ["a", "b", "c"].slice(0, size),
        })),
        weights: { a: 1, b: 1 },
        limit,
      });
      expect(own, `seed ${seed}, ${t}`).toBeLessThanOrEqual(best.sets.length);
      quick += own;
      most += best.sets.length;
    }
    expect(quick / most).toBeGreaterThan(0.93);
  });

  const noMatter = { perSet: 2, sets: 5, confidence: 0.9 };
  const past = (valves: number, value: (i: number) => number) => [
    {
      tested: 60,
      passed: 48,
      valves: Array.from({ length: valves }, (_, i) => ({ features: { plate_mA: value(i) } })),
    },
  ];

  test("a limit that all meet changes nothing; one that few meet asks for more; the notes say the way", () => {
    const plain = asked({ past: [{ tested: 60, passed: 48 }], ...noMatter });
    const wide = asked({ past: past(40, (i) => 10 + (i % 7) / 7), ...noMatter, weights: { plate_mA: 1 }, limit: 50 });
    const tight = asked({
      past: past(40, (i) => 10 + (i % 7) / 7),
      ...noMatter,
      weights: { plate_mA: 1 },
      limit: 0.02,
    });
    expect(wide.buy).toBe(plain.buy);
    expect(wide.chance).toBeCloseTo(plain.chance!, 9);
    expect(tight.buy).toBeGreaterThan(plain.buy!);
    expect(tight.withoutPartner).toBeGreaterThan(1);
    expect(plain.notes[0]).toMatch(/pass rates alone/);
    expect(tight.notes[0]).toMatch(/find no partner are counted/);
    expect(asked({ past: past(5, (i) => i), ...noMatter, weights: { plate_mA: 1 }, limit: 1 }).notes[0]).toMatch(
      /too few to draw from/,
    );
    expect(asked({ past: past(40, (i) => i), ...noMatter, weights: { plate_mA: 1 } }).notes[0]).toMatch(
      /without a limit/,
    );
  });

  test("readings without weights, without a feature or of more than passed are named", () => {
    expect(() => asked({ past: past(40, (i) => i), ...noMatter })).toThrow(
      expect.objectContaining({ path: "weights" }),
    );
    expect(() => asked({ past: past(40, (i) => i), ...noMatter, weights: { gm_mS: 1 }, limit: 1 })).toThrow(
      expect.objectContaining({ path: "past[0].valves[0].features.gm_mS" }),
    );
    expect(() => asked({ past: past(49, (i) => i), ...noMatter, weights: { plate_mA: 1 }, limit: 1 })).toThrow(
      expect.objectContaining({ path: "past[0].valves" }),
    );
  });

  // source: truth drawn here: a shop's batches differ in pass rate, in mean and in spread; the next batch is bought,
  // tested and made into sets by the proven way. STILLGLOW_DRAWS shops of each kind.
  test("reaches its confidence when purchases are played out on batches that must match", async () => {
    const seed = "buy to match 1";
    const random = randomStream(seed);
    const shops = Number(process.env.STILLGLOW_DRAWS ?? 20);
    const kinds = [
      { perSet: 2, sets: 6, features: 1, limit: 0.15 },
      { perSet: 2, sets: 6, features: 2, limit: 0.5 },
      { perSet: 4, sets: 3, features: 2, limit: 1.4 },
    ];
    const confidence = 0.9;
    const reached: number[] = [];
    const surplus: number[] = [];
    for (const { perSet, sets, features, limit } of kinds) {
      let enough = 0;
      let made = 0;
      for (let shop = 0; shop < shops; shop++) {
        const rate = 0.65 + 0.25 * random.uniform();
        const batch = (n: number) => {
          const own = Math.min(0.98, rate + random.normal(0, 0.04));
          const centre = random.normal(0, 1);
          const sd = Math.exp(random.normal(0, 0.1));
          const valves: { features: Record<string, number> }[] = [];
          for (let i = 0; i < n; i++) {
            if (random.uniform() > own) continue;
            const shared = random.normal();
            const figure = () => centre + sd * (0.6 * shared + 0.8 * random.normal());
            valves.push({ features: features === 1 ? { a: figure() } : { a: figure(), b: figure() } });
          }
          return valves;
        };
        const past = Array.from({ length: 5 }, () => {
          const tested = 25 + random.integer(30);
          const valves = batch(tested);
          return { tested, passed: valves.length, valves };
        });
        const weights: Record<string, number> = features === 1 ? { a: 1 } : { a: 1, b: 1 };
        const { buy } = asked({ past, perSet, sets, confidence, weights, limit });
        const bought = batch(buy!);
        const { sets: found } = await setsBySpread({
          valves: bought.map((v, i) => ({ id: `${i}`, ...v })),
          demand: Array.from({ length: Math.max(1, Math.floor(bought.length / perSet)) }, (_, i) => ({
            unit: `${i}`,
            positions: ["a", "b", "c", "d"].slice(0, perSet),
          })),
          weights,
          limit,
        });
        if (found.length >= sets) enough++;
        made += found.length / sets;
      }
      reached.push(enough / shops);
      surplus.push(made / shops);
    }
    const allowed = 3 * Math.sqrt((confidence * (1 - confidence)) / shops);
    for (const share of reached) expect(share, `seed ${seed}`).toBeGreaterThan(confidence - allowed);
    for (const mean of surplus) expect(mean, `seed ${seed}`).toBeLessThan(1.9);
    recordAccuracy({
      area: "valves",
      what: `purchases of confidence 90 % that gave the sets, valves having to match: pairs by one and two figures, fours by two (${shops} shops each)`,
      source: "shops drawn in the test, the purchase made into sets by the proven way",
      reached: reached.map((x) => `${(100 * x).toFixed(0)} %`).join(", "),
      limit: `${(100 * (confidence - allowed)).toFixed(0)} %`,
    });
  });
});
