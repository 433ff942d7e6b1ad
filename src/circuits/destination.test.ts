import fc from "fast-check";
import { expect, test } from "vitest";
import { atDestination, type DestinationQuestion } from "./destination.ts";

const taps = [
  { name: "220", nominal_V: 220 },
  { name: "230", nominal_V: 230 },
  { name: "240", nominal_V: 240 },
];
// a unit whose heaters get 6.3 V and whose HT is 330·x − 30 V, x being supply over nominal
const unit = (tap: string, nominal_V: number, supply_V: number) => ({
  tap,
  supply_V,
  frequency_Hz: 50,
  heater_V: (6.3 * supply_V) / nominal_V,
  ht_V: (330 * supply_V) / nominal_V - 30,
});
const question: DestinationQuestion = {
  readings: [unit("230", 230, 225), unit("230", 230, 240)],
  taps,
  destination: { nominal_V: 220, tolerance_pct: 6, frequency_Hz: 60 },
  core: { turns: 1000, area_cm2: 10, limit_T: 1.2 },
  limits: { heater_V: 6.3, heater_pct: 7, ht_max_V: 330 },
};

// source: by hand. On the 220 V tap at 220 V ± 6 %: heaters 6.3 V ± 6 %, HT 330·0.94 − 30 = 280.2, 300, 319.8 V;
// flux √2·220/(2π·60·1000·0.001) = 0.8253 T
test("carries readings over taps, supplies and frequencies", () => {
  const { tap, cases, state } = atDestination(question);
  expect(tap).toBe("220");
  expect(cases.map((one) => one.supply_V)).toEqual([220 * 0.94, 220, 220 * 1.06]);
  [280.2, 300, 319.8].forEach((ht_V, i) => {
    expect(cases[i]!.ht_V).toBeCloseTo(ht_V, 9);
  });
  expect(cases[1]!.heater_V).toBeCloseTo(6.3, 12);
  expect(cases[1]!.flux_T).toBeCloseTo(0.8253, 4);
  expect(cases[2]!.flux_T! / cases[1]!.flux_T!).toBeCloseTo(1.06, 12);
  expect(state).toBe("proven");
});

// source: by hand. At half the frequency flux doubles to 1.98 T against 1.2; turns of the 240 tap are 240/220 of the first's
test("refutes what the core can't bear, and counts the turns of the tap", () => {
  const low = atDestination({ ...question, destination: { ...question.destination, frequency_Hz: 25 } });
  expect(low.state).toBe("refuted");
  expect(low.reasons.join()).toMatch(/flux/);
  const high = atDestination({ ...question, destination: { nominal_V: 240, tolerance_pct: 0, frequency_Hz: 60 } });
  expect(high.tap).toBe("240");
  expect(high.cases[0]!.flux_T).toBeCloseTo(0.8253, 4);
});

test("heaters may swing wider at the extremes where that is allowed", () => {
  const wide = { ...question, destination: { ...question.destination, tolerance_pct: 10 } };
  expect(atDestination({ ...wide, limits: { ...question.limits, ht_max_V: 400 } }).state).toBe("refuted");
  expect(atDestination({ ...wide, limits: { ...question.limits, ht_max_V: 400, heaterExtreme_pct: 12 } }).state).toBe(
    "proven",
  );
  expect(atDestination({ ...question, limits: { ...question.limits, ht_max_V: 320 } }).state).toBe("undecided");
});

test("one reading is carried in proportion", () => {
  const { cases } = atDestination({ ...question, readings: [unit("230", 230, 230)] });
  expect(cases[2]!.ht_V).toBeCloseTo(318, 9);
});

test("readings from any taps tell the same line", () => {
  fc.assert(
    fc.property(fc.array(fc.nat(2), { minLength: 2, maxLength: 6 }), (picks) => {
      const readings = picks.map((pick, i) => unit(taps[pick]!.name, taps[pick]!.nominal_V, 210 + 12 * i));
      const { cases } = atDestination({ ...question, readings: [...readings, unit("230", 230, 150)] });
      expect(cases[0]!.ht_V).toBeCloseTo(280.2, 6);
    }),
  );
});

test.each([
  ["readings[0].tap", { readings: [{ ...unit("230", 230, 230), tap: "115" }] }],
  ["readings[0].heater_V", { readings: [{ ...unit("230", 230, 230), heater_V: 0 }] }],
  ["taps[1].name", { taps: [taps[0]!, taps[0]!] }],
  ["destination.tolerance_pct", { destination: { nominal_V: 220, tolerance_pct: 100, frequency_Hz: 50 } }],
])("refuses at %s", (path, change) => {
  expect(() => atDestination({ ...question, ...change })).toThrow(expect.objectContaining({ path }));
});
