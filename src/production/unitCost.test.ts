import { expect, test } from "vitest";
import { recordAccuracy } from "../../tests/accuracy.ts";
import { type UnitCostInput, unitCost } from "./unitCost.ts";

const input: UnitCostInput = {
  parts: [
    { part: "transformer", count: 1, cost_cents: 14_500 },
    { part: "valve", count: 4, cost_cents: 3_000, scrap: 0.25 },
  ],
  steps: [
    {
      step: "wiring",
      skill: "wiring",
      hours: { fast: 6, usual: 9, slow: 15 },
      rework: { odds: 0.2, hours: 1, parts_cents: 500 },
    },
    { step: "case", skill: "wood", hours: { fast: 5, usual: 5, slow: 5 } },
  ],
  hour_cents: { wiring: 5_000, wood: 4_000 },
  price_cents: 130_000,
  runs: 20_000,
};

// source: closed form. Parts 26,500; scrap 4·3,000·0.25/0.75 = 4,000; hands 10·5,000 + 20,000 = 70,000; done again
// 0.25 times: 0.25·(11·5,000 + 500) = 13,875; together 114,375. Rates of repeat 0.2/(1 − 0.2) = 0.25, 0.25/0.75 = ⅓.
test("means are those of the closed form, within the runs' own doubt", () => {
  const found = unitCost(input);
  expect(found.parts).toMatchObject({ mean_cents: 26_500, p05_cents: 26_500, p95_cents: 26_500 });
  const off = [
    found.scrap.mean_cents / 4_000,
    found.work.mean_cents / 70_000,
    found.rework.mean_cents / 13_875,
    found.cost.mean_cents / 114_375,
  ].map((ratio) => Math.abs(ratio - 1));
  expect(off[3]).toBeLessThan(0.006);
  expect(Math.max(...off)).toBeLessThan(0.05);
  expect(found.margin!.mean_cents).toBeCloseTo(130_000 - found.cost.mean_cents, -1);
  expect(found.bySkill.find(({ skill }) => skill === "wood")).toEqual({ skill: "wood", mean_h: 5, mean_cents: 20_000 });
  recordAccuracy({
    area: "production",
    what: "mean cost of a unit with rework and scrap",
    source: "closed form: geometric repeats of triangle times",
    reached: `${(100 * off[3]!).toFixed(2)} %`,
    limit: "0.6 % at 20,000 runs",
  });
});

test("all is whole cents, and the odds of loss go with the price", () => {
  const found = unitCost(input);
  for (const part of [found.cost, found.parts, found.work, found.rework, found.scrap, found.margin!]) {
    for (const value of Object.values(part))
      if (value !== found.margin!.oddsOfLoss) expect(Number.isInteger(value)).toBe(true);
  }
  expect(unitCost({ ...input, price_cents: 20_000 }).margin!.oddsOfLoss).toBe(1);
  expect(unitCost({ ...input, price_cents: 9_000_000 }).margin!.oddsOfLoss).toBe(0);
  expect(unitCost(input)).toEqual(found);
});

test.each<[string, Partial<UnitCostInput>, string]>([
  ["a skill without a rate", { hour_cents: { wood: 1 } }, "hour_cents.wiring"],
  ["half a cent", { parts: [{ part: "p", count: 1, cost_cents: 0.5 }] }, "parts[0].cost_cents"],
  ["no part", { parts: [{ part: "p", count: 0, cost_cents: 1 }] }, "parts[0].count"],
  ["what always fails", { steps: [{ ...input.steps[0]!, rework: { odds: 1, hours: 0 } }] }, "steps[0].rework.odds"],
  [
    "hours the wrong way round",
    { steps: [{ ...input.steps[0]!, hours: { fast: 3, usual: 2, slow: 4 } }] },
    "steps[0].hours",
  ],
])("%s is refused", (_, change, path) => {
  expect(() => unitCost({ ...input, ...change })).toThrow(expect.objectContaining({ path }));
});
