import { expect, test } from "vitest";
import { decimalsOf } from "./decimals.ts";
import { factorInto } from "./inUnit.ts";
import { quantityWords } from "./quantityWords.ts";

// source: common practice of stating uncertainty: two figures where the first is 1 or 2, else one
test.each([
  [0.12, 2],
  [0.29, 2],
  [0.3, 1],
  [0.94, 1],
  [0.0296, 2],
  [0.0294, 3],
  [1.5, 1],
  [4, 0],
  [12, 0],
  [150, 0],
  [1e-12, 9],
])("a doubt of %f is shown to %i decimals", (doubt, decimals) => {
  expect(decimalsOf(doubt)).toBe(decimals);
});

test.each([
  ["plate_mA", "plate", "mA"],
  ["thd_pct", "THD", "%"],
  ["noiseA_Vrms", "A-weighted noise", "V r.m.s."],
  ["ht_V", "HT", "V"],
  ["height_mm", "height", "mm"],
  ["dc_V", "DC", "V"],
  ["outputImpedance_ohm", "output impedance", "Ω"],
  ["discharge_s", "discharge time", "s"],
  ["jack_mV", "jack DC", "mV"],
  ["hum_margin_dB", "hum above hearing", "dB"],
  ["noise_margin_dB", "noise margin", "dB"],
  ["balanceAtHalf_dB", "balance at half", "dB"],
  ["room_C", "room", "°C"],
  ["lines", "lines", ""],
  ["lines_found", "lines found", ""],
  ["toString_V", "to string", "V"],
  ["left_noiseA_Vrms", "left noiseA", "V r.m.s."],
  ["V", "V", ""],
  ["_V", " V", ""],
])("%s is told as %s in %s", (quantity, name, unit) => {
  expect(quantityWords(quantity)).toEqual({ name, unit });
});

// source: prefixes of the SI brochure, 9th edition, table 7 (from memory)
test.each([
  ["kV", "V", 1e3],
  ["uV", "mV", 1e-3],
  ["uVrms", "mVrms", 1e-3],
  ["kohm", "mohm", 1e6],
  ["mW", "W", 1e-3],
  ["kHz", "Hz", 1e3],
  ["kg", "g", 1e3],
  ["nF", "pF", 1e3],
  ["uF", "F", 1e-6],
  ["C", "C", 1],
  ["mm", "mm", 1],
  ["mS", "mS", 1],
])("a figure in %s is brought into %s by %f", (from, to, factor) => {
  expect(factorInto(`one_${from}`, `other_${to}`)).toBeCloseTo(factor, 12);
});

test("a name without a unit is read as none, be it spelt like one", () => {
  expect(factorInto("V", "level_mV")).toBeUndefined();
  expect(factorInto("level_mV", "V")).toBeUndefined();
  expect(factorInto("V", "V")).toBe(1);
});
