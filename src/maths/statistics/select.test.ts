import fc from "fast-check";
import { expect, test } from "vitest";
import { selectRank } from "./select.ts";

// second method: sorting
test("the value of a rank is where sorting puts it, and parts the others", () => {
  fc.assert(
    fc.property(
      fc.array(fc.oneof(fc.integer({ min: -5, max: 5 }), fc.double({ noNaN: true })), { minLength: 1, maxLength: 60 }),
      fc.nat(),
      (list, pick) => {
        const rank = pick % list.length;
        const values = Float64Array.from(list);
        const sorted = Float64Array.from(list).sort();
        expect(selectRank(values, rank) === sorted[rank]).toBe(true);
        expect(values.subarray(0, rank).every((value) => value <= values[rank]!)).toBe(true);
        expect(values.subarray(rank).every((value) => value >= values[rank]!)).toBe(true);
      },
    ),
  );
});
