import fc from "fast-check";
import { expect, test } from "vitest";
import reference from "../../reference/production.json" with { type: "json" };
import { recordAccuracy } from "../../tests/accuracy.ts";
import { randomStream } from "../maths/random.ts";
import { rankPairs } from "./pairs.ts";

const published = reference.listening_tests.bradley_terry.example;

// source: Stigler (1994), citations among four journals, abilities as published (Journal of Statistical Software 48(9))
test("ranks four journals as published", () => {
  const choices = published.wins_row_over_column.flatMap((row, i) =>
    row.flatMap((times, j) => (times > 0 ? [{ winner: published.items[i]!, loser: published.items[j]!, times }] : [])),
  );
  const answer = rankPairs(choices);
  if (answer.state !== "solved") throw new Error(answer.reason);
  const strength = (item: string) => answer.ranking.find((ranked) => ranked.item === item)!.strength;
  const errors = published.items.map((item, i) =>
    Math.abs(Math.log(strength(item) / strength("Biometrika")) - published.log_ability[i]!),
  );
  expect(Math.max(...errors)).toBeLessThan(0.00006);
  expect(answer.ranking[0]!.item).toBe("JRSS-B");
  expect(answer.ranking.reduce((sum, ranked) => sum + ranked.strength, 0)).toBeCloseTo(1, 12);
  expect(answer.p).toBeLessThan(1e-12);
  recordAccuracy({
    area: "listening",
    what: "strengths from paired choices, natural logarithm",
    source: published.source,
    reached: Math.max(...errors).toExponential(0),
    limit: "0.00006 (printed to four digits)",
  });
});

// source: by hand. Three to one: strengths ¾ and ¼; logit ln 3 ± 1.96·√(1/3 + 1); deviance 2·(3·ln ¾ + ln ¼ + 4·ln 2)
// = 1.0465, of which χ² with one degree leaves 0.3063
test("two items come out as their shares", () => {
  const answer = rankPairs([
    { winner: "a", loser: "b", times: 3 },
    { winner: "b", loser: "a" },
  ]);
  if (answer.state !== "solved") throw new Error(answer.reason);
  const reach = 1.959964 * Math.sqrt(4 / 3);
  expect(answer.ranking[0]!).toMatchObject({ item: "a" });
  expect(answer.ranking[0]!.strength).toBeCloseTo(0.75, 10);
  expect(answer.ranking[0]!.low).toBeCloseTo(1 / (1 + Math.exp(reach - Math.log(3))), 6);
  expect(answer.ranking[0]!.high).toBeCloseTo(1 / (1 + Math.exp(-reach - Math.log(3))), 6);
  expect(answer.p).toBeCloseTo(0.3063, 4);
});

test("says who never lost instead of ranking without a maximum", () => {
  const answer = rankPairs([
    { winner: "a", loser: "b", times: 9 },
    { winner: "b", loser: "c" },
    { winner: "c", loser: "b" },
  ]);
  expect(answer).toMatchObject({ state: "undecided", unbeaten: ["a"] });
  const apart = rankPairs([
    { winner: "a", loser: "b" },
    { winner: "b", loser: "a" },
    { winner: "c", loser: "d" },
    { winner: "d", loser: "c" },
  ]);
  expect(apart.state).toBe("undecided");
});

// property: at the maximum every item has as many wins as expected of it
test("expected wins are the wins counted", () => {
  const count = fc.integer({ min: 1, max: 30 });
  fc.assert(
    fc.property(fc.array(count, { minLength: 12, maxLength: 12 }), (counts) => {
      const names = ["a", "b", "c", "d"];
      const choices = names.flatMap((winner, i) =>
        names.filter((name) => name !== winner).map((loser, k) => ({ winner, loser, times: counts[3 * i + k]! })),
      );
      const answer = rankPairs(choices);
      if (answer.state !== "solved") throw new Error(answer.reason);
      const strength = Object.fromEntries(answer.ranking.map((ranked) => [ranked.item, ranked.strength]));
      for (const name of names) {
        let [won, expected] = [0, 0];
        for (const { winner, loser, times } of choices) {
          if (winner === name) won += times;
          if (winner !== name && loser !== name) continue;
          expected += (times * strength[name]!) / (strength[winner]! + strength[loser]!);
        }
        expect(Math.abs(won - expected)).toBeLessThan(1e-7);
      }
    }),
    { numRuns: 40 },
  );
});

// property: true strengths, drawn choices; the interval holds the truth about as often as it says
test("intervals hold the true strengths", () => {
  const random = randomStream(7_117);
  const truth = [0.4, 0.3, 0.2, 0.1];
  let [held, all] = [0, 0];
  for (let run = 0; run < 150; run++) {
    const choices = [];
    for (let i = 0; i < 4; i++)
      for (let j = i + 1; j < 4; j++)
        for (let k = 0; k < 25; k++) {
          const first = random.uniform() < truth[i]! / (truth[i]! + truth[j]!);
          choices.push({ winner: `${first ? i : j}`, loser: `${first ? j : i}` });
        }
    const answer = rankPairs(choices);
    if (answer.state !== "solved") continue;
    for (const { item, low, high } of answer.ranking) {
      all++;
      if (truth[Number(item)]! >= low && truth[Number(item)]! <= high) held++;
    }
  }
  expect(held / all, "seed 7117").toBeGreaterThan(0.92);
  expect(held / all, "seed 7117").toBeLessThan(0.98);
});

test.each([
  [
    "choices[1].loser",
    [
      { winner: "a", loser: "b" },
      { winner: "a", loser: "a" },
    ],
  ],
  ["choices", []],
  ["choices[0].times", [{ winner: "a", loser: "b", times: 0.5 }]],
])("refuses at %s", (path, choices) => {
  expect(() => rankPairs(choices)).toThrow(expect.objectContaining({ path }));
});
