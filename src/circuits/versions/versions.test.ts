import { describe, expect, test } from "vitest";
import { recordAccuracy } from "../../../tests/accuracy.ts";
import { catalogueModel } from "../../valves/model.ts";
import { type NetlistInput, readNetlist } from "../netlist.ts";
import { solveRest } from "../rest.ts";
import { heatOf } from "./heat.ts";
import { versionYield } from "./yield.ts";

const solved = <T extends { state: string }>(answer: T) => {
  if (answer.state !== "solved") throw new Error("it does not settle");
  return answer as Extract<T, { state: "solved" }>;
};

const divider = (tolerance: number, upper: number): NetlistInput => ({
  ground: "0",
  testPoints: [{ name: "tap", node: "m", tolerance }],
  parts: [
    { id: "B", kind: "voltage", between: ["b", "0"], dc_V: 100 },
    { id: "R1", kind: "resistor", between: ["b", "m"], ohm: 1e4, tolerance: upper },
    { id: "R2", kind: "resistor", between: ["m", "0"], ohm: 1e6 },
  ],
});

const ask = (netlist: NetlistInput, more: Partial<Parameters<typeof versionYield>[0]> = {}) =>
  solved(
    versionYield({
      netlist: readNetlist(netlist),
      channels: [],
      frequency_Hz: 1000,
      limits: {},
      shelf: [],
      draws: 2000,
      seed: "versions",
      ...more,
    }),
  );

describe("yield", () => {
  // source: by hand; at the tap R1's share moves the voltage by 0.0099 of itself, so a limit of one standard deviation
  // of R1 (0.2/2.5758) leaves 68.27 % of units good, the normal distribution's own
  test("of a divider is the normal distribution's share inside its limit", () => {
    const sd = 0.2 / 2.5758293;
    const reach = (1e4 * sd) / (1e4 + 1e6);
    const answer = ask(divider(reach, 0.2));
    expect(answer.low).toBeLessThan(0.6827);
    expect(answer.high).toBeGreaterThan(0.6827);
    expect(answer.high - answer.low).toBeLessThan(0.05);
    expect(answer.broken[0]).toMatchObject({ limit: "tap" });
    expect(answer.costly[0]!.part).toBe("R1");
    expect(answer.costly[0]!.gain).toBeCloseTo(1 - answer.yield, 6);
    recordAccuracy({
      area: "circuits",
      what: "yield of a divider whose limit is one standard deviation",
      source: "normal distribution",
      reached: `${(100 * answer.yield).toFixed(1)} % of ${answer.draws} units`,
      limit: "68.3 % inside the stated interval",
    });
  });

  test("is whole where nothing has a tolerance, and that is said", () => {
    const exact = divider(0.01, 0.2);
    const answer = ask({
      ...exact,
      parts: exact.parts.map((part) =>
        part.kind === "resistor" && part.id === "R1" ? { ...part, tolerance: 0 } : part,
      ),
    });
    expect(answer.yield).toBe(1);
    expect(answer.costly).toEqual([]);
  });
});

const stage = (ht_V: number): NetlistInput => ({
  ground: "0",
  parts: [
    { id: "HT", kind: "voltage", between: ["ht", "0"], dc_V: ht_V },
    { id: "IN", kind: "voltage", between: ["g", "0"], dc_V: 0, ac_V: 1 },
    { id: "RL", kind: "resistor", between: ["ht", "a"], ohm: 47_000, tolerance: 0.01 },
    { id: "RK", kind: "resistor", between: ["k", "0"], ohm: 1000, tolerance: 0.01 },
    { id: "V1", kind: "triode", type: "6SN7GT", plate: "a", grid: "g", cathode: "k" },
  ],
});

test("valves of the shelf that would not serve are named with the reason", () => {
  const model = catalogueModel("6SN7GT")!;
  const tired = { ...model, current_A: model.current_A * 0.4 };
  const shelf = [
    { id: "T-1", type: "6SN7GT", models: { a: model } },
    { id: "T-2", type: "6SN7GT", models: { a: tired } },
  ];
  const answer = ask(stage(250), {
    channels: [{ channel: "left", input: "IN", output: "a" }],
    limits: { gain_dB: 0.5 },
    shelf,
    draws: 100,
  });
  expect(answer.fromShelf).toEqual({ "6SN7GT": 2 });
  expect(answer.notServing.map(({ valve }) => valve)).toEqual(["T-2"]);
  expect(answer.notServing[0]!.reasons[0]).toMatch(/gain of left/);
});

test("a unit that goes over a valve's rating is not good", () => {
  // source: plate volts times amperes by hand; 6SN7GT: 2.5 W a plate
  const hot: NetlistInput = {
    ground: "0",
    parts: [
      { id: "HT", kind: "voltage", between: ["ht", "0"], dc_V: 290 },
      { id: "RL", kind: "resistor", between: ["ht", "a"], ohm: 500, tolerance: 0.01 },
      { id: "V1", kind: "triode", type: "6SN7GT", plate: "a", grid: "0", cathode: "0" },
    ],
  };
  const rest = solved(solveRest(readNetlist(hot)));
  const plate = rest.parts.V1!;
  expect(plate.dissipation_W!).toBeCloseTo((plate.plate_V! * plate.plate_mA!) / 1e3, 9);
  expect(plate.dissipation_W!).toBeGreaterThan(2.5);
  const answer = ask(hot, { draws: 50 });
  expect(answer.yield).toBe(0);
  expect(answer.broken.map(({ limit }) => limit)).toContain("V1 plate dissipation");
});

// source: V·I by hand for every part, and the catalogue's heater volts times amperes
test("heat is the power of every part, and of heaters that the net list lacks", () => {
  const netlist = readNetlist(stage(250));
  const rest = solved(solveRest(netlist));
  const { total_W, parts } = heatOf(netlist, rest);
  const { HT, RL, RK } = rest.parts;
  const amps = RL!.current_mA / 1e3;
  expect(parts.find(({ part }) => part === "RL")!.heat_W).toBeCloseTo(amps ** 2 * 47_000, 9);
  expect(parts.find(({ part }) => part === "RK")!.heat_W).toBeCloseTo((RK!.current_mA / 1e3) ** 2 * 1000, 9);
  const heater_W = 6.3 * 0.6;
  expect(parts.find(({ part }) => part === "V1 heater")!.heat_W).toBeCloseTo(heater_W, 6);
  // All that the supply gives turns into heat.
  expect(total_W).toBeCloseTo((250 * Math.abs(HT!.current_mA)) / 1e3 + heater_W, 6);
});
