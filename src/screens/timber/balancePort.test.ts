import { expect, test } from "vitest";
import { massIn } from "./balancePort.ts";

// source: lines as bench balances print them (common practice, no source)
test.each([
  ["ST,GS,+  512.3 g", 512.3],
  ["     1,2045 kg", 1204.5],
  ["N  +  0.00 g", 0],
  ["512.3 g   STABLE", 512.3],
  ["-3.2 g", undefined],
  ["OL", undefined],
  ["", undefined],
])("%j reads as %s", (line, mass_g) => {
  expect(massIn(line)).toBe(mass_g);
});
