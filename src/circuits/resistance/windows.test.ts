import fc from "fast-check";
import { expect, test } from "vitest";
import { recordAccuracy } from "../../../tests/accuracy.ts";
import { randomStream } from "../../maths/random.ts";
import { type NetlistInput, readNetlist } from "../netlist.ts";
import { solveRest } from "../rest.ts";
import { deadNetwork } from "./deadNetwork.ts";
import { deadMeter } from "./resistance.ts";
import { resistanceWindows } from "./windows.ts";

const resistor = (
  id: string,
  a: string,
  b: string,
  ohm: number,
  tolerance?: number,
): NetlistInput["parts"][number] => ({
  id,
  kind: "resistor",
  between: [a, b],
  ohm,
  tolerance,
});
const drawn = (...parts: NetlistInput["parts"]) => readNetlist({ ground: "0", parts });

// source: worked by hand. 100 k in series with (150 k ∥ 300 k) = 100 k + 100 k, all three beside 200 k: 100 k
test("parallel paths count", () => {
  const netlist = drawn(
    resistor("R1", "a", "m", 100e3),
    resistor("R2", "m", "0", 150e3),
    resistor("R3", "m", "0", 300e3),
    resistor("R4", "a", "0", 200e3),
  );
  expect(resistanceWindows(netlist, [["a", "0"]])[0]!.ohm).toBeCloseTo(100e3, 6);
});

// source: Wheatstone bridge, unbalanced, by star and delta: 10, 20, 30, 40 ohm and 50 ohm across; delta 10-20-50 turned
// into a star gives 10·20/80 + ((10·50/80 + 30) ∥ (20·50/80 + 40))
test("an unbalanced bridge reads as star and delta have it", () => {
  const netlist = drawn(
    resistor("R1", "a", "p", 10),
    resistor("R2", "a", "q", 20),
    resistor("R3", "p", "0", 30),
    resistor("R4", "q", "0", 40),
    resistor("R5", "p", "q", 50),
  );
  const left = (10 * 50) / 80 + 30;
  const right = (20 * 50) / 80 + 40;
  const byHand = (10 * 20) / 80 + (left * right) / (left + right);
  expect(resistanceWindows(netlist, [["a", "0"]])[0]!.ohm).toBeCloseTo(byHand, 9);
});

test("capacitors are open, coils their copper, cold valves and rectifiers without conduction", () => {
  const netlist = drawn(
    resistor("R1", "a", "0", 47e3),
    { id: "C1", kind: "capacitor", between: ["a", "b"], uF: 10 },
    { id: "L1", kind: "inductor", between: ["b", "0"], H: 5, resistance_ohm: 120 },
    { id: "V1", kind: "triode", law: { mu: 20, perveance_mA_per_V1p5: 1 }, plate: "a", grid: "b", cathode: "0" },
    { id: "D1", kind: "rectifier", between: ["c", "a"], law: { perveance_mA_per_V1p5: 1 } },
    { id: "HT", kind: "voltage", between: ["c", "0"], dc_V: 300 },
  );
  const [a, b, c, ab] = resistanceWindows(netlist, [
    ["a", "0"],
    ["b", "0"],
    ["c", "0"],
    ["a", "b"],
  ]);
  expect(a!.ohm).toBeCloseTo(47e3, 6);
  expect(b!.ohm).toBeCloseTo(120, 6);
  expect(c!.open).toBe(true);
  expect(ab!.ohm).toBeCloseTo(47_120, 6);
});

test("a diode blocks one way round and may conduct the other, and the answer says so", () => {
  const netlist = drawn(
    { id: "D1", kind: "diode", between: ["a", "0"], law: { saturation_A: 1e-12 } },
    resistor("R1", "a", "0", 100e3),
  );
  const [forward, back] = resistanceWindows(netlist, [
    ["a", "0"],
    ["0", "a"],
  ]);
  expect(forward!.junctions).toEqual(["D1"]);
  expect(forward!.forward_ohm).toBeLessThan(1000);
  expect(back!.junctions).toBeUndefined();
  expect(back!.ohm).toBeCloseTo(100e3, 6);
});

test("a point that is not there is named", () => {
  const netlist = drawn(resistor("R1", "a", "0", 1000));
  expect(() => resistanceWindows(netlist, [["a", "nowhere"]])).toThrow(/nowhere/);
});

// source: a second method, one ampere sent through the same resistors by the circuit solver of this program
test("resistances of random networks are what a current source finds", () => {
  fc.assert(
    fc.property(
      fc.array(fc.tuple(fc.nat(5), fc.nat(5), fc.double({ min: 1, max: 6, noNaN: true })), {
        minLength: 4,
        maxLength: 14,
      }),
      (ways) => {
        const parts = ways
          .filter(([a, b]) => a !== b)
          .map(([a, b, decade], i) => resistor(`R${i}`, String(a), String(b), 10 ** decade));
        // A ring keeps every node joined to ground.
        const ring = [0, 1, 2, 3, 4, 5].map((n) => resistor(`S${n}`, String(n), String((n + 1) % 6), 1e5));
        const all = [...parts, ...ring];
        const network = deadNetwork(drawn(...all), "open");
        const { ohm, shares } = deadMeter(network)(network.nodeOf("3")!, network.nodeOf("0")!);
        const rest = solveRest(drawn(...all, { id: "I", kind: "current", between: ["0", "3"], dc_mA: 1 }));
        if (rest.state !== "solved") throw new Error(rest.reason);
        expect(ohm / (rest.nodes["3"]! * 1e3)).toBeCloseTo(1, 7);
        // All resistances doubled double the reading: the shares of a reading add up to one.
        expect(shares.reduce((sum, share) => sum + share, 0)).toBeCloseTo(1, 7);
      },
    ),
    { numRuns: 100 },
  );
});

test("windows hold 99 % of units drawn by their tolerances", () => {
  const random = randomStream("dead windows");
  const values = [
    ["a", "b", 47e3, 0.1],
    ["b", "0", 22e3, 0.2],
    ["a", "c", 10e3, 0.05],
    ["c", "0", 33e3, 0.2],
    ["b", "c", 15e3, 0.1],
  ] as const;
  const netlist = drawn(...values.map(([a, b, ohm, tolerance], i) => resistor(`R${i}`, a, b, ohm, tolerance)));
  const window = resistanceWindows(netlist, [["a", "0"]])[0]!;
  const draws = 4000;
  let inside = 0;
  for (let n = 0; n < draws; n++) {
    const unit = drawn(
      ...values.map(([a, b, ohm, tolerance], i) => resistor(`R${i}`, a, b, ohm * random.normal(1, tolerance / 2.5758))),
    );
    const network = deadNetwork(unit, "open");
    const { ohm } = deadMeter(network)(network.nodeOf("a")!, network.nodeOf("0")!);
    if (ohm > window.low_ohm! && ohm < window.high_ohm!) inside++;
  }
  const share = inside / draws;
  recordAccuracy({
    area: "circuits",
    what: "dead-circuit resistance windows: share of drawn units inside",
    source: "4,000 units drawn by their tolerances, each solved",
    reached: `${(100 * share).toFixed(2)} %`,
    limit: "99 %, chance of the draws allowed",
  });
  // Three spreads of a count of 4,000 at 99 % are 0.5 %.
  expect(Math.abs(share - 0.99)).toBeLessThan(0.005);
});
