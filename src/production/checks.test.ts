import fc from "fast-check";
import { expect, test } from "vitest";
import reference from "../../reference/production.json" with { type: "json" };
import { recordAccuracy } from "../../tests/accuracy.ts";
import { BadInput } from "../maths/badInput.ts";
import { type Check, orderChecks } from "./checks.ts";

interface Example {
  readonly id: string;
  readonly fail_probability: readonly number[];
  readonly cost?: readonly number[];
  readonly cost_min?: readonly number[];
  readonly precedence?: readonly (readonly number[])[];
  readonly optimal_order_from_1: readonly number[];
  readonly expected_cost?: number;
  readonly expected_cost_min?: number;
}

// source: reference/production.json, test_sequencing: all orders enumerated by another program
test.each(reference.test_sequencing.examples as readonly Example[])("$id comes out as enumerated", (example) => {
  const cost = example.cost ?? example.cost_min!;
  const checks = cost.map((c, i) => ({
    id: `${i + 1}`,
    cost: c,
    failOdds: example.fail_probability[i]!,
    after: (example.precedence ?? []).filter(([, then]) => then === i + 1).map(([first]) => `${first}`),
  }));
  const answer = orderChecks(checks);
  const published = example.expected_cost ?? example.expected_cost_min!;
  expect(answer.order).toEqual(example.optimal_order_from_1.map(String));
  expect(answer.expectedCost).toBeCloseTo(published, 9);
  expect(answer.optimal).toBe(true);
  recordAccuracy({
    area: "production",
    what: `expected cost of the best order of checks, ${example.id}`,
    source: "reference/production.json, all orders enumerated",
    reached: `${Math.abs(answer.expectedCost - published).toExponential(0)}`,
    limit: "1e-9",
  });
});

function cost(checks: readonly Check[]): number {
  let passes = 1;
  let total = 0;
  for (const check of checks) {
    total += passes * check.cost;
    passes *= 1 - check.failOdds;
  }
  return total;
}

function permutations<T>(items: readonly T[]): T[][] {
  if (items.length < 2) return [[...items]];
  return items.flatMap((item, i) => permutations(items.toSpliced(i, 1)).map((rest) => [item, ...rest]));
}

function isAllowed(order: readonly Check[], given: readonly Check[]): boolean {
  return order.every(
    (check, i) =>
      (!check.fixed || given[i] === check) &&
      (check.after ?? []).every((id) => order.slice(0, i).some((earlier) => earlier.id === id)),
  );
}

const someChecks = (most: number) =>
  fc
    .array(
      fc.record({
        cost: fc.integer({ min: 0, max: 20 }),
        failOdds: fc.constantFrom(0, 0.01, 0.1, 0.3, 0.9, 1),
        fixed: fc.boolean(),
        after: fc.array(fc.nat(most - 1), { maxLength: 2 }),
        rank: fc.nat(1000),
      }),
      { minLength: 1, maxLength: most },
    )
    .map((drawn) =>
      drawn.map(({ rank, after, fixed, ...check }, i) => ({
        ...check,
        id: `c${i}`,
        fixed: fixed && i % 3 === 0,
        // only on checks of a lower rank, so that there is no loop
        after: after.filter((j) => j < drawn.length && drawn[j]!.rank < rank).map((j) => `c${j}`),
      })),
    );

// source: second method, every order of up to six checks
test("no allowed order is cheaper, and orders that can't be kept are refused", () => {
  fc.assert(
    fc.property(someChecks(6), (checks) => {
      const allowed = permutations(checks).filter((order) => isAllowed(order, checks));
      if (allowed.length === 0) {
        expect(() => orderChecks(checks)).toThrow(BadInput);
        return;
      }
      const answer = orderChecks(checks);
      const order = answer.order.map((id) => checks.find((check) => check.id === id)!);
      expect(isAllowed(order, checks)).toBe(true);
      expect(answer.expectedCost).toBeCloseTo(cost(order), 9);
      expect(answer.expectedCost).toBeCloseTo(Math.min(...allowed.map(cost)), 9);
    }),
    { numRuns: 60 },
  );
});

const many = (n: number, rules: boolean): Check[] =>
  Array.from({ length: n }, (_, i) => ({
    id: `c${i}`,
    cost: 1 + ((i * 37) % 23),
    failOdds: 0.01 + ((i * 53) % 17) / 40,
    ...(rules && i >= 5 ? { after: [`c${(i * 7) % 5}`, ...(i % 4 === 0 ? [`c${i - 1}`] : [])] } : {}),
    ...(rules && i % 10 === 9 ? { fixed: true } : {}),
  }));

test("twenty checks are proven best; thirty with rules keep every rule and are not called best", () => {
  expect(orderChecks(many(20, true))).toMatchObject({ optimal: true });
  const checks = many(30, true);
  const answer = orderChecks(checks);
  const order = answer.order.map((id) => checks.find((check) => check.id === id)!);
  expect(new Set(answer.order).size).toBe(30);
  expect(isAllowed(order, checks)).toBe(true);
  expect(answer.optimal).toBe(false);
  expect(answer.expectedCost).toBeLessThan(answer.givenCost!);
});

// source: the ratio rule, proved by exchanging neighbours
test("without rules many checks go by cost over odds", () => {
  const checks = many(40, false);
  const sorted = [...checks].sort((a, b) => a.cost / a.failOdds - b.cost / b.failOdds);
  expect(orderChecks(checks).expectedCost).toBeCloseTo(cost(sorted), 9);
});

test.each([
  [
    "a loop",
    [
      { id: "a", cost: 1, failOdds: 0.1, after: ["b"] },
      { id: "b", cost: 1, failOdds: 0.1, after: ["a"] },
    ],
    /after/,
  ],
  ["itself", [{ id: "a", cost: 1, failOdds: 0.1, after: ["a"] }], /checks\[0\]\.after/],
  ["an unknown id", [{ id: "a", cost: 1, failOdds: 0.1, after: ["z"] }], /checks\[0\]\.after\[0\]/],
  [
    "an id twice",
    [
      { id: "a", cost: 1, failOdds: 0.1 },
      { id: "a", cost: 2, failOdds: 0.1 },
    ],
    /checks\[1\]\.id/,
  ],
  ["odds above one", [{ id: "a", cost: 1, failOdds: 5 }], /failOdds/],
  [
    "a fixed place too early",
    [
      { id: "a", cost: 1, failOdds: 0.1, fixed: true, after: ["b"] },
      { id: "b", cost: 1, failOdds: 0.1 },
    ],
    /checks\[0\]\.fixed/,
  ],
])("refuses %s", (_, checks, path) => {
  expect(() => orderChecks(checks)).toThrow(expect.objectContaining({ path: expect.stringMatching(path) }));
});
