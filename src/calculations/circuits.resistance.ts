import { z } from "zod";
import { deadSourceRules, mostWindows, netlistSchema, resistanceWindows } from "../circuits/index.ts";
import { calculation } from "./calculation.ts";

const point = z.string().min(1).max(60);

export default calculation({
  name: "circuits.resistance",
  title: "What an ohmmeter reads between points of a unit that is unplugged and discharged, with windows",
  input: z.object({
    netlist: netlistSchema,
    between: z
      .array(z.tuple([point, point]))
      .min(1)
      .max(mostWindows)
      .describe("pairs of test points or nodes, the meter's positive lead on the first"),
    deadSources: z
      .enum(deadSourceRules)
      .optional()
      .describe(
        "what sources are once the unit is off: blocking like a rectified supply (open), conducting (short), or, left out, conducting where the stage is called heaters and blocking elsewhere",
      ),
  }),
  output: z.object({
    resistances: z
      .array(
        z.object({
          between: z.tuple([z.string(), z.string()]).readonly(),
          open: z.boolean().describe("nothing joins the points: the meter reads beyond its range"),
          ohm: z.number().optional(),
          low_ohm: z.number().optional().describe("99 % of good units lie between low and high"),
          high_ohm: z.number().optional(),
          junctions: z.array(z.string()).readonly().optional().describe("parts the meter may drive into conduction"),
          forward_ohm: z.number().optional().describe("about what it reads where it does"),
          notes: z.array(z.string()).readonly(),
        }),
      )
      .readonly(),
    notes: z.array(z.string()).readonly(),
  }),
  compute: ({ netlist, between, deadSources }) => ({
    resistances: resistanceWindows(netlist, between, deadSources),
    notes: ["read only on a unit that is unplugged and whose capacitors are discharged"],
  }),
  formula: [
    "G·v = e_a − e_b, R = v_a − v_b, d ln R / d ln r = (v across r)² / (r·R)",
    "sd(ln R) = √Σ (d ln R/d ln r · tolerance/2.576)², window = R·e^(± 2.576·sd)",
  ],
  sources: ["Conductance matrix and its derivative: common network theory (Tellegen 1952, remembered)"],
  validity:
    "Resistors by their tolerance, copper by that of its coil. Capacitors are open once charged, valves and thermionic " +
    "rectifiers cold, field-effect channels open to current, diodes and transistors junctions that the meter may or may not drive.",
  cautions: ["Reservoirs stay charged after unplugging: discharge them and measure that they are empty first."],
  example: {
    netlist: {
      ground: "0",
      parts: [
        { id: "R1", kind: "resistor", between: ["ht", "a1"], ohm: 100_000, tolerance: 0.05 },
        { id: "R2", kind: "resistor", between: ["ht", "0"], ohm: 220_000, tolerance: 0.05 },
        { id: "C1", kind: "capacitor", between: ["ht", "0"], uF: 47 },
      ],
    },
    between: [["a1", "0"]],
  },
});
