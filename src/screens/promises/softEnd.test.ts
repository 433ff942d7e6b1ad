import fc from "fast-check";
import { expect, test } from "vitest";
import { placeOf, softEnd } from "./softEnd.ts";

const now = "2026-11-25T08:00:00Z";

test("the ribbon is half as thick on the even-odds day and a twentieth at 95 %", () => {
  const ribbon = softEnd(
    { p50: "2026-11-27T08:00:00Z", p80: "2026-11-30T08:00:00Z", p95: "2026-12-02T08:00:00Z" },
    now,
  );
  expect(ribbon.find((m) => m.day === 2)?.stillHere).toBe(0.5);
  expect(ribbon.find((m) => m.day === 5)?.stillHere).toBe(0.2);
  expect(ribbon.find((m) => m.day === 7)?.stillHere).toBe(0.05);
});

// property: however the three dates lie, time runs forward and the ribbon only thins
test("a ribbon never thickens", () => {
  const days = fc.tuple(fc.nat(4000), fc.nat(4000), fc.nat(4000));
  fc.assert(
    fc.property(days, (hours) => {
      const [a, b, c] = [...hours]
        .sort((x, y) => x - y)
        .map((h) => new Date(Date.parse(now) + h * 3_600_000).toISOString());
      const ribbon = softEnd({ p50: a!, p80: b!, p95: c! }, now);
      ribbon.slice(1).forEach((moment, i) => {
        expect(moment.day).toBeGreaterThanOrEqual(ribbon[i]!.day);
        expect(moment.stillHere).toBeLessThanOrEqual(ribbon[i]!.stillHere);
      });
    }),
  );
});

test("the strip begins at today and ends at its last day", () => {
  expect(placeOf(0, 90)).toBe(0);
  expect(placeOf(90, 90)).toBe(1);
  expect(placeOf(7, 90)).toBeGreaterThan(7 / 90);
});
