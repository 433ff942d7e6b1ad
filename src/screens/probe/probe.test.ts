import fc from "fast-check";
import { expect, test } from "vitest";
import { windowStanding } from "../../workshop/windowStanding.ts";
import { accused, allGood, faulty, fresh, good, halfDead, shorted, unread, windows } from "./examples.ts";
import { deadOutside, isLethal, markOf, nextProbe } from "./order.ts";
import { pushedApart } from "./places.ts";
import { ohmsInWords, readOhms } from "./resistance.ts";

// source: the usual ways of writing resistances (IEC 60062 puts the letter where the point stands; from memory)
test.each([
  ["820", 820],
  ["4,7k", 4700],
  ["4k7", 4700],
  ["1M", 1e6],
  ["2.2 MΩ", 2.2e6],
  ["3r3", 3.3],
  ["47 000", 47_000],
])("%s is read as %d ohm", (typed, ohm) => {
  expect(readOhms(typed)).toBeCloseTo(ohm, 9);
});

test("what is no resistance is not read as one", () => {
  for (const typed of ["", "k", "4k7k", "open", "1.000,5", "12x"]) expect(readOhms(typed)).toBeUndefined();
  expect([0, 0.05, 820, 4730, 1.2e6].map(ohmsInWords)).toEqual(["0 Ω", "0.05 Ω", "820 Ω", "4.73 kΩ", "1.2 MΩ"]);
});

test("a reading is judged by its doubt, and no meter is asked for more than it can tell", () => {
  const window = { low: 100, high: 110 };
  expect(windowStanding({ value: 105, doubt: 1 }, window)).toBe("inside");
  expect(windowStanding({ value: 110.5, doubt: 1 }, window)).toBe("undecided");
  expect(windowStanding({ value: 112, doubt: 1 }, window)).toBe("outside");
  expect(windowStanding({ value: 0.01, doubt: 0.02 }, { low: 0, high: 0 })).toBe("inside");
  expect(windowStanding({ value: 0.05, doubt: 0.02 }, { low: 0, high: 0 })).toBe("outside");
});

test("the card goes from the dead circuit to voltages to gains, and follows the suspects once something is odd", () => {
  expect(nextProbe(fresh, windows, unread)).toEqual({ kind: "resistance", point: "HT reservoir" });
  expect(nextProbe(halfDead, windows, undefined)).toEqual({ kind: "resistance", point: "left V2 plate" });
  expect(nextProbe(good, windows, allGood)).toEqual({ kind: "gain", point: "left output" });
  expect(nextProbe(faulty, windows, accused)).toMatchObject({ kind: "gain", point: "left output" });
  expect(nextProbe(fresh, undefined, undefined)).toEqual({ kind: "resistance", point: "HT reservoir" });
});

test("a short found dead stops the unit before power, and an unknown voltage counts as lethal", () => {
  expect(deadOutside(shorted, windows)).toEqual(["HT"]);
  expect(markOf(shorted.points[1]!, windows)).toBe("outside");
  expect(isLethal("left V1 cathode", windows)).toBe(false);
  expect(isLethal("HT", windows)).toBe(true);
  expect(isLethal("HT", undefined)).toBe(true);
});

// property: whatever the places, marks end apart and inside the sheet while there is room
test("marks pushed apart never overlap and never leave the sheet", () => {
  const place = fc.record({ x: fc.integer({ min: 0, max: 600 }), y: fc.integer({ min: 0, max: 500 }) });
  const size = { width: 46, height: 48 };
  fc.assert(
    fc.property(
      fc.uniqueArray(place, { minLength: 2, maxLength: 16, selector: ({ x, y }) => `${x} ${y}` }),
      (places) => {
        const marks = pushedApart(places, size, { width: 600, height: 500 });
        for (const [i, a] of marks.entries()) {
          expect(a.x).toBeGreaterThanOrEqual(23);
          expect(a.x).toBeLessThanOrEqual(577);
          for (const b of marks.slice(i + 1)) expect(Math.abs(a.x - b.x) > 45 || Math.abs(a.y - b.y) > 47).toBe(true);
        }
      },
    ),
  );
});
