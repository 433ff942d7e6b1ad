import fc from "fast-check";
import { expect, test } from "vitest";
import reference from "../../reference/timber.json" with { type: "json" };
import { recordAccuracy } from "../../tests/accuracy.ts";
import { BadInput } from "../maths/badInput.ts";
import { emcNotes, equilibriumMoisture_pct } from "./emc.ts";

const { rows, rh_percent } = reference.emc.table_4_2;

// source: Wood Handbook, FPL-GTR-190, table 4-2, twelve of its eighteen rows; printed to 0.1 % MC, so rounding
// alone leaves 0.05
test("follows the handbook's table within 0.06 % MC in every cell", () => {
  const errors = rows.flatMap((row) =>
    rh_percent.map((humidity_pct, column) => {
      const temperature_C = (row.temperature_f - 32) / 1.8;
      return Math.abs(equilibriumMoisture_pct(temperature_C, humidity_pct) - row.emc_percent[column]!);
    }),
  );
  const worst = Math.max(...errors);
  expect(errors).toHaveLength(228);
  expect(worst).toBeLessThan(0.06);
  recordAccuracy({
    area: "timber",
    what: `equilibrium moisture content, worst of ${errors.length} cells, -1.1 to 93.3 °C`,
    source: "Wood Handbook FPL-GTR-190, table 4-2",
    reached: `${worst.toFixed(3)} % MC`,
    limit: "0.06 % MC (printed to 0.1)",
  });
});

// source: Wood Handbook eq. 4-5 in its Fahrenheit form, coefficients from memory; a second fit to the same data
test("agrees with the equation's Fahrenheit form between the rows of the table", () => {
  const fahrenheit = (t_F: number, h: number) => {
    const q = (a: number, b: number, c: number) => a + b * t_F + c * t_F * t_F;
    const kh = q(0.791, 0.000463, -8.44e-7) * h;
    const [k1, k2] = [q(6.34, 0.000775, -9.35e-5), q(1.09, 0.0284, -9.04e-5)];
    return (
      (1800 / q(330, 0.452, 0.00415)) *
      (kh / (1 - kh) + (k1 * kh + 2 * k1 * k2 * kh * kh) / (1 + k1 * kh + k1 * k2 * kh * kh))
    );
  };
  for (let t_F = 30; t_F <= 200; t_F += 5)
    for (let rh = 5; rh <= 95; rh += 2.5)
      expect(Math.abs(equilibriumMoisture_pct((t_F - 32) / 1.8, rh) - fahrenheit(t_F, rh / 100))).toBeLessThan(0.1);
});

const air = fc.record({
  temperature_C: fc.double({ min: -30, max: 100, noNaN: true }),
  humidity_pct: fc.double({ min: 0, max: 99, noNaN: true }),
});

test("damper air always leaves wood wetter, and dry air leaves none", () => {
  fc.assert(
    fc.property(air, ({ temperature_C, humidity_pct }) => {
      expect(equilibriumMoisture_pct(temperature_C, 0)).toBe(0);
      expect(equilibriumMoisture_pct(temperature_C, humidity_pct + 1)).toBeGreaterThan(
        equilibriumMoisture_pct(temperature_C, humidity_pct),
      );
    }),
  );
});

test("saturated air gives a finite value, marked as extrapolated", () => {
  const value = equilibriumMoisture_pct(20, 100);
  expect(value).toBeGreaterThan(25);
  expect(value).toBeLessThan(40);
  expect(emcNotes(20, 100).join()).toMatch(/95 %/);
  expect(emcNotes(20, 50).join()).not.toMatch(/Extrapolated/);
  expect(emcNotes(97, 50).join()).toMatch(/93\.3 °C/);
});

test.each([
  ["temperature_C", -31, 50],
  ["temperature_C", 101, 50],
  ["temperature_C", Number.NaN, 50],
  ["humidity_pct", 20, -1],
  ["humidity_pct", 20, 100.1],
])("refuses %s outside its range", (path, temperature_C, humidity_pct) => {
  const ask = () => equilibriumMoisture_pct(temperature_C, humidity_pct);
  expect(ask).toThrow(BadInput);
  expect(ask).toThrow(expect.objectContaining({ path }));
});
