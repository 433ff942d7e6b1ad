import { expect, test } from "vitest";
import { recordAccuracy } from "../../../tests/accuracy.ts";
import ebb from "../../demo/netlists/ebb.json" with { type: "json" };
import flood from "../../demo/netlists/flood.json" with { type: "json" };
import neap from "../../demo/netlists/neap.json" with { type: "json" };
import { randomStream } from "../../maths/random.ts";
import { normalQuantile } from "../../maths/statistics/index.ts";
import { catalogueModel } from "../../valves/model.ts";
import { buildCircuit, refit } from "../circuit.ts";
import { type NetlistInput, readNetlist } from "../netlist.ts";
import { solveRest } from "../rest.ts";
import { settle } from "../settle.ts";
import { unitDraws } from "./drawUnits.ts";
import { readLanes } from "./meterLanes.ts";
import { type Spread, type SpreadQuestion, spread } from "./spread.ts";
import { solveLanes, unitLanes } from "./unitLanes.ts";
import { variedOf } from "./varied.ts";
import { writtenUnits } from "./written/writtenUnits.ts";

const seed = 417;

function spreadOf(netlist: unknown, question: SpreadQuestion, from: number | string = seed): Spread {
  const answer = spread(readNetlist(netlist), question, randomStream(from));
  if (answer.state !== "solved") throw new Error(answer.reason);
  return answer;
}

const divider = (top: number, bottom: number, more: object = {}): NetlistInput => ({
  ground: "0",
  parts: [
    { id: "B", kind: "voltage", between: ["ht", "0"], dc_V: 300, ...more },
    { id: "R1", kind: "resistor", between: ["ht", "tap"], ohm: 100_000, tolerance: top },
    { id: "R2", kind: "resistor", between: ["tap", "0"], ohm: 200_000, tolerance: bottom },
  ],
});

// source: closed form; a source's window is 300·(1 ± tolerance·z(0.995)/2.5758), its tolerance holding 99 % by definition
test("a source's own tolerance comes back as its window", () => {
  const { ht } = spreadOf(divider(0, 0, { tolerance: 0.04 }), { samples: 40_000 }).points;
  const half_V = (300 * 0.04 * normalQuantile(0.995)) / 2.5758293035489;
  expect(Math.abs(ht!.low_V - (300 - half_V))).toBeLessThan(2.5 * ht!.doubt.low_V);
  expect(Math.abs(ht!.high_V - (300 + half_V))).toBeLessThan(2.5 * ht!.doubt.high_V);
  expect(ht!.doubt.low_V).toBeLessThan(0.03 * 12);
  recordAccuracy({
    area: "Circuits",
    what: "Window of a source with a tolerance of 4 %, 40,000 draws",
    source: "closed form: half-width 12 V",
    reached: `${(300 - ht!.low_V).toFixed(2)} V and ${(ht!.high_V - 300).toFixed(2)} V`,
    limit: "2.5 times its own doubt",
  });
});

// source: closed form; ln of a divider's ratio is nearly normal: sd of V is V·(1 − share)·√(t1² + t2²)/2.5758 for small t
test("a divider of two toleranced resistors spreads by the closed form", () => {
  const { tap } = spreadOf(divider(0.02, 0.03), { samples: 40_000 }).points;
  const half_V = (200 / 3) * Math.hypot(0.02, 0.03);
  expect(Math.abs((tap!.high_V - tap!.low_V) / 2 / half_V - 1)).toBeLessThan(0.03);
  expect(Math.abs(tap!.median_V - 200)).toBeLessThan(0.05);
  expect(tap!.shares.map(({ part }) => part)).toEqual(["R2", "R1"]);
  expect(tap!.shares[0]!.share).toBeCloseTo(9 / 13, 6);
});

