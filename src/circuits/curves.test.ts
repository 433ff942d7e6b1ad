import fc from "fast-check";
import { expect, test } from "vitest";
import { catalogueModel, catalogueTypes } from "../valves/model.ts";
import { type Curve, deviceCurrents, mostElectrodes } from "./device.ts";
import { diodeCurve, rectifierCurve } from "./junction.ts";
import { bipolarCurve, jfetCurve } from "./transistor.ts";
import { valveCurve } from "./valve.ts";

/** Worst disagreement between a curve's slopes and its currents moved a little, relative to the largest slope. */
function disagreement(curve: Curve, volts: readonly number[]): number {
  const electrodes = volts.length;
  const currents = (u: readonly number[]) => {
    const into = deviceCurrents();
    curve(Float64Array.from([...u, 0, 0].slice(0, mostElectrodes)), into);
    return into;
  };
  const { slope, current_A } = currents(volts);
  const largest = Math.max(1e-9, ...slope.map(Math.abs), Math.abs(current_A[0]!) * 1e-3);
  let worst = 0;
  for (let j = 0; j < electrodes; j++) {
    const h = 1e-5 * Math.max(1, Math.abs(volts[j]!) * 1e-2);
    const at = (shift: number) => currents(volts.map((v, i) => (i === j ? v + shift : v))).current_A;
    const [up, down] = [at(h), at(-h)];
    for (let k = 0; k < electrodes; k++) {
      worst = Math.max(worst, Math.abs((up[k]! - down[k]!) / (2 * h) - slope[mostElectrodes * k + j]!) / largest);
    }
  }
  return worst;
}

const between = (min: number, max: number) => fc.double({ min, max, noNaN: true });

// second method: every curve's slopes against differences of its currents; Newton and all gains rest on them
test.each(catalogueTypes())("slopes of %s are the slopes of its currents, alone and in triode connection", (type) => {
  const character = { by: "model", model: catalogueModel(type)! } as const;
  const factor = { current: 0.8, mu: 1.1 };
  fc.assert(
    fc.property(between(1, 400), between(-60, 3), between(50, 350), (plate, grid, screen) => {
      expect(disagreement(valveCurve("triode", character, factor), [plate, grid])).toBeLessThan(1e-4);
      if (character.model.kind === "pentode") {
        expect(disagreement(valveCurve("pentode", character, factor), [plate, grid, screen])).toBeLessThan(1e-4);
      }
    }),
    { numRuns: 30 },
  );
});

test("slopes of junctions and transistors are the slopes of their currents", () => {
  const jfets = (["n", "p"] as const).map((p) => jfetCurve({ saturation_mA: 8, pinchOff_V: 2, early_V: 80 }, p));
  const bipolars = (["n", "p"] as const).map((p) =>
    bipolarCurve({ saturation_A: 1e-14, gain: 150, temperature_C: 25, early_V: 70 }, p),
  );
  fc.assert(
    fc.property(between(-20, 20), between(-3, 1), between(-0.7, 0.7), between(0.05, 30), (drain, gate, base, volts) => {
      for (const jfet of jfets) expect(disagreement(jfet, [drain, gate])).toBeLessThan(1e-3);
      for (const bipolar of bipolars) expect(disagreement(bipolar, [drain / 40, base])).toBeLessThan(1e-3);
      expect(disagreement(rectifierCurve({ perveance_mA_per_V1p5: 0.4 }), [volts])).toBeLessThan(1e-4);
      expect(disagreement(diodeCurve({ saturation_A: 1e-12, emission: 1.5, temperature_C: 25 }), [base])).toBeLessThan(
        1e-4,
      );
    }),
  );
});

// source: the law's definition in the contract: mu and perveance each times their factor
test("factors on a three-halves valve are factors on its perveance and its mu", () => {
  const plate_A = (law: { mu: number; perveance_mA_per_V1p5: number }, factor?: { current: number; mu: number }) => {
    const into = deviceCurrents();
    valveCurve("triode", { by: "law", law }, factor)(Float64Array.of(150, -3, 0), into);
    return into.current_A[0]!;
  };
  const law = { mu: 20, perveance_mA_per_V1p5: 1.5 };
  const factored = plate_A(law, { current: 0.9, mu: 1.2 });
  expect(factored).toBeCloseTo(plate_A({ mu: 24, perveance_mA_per_V1p5: 1.35 }), 14);
  // 1.35·(150/24 − 3)^1.5 = 1.35·3.25^1.5 mA
  expect(factored * 1e3).toBeCloseTo(1.35 * 3.25 ** 1.5, 12);
});
