import { expect, test } from "vitest";
import { factorInto } from "./inUnit.ts";

// source: prefixes of the SI brochure, 9th edition, table 7 (from memory)
test.each([
  ["level_V", "jack_mV", 1000],
  ["resistance_ohm", "insulation_Mohm", 1e-6],
  ["current_uA", "touch_mA", 1e-3],
  ["level_V", "ht_V", 1],
  ["thd_pct", "thd_pct", 1],
])("%s is read as %s by the factor %s", (from, to, factor) => {
  expect(factorInto(from, to)).toBeCloseTo(factor, 12);
});

test.each([
  ["level_V", "level_Vrms"],
  ["humidity_pct", "thd_pct"],
  ["gain_dB", "balance_dB"],
  ["lines", "cracks"],
  ["level_V", "plate_mA"],
])("%s says nothing of %s", (from, to) => {
  expect(factorInto(from, to)).toBeUndefined();
});