// source: worked by hand; 200 V behind 66.67 kΩ read by 1 MΩ is 200/1.066667 = 187.5 V
test("a meter pulls the point it reads, and no other", () => {
  const netlist = { ...divider(0.01, 0.01), testPoints: ["tap", { name: "supply", node: "ht" }] };
  const { tap, supply } = spreadOf(netlist, { samples: 500, meter_Mohm: 1 }).points;
  expect(tap!.nominal_V).toBeCloseTo(187.5, 9);
  expect(tap!.median_V).toBeCloseTo(187.5, 0);
  expect(supply!.median_V).toBeCloseTo(300, 9);
});

// source: closed form; two sources on one mains add their half-widths, two of their own add as squares
test("the mains moves its sources together", () => {
  const netlist = (marked: boolean): NetlistInput => ({
    ground: "0",
    parts: [
      { id: "A", kind: "voltage", between: ["a", "0"], dc_V: 100, ...(marked ? { mains: true } : { tolerance: 0.1 }) },
      { id: "B", kind: "voltage", between: ["b", "a"], dc_V: 100, ...(marked ? { mains: true } : { tolerance: 0.1 }) },
      { id: "R", kind: "resistor", between: ["b", "0"], ohm: 1000 },
    ],
  });
  const half = (s: Spread) => (s.points.b!.high_V - s.points.b!.low_V) / 2;
  const together = spreadOf(netlist(true), { samples: 20_000, mains_pct: 10 });
  expect(half(together) / 20).toBeCloseTo(1, 1);
  expect(together.points.b!.shares).toEqual([{ part: "mains", share: 1 }]);
  expect(half(spreadOf(netlist(false), { samples: 20_000 })) / 14.142).toBeCloseTo(1, 1);
});

const cathodeFollowers = (tolerance: object | undefined): NetlistInput => ({
  ground: "0",
  parts: [
    { id: "HT", kind: "voltage", between: ["ht", "0"], dc_V: 250, tolerance: 0.03 },
    ...["a", "b"].flatMap((section): NetlistInput["parts"] => [
      { id: `RA${section}`, kind: "resistor", between: ["ht", `a${section}`], ohm: 47_000, tolerance: 0.05 },
      { id: `RK${section}`, kind: "resistor", between: [`k${section}`, "0"], ohm: 1000, tolerance: 0.05 },
      { id: `RG${section}`, kind: "resistor", between: [`g${section}`, "0"], ohm: 470_000 },
      {
        id: `V1${section}`,
        kind: "triode",
        type: "6SN7GT",
        plate: `a${section}`,
        grid: `g${section}`,
        cathode: `k${section}`,
        ...(tolerance ? { tolerance } : {}),
      },
    ]),
  ],
});

/** Every kind of part whose current bends, in one small circuit. */
const manyKinds: NetlistInput = {
  ground: "0",
  parts: [
    { id: "HT", kind: "voltage", between: ["w", "0"], dc_V: 250, tolerance: 0.03 },
    { id: "D1", kind: "rectifier", between: ["w", "ht"], law: { perveance_mA_per_V1p5: 3 }, tolerance: 0.1 },
    { id: "R1", kind: "resistor", between: ["ht", "a"], ohm: 47_000, tolerance: 0.05 },
    {
      id: "V1",
      kind: "triode",
      law: { mu: 20, perveance_mA_per_V1p5: 1.2 },
      plate: "a",
      grid: "g",
      cathode: "k",
      tolerance: { current: 0.2, mu: 0.1 },
    },
    { id: "R2", kind: "resistor", between: ["ht", "g"], ohm: 1e6, tolerance: 0.05 },
    { id: "R3", kind: "resistor", between: ["g", "0"], ohm: 100_000, tolerance: 0.05 },
    {
      id: "Q1",
      kind: "bipolar",
      polarity: "n",
      law: { saturation_A: 1e-14, gain: 150, temperature_C: 25, early_V: 70 },
      collector: "k",
      base: "b",
      emitter: "e",
      tolerance: 0.4,
    },
    { id: "R4", kind: "resistor", between: ["e", "0"], ohm: 470, tolerance: 0.02 },
    { id: "R5", kind: "resistor", between: ["ht", "b"], ohm: 470_000, tolerance: 0.05 },
    { id: "R6", kind: "resistor", between: ["b", "0"], ohm: 4700, tolerance: 0.05 },
    { id: "R7", kind: "resistor", between: ["ht", "d"], ohm: 10_000, tolerance: 0.05 },
    {
      id: "J1",
      kind: "jfet",
      polarity: "n",
      law: { saturation_mA: 6, pinchOff_V: 2.5, early_V: 80 },
      drain: "d",
      gate: "0",
      source: "s",
      tolerance: 0.3,
    },
    { id: "R8", kind: "resistor", between: ["s", "0"], ohm: 330, tolerance: 0.05 },
  ],
};

