import { describe, expect, test } from "vitest";
import { recordAccuracy } from "../../../tests/accuracy.ts";
import { randomStream } from "../../maths/random.ts";
import { fewerThan, logGamma, logPasses } from "./betaBinomial.ts";
import { howManyToBuy } from "./buy.ts";

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
    const answer = howManyToBuy({
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
      howManyToBuy({ past, perSet: 2, sets: 10, confidence }).buy!;
    const much = buy(Array.from({ length: 10 }, () => ({ tested: 50, passed: 40 })));
    expect(buy([{ tested: 10, passed: 8 }])).toBeGreaterThan(much);
    expect(buy(Array.from({ length: 10 }, (_, i) => ({ tested: 50, passed: i % 2 ? 48 : 32 })))).toBeGreaterThan(much);
    expect(buy([{ tested: 10, passed: 8 }], 0.97)).toBeGreaterThan(buy([{ tested: 10, passed: 8 }]));
  });

  test("says undecided, with the reason, where nothing passed", () => {
    const answer = howManyToBuy({ past: [{ tested: 400, passed: 0 }], perSet: 4, sets: 100, confidence: 0.99 });
    expect(answer.state).toBe("undecided");
    expect(answer.reason).toMatch(/chance/);
    expect(answer.buy).toBeUndefined();
  });

  // source: truth drawn here: six past batches and the next one come from one shop's law; the purchase is played out.
  // 120 shops of a kind give a standard error of 2.7 %.
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
      const shops = 120;
      for (let shop = 0; shop < shops; shop++) {
        const mean = 0.6 + 0.3 * random.uniform();
        const past = Array.from({ length: 6 }, () => {
          const tested = 20 + random.integer(40);
          return { tested, passed: passes(tested, rateOf(mean, sd)) };
        });
        const { buy } = howManyToBuy({ past, perSet: 4, sets: 5, confidence: 0.9 });
        if (passes(buy!, rateOf(mean, sd)) >= 20) enough++;
      }
      reached.push(enough / shops);
    }
    for (const share of reached) expect(share).toBeGreaterThan(0.82);
    expect(reached.reduce((a, b) => a + b, 0) / 3).toBeLessThan(0.98);
    recordAccuracy({
      area: "valves",
      what: "purchases of confidence 90 % that were enough, batches' rates differing by 0, 4, 8 % (120 shops each)",
      source: "shops drawn in the test, purchase played out",
      reached: reached.map((x) => `${(100 * x).toFixed(0)} %`).join(", "),
      limit: "82 %",
    });
  });
});
