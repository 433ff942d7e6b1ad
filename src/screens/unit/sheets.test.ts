import { expect, test } from "vitest";
import { type Figure, tightestFigure } from "./sheets.ts";

const figure = (where: string, value: number | undefined, doubt: number, low?: number, high?: number): Figure => ({
  subject: {},
  quantity: "level_V",
  where,
  state: "proven",
  why: "",
  doubt,
  ...(value !== undefined && { value }),
  ...(low !== undefined && { low }),
  ...(high !== undefined && { high }),
});

// source: worked by hand; a leaves (10 - 4 - 1) / 10 = 0.5 of its half window, b (5 - 4 - 0.2) / 5 = 0.16 of its limit
test("the tightest figure is the one with the least of its window left after its doubt", () => {
  const a = figure("a", 4, 1, -10, 10);
  const b = figure("b", 4, 0.2, undefined, 5);
  expect(tightestFigure([a, b])?.where).toBe("b");
});

test("a figure that was never read is not the tightest", () => {
  expect(tightestFigure([figure("a", undefined, 0, 0, 1)])).toBeUndefined();
  expect(tightestFigure([])).toBeUndefined();
});
