import { expect, test } from "vitest";
import bore from "../../demo/netlists/bore.json" with { type: "json" };
import { randomStream } from "../../maths/random.ts";
import { normalQuantile } from "../../maths/statistics/index.ts";
import { type NetlistInput, readNetlist } from "../netlist.ts";
import { glance } from "./explain.ts";
import { gainFloors } from "./gainFloor.ts";
import type { GainProbe } from "./probes.ts";
import { readingsOf } from "./readings.ts";
import { type Pattern, patternUnit } from "./specimen.ts";
import { drawUnit, hearUnit } from "./testing/faultyUnit.ts";

type PartInput = NetlistInput["parts"][number];

const sd = 0.05 / normalQuantile(0.995);
const resistor = (id: string, a: string, b: string, ohm: number): PartInput => ({
  id,
  kind: "resistor",
  between: [a, b],
  ohm,
  tolerance: 0.05,
});

function patternOf(netlist: NetlistInput): Pattern {
  const pattern = patternUnit(readNetlist(netlist), [], "netlist");
  if ("reason" in pattern) throw new Error(pattern.reason);
  return pattern;
}

function floorOf(parts: PartInput[], node: string, frequency_Hz = 1000): number {
  const probe: GainProbe = { kind: "gain", node, input: "IN", frequency_Hz, floor: 0 };
  return gainFloors(patternOf({ ground: "0", parts }), [probe])[0]!;
}

test("what a divider's spread gives is what its slopes say", () => {
  const divider = [resistor("R1", "in", "out", 3000), resistor("R2", "out", "0", 1000)];
  // source: by hand, h = R2/(R1+R2), ∂h/∂ln R1 = −∂h/∂ln R2 = −R1·R2/(R1+R2)² = −3/16
  const wanted = 2 * (sd * 0.1875) ** 2;
  expect(floorOf([{ id: "IN", kind: "voltage", between: ["in", "0"], ac_V: 1 }, ...divider], "out")).toBeCloseTo(
    wanted,
    9,
  );
  expect(floorOf([{ id: "IN", kind: "current", between: ["0", "in"], ac_mA: 1 }, ...divider], "out")).toBeCloseTo(
    wanted,
    9,
  );
});

test("the part of a slope that only turns the phase counts", () => {
  const parts: PartInput[] = [
    { id: "IN", kind: "voltage", between: ["in", "0"], ac_V: 1 },
    resistor("R1", "in", "out", 1e5),
    { id: "C1", kind: "capacitor", between: ["out", "0"], uF: 1e-3, tolerance: 0.05 },
  ];
  const frequency_Hz = 1000;
  const w = 2 * Math.PI * frequency_Hz * 1e5 * 1e-9;
  // source: by hand, h = 1/(1+jw), w = ωRC, |∂h/∂ln R|² = |∂h/∂ln C|² = w²/(1+w²)²
  expect(floorOf(parts, "out", frequency_Hz)).toBeCloseTo((2 * (sd * w) ** 2) / (1 + w * w) ** 2, 9);
});

test("a balance has a floor though nothing is heard there", () => {
  const parts: PartInput[] = [
    { id: "IN", kind: "voltage", between: ["in", "0"], ac_V: 1 },
    {
      id: "T1",
      kind: "transformer",
      primaryInductance_H: 1000,
      leakage_H: 0,
      windings: [
        { between: ["in", "0"], turns: 100, resistance_ohm: 0.01 },
        { between: ["p", "0"], turns: 100, resistance_ohm: 0.01 },
        { between: ["0", "n"], turns: 100, resistance_ohm: 0.01 },
      ],
    },
    resistor("R1", "p", "out", 1000),
    resistor("R2", "out", "n", 1000),
  ];
  // source: by hand, h = (R2 − R1)/(R1 + R2), ∂h/∂ln R = ±1/2
  expect(floorOf(parts, "out") / (2 * (sd * 0.5) ** 2)).toBeCloseTo(1, 3);
});

test("gains of good units spread as they are said to, near a balance too", () => {
  const netlist = readNetlist(bore);
  const pattern = patternOf(bore as NetlistInput);
  // Common cathodes of a balanced pair, and a plate of it.
  const asked = ["k2L", "a2pL"].map((node) => ({ point: node, node, input: "INL", frequency_Hz: 1000 }));
  const random = randomStream("gains of good units");
  const units = Array.from({ length: 60 }, () => {
    const heard = hearUnit(netlist, drawUnit(netlist, random), asked)!;
    return readingsOf(pattern, { measured: {}, gains: asked.map((own, i) => ({ ...own, gain_dB: heard[i]! })) });
  });
  const { seen, variances } = glance(pattern, { dead: "as labelled" }, undefined, 0, units[0]!)!;
  asked.forEach((_, i) => {
    let said = seen.grain[i]! ** 2;
    for (let j = 0; j < seen.columns; j++) said += variances[j]! * seen.slopes[i * seen.columns + j]! ** 2;
    // source: the other way, full solutions of drawn units
    const drawn = units.reduce((sum, own) => sum + (own[i]!.value - seen.values[i]!) ** 2, 0) / units.length;
    // What a bend may be off by is allowed for in full, so near the balance no less than is drawn, up to twice as wide.
    expect(Math.sqrt(said / drawn)).toBeGreaterThan(0.8);
    expect(Math.sqrt(said / drawn)).toBeLessThan(i === 0 ? 2 : 1.25);
  });
});
