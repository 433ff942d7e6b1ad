import { expect, test } from "vitest";
import { leaning, many, one, onHeat, steady, untouched } from "./examples.ts";
import { leanOf, pocket, scaleOf, strokesOf } from "./geometry.ts";
import { numbered } from "./numbered.ts";
import { nextOf, readIn, sessionOf } from "./session.ts";
import { signed } from "./TrayPicture.tsx";

test("numbers follow on from the first, leading zeros kept", () => {
  expect(numbered("T-098", 4)).toEqual(["T-098", "T-099", "T-100", "T-101"]);
  expect(numbered("7", 2)).toEqual(["7", "8"]);
  for (const [first, count] of [
    ["T", 3],
    ["T-1", 0],
    ["T-1", 2.5],
    ["T-1", 501],
    ["", 1],
  ] as const)
    expect(numbered(first, count)).toBeUndefined();
});

test("a session begins with the reference valve, then goes through the tray in order", () => {
  expect(sessionOf(untouched)).toBe("cold");
  expect(sessionOf(onHeat)).toBe("hot");
  expect(nextOf(untouched, "cold")).toEqual({ kind: "reference", valve: "REF-6SN7GT" });
  const begun = {
    ...untouched,
    reference: { ...leaning.reference!, readings: [{ ...leaning.reference!.readings[0]!, time_h: 279 }] },
  };
  expect(nextOf(begun, "cold")).toEqual({ kind: "section", valve: "T-101", section: "a" });
  expect(nextOf(begun, "cold", { valve: "T-104" })).toEqual({ kind: "section", valve: "T-104", section: "a" });
  const justRead = [{ valve: "T-101", section: "a" }];
  expect(nextOf(begun, "cold", { valve: "T-101" }, justRead)).toEqual({
    kind: "section",
    valve: "T-101",
    section: "b",
  });
  expect(nextOf(untouched, "cold", undefined, [{ valve: "REF-6SN7GT" }])?.kind).toBe("section");
  expect(readIn(onHeat.valves, "cold")).toBe(16);
});

// source: plane geometry; a tray skewed by the tester's change tilts a raw stroke by exactly as much
test("the tray leans by the strokes' own measure, so that a steady valve lies level in it", () => {
  const scale = scaleOf(leaning);
  const perPct = (pocket.height / 2 - 5) / scale.reach_pct;
  const lean_deg = leanOf(leaning.reference?.lean_pct, scale);
  expect(Math.tan((lean_deg * Math.PI) / 180) * pocket.stroke).toBeCloseTo(2.99 * perPct, 6);
  expect(leanOf(undefined, scale)).toBe(0);
  expect(Math.abs(leanOf(-80, scale))).toBeLessThanOrEqual(9);
});

test("every stroke lies inside its pocket, what is beyond marked as such", () => {
  for (const tray of [leaning, steady, onHeat, one, many]) {
    const scale = scaleOf(tray);
    for (const valve of tray.valves) {
      for (const { cold_y, hot_y, x } of strokesOf(valve, scale)) {
        expect(x).toBeGreaterThanOrEqual(0);
        expect(x + pocket.stroke).toBeLessThanOrEqual(pocket.width);
        for (const y of [cold_y, hot_y]) if (y !== undefined) expect(y).toBeGreaterThan(-8);
        for (const y of [cold_y, hot_y]) if (y !== undefined) expect(y).toBeLessThan(pocket.height + 8);
      }
    }
  }
  const far = strokesOf(leaning.valves[22]!, scaleOf(leaning));
  expect(far.map(({ beyond }) => beyond)).toEqual(["below", "below"]);
});

test("a change is told to a tenth of a per cent with a true sign", () => {
  expect([0.04, -0.04, 0.26, -3.149].map(signed)).toEqual(["0.0 %", "0.0 %", "+0.3 %", "−3.1 %"]);
});
