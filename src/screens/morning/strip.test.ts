import fc from "fast-check";
import { expect, test } from "vitest";
import { hourOf, label, layStrip } from "./strip.ts";

const now = "2026-11-25T08:10:00+00:00";

test("hours count from this morning's midnight, on the wall", () => {
  expect(hourOf("2026-11-25T13:30:00+00:00", now)).toBe(13.5);
  expect(hourOf("2026-11-26T06:00:00+00:00", now)).toBe(30);
});

// property: whatever ends when, tags of one lane keep clear of each other, inside the strip
test("tags never cover each other", () => {
  const times = fc.array(fc.integer({ min: 0, max: 30 * 60 }), { maxLength: 25 });
  fc.assert(
    fc.property(times, (drawn) => {
      const items = drawn.map((m) => ({ at: new Date(Date.UTC(2026, 10, 25, 0, m)).toISOString() }));
      const { placed } = layStrip(items, now);
      placed.forEach((one, i) => {
        expect(one.along).toBeGreaterThanOrEqual(0);
        expect(one.along + label).toBeLessThanOrEqual(1 + 1e-9);
        for (const next of placed.slice(i + 1)) {
          if (next.along < one.along + label) expect(next.lane).not.toBe(one.lane);
        }
      });
    }),
  );
});
