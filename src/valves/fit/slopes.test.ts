import fc from "fast-check";
import { expect, test } from "vitest";
import { valveCurrents } from "../model.ts";
import { currentsOf } from "./currents.ts";
import { generalBelief, toModel } from "./parameters.ts";
import { currentSlopes } from "./slopes.ts";

const scale = { drive_V: 3, electrode_V: 220 };
const unit = fc.integer({ min: -100, max: 100 }).map((x) => x / 100);

// second method: the model's own currents, and their central differences over each parameter
test("currents and slopes of the fit are those of the model it returns", () => {
  fc.assert(
    fc.property(
      fc.constantFrom("triode" as const, "pentode" as const),
      fc.array(unit, { minLength: 14, maxLength: 14 }),
      fc.record({
        plate_V: fc.integer({ min: 1, max: 400 }),
        grid_V: fc.integer({ min: -300, max: 20 }).map((x) => x / 10),
        screen_V: fc.integer({ min: 20, max: 300 }),
      }),
      (kind, shifts, at) => {
        const belief = generalBelief(kind, { current_A: 0.01, mu: 20, scale }).each;
        const p = Float64Array.from(belief, (b, k) => {
          const room = 0.01 * (b.high - b.low);
          return Math.min(Math.max(b.centre + shifts[k]! * Math.min(b.sd, 1), b.low + room), b.high - room);
        });
        const [plate, screen] = [new Float64Array(p.length), new Float64Array(p.length)];
        const currentsAt = (q: Float64Array) =>
          valveCurrents(toModel(kind, q, scale), at.plate_V, at.grid_V, at.screen_V);
        const here = currentSlopes(p, scale, at, plate, screen);
        const model = currentsAt(p);
        const readings = (["plate", "screen"] as const).map((of) => ({ ...at, of, point: 0, value_A: 0 }));
        const quick = new Float64Array(2);
        currentsOf(kind === "pentode" ? readings : readings.slice(0, 1), scale, kind === "pentode")(p, quick);
        const whole_A = model.plate_A + model.screen_A;
        expect(Math.abs(quick[0]! - model.plate_A)).toBeLessThanOrEqual(1e-11 * whole_A + 1e-30);
        expect(Math.abs(quick[1]! - model.screen_A)).toBeLessThanOrEqual(1e-11 * whole_A + 1e-30);
        expect(Math.abs(here.plate_A - model.plate_A)).toBeLessThanOrEqual(1e-12 * model.plate_A);
        expect(Math.abs(here.screen_A - model.screen_A)).toBeLessThanOrEqual(1e-12 * (model.screen_A + model.plate_A));
        for (let k = 0; k < p.length; k++) {
          if (belief[k]!.low === belief[k]!.high) continue;
          const step = k === 5 ? 1e-2 : 1e-5;
          const [up, down] = [p.slice(), p.slice()];
          up[k]! += step;
          down[k]! -= step;
          const [high, low] = [currentsAt(up), currentsAt(down)];
          const size = (model.plate_A + model.screen_A) * 1e-8 + 1e-14;
          for (const [claimed, a, b] of [
            [plate[k]!, high.plate_A, low.plate_A],
            [screen[k]!, high.screen_A, low.screen_A],
          ] as const) {
            expect(Math.abs((a - b) / (2 * step) - claimed)).toBeLessThan(
              1e-5 * Math.abs(claimed) + size / step / 1e3 + size,
            );
          }
        }
      },
    ),
    { numRuns: 300 },
  );
});
