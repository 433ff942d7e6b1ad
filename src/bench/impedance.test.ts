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

// source: by hand. 1 V into 32 Ω and 0.1 V into 300 Ω: 0.9/(0.1/300 − 1/32) = −29.1 Ω; 0.5 V: 0.5/(0.5/300 − 1/32) = −16.9 Ω
test("levels that no output could give leave the resistance undecided and no voltage below 0", () => {
  for (const [level_Vrms, ohm] of [
    [0.1, -29.11],
    [0.5, -16.9],
  ] as const) {
    const found = sourceImpedance(
      { load_ohm: 32, level_Vrms: 1, doubt_Vrms: 1e-5 },
      { load_ohm: 300, level_Vrms, doubt_Vrms: 1e-5 },
      0.01,
    );
    expect(found.outputImpedance_ohm).toBeCloseTo(ohm, 2);
    expect(found).toMatchObject({ state: "undecided", open_Vrms: 1 });
  }
  const worse = sourceImpedance(
    { load_ohm: 32, level_Vrms: 0.1, doubt_Vrms: 1e-5 },
    { load_ohm: 1e6, level_Vrms: 5e-3, doubt_Vrms: 1e-5 },
    0.01,
  );
  expect(worse.open_Vrms).toBe(0.1);
});
