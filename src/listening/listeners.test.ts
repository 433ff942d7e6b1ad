import { expect, test } from "vitest";
import { recordAccuracy } from "../../tests/accuracy.ts";
import { randomStream } from "../maths/random.ts";
import { type Choice, rankPairs } from "./pairs.ts";

const truth = [0.8, 0.3, 0, -0.5];

/** Listeners of their own taste about a common one, each choosing several times between every two items. */
function panel(seed: string, listeners: number, taste: number, times = 4): Choice[] {
  const chance = randomStream(seed);
  return Array.from({ length: listeners }, (_, l) => l).flatMap((l) => {
    const own = truth.map((ability) => ability + chance.normal(0, taste));
    return truth.flatMap((_, i) =>
      truth.slice(i + 1).flatMap((_, k) => {
        const j = i + 1 + k;
        return Array.from({ length: times }, (): Choice => {
          const first = chance.uniform() < 1 / (1 + Math.exp(own[j]! - own[i]!));
          return { winner: `${first ? i : j}`, loser: `${first ? j : i}`, listener: `${l}` };
        });
      }),
    );
  });
}

/** Strengths that a very large panel comes to: tastes flatten what listeners choose on average. */
function limitStrengths(taste: number): Map<string, number> {
  const answer = rankPairs(panel("a great many", 6000, taste).map(({ listener: _, ...choice }) => choice));
  if (answer.state !== "solved") throw new Error("undecided");
  return new Map(answer.ranking.map(({ item, strength }) => [item, strength]));
}

// source: second method, counting: fresh panels of twelve about strengths that a panel of 6,000 comes to
test("with listeners told apart intervals hold for other listeners too; without, they do not", () => {
  const draws = Number(process.env.STILLGLOW_DRAWS ?? 80);
  const seed = process.env.STILLGLOW_SEED ?? "panel";
  const taste = 0.8;
  const limit = limitStrengths(taste);
  let [held, plain, all, alike] = [0, 0, 0, 0];
  for (let i = 0; i < draws; i++) {
    const choices = panel(`${seed} ${i}`, 12, taste);
    const told = rankPairs(choices);
    const blurred = rankPairs(choices.map(({ listener: _, ...choice }) => choice));
    if (told.state !== "solved" || blurred.state !== "solved") continue;
    const holds = (of: typeof told) =>
      of.ranking.filter(({ item, low, high }) => low <= limit.get(item)! && limit.get(item)! <= high).length;
    all += truth.length;
    held += holds(told);
    plain += holds(blurred);
    if (told.listeners!.spread > 1) alike++;
  }
  expect(held / all).toBeGreaterThan(draws >= 1000 ? 0.93 : 0.9);
  expect(held / all).toBeLessThan(0.98);
  expect(plain / all).toBeLessThan(0.9);
  expect(alike / draws).toBeGreaterThan(0.9);
  recordAccuracy({
    area: "listening",
    what: "intervals of strengths from twelve listeners of their own taste; and with listeners not told apart",
    source: `fresh panels, ${draws}, seed ${seed}`,
    reached: `${((100 * held) / all).toFixed(1)} %, ${((100 * plain) / all).toFixed(1)} %`,
    limit: "93 to 97 % over many draws",
  });
});

test("listeners of one mind change little, and items alike are rarely called uneven", () => {
  let [uneven, spread] = [0, 0];
  const draws = 100;
  for (let i = 0; i < draws; i++) {
    const chance = randomStream(`alike ${i}`);
    const choices = panel(`one mind ${i}`, 12, 0).map((choice): Choice => {
      const flip = chance.uniform() < 0.5;
      return flip ? choice : { ...choice, winner: choice.loser, loser: choice.winner };
    });
    const answer = rankPairs(choices);
    if (answer.state !== "solved") continue;
    if (answer.listeners!.p! <= 0.05) uneven++;
    spread += answer.listeners!.spread / draws;
  }
  expect(uneven / draws).toBeLessThan(0.13);
  expect(spread).toBeGreaterThan(0.8);
  expect(spread).toBeLessThan(1.25);
});

test("two listeners, or choices without one, are ranked as before", () => {
  const choices = panel("two", 2, 0.3, 20);
  const answer = rankPairs(choices);
  expect(answer).toEqual(rankPairs(choices.map(({ listener: _, ...choice }) => choice)));
});