// second method: every drawn unit solved alone, by the full solver
test.each([
  ["Ebb", ebb, {}],
  ["Flood", flood, {}],
  ["Neap", neap, {}],
  ["every kind of bent part", manyKinds, {}],
  ["a batch of measured bottles", cathodeFollowers(undefined), { batch: true }],
] as const)(
  "%s: units solved side by side, by index or written out, are the units solved one by one",
  (name, drawn, { batch }: { batch?: true }) => {
    const netlist = readNetlist(drawn);
    const circuit = buildCircuit(netlist);
    const rest = settle(circuit);
    if (rest.state !== "solved") throw new Error(rest.reason);
    const model = catalogueModel("6SN7GT")!;
    const bottles = [0.8, 1, 1.3].map((f) => [model, { ...model, current_A: model.current_A * f }]);
    const units = unitLanes(circuit, rest, variedOf(netlist, 0, batch ? { "6SN7GT": bottles } : {}), 64)!;
    const draws = unitDraws(units, randomStream(seed));
    const written = writtenUnits(units)!;
    let worst = 0;
    draws.draw();
    for (const solve of [() => solveLanes(units), () => written.solve(false)]) {
      solve();
      for (let l = 0; l < 64; l++) {
        expect(units.done[l]).toBe(1);
        const alone = settle(refit(circuit, draws.fitted(l)), rest.x);
        if (alone.state !== "solved") throw new Error(alone.reason);
        circuit.nodeNames.forEach((_, i) => {
          const volts = units.elimination.answers[units.pivotOfColumn[i]! * 64 + l]!;
          worst = Math.max(worst, Math.abs(volts - alone.x[i]!) / (1 + Math.abs(alone.x[i]!)));
        });
      }
    }
    expect(worst).toBeLessThan(5e-8);
    recordAccuracy({
      area: "Circuits",
      what: `Node voltages of 64 drawn units solved side by side, ${name}`,
      source: "each solved alone, by the full solver",
      reached: `${worst.toExponential(0)} relative`,
      limit: "1e-6 relative; the test holds 5e-8",
    });
  },
);

// property: circuits of one plan share one module, and neither reads the other's values
test("two circuits of one plan can be solved by turns", () => {
  const at = (ohm: number) => {
    const { parts, ...rest } = cathodeFollowers({ current: 0.2, mu: 0.1 });
    const netlist = readNetlist({
      ...rest,
      parts: parts.map((part) => (part.id === "RKa" ? ({ ...part, ohm } as (typeof parts)[number]) : part)),
    });
    const circuit = buildCircuit(netlist);
    const settled = settle(circuit);
    if (settled.state !== "solved") throw new Error(settled.reason);
    const units = unitLanes(circuit, settled, variedOf(netlist, 0, {}), 64)!;
    unitDraws(units, randomStream(seed)).draw();
    return { units, written: writtenUnits(units)! };
  };
  const [one, other] = [at(1000), at(2000)];
  const solved = [one, other, one].map(({ units, written }) => {
    written.solve(false);
    return units.elimination.answers.slice();
  });
  expect(solved[2]).toEqual(solved[0]);
  expect(solved[1]).not.toEqual(solved[0]);
});

