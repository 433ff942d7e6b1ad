import { z } from "zod";
import { netlistSchema, spread, valveModelSchema } from "../circuits/index.ts";
import { randomStream } from "../maths/random.ts";
import { calculation } from "./calculation.ts";

const name = z.string().min(1).max(60);
const volts = z.number().min(-1e6).max(1e6);
const notes = z.array(z.string()).readonly();
const share = z.number().min(0).max(1);
const bottles = z
  .array(z.union([valveModelSchema, z.array(valveModelSchema).min(1).max(4)]))
  .min(1)
  .max(2000)
  .describe("one measured bottle each: its curve as valves.fit returns it, or one curve a section");

export default calculation({
  name: "circuits.spread",
  title: "Windows of test points over the units that are built: part tolerances, valve spread, mains",
  input: z.object({
    netlist: netlistSchema,
    samples: z.number().int().min(20).max(1_000_000).describe("units to draw; 2,000 or more for steady windows"),
    seed: z.union([z.number(), z.string().max(200)]).describe("the same seed draws the same units"),
    meter_Mohm: z
      .number()
      .positive()
      .max(1e9)
      .optional()
      .describe("input resistance of one meter, moved from point to point; left out, it loads nothing"),
    mains_pct: z
      .number()
      .min(0)
      .max(50)
      .optional()
      .describe("half-width that holds 99 % of the mains' voltages; moves every source marked mains"),
    batch: z
      .record(name, bottles)
      .optional()
      .describe("the shop's own measured valves by type, bottle or part, in place of the valves' tolerances"),
    limits: z
      .record(name, z.object({ low_V: volts.optional(), high_V: volts.optional() }))
      .optional()
      .describe("by point; what a unit must keep to be good"),
  }),
  output: z.discriminatedUnion("state", [
    z.object({
      state: z.literal("solved"),
      points: z.record(
        z.string(),
        z.object({
          low_V: z.number().describe("99 % of good units lie between low_V and high_V"),
          median_V: z.number(),
          high_V: z.number(),
          nominal_V: z.number().describe("of a unit whose parts are all as the net list has them"),
          doubt: z
            .object({ low_V: z.number(), median_V: z.number(), high_V: z.number() })
            .describe("95 % half-widths: what other draws would move each by"),
          shares: z
            .array(z.object({ part: z.string(), share }))
            .readonly()
            .describe("whose spread it is, to first order, most first"),
        }),
      ),
      samples: z.number(),
      yield: share.optional().describe("share of units inside all limits and ratings, where limits are given"),
      ratingsKept: share.optional().describe("share of units that keep all ratings of the catalogue"),
      doubt: z.object({ yield: z.number().optional(), ratingsKept: z.number().optional() }).optional(),
      spoiledBy: z.array(z.object({ of: z.string(), what: z.string(), share })).readonly(),
      notes,
    }),
    z.object({ state: z.literal("undecided"), node: name, reason: z.string(), notes }),
  ]),
  compute: ({ netlist, seed, ...question }) => spread(netlist, question, randomStream(seed)),
  formula: [
    "rank = p·(n + 1), a value between two ranks in proportion; doubt from the ranks p·n ± 1.96·√(n·p·(1 − p))",
  ],
  sources: [
    "Modified nodal analysis: Ho, Ruehli, Brennan, IEEE Trans. Circuits Syst. 22, 1975 (remembered)",
    "Quantiles by order statistics: Wilks, Ann. Math. Statist. 12, 1941 (remembered)",
    "Normal deviates: Marsaglia and Tsang, J. Stat. Softw. 5(8), 2000 (from memory)",
  ],
  validity:
    "Every tolerance is the half-width that holds 99 % of good parts, normal about the net list's value, positive and " +
    "independent of all others; sections of one measured bottle go together, and so do all sources on the mains. " +
    "Direct current, warmed up: drift, ageing and faults are not in the windows.",
  cautions: ["Voltages of valve circuits kill. Discharge the reservoir and measure before touching."],
  example: {
    netlist: {
      ground: "0",
      parts: [
        { id: "HT", kind: "voltage", between: ["ht", "0"], dc_V: 300, mains: true },
        { id: "R1", kind: "resistor", between: ["ht", "a1"], ohm: 100_000, tolerance: 0.05 },
        { id: "R2", kind: "resistor", between: ["k1", "0"], ohm: 1_500, tolerance: 0.05 },
        { id: "R3", kind: "resistor", between: ["g1", "0"], ohm: 470_000, tolerance: 0.1 },
        {
          id: "V1a",
          kind: "triode",
          law: { mu: 20, perveance_mA_per_V1p5: 1.5 },
          plate: "a1",
          grid: "g1",
          cathode: "k1",
          tolerance: { current: 0.2, mu: 0.1 },
        },
      ],
      testPoints: [{ name: "plate", node: "a1" }, "k1"],
    },
    samples: 2000,
    seed: 1,
    meter_Mohm: 10,
    mains_pct: 6,
    limits: { plate: { low_V: 80, high_V: 160 } },
  },
});
