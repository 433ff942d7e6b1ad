import { describe, expect, test } from "vitest";
import flood from "../../demo/netlists/flood.json" with { type: "json" };
import { readNetlist } from "../netlist.ts";
import { type Bench, inspect } from "./inspect.ts";
import type { Probe } from "./probes.ts";
import { type Pattern, patternUnit } from "./specimen.ts";
import { cascode, pushPull, regulator } from "./testing/netlists.ts";

/** The meter's load is reckoned as straight while it is light, which costs a slope up to its own share. */
const benches: readonly (readonly [string, Bench, number])[] = [
  ["no meter", { dead: "as labelled" }, 2e-3],
  ["a meter of 10 Mohm", { meter_ohm: 1e7, dead: "as labelled" }, 0.015],
];

const cases: readonly (readonly [string, Pattern, readonly Probe[]])[] = [
  [
    "single-ended",
    readNetlist(flood),
    [
      { kind: "volts", node: "a1L" },
      { kind: "volts", node: "k2L" },
      { kind: "gain", node: "outL", input: "INL", frequency_Hz: 1000, floor: 0 },
      { kind: "gain", node: "a1L", input: "INL", frequency_Hz: 20, floor: 10 },
      { kind: "ohms", between: ["a1L", "0"], doubt_ohm: 1 },
    ],
  ],
  [
    "push-pull",
    pushPull,
    [
      { kind: "volts", node: "k" },
      { kind: "volts", node: "k3" },
      { kind: "gain", node: "spk", input: "IN", frequency_Hz: 1000, floor: 0 },
    ],
  ],
  ["regulator", regulator, [{ kind: "volts", node: "out" }]],
  [
    "cascode",
    cascode,
    [
      { kind: "volts", node: "a2" },
      { kind: "gain", node: "out", input: "IN", frequency_Hz: 100, floor: 0 },
    ],
  ],
].map(([name, netlist, probes]) => {
  const pattern = patternUnit(netlist as never, [], "netlist");
  if ("reason" in pattern) throw new Error(pattern.reason);
  return [name as string, pattern, probes as readonly Probe[]] as const;
});

// source: a second method, differences of two full solutions with each value a little up and down
describe.each(cases)("%s", (_, pattern, probes) => {
  test.each(benches)("adjoint slopes are what two solutions differ by, %s", (_, bench, near) => {
    const plain = inspect(pattern, bench, {}, probes)!;
    const step = 1e-4;
    pattern.values.forEach((_, i) => {
      const shifted = (by: number) => {
        const off = new Float64Array(pattern.values.length);
        off[i] = by;
        return inspect(pattern, bench, {}, probes, off)!.values;
      };
      const above = shifted(step);
      const below = shifted(-step);
      probes.forEach((_, p) => {
        const slope = plain.slopes[p * plain.columns + i]!;
        const difference = (above[p]! - below[p]!) / (2 * step);
        expect(Math.abs(slope - difference)).toBeLessThan(near * Math.abs(difference) + 2e-3);
      });
    });
  });
});
