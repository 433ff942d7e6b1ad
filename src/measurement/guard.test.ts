import fc from "fast-check";
import { expect, test } from "vitest";
import { BadInput } from "../maths/badInput.ts";
import { randomStream } from "../maths/random.ts";
import { guard } from "./guard.ts";

// source: worked by hand from the rule: inside or outside every limit by at least one doubt
test.each([
  ["well inside", { value: 5, doubt: 1, low: 0, high: 10 }, "proven"],
  ["inside by exactly one doubt", { value: 9, doubt: 1, high: 10 }, "proven"],
  ["inside by one doubt in decimals that binary rounds", { value: 0.2, doubt: 0.1, high: 0.3 }, "proven"],
  ["inside by less", { value: 9.001, doubt: 1, high: 10 }, "undecided"],
  ["on the limit with doubt", { value: 10, doubt: 1, high: 10 }, "undecided"],
  ["on the limit without doubt", { value: 10, doubt: 0, high: 10 }, "proven"],
  ["just over the limit without doubt", { value: 10.000001, doubt: 0, high: 10 }, "refuted"],
  ["outside by exactly one doubt", { value: 11, doubt: 1, high: 10 }, "refuted"],
  ["below the low limit", { value: -2, doubt: 1, low: 0 }, "refuted"],
  ["window narrower than two doubts", { value: 5, doubt: 1, low: 4.5, high: 5.5 }, "undecided"],
  ["only low", { value: 3, doubt: 1, low: 1 }, "proven"],
  ["window of no width", { value: 1, doubt: 0, low: 1, high: 1 }, "proven"],
])("%s", (_, reading, state) => {
  expect(guard(reading).state).toBe(state);
});

// source: tables of the normal distribution: 2.5 % lies beyond 1.96, half beyond 0, 15.87 % beyond 1
test("the risk of accepting is what the normal distribution leaves outside", () => {
  expect(guard({ value: 9, doubt: 1, high: 10 }).riskFalseAccept).toBeCloseTo(0.025, 5);
  expect(guard({ value: 10, doubt: 1, high: 10 }).riskFalseAccept).toBeCloseTo(0.5, 12);
  expect(guard({ value: 0, doubt: 1.96, low: -1, high: 1 }).riskFalseAccept).toBeCloseTo(2 * 0.158655, 5);
  expect(guard({ value: 10, doubt: 0, high: 10 }).riskFalseAccept).toBe(0);
  expect(guard({ value: 11, doubt: 0, high: 10 }).riskFalseAccept).toBe(1);
});

// source: second method: true values drawn about the reading and counted
test("the risk agrees with counting", () => {
  const chance = randomStream("guard");
  const reading = { value: 4.2, doubt: 1.3, low: 3.5, high: 5.5 };
  const draws = 200_000;
  let outside = 0;
  for (let i = 0; i < draws; i++) {
    const truth = chance.normal(reading.value, reading.doubt / 1.96);
    if (truth < reading.low || truth > reading.high) outside++;
  }
  const expected = guard(reading).riskFalseAccept;
  expect(Math.abs(outside / draws - expected)).toBeLessThan(5 * Math.sqrt((expected * (1 - expected)) / draws));
});

const number = fc.double({ min: -1e6, max: 1e6, noNaN: true });
test("one-sided verdicts and risks go together", () => {
  fc.assert(
    fc.property(number, fc.double({ min: 1e-3, max: 1e6, noNaN: true }), number, (value, doubt, high) => {
      const { state, riskFalseAccept } = guard({ value, doubt, high });
      expect(riskFalseAccept).toBeGreaterThanOrEqual(0);
      expect(riskFalseAccept).toBeLessThanOrEqual(1);
      if (state === "proven") expect(riskFalseAccept).toBeLessThan(0.02501);
      if (state === "refuted") expect(riskFalseAccept).toBeGreaterThan(0.97499);
      const mirrored = guard({ value: -value, doubt, low: -high });
      expect(mirrored.state).toBe(state);
      expect(mirrored.riskFalseAccept).toBeCloseTo(riskFalseAccept, 12);
    }),
  );
});

test.each([
  ["high", { value: 1, doubt: 1 }],
  ["low", { value: 1, doubt: 1, low: 2, high: 1 }],
  ["doubt", { value: 1, doubt: -1, high: 1 }],
  ["value", { value: Number.NaN, doubt: 1, high: 1 }],
  ["high", { value: 1, doubt: 1, high: Number.POSITIVE_INFINITY }],
])("bad input is named at %s", (path, reading) => {
  expect(() => guard(reading)).toThrow(BadInput);
  expect(() => guard(reading)).toThrow(expect.objectContaining({ path }));
});
