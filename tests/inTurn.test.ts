import { afterEach, expect, test, vi } from "vitest";
import { inTurn } from "./inTurn.ts";

afterEach(() => vi.unstubAllEnvs());

const cases = Array.from({ length: 10 }, (_, i) => i);

test("in so many turns each case is made once", () => {
  vi.stubEnv("STILLGLOW_WHOLE", "");
  const turns = [0, 1, 2].map((check) => inTurn(cases, 3, check));
  expect(turns.flat().toSorted((a, b) => a - b)).toEqual(cases);
  for (const turn of turns) expect(turn.length).toBeGreaterThan(0);
});

test("the whole is made when asked for, and a turn that would make nothing is a fault", () => {
  vi.stubEnv("STILLGLOW_WHOLE", "1");
  expect(inTurn(cases, 3)).toEqual(cases);
  vi.stubEnv("STILLGLOW_WHOLE", "");
  expect(() => [0, 1, 2].map((check) => inTurn([1], 3, check))).toThrow("none of 1 cases");
});

test("the days follow each other: today's cases are not tomorrow's", async () => {
  vi.stubEnv("STILLGLOW_WHOLE", "");
  const on = async (day: string) => {
    vi.stubEnv("STILLGLOW_TURN", day);
    vi.resetModules();
    return (await import("./inTurn.ts")).inTurn(cases, 2);
  };
  expect([...(await on("20788")), ...(await on("20789"))].toSorted((a, b) => a - b)).toEqual(cases);
});
