import fc from "fast-check";
import { expect, test } from "vitest";
import reference from "../../reference/safety.json" with { type: "json" };
import { recordAccuracy } from "../../tests/accuracy.ts";
import { discharge } from "./discharge.ts";
import { judgeTest, type RoutineTest } from "./routineTests.ts";

const { example_ht: ht, source } = reference.stored_charge.bleeder;

// source: reference/safety.json, 100 µF at 450 V through 220 kΩ to 60 V
test("a reservoir falls to a safe voltage when it should", () => {
  const answer = discharge({
    capacitance_uF: ht.C_F * 1e6,
    bleeder_ohm: ht.chosen_R_ohm,
    start_V: ht.V0_V,
    limit_V: ht.Vt_V,
    doubt: { capacitance_uF: 20 },
  });
  const error = Math.abs(answer.time_s / ht.time_with_chosen_R_s - 1);
  expect(error).toBeLessThan(1e-5);
  expect(answer.energy_J).toBeCloseTo(ht.energy_J, 9);
  expect(answer.bleeder_W).toBeCloseTo(ht.power_W, 4);
  expect(answer.doubt.time_s).toBeCloseTo(0.2 * answer.time_s, 9);
  recordAccuracy({
    area: "safety",
    what: "time to discharge",
    source,
    reached: `relative ${error.toExponential(0)}`,
    limit: "1e-5 (printed)",
  });
});

test("what starts at or below the limit takes no time", () => {
  const store = { capacitance_uF: 100, bleeder_ohm: 1e5, limit_V: 60 };
  expect(discharge({ ...store, start_V: 60 }).time_s).toBe(0);
  expect(discharge({ ...store, start_V: 0 }).time_s).toBe(0);
  expect(() => discharge({ ...store, limit_V: 0, start_V: 1 })).toThrow(expect.objectContaining({ path: "limit_V" }));
});

const judged = (value: number, doubt: number, limit: number, kind: RoutineTest["kind"]) =>
  judgeTest({ name: "x", unit: "ohm", value, doubt, limit, kind }).state;

// source: by hand from the rule: max is proven at value + doubt ≤ limit and refuted at value − doubt > limit
test.each([
  [0.09, 0.01, 0.1, "max", "proven"],
  [0.2, 0.1, 0.3, "max", "proven"],
  [0.095, 0.01, 0.1, "max", "undecided"],
  [0.11, 0.01, 0.1, "max", "undecided"],
  [0.4, 0.1, 0.3, "max", "undecided"],
  [0.1101, 0.01, 0.1, "max", "refuted"],
  [0.1, 0, 0.1, "max", "proven"],
  [0.1000001, 0, 0.1, "max", "refuted"],
  [3, 1, 2, "min", "proven"],
  [1, 1, 2, "min", "undecided"],
  [0.9, 1, 2, "min", "refuted"],
] as const)("%d ± %d against %d %s is %s", (value, doubt, limit, kind, state) => {
  expect(judged(value, doubt, limit, kind)).toBe(state);
});

test("min is max seen in a mirror", () => {
  const number = fc.double({ min: -100, max: 100, noNaN: true });
  fc.assert(
    fc.property(number, fc.double({ min: 0, max: 10, noNaN: true }), number, (value, doubt, limit) => {
      expect(judged(-value, doubt, -limit, "min")).toBe(judged(value, doubt, limit, "max"));
    }),
  );
});
