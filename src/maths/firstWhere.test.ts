import fc from "fast-check";
import { expect, test } from "vitest";
import { firstWhere } from "./firstWhere.ts";

test("it finds what going through them one by one finds, in few looks", () => {
  fc.assert(
    fc.property(
      fc.integer({ min: -50, max: 50 }),
      fc.nat(300),
      fc.integer({ min: -60, max: 400 }),
      (from, span, turn) => {
        let looks = 0;
        const found = firstWhere(from, from + span, (n) => {
          looks += 1;
          return n >= turn;
        });
        const all = Array.from({ length: span }, (_, i) => from + i);
        expect(found).toBe(all.find((n) => n >= turn) ?? from + span);
        expect(looks).toBeLessThanOrEqual(Math.ceil(Math.log2(span + 1)));
      },
    ),
  );
});

test("of no numbers, or an end before the start, it is the start", () => {
  expect(firstWhere(3, 3, () => true)).toBe(3);
  expect(firstWhere(3, 1, () => false)).toBe(3);
});
