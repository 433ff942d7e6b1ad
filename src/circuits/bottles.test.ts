import { expect, test } from "vitest";
import { bottlesOf } from "./bottles.ts";
import type { Netlist } from "./netlist.ts";
import { positionsOf } from "./versions/index.ts";

const valves = (...parts: { id: string; type?: string; bottle?: string }[]): Netlist => ({
  parts: parts.map((part) => ({ kind: "triode", plate: "p", grid: "g", cathode: "k", ...part })),
  ground: "0",
});
const named = (netlist: Netlist) =>
  Object.fromEntries(
    [...bottlesOf(netlist)].map(([name, places]) => [name, places.map((place) => netlist.parts[place]!.id)]),
  );

// source: by construction; sections of a type from the catalogue (6SN7GT two, 2A3 one)
test.each([
  [
    "two letters of a twin",
    valves({ id: "V1a", type: "6SN7GT" }, { id: "V1b", type: "6SN7GT" }),
    { V1: ["V1a", "V1b"] },
  ],
  ["one letter of a twin", valves({ id: "V1a", type: "6SN7GT" }), { V1: ["V1a"] }],
  [
    "letters of single valves",
    valves({ id: "V1a", type: "2A3" }, { id: "V1b", type: "2A3" }),
    { V1a: ["V1a"], V1b: ["V1b"] },
  ],
  [
    "a third letter of a twin",
    valves({ id: "V1a", type: "6SN7GT" }, { id: "V1b", type: "6SN7GT" }, { id: "V1c", type: "6SN7GT" }),
    { V1: ["V1a", "V1b"], V1c: ["V1c"] },
  ],
  [
    "a bottle named, whatever the parts are called",
    valves({ id: "left", type: "6SN7GT", bottle: "V3" }, { id: "right", type: "6SN7GT", bottle: "V3" }),
    { V3: ["left", "right"] },
  ],
  [
    "bottles named against the letters",
    valves({ id: "V1a", type: "6SN7GT", bottle: "left" }, { id: "V1b", type: "6SN7GT", bottle: "right" }),
    { left: ["V1a"], right: ["V1b"] },
  ],
])("%s: bottles and valve positions are one rule", (_, netlist, expected) => {
  expect(named(netlist)).toEqual(expected);
  const positions = positionsOf(netlist);
  expect(Object.fromEntries(positions.map(({ position, sections }) => [position, Object.values(sections)]))).toEqual(
    expected,
  );
});

test("valves without a type have bottles, but no position that a shelf could fill", () => {
  const netlist = valves({ id: "V1a" }, { id: "V1b" }, { id: "V2", type: "2A3" });
  expect(named(netlist)).toEqual({ V1: ["V1a", "V1b"], V2: ["V2"] });
  expect(positionsOf(netlist)).toEqual([{ position: "V2", type: "2A3", sections: { a: "V2" } }]);
});
