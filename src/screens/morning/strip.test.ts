import fc from "fast-check";
import { expect, test } from "vitest";
import { hourOf, layStrip } from "./strip.ts";

const now = "2026-11-25T08:10:00+00:00";

test("hours count from this morning's midnight, on the wall", () => {
  expect(hourOf("2026-11-25T13:30:00+00:00", now)).toBe(13.5);
  expect(hourOf("2026-11-26T06:00:00+00:00", now)).toBe(30);
});

// property: whatever ends when, no label lies on another
test("labels never cover each other", () => {
  const times = fc.array(fc.integer({ min: 0, max: 30 * 60 }), { maxLength: 25 });
  fc.assert(
    fc.property(times, (drawn) => {
      const items = drawn.map((m) => ({ at: new Date(Date.UTC(2026, 10, 25, 0, m)).toISOString() }));
      const { placed } = layStrip(items, now);
      const spans = placed.map((p) => ({
        lane: p.lane,
        a: p.isFlipped ? p.along - 0.23 : p.along,
        b: p.isFlipped ? p.along : p.along + 0.23,
      }));
      spans.forEach((one, i) => {
        for (const other of spans.slice(i + 1).filter((o) => o.lane === one.lane)) {
          expect(other.a >= one.b || one.a >= other.b).toBe(true);
        }
      });
      for (const p of placed) {
        expect(p.along).toBeGreaterThanOrEqual(0);
        expect(p.along).toBeLessThanOrEqual(1);
      }
    }),
  );
});
