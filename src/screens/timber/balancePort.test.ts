import { expect, test } from "vitest";
import { printedIn } from "./balancePort.ts";

// source: lines as bench balances print them (common practice, no source)
test.each([
  ["ST,GS,+  512.3 g", 512.3, false],
  ["US,GS,+  498.1 g", 498.1, true],
  ["     1,2045 kg", 1204.5, false],
  ["N  +  0.00 g", 0, false],
  ["512.3 g   STABLE", 512.3, false],
  ["512.3 g ?", 512.3, true],
])("%j reads as %s g", (text, mass_g, isUnsteady) => {
  expect(printedIn(text)).toEqual({ mass_g, isUnsteady });
});

test.each([
  "-3.2 g",
  "OL",
  "",
  "ST,GS,+  51#.3 g",
  "512.3",
  "512.3 lb",
  "5 512.3 g",
  "512..3 g",
  "\u00ff512.3 g",
  "12 gs",
])("%j is no mass", (text) => {
  expect(printedIn(text)).toBeUndefined();
});
