import fc from "fast-check";
import { expect, test } from "vitest";
import { catalogueModel, catalogueTypes, lawModel, type TriodeModel, valveCurrents } from "../valves/model.ts";
import { deviceCurrents } from "./device.ts";
import { triodeCurve } from "./triodeCurve.ts";

const models = [
  ...catalogueTypes().map((type) => catalogueModel(type)!),
  lawModel({ mu: 20, perveance_mA_per_V1p5: 1 }),
].filter((model): model is TriodeModel => model.kind === "triode");

// second method: the curve model itself, currents and slopes, from far cut-off to positive grids and reversed plates
test("the solver's triode is the curve model's triode", () => {
  const now = deviceCurrents();
  fc.assert(
    fc.property(
      fc.constantFrom(...models),
      fc.oneof(fc.double({ min: -50, max: 900, noNaN: true }), fc.constantFrom(0, 1e-9, -1e-9)),
      fc.double({ min: -200, max: 20, noNaN: true }),
      fc.double({ min: 0.5, max: 1.5, noNaN: true }),
      (model, plate_V, grid_V, current) => {
        const expected = valveCurrents(model, plate_V, grid_V);
        triodeCurve(model, current, 1)(Float64Array.of(plate_V, grid_V), now);
        const near = (found: number, value: number): void => {
          expect(Math.abs(found - value)).toBeLessThanOrEqual(1e-12 * Math.abs(value) + 1e-22);
        };
        near(now.current_A[0]!, current * expected.plate_A);
        near(now.current_A[1]!, expected.grid_A);
        near(now.slope[0]!, current * expected.dPlate[0]);
        near(now.slope[1]!, current * expected.dPlate[1]);
        near(now.slope[4]!, expected.dGrid[1]);
      },
    ),
    { numRuns: 2000 },
  );
});
