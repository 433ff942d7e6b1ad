import { expect, test } from "vitest";
import reference from "../../reference/timber.json" with { type: "json" };
import { recordAccuracy } from "../../tests/accuracy.ts";
import { humidityAtWall_pct, saturation_Pa } from "./air.ts";
import { judgeCase, type Panel } from "./case.ts";
import { equilibriumMoisture_pct } from "./emc.ts";

// source: reference/timber.json, steam-table values with the IAPWS equation
test("vapour pressure follows the steam table", () => {
  const worst = Math.max(
    ...reference.psychrometrics.check_values_pa.map(({ temperature_c, saturation_pressure_pa }) =>
      Math.abs(saturation_Pa(temperature_c) / saturation_pressure_pa - 1),
    ),
  );
  expect(worst).toBeLessThan(1e-4);
  recordAccuracy({
    area: "timber",
    what: "saturation pressure of water vapour, 0 to 90 °C",
    source: "IAPWS equation, steam-table values",
    reached: `relative ${worst.toExponential(0)}`,
    limit: "1e-4 (printed to 0.1 Pa)",
  });
  // source: reference/timber.json: 20 °C and 50 % become 12.2 % at 45 °C
  expect(humidityAtWall_pct(20, 50, 45)).toBeCloseTo(12.2, 1);
});

const steady = (temperature_C: number, humidity_pct: number) =>
  Array.from({ length: 12 }, (_, i) => ({ month: i + 1, temperature_C, humidity_pct }));
const ash: Panel = {
  name: "top",
  species: "white ash",
  width_mm: 300,
  thickness_mm: 20,
  ringAngle_deg: 0,
  moisture_pct: 11,
  fixed: "edges",
};

// source: by hand, Wood Handbook: 300 mm · 0.00274 · (11 − EMC)
test("in steady air a panel comes to that air's equilibrium", () => {
  const emc = equilibriumMoisture_pct(21, 25);
  const [top] = judgeCase({ panels: [ash], destination: steady(21, 25), gaps: {} });
  expect(top!.driest_pct).toBeCloseTo(emc, 2);
  expect(top!.wettest_pct).toBeCloseTo(emc, 1);
  expect(top!.shrink_mm).toBeCloseTo(300 * 0.00274 * (11 - emc), 2);
  expect(top!.swell_mm).toBe(0);
  expect(top!.clearance_mm).toBeCloseTo(-top!.shrink_mm, 12);
  expect(top!.verdict).toBe("refuted");
  expect(top!.remedy).toMatch(/slot.*quarter-sawn.*dry from 11\.0/);
});

test("a panel for a damp climate needs its gap, and is not to be dried further", () => {
  const free = { ...ash, fixed: "free" as const };
  const judge = (gap: number) => judgeCase({ panels: [free], destination: steady(29, 80), gaps: { top: gap } })[0]!;
  const swell = 300 * 0.00274 * (equilibriumMoisture_pct(29, 80) - 11);
  expect(judge(2).clearance_mm).toBeCloseTo(2 - swell, 1);
  expect(judge(0.5)).toMatchObject({ verdict: "refuted" });
  expect(judge(0.5).remedy).toMatch(/do not dry it further/);
  expect(judge(4)).toMatchObject({ verdict: "undecided" });
  expect(judge(9)).toMatchObject({ verdict: "proven" });
});

test("over the seasons moisture stays within the months' equilibria, and thick panels swing less", () => {
  const destination = Array.from({ length: 12 }, (_, i) => ({
    month: i + 1,
    temperature_C: 21,
    humidity_pct: 45 + 25 * Math.sin((i * Math.PI) / 6),
  }));
  const swing = (thickness_mm: number) => {
    const [top] = judgeCase({ panels: [{ ...ash, thickness_mm }], destination, gaps: {} });
    return top!.wettest_pct - top!.driest_pct;
  };
  const widest = equilibriumMoisture_pct(21, 70) - equilibriumMoisture_pct(21, 20);
  expect(swing(5)).toBeLessThan(widest + 0.001);
  expect(swing(5)).toBeGreaterThan(0.95 * widest);
  expect(swing(60)).toBeLessThan(0.7 * widest);
});

// source: by hand, steady flow between both faces: the mean lies halfway (D alike at both to 3 %)
test("a warm panel lies between the room's equilibrium and its wall's", () => {
  const [top] = judgeCase({ panels: [{ ...ash, warm: true }], destination: steady(20, 50), wall_C: 45, gaps: {} });
  const halfway = (equilibriumMoisture_pct(20, 50) + equilibriumMoisture_pct(45, humidityAtWall_pct(20, 50, 45))) / 2;
  expect(Math.abs(top!.driest_pct - halfway)).toBeLessThan(0.1);
});

test.each([
  ["destination", { destination: steady(20, 50).slice(1) }],
  ["gaps.top", { panels: [{ ...ash, fixed: "free" as const }] }],
  ["panels[0].species", { panels: [{ ...ash, species: "tin" }] }],
  ["panels[1].name", { panels: [ash, ash] }],
])("refuses at %s", (path, change) => {
  expect(() => judgeCase({ panels: [ash], destination: steady(20, 50), gaps: {}, ...change })).toThrow(
    expect.objectContaining({ path }),
  );
});