// property: of fresh units 99 % lie in the window, whatever its shape; 2.6 standard deviations of counting allowed
test("windows hold for fresh units, also lopsided ones", () => {
  const netlist = readNetlist(cathodeFollowers({ current: 0.6, mu: 0.2 }));
  const answer = spreadOf(netlist, { samples: 20_000 });
  const { aa, ka } = answer.points;
  const lopsided = (aa!.high_V - aa!.median_V) / (aa!.median_V - aa!.low_V);
  expect(Math.abs(lopsided - 1)).toBeGreaterThan(0.02);
  const fresh = Number(process.env.STILLGLOW_DRAWS ?? 1500);
  const random = randomStream("fresh");
  let inside = 0;
  let counted = 0;
  for (let i = 0; i < fresh; i++) {
    const factors = new Map(
      ["V1a", "V1b"].map((id) => [id, { current: random.normal(1, 0.6 / 2.5758), mu: random.normal(1, 0.2 / 2.5758) }]),
    );
    if ([...factors.values()].some(({ current, mu }) => current <= 0 || mu <= 0)) continue;
    const values = new Map(
      netlist.parts.flatMap((part) =>
        "tolerance" in part && typeof part.tolerance === "number"
          ? [[part.id, random.normal(1, part.tolerance / 2.5758)] as const]
          : [],
      ),
    );
    const rest = solveRest(netlist, { factors, values });
    if (rest.state !== "solved") throw new Error(rest.reason);
    for (const [node, window] of [
      ["aa", aa!],
      ["ka", ka!],
    ] as const) {
      counted++;
      if (rest.nodes[node]! >= window.low_V && rest.nodes[node]! <= window.high_V) inside++;
    }
  }
  const share = inside / counted;
  const sd = Math.sqrt((0.99 * 0.01) / (counted / 2) + (0.99 * 0.01) / 20_000);
  expect(Math.abs(share - 0.99), `seed ${seed}: ${inside} of ${counted}`).toBeLessThan(2.6 * sd);
  recordAccuracy({
    area: "Circuits",
    what: `Fresh units inside the 99 % window of 20,000 draws (${counted / 2} units)`,
    source: "each unit drawn and solved alone",
    reached: `${(100 * share).toFixed(2)} %`,
    limit: "2.6 standard deviations of counting",
  });
});

// second method: the net list with the meter written in it as a resistor, each unit solved alone
test("a heavy meter at a valve's electrodes reads what a resistor in its place would", () => {
  const drawn = { ...cathodeFollowers({ current: 0.2, mu: 0.1 }), testPoints: ["aa", "ga", "ka"] };
  const loaded = spreadOf(drawn, { samples: 600, meter_Mohm: 0.05 });
  for (const node of ["aa", "ga", "ka"]) {
    const withMeter = structuredClone(drawn) as NetlistInput;
    withMeter.parts.push({ id: "METER", kind: "resistor", between: [node, "0"], ohm: 50_000 });
    const direct = spreadOf(withMeter, { samples: 600 });
    for (const at of ["nominal_V", "low_V", "median_V", "high_V"] as const) {
      expect(Math.abs(loaded.points[node]![at] - direct.points[node]![at])).toBeLessThan(1e-6);
    }
  }
});

// second method: the net list with the meter written in it as a resistor, each unit solved alone
test("a meter that doubles a diode's current reads what a resistor in its place would", () => {
  const bias = {
    ground: "0",
    testPoints: ["b", "m"],
    parts: [
      { id: "B", kind: "voltage", between: ["w", "0"], dc_V: 590, tolerance: 0.03 },
      { id: "D", kind: "diode", between: ["w", "b"], law: { saturation_A: 1e-9, emission: 1.8 } },
      { id: "RA", kind: "resistor", between: ["b", "m"], ohm: 1e7, tolerance: 0.05 },
      { id: "RB", kind: "resistor", between: ["m", "0"], ohm: 4e7, tolerance: 0.05 },
    ],
  } satisfies NetlistInput;
  const loaded = spreadOf(bias, { samples: 600, meter_Mohm: 1 });
  for (const node of ["b", "m"]) {
    const withMeter = structuredClone(bias) as NetlistInput;
    withMeter.parts.push({ id: "METER", kind: "resistor", between: [node, "0"], ohm: 1e6 });
    const direct = spreadOf(withMeter, { samples: 600 });
    for (const at of ["nominal_V", "low_V", "median_V", "high_V"] as const) {
      expect(Math.abs(loaded.points[node]![at] - direct.points[node]![at])).toBeLessThan(1e-6);
    }
  }
});

