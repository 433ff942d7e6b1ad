import { expect, test } from "vitest";
import { sourceImpedance } from "./impedance.ts";

// source: worked by hand. 1 V behind 10 Ω gives 100/110 V into 100 Ω and 30/40 V into 30 Ω
test("two loads give the resistance behind them", () => {
  const of = (load_ohm: number, doubt_Vrms: number) => ({
    load_ohm,
    level_Vrms: load_ohm / (load_ohm + 10),
    doubt_Vrms,
  });
  const sure = sourceImpedance(of(100, 1e-5), of(30, 1e-5), 0.001);
  expect(sure.outputImpedance_ohm).toBeCloseTo(10, 9);
  expect(sure.open_Vrms).toBeCloseTo(1, 9);
  expect(sure.state).toBeUndefined();
  expect(sourceImpedance(of(100, 0.2), of(90, 0.2), 0.001).state).toBe("undecided");
  expect(() => sourceImpedance(of(30, 0), of(30, 0), 0)).toThrow(/two loads that differ/);
});
