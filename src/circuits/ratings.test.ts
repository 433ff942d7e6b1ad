import { expect, test } from "vitest";
import { type NetlistInput, readNetlist, solveRest } from "./index.ts";

type PartInput = NetlistInput["parts"][number];

/** One or two sections of a 6N6P, each on 150 V with its cathode lifted by a source, fixed bias. */
function sections(names: readonly string[], bias_V: number, cathode_V = 0, more: object = {}): PartInput[] {
  return names.flatMap((name): PartInput[] => [
    { id: `K${name}`, kind: "voltage", between: [`k${name}`, "0"], dc_V: cathode_V },
    { id: `B${name}`, kind: "voltage", between: [`g${name}`, `k${name}`], dc_V: bias_V },
    { id: `HT${name}`, kind: "voltage", between: [`a${name}`, `k${name}`], dc_V: 150 },
    {
      id: name,
      kind: "triode",
      type: "6N6P",
      plate: `a${name}`,
      grid: `g${name}`,
      cathode: `k${name}`,
      ...more,
    },
  ]);
}

function ratingsOf(parts: PartInput[]) {
  const rest = solveRest(readNetlist({ ground: "0", parts }));
  if (rest.state !== "solved") throw new Error(rest.reason);
  return { ratings: rest.ratings, notes: rest.notes, parts: rest.parts };
}

// source: reference/tubes.json, 6N6P: 4.8 W a section, 8 W both, 200 V heater to cathode; heater 6.3 V
test("two sections that are each within their rating may be too hot together", () => {
  const bias = [...Array(60).keys()]
    .map((i) => -i / 5)
    .find((bias_V) => {
      const { dissipation_W } = ratingsOf(sections(["V1a"], bias_V)).parts.V1a!;
      return dissipation_W! < 4.7;
    })!;
  const alone = ratingsOf(sections(["V1a"], bias));
  expect(alone.parts.V1a!.dissipation_W).toBeGreaterThan(4.1);
  expect(alone.ratings).toEqual([]);
  const both = ratingsOf(sections(["V1a", "V1b"], bias));
  expect(both.ratings).toEqual([
    expect.objectContaining({ part: "V1", what: "plate dissipation of both sections", limit: 8, unit: "W" }),
  ]);
  expect(both.notes.some((note) => note.includes("V1 (6N6P)"))).toBe(true);
  const twoBottles = sections(["V1a", "V1b"], bias).map((part) =>
    part.kind === "triode" ? { ...part, bottle: part.id } : part,
  );
  expect(ratingsOf(twoBottles).ratings).toEqual([]);
});

test("a cathode far above its heater is flagged, and a heater that is lifted is not", () => {
  const at = (more: object, extra: PartInput[] = []) =>
    ratingsOf([...sections(["V1"], -10, 230, more), ...extra]).ratings.map(({ what, limit }) => [what, limit]);
  expect(at({ heater_V: 0 })).toEqual([["heater under cathode", 200]]);
  expect(at({ heater_V: 60 })).toEqual([]);
  expect(at({ heater_V: 470 })).toEqual([["heater over cathode", 200]]);
  const heaters: PartInput[] = [
    { id: "LIFT", kind: "voltage", between: ["h2", "0"], dc_V: 60 },
    { id: "HEATERS", kind: "voltage", between: ["h1", "h2"], dc_V: 6.3 },
    { id: "V1h", kind: "resistor", between: ["h1", "h2"], ohm: 8.4 },
  ];
  expect(at({}, heaters)).toEqual([]);
  expect(at({}, [{ ...heaters[0]!, dc_V: 0 } as PartInput, ...heaters.slice(1)])).toEqual([
    ["heater under cathode", 200],
  ]);
});

test("a heater that gets too little, or nothing, is flagged", () => {
  const heated = (heater_V: number) =>
    ratingsOf([
      ...sections(["V1"], -10),
      { id: "HEATERS", kind: "voltage", between: ["h1", "0"], dc_V: heater_V },
      { id: "V1h", kind: "resistor", between: ["h1", "0"], ohm: 8.4 },
    ]).ratings;
  expect(heated(6.3)).toEqual([]);
  expect(heated(5)).toEqual([expect.objectContaining({ what: "heater voltage", under: true })]);
  expect(heated(0)).toEqual([expect.objectContaining({ what: "heater voltage", under: true })]);
  expect(heated(7.5)).toEqual([expect.objectContaining({ what: "heater voltage" })]);
});

test("a valve without a heater among valves that have one is refused by name", () => {
  const parts: PartInput[] = [
    ...sections(["V1", "V2"], -10),
    { id: "HEATERS", kind: "voltage", between: ["h1", "0"], dc_V: 6.3 },
    { id: "V1h", kind: "resistor", between: ["h1", "0"], ohm: 8.4 },
  ];
  const path = `netlist.parts[${parts.findIndex(({ id }) => id === "V2")}].heater`;
  expect(() => ratingsOf(parts)).toThrow(expect.objectContaining({ path }));
  expect(ratingsOf([...parts, { id: "V2h", kind: "resistor", between: ["h1", "0"], ohm: 8.4 }]).ratings).toEqual([]);
});
