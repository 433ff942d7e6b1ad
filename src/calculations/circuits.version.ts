import { z } from "zod";
import { netlistSchema } from "../circuits/index.ts";
import { versionFigures } from "../circuits/versions/index.ts";
import { calculation } from "./calculation.ts";
import { channelEnds } from "./channelEnds.ts";

const name = z.string().min(1).max(60);
const notes = z.array(z.string()).readonly();

export default calculation({
  name: "circuits.version",
  title: "What one version of a design comes to, figure by figure",
  input: z.object({
    netlist: netlistSchema,
    channels: channelEnds,
    loads: z
      .array(
        z.object({
          name,
          ohm: z.number().positive().max(1e9),
          level_Vrms: z
            .number()
            .positive()
            .max(1e4)
            .optional()
            .describe("level that distortion is told at; left out, 1 W up to 20 ohm and 1 V above"),
        }),
      )
      .max(8)
      .default([])
      .describe("what the outputs really drive, one at a time"),
    frequency_Hz: z.number().min(1).max(1e6).default(1000),
    costs_cents: z.record(name, z.number().min(0).max(1e9)).default({}).describe("price of each part, by part"),
  }),
  output: z.discriminatedUnion("state", [
    z.object({
      state: z.literal("solved"),
      figures: z
        .array(
          z.object({
            key: z.string().describe("the same in every version that has the figure"),
            group: z.enum(["points", "valves", "sound", "noise", "heat", "cost", "yield"]),
            of: z.string(),
            where: z.string().optional().describe("the channel"),
            quantity: z.string(),
            value: z.number(),
            doubt: z.number().optional(),
            low: z.number().optional(),
            high: z.number().optional(),
            most: z.number().optional().describe("the rating, sign aside"),
            twin: z.string(),
          }),
        )
        .readonly(),
      notes,
    }),
    z.object({ state: z.literal("undecided"), node: name, reason: z.string(), notes }),
  ]),
  compute: (input) => versionFigures(input),
  formula: [
    "gain = 20·lg|V(output)/V(input source)|, Z_in = |V/I| of the input source,",
    "Z_out = |V(output)| for 1 A sent into the output with the input source at zero",
    "thd = √(V₂² + … + V₁₀²)/V₁",
  ],
  sources: [
    "Curves and ratings of catalogue types: reference/tubes.json and reference/valveRatings.json, each with its source",
    "Noise: Johnson 1928, Nyquist 1928, Harris 1941, Spangenberg 1948 (see circuits.response and the code of noise)",
  ],
  validity:
    "As circuits.rest, circuits.response and circuits.distortion. Heat is that of a unit at rest; a mains transformer's own " +
    "losses are in it as far as the net list has its windings. Loads stand between an output and ground.",
  cautions: ["Heat and ratings are those of average valves on nominal mains; leave room for the rest of them."],
  example: {
    netlist: {
      ground: "0",
      testPoints: [{ name: "plate", node: "a", stage: "gain" }],
      parts: [
        { id: "HT", kind: "voltage", between: ["ht", "0"], dc_V: 250 },
        { id: "IN", kind: "voltage", between: ["g", "0"], ac_V: 1 },
        { id: "R1", kind: "resistor", between: ["ht", "a"], ohm: 47_000 },
        { id: "R2", kind: "resistor", between: ["k", "0"], ohm: 1000 },
        { id: "V1a", kind: "triode", type: "6SN7GT", plate: "a", grid: "g", cathode: "k" },
      ],
    },
    channels: [{ channel: "left", input: "IN", output: "a" }],
    loads: [{ name: "next input", ohm: 100_000 }],
    costs_cents: { R1: 25, R2: 20, V1a: 1800 },
  },
});
