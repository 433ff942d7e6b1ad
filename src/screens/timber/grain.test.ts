import fc from "fast-check";
import { expect, test } from "vitest";
import { rings, throughThickness } from "./grain.ts";

// property: the drawn section holds as much water as the mean says, with its skin and its core where they are
test("a drawn section has its own mean, skin and core", () => {
  const percent = fc.double({ min: 2, max: 18, noNaN: true });
  fc.assert(
    fc.property(percent, percent, fc.double({ min: 0.1, max: 0.7, noNaN: true }), (surface_pct, core_pct, share) => {
      const mean_pct = core_pct + share * (surface_pct - core_pct);
      const drawn = throughThickness({ mean_pct, surface_pct, core_pct }, "both", 2000);
      expect(drawn[0]!.moisture_pct).toBeCloseTo(surface_pct, 9);
      expect(drawn[1000]!.moisture_pct).toBeCloseTo(core_pct, 9);
      const sum = drawn.slice(1).reduce((s, one, i) => s + (one.moisture_pct + drawn[i]!.moisture_pct) / 2, 0);
      expect(Math.abs(sum / 2000 - mean_pct)).toBeLessThan(0.05);
    }),
  );
});

// source: geometry; a circle far below cuts a flat-sawn board near level, one beside it cuts a quarter-sawn one upright
test("rings lie along the face of a flat-sawn board and stand upright in a quarter-sawn one", () => {
  const slope = (angle: number) => {
    const { cx, cy } = rings(200, 24, angle, 6);
    return Math.abs((100 - cx) / (12 - cy));
  };
  expect(slope(0)).toBeCloseTo(0, 9);
  expect(slope(90)).toBeGreaterThan(1e6);
  expect(slope(45)).toBeCloseTo(1, 9);
});
