import { expect, test } from "vitest";
import reference from "../../reference/timber.json" with { type: "json" };
import { recordAccuracy } from "../../tests/accuracy.ts";
import { humidityAtWall_pct, saturation_Pa } from "./air.ts";
import { judgeCase } from "./case.ts";
import type { Panel } from "./caseAsk.ts";
import { bendOf } from "./caseYear.ts";
import { equilibriumMoisture_pct } from "./emc.ts";
import { roomAir } from "./roomAir.ts";
import { grid } from "./slab.ts";
import { wallOver } from "./wall.ts";

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

// source: reference/timber.json, gradient_cup: 1 % between the faces of 20 mm cups 200 mm by 0.685 mm at 0.00274 a percent
test("unequal faces cup a panel as the beam's formula says", () => {
  const { example } = reference.cup_and_stress.gradient_cup;
  const slab = grid(example.thickness_mm / 1000);
  const profile = slab.centre_m.map((z) => (example.mc_difference_percent * z) / slab.thickness_m);
  const cup_mm = (((example.c_per_percent_mc * bendOf(slab, profile)) / 1000) * example.width_mm ** 2) / 8;
  expect(cup_mm).toBeCloseTo(example.cup_mm, 3);
});

// source: by hand: 60 W, six tenths vented, through 0.3 m² at 10 W/(m²K): 8 K, and 20 mm of wood at k = 0.14: 7.6 K more
test("an amplifier's heat warms the wall as its surface lets it out", () => {
  const { rise_K, low_K, high_K } = wallOver({ dissipation_W: 60, area_m2: 0.3 }, 20, 616);
  expect(rise_K).toBeCloseTo((60 * 0.4) / 0.3 / 10 + ((60 * 0.4) / 0.3) * (0.02 / 0.14333), 2);
  expect(low_K).toBeLessThan(rise_K);
  expect(high_K).toBeGreaterThan(rise_K);
});

// source: by hand, steam table: at −10 °C air of 80 % over water holds 229 Pa; 2 g/m³ at 21 °C add 271; of 2487 Pa: 20 %
test("a heated home's winter air is dry, a cooled one's summer air is damp no longer", () => {
  const winter = roomAir({ month: 1, temperature_C: -10, humidity_pct: 80 }, { heatedTo_C: 21 });
  expect(winter.humidity_pct).toBeGreaterThan(18);
  expect(winter.humidity_pct).toBeLessThan(21);
  const summer = roomAir({ month: 7, temperature_C: 31, humidity_pct: 80 }, { heatedTo_C: 20, cooledTo_C: 24 });
  expect(summer).toMatchObject({ temperature_C: 24, humidity_pct: 60 });
});

const free = { ...ash, fixed: "free" as const };

test("a parcel by sea swells a panel that a parcel by air leaves alone", () => {
  const by = (way: "air" | "sea") =>
    judgeCase({
      panels: [{ ...free, moisture_pct: 8 }],
      destination: steady(21, 45),
      gaps: { top: 5 },
      parcel: { by: way },
    })[0]!;
  expect(by("sea").parcel_pct).toBeGreaterThan(by("air").parcel_pct! + 2);
  expect(by("sea").swell_mm).toBeGreaterThan(by("air").swell_mm + 1);
  expect(by("sea").year.map(({ month }) => month)).toEqual([1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11, 12]);
});

test("an ash case for the prairie wants slots or quarter-sawn wood; its sister for the tropics must not be dried further", () => {
  const prairie = judgeCase({ panels: [ash], destination: steady(21, 22), gaps: {} })[0]!;
  expect(prairie.verdict).toBe("refuted");
  expect(prairie.remedies.map(({ kind }) => kind)).toEqual(["slot", "quarter-sawn", "condition"]);
  expect(prairie.stressIndex).toBeGreaterThan(1);
  const sister = judgeCase({ panels: [free], destination: steady(27, 75), gaps: { top: 8 } })[0]!;
  expect(sister.verdict).toBe("proven");
  expect(sister.remedies.map(({ kind }) => kind)).toEqual(["none", "leave alone"]);
  expect(sister.remedy).toMatch(/do not dry it further/);
});

test("a warm inner face cups a panel, and a wall reckoned from the amplifier widens the doubt", () => {
  const ask = { panels: [{ ...free, warm: true }], destination: steady(20, 50), gaps: { top: 2 } };
  const [measured] = judgeCase({ ...ask, wall_C: 32 });
  const [reckoned] = judgeCase({ ...ask, amplifier: { dissipation_W: 90, area_m2: 0.3, hoursADay: 24 } });
  expect(measured!.cup_mm).toBeLessThan(-0.3);
  expect(reckoned!.wallRise_K).toBeGreaterThan(5);
  expect(reckoned!.doubt.shrink_mm).toBeGreaterThan(measured!.doubt.shrink_mm * 0.9);
});

test("a wood that the catalogue lacks is judged by the coefficients given", () => {
  const unheard = {
    ...ash,
    species: "unheard wood",
    tangential_per_pct: 0.00274,
    radial_per_pct: 0.00169,
    density_kg_m3: 672,
  };
  const [known, given] = judgeCase({
    panels: [ash, { ...unheard, name: "other" }],
    destination: steady(21, 25),
    gaps: {},
  });
  expect(given!.shrink_mm).toBeCloseTo(known!.shrink_mm, 3);
});
