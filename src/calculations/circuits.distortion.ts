import { z } from "zod";
import { distortion, netlistSchema } from "../circuits/index.ts";
import { calculation } from "./calculation.ts";

const name = z.string().min(1).max(60);
const share = z.number().min(0);

export default calculation({
  name: "circuits.distortion",
  title: "Output, harmonics and power of a circuit driven by a sine, in its steady state",
  input: z.object({
    netlist: netlistSchema,
    input: name.describe("id of the voltage source that drives the signal; all others give their direct part alone"),
    output: z.union([name, z.tuple([name, name])]).describe("a node, or the first of two nodes against the second"),
    frequency_Hz: z.number().positive().max(1e9),
    amplitude_Vpk: z.number().positive().max(1e5).describe("Peak of the sine that is added to the source's dc_V."),
    load_ohm: z.number().positive().max(1e15).optional().describe("Joined across the output."),
  }),
  output: z.discriminatedUnion("state", [
    z.object({
      state: z.literal("solved"),
      output_Vrms: share.describe("The alternating part."),
      fundamental_Vrms: share,
      gain_dB: z.number().describe("Fundamental of the output over the source's."),
      harmonics_pct: z.array(share).readonly().describe("Orders 2 to 10, relative to the fundamental."),
      thd_pct: share.describe("Root sum square of orders 2 to 10."),
      power_mW: share.describe("What the load takes."),
      mean_V: z.number().describe("Mean of the output with the signal."),
      rest_V: z.number().describe("The output without it."),
      doubt: z
        .object({ output_Vrms: share, harmonics_pct: z.array(share).readonly(), thd_pct: share })
        .describe("Of the arithmetic alone: what the last doubling of the harmonics kept still moved."),
      harmonicsKept: z.number(),
      notes: z.array(z.string()).readonly(),
    }),
    z.object({
      state: z.literal("undecided"),
      node: name,
      reason: z.string(),
      notes: z.array(z.string()).readonly(),
    }),
  ]),
  compute: ({ netlist, ...question }) => distortion(netlist, question),
  formula: ["thd = √(V₂² + … + V₁₀²)/V₁"],
  sources: [
    "Harmonic balance: Kundert, White, Sangiovanni-Vincentelli, Steady-State Methods for Simulating Analog and Microwave Circuits, Kluwer 1990 (remembered)",
    "Curves of catalogue types: reference/tubes.json, each with its source",
  ],
  validity:
    "Steady state after the source has run for ever, supplies as the net list gives them. Coils are linear: a core that saturates distorts more. Valves carry no capacitances of their own. Curves of catalogue types are fitted to published points, so harmonics of a type are an estimate; those of a measured valve are as good as its curve.",
  cautions: [],
  example: {
    netlist: {
      ground: "0",
      parts: [
        { id: "HT", kind: "voltage", between: ["ht", "0"], dc_V: 250 },
        { id: "IN", kind: "voltage", between: ["g", "0"] },
        { id: "R1", kind: "resistor", between: ["ht", "a"], ohm: 47_000 },
        { id: "R2", kind: "resistor", between: ["k", "0"], ohm: 1500 },
        { id: "C1", kind: "capacitor", between: ["k", "0"], uF: 470 },
        { id: "V1", kind: "triode", type: "6SN7GT", plate: "a", grid: "g", cathode: "k" },
        { id: "C2", kind: "capacitor", between: ["a", "out"], uF: 0.47 },
      ],
    },
    input: "IN",
    output: "out",
    frequency_Hz: 1000,
    amplitude_Vpk: 1,
    load_ohm: 220_000,
  },
});
