import { z } from "zod";
import { type Netlist, netlistSchema, valveModelSchema } from "../circuits/index.ts";
import { versionYield } from "../circuits/versions/index.ts";
import { BadInput } from "../maths/badInput.ts";
import { calculation } from "./calculation.ts";
import { channelEnds } from "./channelEnds.ts";

const name = z.string().min(1).max(60);
const notes = z.array(z.string()).readonly();
const share = z.number().min(0).max(1);

/** Drawn units times the cube of their circuit's nodes, roughly what takes ten seconds. */
const mostWork = 4e8;

function requireInTime(netlist: Netlist, draws: number): void {
  const nodes = netlist.parts.length;
  const most = Math.floor(mostWork / Math.max(40, nodes) ** 3);
  if (draws <= Math.max(50, most)) return;
  throw new BadInput(
    "draws",
    String(draws),
    `at most ${Math.max(50, most)} for a net list of ${nodes} parts, so that an answer comes in time`,
    "ask for fewer draws",
  );
}

export default calculation({
  name: "circuits.yield",
  title: "Share of units of a design that keep its limits, what spoils the rest, and which valves would not serve",
  input: z.object({
    netlist: netlistSchema.describe("tolerances are half-widths that hold 99 % of good parts"),
    channels: channelEnds,
    frequency_Hz: z.number().min(1).max(1e6).default(1000),
    limits: z
      .object({
        balance_dB: z.number().positive().max(100).optional().describe("most difference between any two channels"),
        gain_dB: z.number().positive().max(100).optional().describe("how far gain may lie from the design's own"),
      })
      .default({})
      .describe("besides ratings of valves, and test points that carry a tolerance"),
    shelf: z
      .array(z.object({ id: name, type: name, models: z.record(name, valveModelSchema) }))
      .max(500)
      .default([])
      .describe("measured valves, a curve for each section; drawn where there are enough of a type"),
    draws: z.number().int().min(50).max(2000).default(300),
    seed: z.union([z.number(), z.string().max(200)]).default(1),
  }),
  output: z.discriminatedUnion("state", [
    z.object({
      state: z.literal("solved"),
      yield: share,
      low: share,
      high: share.describe("95 % interval of the share, low to high"),
      draws: z.number(),
      broken: z.array(z.object({ limit: z.string(), share })).readonly(),
      costly: z
        .array(z.object({ part: z.string(), gain: z.number(), doubt: z.number() }))
        .readonly()
        .describe("what the share would gain if one part or valve had no spread, on the same draws"),
      fromShelf: z.record(z.string(), z.number()),
      notServing: z
        .array(z.object({ valve: z.string(), type: z.string(), reasons: z.array(z.string()).readonly() }))
        .readonly(),
      notes,
    }),
    z.object({ state: z.literal("undecided"), node: name, reason: z.string(), notes }),
  ]),
  compute(input) {
    requireInTime(input.netlist, input.draws);
    return versionYield(input);
  },
  formula: ["variance = Σ over factors of (dV/d ln value · sd)²"],
  sources: [
    "Interval of a share, 95 % at the least: C. Clopper and E. Pearson, Biometrika 26 (1934) 404-413 (from memory)",
  ],
  validity:
    "Parts vary independently and normally; valves are drawn whole from the shelf, none twice in a unit. Valves that would " +
    "not serve are tried one at a time, all else as drawn up.",
  cautions: [],
  example: {
    netlist: {
      ground: "0",
      testPoints: [{ name: "plate", node: "a", stage: "gain", tolerance: 0.1 }],
      parts: [
        { id: "HT", kind: "voltage", between: ["ht", "0"], dc_V: 250, tolerance: 0.05 },
        { id: "IN", kind: "voltage", between: ["g", "0"], ac_V: 1 },
        { id: "R1", kind: "resistor", between: ["ht", "a"], ohm: 47_000, tolerance: 0.05 },
        { id: "R2", kind: "resistor", between: ["k", "0"], ohm: 1000, tolerance: 0.05 },
        {
          id: "V1a",
          kind: "triode",
          type: "6SN7GT",
          plate: "a",
          grid: "g",
          cathode: "k",
          tolerance: { current: 0.3, mu: 0.1 },
        },
      ],
    },
    channels: [{ channel: "left", input: "IN", output: "a" }],
    limits: { gain_dB: 0.5 },
    draws: 200,
  },
});
