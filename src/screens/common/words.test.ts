import { expect, test } from "vitest";
import { quantityWords } from "../../measurement/quantityWords.ts";
import { day, dayAndTime, daysBetween, longDay } from "./calendar.ts";
import { inWords } from "./sentence.ts";

// source: calendar; 27 November 2026 is a Friday
test("a date is read on the wall it was written for, whatever the browser's zone", () => {
  expect(day("2026-11-27T23:30:00-07:00")).toBe("Fri\u00a027\u00a0Nov");
  expect(dayAndTime("2026-11-27T16:05:00+13:00")).toBe("Fri\u00a027\u00a0Nov, 16:05");
  expect(longDay("2026-11-25T08:10:00+00:00")).toBe("Wednesday 25 November 2026");
});

test("a year is named only when it is another one", () => {
  expect(day("2027-01-04T09:00:00Z", "2026-11-25T08:00:00Z")).toBe("Mon\u00a04\u00a0Jan\u00a02027");
  expect(day("2026-12-04T09:00:00Z", "2026-11-25T08:00:00Z")).toBe("Fri\u00a04\u00a0Dec");
});

test("days between two instants count the wall's days", () => {
  expect(daysBetween("2026-11-25T12:00:00Z", "2026-11-27T00:00:00Z")).toBeCloseTo(1.5, 9);
});

test("a quantity's name gives its words and its printed unit", () => {
  expect(quantityWords("balance_dB")).toEqual({ name: "balance", unit: "dB" });
  expect(quantityWords("plate_mA")).toEqual({ name: "plate", unit: "mA" });
  expect(quantityWords("gridCurrent_uA")).toEqual({ name: "grid current", unit: "µA" });
  expect(quantityWords("earthBond_ohm")).toEqual({ name: "earth bond", unit: "Ω" });
  expect(quantityWords("hissA_uVrms")).toEqual({ name: "A-weighted hiss", unit: "µV r.m.s." });
  expect(quantityWords("jackDc_V")).toEqual({ name: "jack DC", unit: "V" });
  expect(quantityWords("cracks")).toEqual({ name: "cracks", unit: "" });
});

test("a sentence of the ledger is put into words: units after their numbers, true minus signs, weekdays", () => {
  const said = (sentence: string, ...quantities: string[]) => inWords(sentence, quantities);
  expect(said("balance_dB reads -0.18 ± 0.06, inside -0.5 to 0.5", "balance_dB")).toBe(
    "Balance reads −0.18 ± 0.06 dB, inside −0.5 to 0.5",
  );
  expect(said("reads level_V 242 ± 0.5, inside 226 to 260", "level_V")).toBe(
    "Reads level 242 ± 0.5 V, inside 226 to 260",
  );
  expect(said("no drift_pct on record", "drift_pct")).toBe("No drift on record");
  expect(said("response_dB at right 20 kHz -0.01 ± 0.05, with recorder")).toBe(
    "Response at right 20 kHz −0.01 ± 0.05 dB, with recorder",
  );
  expect(said("cracks 0 ± 0, with lens", "cracks")).toBe("Cracks 0 ± 0, with lens");
  expect(said("read 0.1 on 2027-03-03 07:58")).toBe("Read 0.1 on Wed\u00a03\u00a0Mar, 07:58");
});
