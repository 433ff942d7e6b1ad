import { describe, expect, test } from "vitest";
import { randomStream } from "../maths/random.ts";
import type { Setting } from "./cause.ts";
import { designOf } from "./design.ts";
import { informationFrom } from "./information.ts";

const house: Setting = {
  supply: { source: "building", frequency_Hz: 50 },
  offset: false,
  valves: { V1: "a", V2: "b" },
};
const clean: Setting = { ...house, supply: { source: "regenerated", frequency_Hz: 57 }, offset: true };

describe("what a recording would tell", () => {
  const design = designOf([house], 0, () => true);
  const place = (cause: string) => design.sources.findIndex((s) => s.cause === cause);
  /** Half of the explanations have one cause make all of the hum, half another. */
  const openBetween = (one: number, other: number, draws = 1000) => [
    {
      order: 2,
      weight: 1,
      phasors: Array.from({ length: draws }, (_, i) => {
        const at = new Float64Array(2 * design.sources.length);
        at[2 * (i % 2 ? one : other)] = 1;
        return at;
      }),
    },
  ];
  const told = (lines: ReturnType<typeof openBetween>, next: Setting, known = [house]) =>
    informationFrom(design, lines, next, known, () => true, randomStream("told"));

  // source: two causes even and told apart for sure are one bit; told apart by nothing, none
  test("is one bit where an offset supply parts two even causes", () => {
    expect(told(openBetween(place("mains"), place("pick-up")), clean)).toBeCloseTo(1, 1);
    expect(told(openBetween(place("pick-up"), place("amplifier")), clean)).toBeCloseTo(1, 1);
  });

  test("is nothing where both follow the unit's supply and stay", () => {
    expect(told(openBetween(place("amplifier"), place("valve")), clean)).toBeLessThan(0.03);
  });

  test("of a valve exchanged is much, and less than a bit where the spare may hum as loud", () => {
    const spare: Setting = { ...clean, valves: { V1: "other than a", V2: "b" } };
    const bits = told(openBetween(place("amplifier"), place("valve")), spare, [house, clean]);
    expect(bits).toBeGreaterThan(0.4);
    expect(bits).toBeLessThan(0.98);
  });

  test("is nothing where the cause is known already", () => {
    expect(told(openBetween(place("mains"), place("mains")), clean)).toBe(0);
  });
});
