import { expect, test } from "vitest";
import reference from "../../reference/safety.json" with { type: "json" };
import { recordAccuracy } from "../../tests/accuracy.ts";
import { atTheJack, bleederFor, chargedLimit_V, mustPrecede, routineOrder, weeklyDose } from "./index.ts";

const { bleeder } = reference.stored_charge;

// source: reference/safety.json, 100 µF at 450 V to 60 V in 60 s; mains capacitors in 2 s and 1 s (own arithmetic there)
test("bleeders are those of the worked examples", () => {
  const { example_ht: ht, example_x_capacitor_2s: two, example_x_capacitor_1s: one } = bleeder;
  const sized = (c: { C_F: number; Vt_V: number; t_s: number }, start_V: number) =>
    bleederFor({ capacitance_uF: c.C_F * 1e6, start_V, limit_V: c.Vt_V, time_s: c.t_s });
  const large = sized(ht, ht.V0_V);
  expect(large.most_ohm).toBeCloseTo(ht.R_max_ohm, 1);
  expect(large.energy_J).toBeCloseTo(ht.energy_J, 9);
  expect(large.charge_mC).toBeCloseTo(1000 * ht.charge_C_charge, 9);
  expect(sized(two, two.V0_V_peak).most_ohm / two.R_max_ohm).toBeCloseTo(1, 5);
  expect(sized(one, one.V0_V_peak).most_ohm / one.R_max_ohm).toBeCloseTo(1, 5);
  recordAccuracy({
    area: "safety",
    what: "largest bleeder of a 100 µF store from 450 V to 60 V in a minute",
    source: bleeder.source,
    reached: `${large.most_ohm.toFixed(1)} ohm`,
    limit: `${ht.R_max_ohm} ohm`,
  });
});

// source: IEC 62368-1:2018 table 5 as read (reference/safety.json): every row, and half way between two
test("charged capacitors have the table's voltages", () => {
  const { rows } = reference.energy_source_classes.charged_capacitor_table;
  for (const [farad, first, second] of rows) {
    expect(chargedLimit_V(farad! * 1e6, 1)).toBeCloseTo(first!, 6);
    expect(chargedLimit_V(farad! * 1e6, 2)).toBeCloseTo(second!, 6);
  }
  expect(chargedLimit_V(100, 1)).toBe(60);
  expect(chargedLimit_V(1e-6, 1)).toBe(25_000);
  expect(chargedLimit_V((0.3 + 0.17) / 2, 1)).toBeCloseTo(67.5, 9);
});

// source: reference/safety.json, 300 ohm and 96 dB/mW: 0.5477 V make 1 mW and 96 dB; 20 mV into 32 ohm make 12.5 µW
test("what a headphone gets is the definition's", () => {
  const { example } = reference.headphone_output.level_formula;
  const sensitivity_dB_per_V = example.sensitivity_dB_per_mW + 10 * Math.log10(1000 / example.Z_ohm);
  const found = atTheJack({
    dc_V: 0,
    greatest_Vrms: example.V_rms,
    headphone: { impedance_ohm: example.Z_ohm, sensitivity_dB_per_V },
  });
  expect(found.greatest_mW).toBeCloseTo(1000 * example.power_W, 3);
  expect(found.greatest_dBSPL).toBeCloseTo(example.SPL_dB, 1);
  const { example: dc } = reference.headphone_output.dc_offset;
  const shifted = atTheJack({
    dc_V: dc.U_dc_V,
    greatest_Vrms: 1,
    headphone: { impedance_ohm: dc.Z_ohm, sensitivity_dB_per_V: 100 },
  });
  expect(shifted.dc_mW).toBeCloseTo(1000 * dc.power_W, 9);
});

// source: WHO-ITU safe listening, 80 dBA for 40 h a week is 1.6 Pa²h; 3 dB more, half the time (reference/safety.json)
test("the weekly dose follows equal energy", () => {
  const { sound_dose } = reference.headphone_output;
  const adult = sound_dose.find(({ id }) => id === "who_itu_adult")!;
  const allowance = { level_dBA: adult.level_dBA!, hours: adult.time_per_week_h! };
  const at80 = weeklyDose(80, 40, allowance);
  expect(at80.dose_Pa2h).toBeCloseTo(adult.dose_Pa2h_computed!, 6);
  expect(at80.share).toBeCloseTo(1, 12);
  expect(weeklyDose(80 + 10 * Math.log10(2), 1, allowance).hoursAllowed).toBeCloseTo(20, 9);
  expect(weeklyDose(50, 1, allowance).hoursAllowed).toBe(168);
});

// source: the order as two public pages on production safety testing give it
test("earth comes before insulation, both before power, and nothing waits for itself", () => {
  const own = routineOrder.map(({ quantity }) => quantity);
  expect(mustPrecede("bond_ohm", own)).toEqual([]);
  expect(mustPrecede("resistance_Mohm", own)).toEqual(["bond_ohm"]);
  expect(mustPrecede("touch_mA", own)).toEqual(["bond_ohm", "resistance_Mohm", "discharge_s"]);
  expect(mustPrecede("touch_mA", ["touch_mA", "bond_ohm"])).toEqual(["bond_ohm"]);
});

test.each<[() => unknown, string]>([
  [() => bleederFor({ capacitance_uF: 0, start_V: 1, limit_V: 1, time_s: 1 }), "capacitance_uF"],
  [() => bleederFor({ capacitance_uF: 1, start_V: 30, limit_V: 60, time_s: 1 }), "start_V"],
  [() => weeklyDose(300, 1, { level_dBA: 80, hours: 40 }), "level_dBA"],
  [() => weeklyDose(80, 200, { level_dBA: 80, hours: 40 }), "hours"],
  [
    () => atTheJack({ dc_V: 0, greatest_Vrms: 1, headphone: { impedance_ohm: 0, sensitivity_dB_per_V: 1 } }),
    "headphone.impedance_ohm",
  ],
  [() => chargedLimit_V(-1, 1), "capacitance_uF"],
])("refuses %s at %s", (call, path) => {
  expect(call).toThrow(expect.objectContaining({ path }));
});