// second method: the unit's own factors, followed along its bent curves (`readLanes`)
test("a meter read by solving anew reads as by the unit's own factors", () => {
  const netlist = readNetlist(ebb);
  const circuit = buildCircuit(netlist);
  const rest = settle(circuit);
  if (rest.state !== "solved") throw new Error(rest.reason);
  const units = unitLanes(circuit, rest, variedOf(netlist, 0, {}), 64)!;
  const unknowns = circuit.nodeNames.map((_, unknown) => unknown);
  const written = writtenUnits(units, unknowns)!;
  unitDraws(units, randomStream(seed)).draw();
  written.solve(true);
  const [anew, followed] = [new Float64Array(64), new Float64Array(64)];
  let read = 0;
  for (const unknown of unknowns) {
    if (!written.canRead(unknown)) continue;
    read++;
    written.read(unknown, 1e-6, anew);
    expect(readLanes(units, unknown, 1e-6, followed)).toBe(0);
    for (let l = 0; l < 64; l++) {
      expect(Math.abs(anew[l]! - followed[l]!) / (1 + Math.abs(followed[l]!))).toBeLessThan(1e-8);
    }
  }
  expect(read).toBeGreaterThan(10);
});

// source: by construction; one model twice its sister's current, so a bottle's sections move together or not at all
test("sections of one bottle are drawn together", () => {
  const model = catalogueModel("6SN7GT")!;
  const weak = { ...model, current_A: model.current_A * 0.7 };
  const together = spreadOf(cathodeFollowers(undefined), { samples: 2000, batch: { V1: [model, weak] } });
  const apart = spreadOf(cathodeFollowers(undefined), { samples: 2000, batch: { V1: [model, weak, [model, weak]] } });
  expect(together.points.aa!.shares.some(({ part }) => part === "V1")).toBe(true);
  expect(apart.state).toBe("solved");
  const netlist = readNetlist(cathodeFollowers(undefined));
  const circuit = buildCircuit(netlist);
  const rest = settle(circuit);
  if (rest.state !== "solved") throw new Error(rest.reason);
  const units = unitLanes(circuit, rest, variedOf(netlist, 0, { V1: [model, weak] }), 64)!;
  const draws = unitDraws(units, randomStream(seed));
  draws.draw();
  for (let l = 0; l < 64; l++) {
    const { models } = draws.fitted(l);
    expect(models!.get("V1a")).toBe(models!.get("V1b"));
  }
});

// source: the closed form of a normal: limits at ±1.96 sd keep 95 %
test("the yield counts units inside their limits", () => {
  const sd = (300 * 0.04) / 2.5758293035489;
  const answer = spreadOf(divider(0, 0, { tolerance: 0.04 }), {
    samples: 20_000,
    limits: { ht: { low_V: 300 - 1.96 * sd, high_V: 300 + 1.96 * sd } },
  });
  expect(Math.abs(answer.yield! - 0.95)).toBeLessThan(2 * answer.doubt!.yield!);
  expect(answer.spoiledBy.map(({ of }) => of)).toEqual(["ht", "ht"]);
});

test("the same seed draws the same units, another seed others", () => {
  const ask = (from: number) => spreadOf(ebb, { samples: 300 }, from).points;
  expect(ask(1)).toEqual(ask(1));
  expect(ask(1)).not.toEqual(ask(2));
});

test.each([
  [{ samples: 1e9 }, "samples"],
  [{ samples: 100, mains_pct: 5 }, "mains_pct"],
  [{ samples: 100, limits: { nowhere: { low_V: 1 } } }, "limits.nowhere"],
  [{ samples: 100, batch: { "6J5": [catalogueModel("6J5")!] } }, "batch.6J5"],
])("what can't be answered is refused by name: %o", (question, path) => {
  expect(() => spreadOf(divider(0.01, 0.01), question as SpreadQuestion)).toThrow(expect.objectContaining({ path }));
});
