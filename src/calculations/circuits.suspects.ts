import { z } from "zod";
import { findSuspects, netlistSchema } from "../circuits/index.ts";
import { calculation } from "./calculation.ts";

const name = z.string().min(1).max(60);

/** What tells apart faults of one part and one name. */
const detail = {
  with: z.string().optional().describe("the part it was exchanged with"),
  between: z.tuple([z.string(), z.string()]).readonly().optional().describe("the nodes bridged"),
  winding: z.number().optional(),
};

export default calculation({
  name: "circuits.suspects",
  title: "Which single fault explains readings of a unit best, and what to read next",
  input: z.object({
    netlist: netlistSchema,
    measured: z
      .record(name, z.number().min(-1e5).max(1e5))
      .refine((points) => Object.keys(points).length <= 100, "at most 100 points, so that an answer comes in time")
      .describe("volts to ground by test point or node, through one meter moved from point to point"),
    doubt_V: z
      .number()
      .nonnegative()
      .max(1e4)
      .optional()
      .describe("95 % half-width of measured; left out, 0.02 V and 0.5 % of the reading"),
    doubts_V: z
      .record(name, z.number().nonnegative().max(1e4))
      .optional()
      .describe("the same by point, where they are unlike; wins over doubt_V"),
    meter_Mohm: z.number().positive().max(1e6).optional().describe("left out, the meter loads nothing"),
    gains: z
      .array(
        z.object({
          point: name,
          input: name.describe("id of the source that drives the signal"),
          frequency_Hz: z.number().positive().max(1e9),
          gain_dB: z.number().min(-300).max(200).describe("point against the source's own voltage"),
          doubt_dB: z.number().nonnegative().max(100).optional().describe("95 %; left out, 0.2 dB"),
        }),
      )
      .max(40)
      .optional(),
    resistances: z
      .array(
        z.object({
          between: z.tuple([name, name]).describe("points or nodes, the meter's positive lead first"),
          ohm: z.number().nonnegative().max(1e15),
          doubt_ohm: z.number().nonnegative().max(1e12).optional().describe("95 %; left out, 0.2 ohm and 1 %"),
        }),
      )
      .max(40)
      .optional()
      .describe("of the unit unplugged and discharged"),
    about: z
      .array(name)
      .max(600)
      .optional()
      .describe("parts in question: the next probe is chosen to tell their faults from a good unit"),
    deadSources: z
      .enum(["as labelled", "open", "short"])
      .optional()
      .describe(
        "what sources are once the unit is off; left out, those of stage heaters conduct and others block, unless the resistances say otherwise",
      ),
  }),
  output: z.object({
    state: z.enum(["good", "faulty", "undecided"]),
    reason: z.string().optional().describe("why undecided"),
    goodChance: z.number().describe("share of good units whose readings together lie as far out as these"),
    suspects: z
      .array(
        z.object({
          part: z.string(),
          fault: z.string(),
          odds: z
            .number()
            .describe(
              "of this fault, given the readings; with the odds of a good unit, and of one with a reading taken down wrong, they add up to one",
            ),
          words: z.string().optional().describe("its degree"),
          ...detail,
          alike: z
            .array(z.string())
            .readonly()
            .optional()
            .describe(
              "faults that no reading given tells apart from this one; their odds differ only by how often they are met",
            ),
        }),
      )
      .readonly()
      .describe("best first"),
    nextProbe: z
      .object({
        kind: z.enum(["resistance", "dc", "gain"]),
        point: z.string(),
        between: z.tuple([z.string(), z.string()]).readonly().optional(),
        input: z.string().optional(),
        frequency_Hz: z.number().optional(),
        why: z.string(),
        minutes: z.number(),
        danger: z.number().describe("1 off and discharged, 2 on and at most 60 V at the point, 3 on and above"),
        caution: z.string(),
        information_bits: z.number(),
      })
      .optional(),
    unseen: z
      .array(z.object({ part: z.string(), fault: z.string() }))
      .readonly()
      .describe("faults that the readings given cannot show"),
    notes: z.array(z.string()).readonly(),
  }),
  compute: ({ netlist, ...question }) => findSuspects(netlist, question),
  formula: [
    "y ~ N(f − J·o, S), S = J·diag(v)·Jᵀ + diag(d²), shift = diag(v)·Jᵀ·S⁻¹·(y − f + J·o)",
    "information = H(outcome) − Σ odds·H(outcome | possibility)",
  ],
  sources: [
    "Working points and slopes: as circuits.rest and circuits.response",
    "Gauss-Newton to the most likely values, Laplace's approximation about them (remembered)",
    "Information of an experiment: Lindley, Ann. Math. Stat. 27, 1956 (remembered)",
    "Which faults are met, and how often: common practice of the repair bench",
  ],
  validity:
    "One fault at a time. Values without a tolerance are taken as exact. Gains are taken as read without loading the point. " +
    "Dead circuit: capacitors charged and open, valves cold, junctions blocking or conducting as the meter's leads lie.",
  cautions: [
    "Voltages of valve circuits kill, also after unplugging. Discharge the reservoir and measure before touching.",
    "Resistances are read on a unit that is unplugged and discharged, never on a live one.",
  ],
  example: {
    netlist: {
      ground: "0",
      parts: [
        { id: "HT", kind: "voltage", between: ["ht", "0"], dc_V: 300, tolerance: 0.03, stage: "supply" },
        { id: "R1", kind: "resistor", between: ["ht", "a1"], ohm: 100_000, tolerance: 0.05 },
        { id: "R2", kind: "resistor", between: ["k1", "0"], ohm: 1_500, tolerance: 0.05 },
        { id: "R3", kind: "resistor", between: ["g1", "0"], ohm: 470_000, tolerance: 0.1 },
        { id: "C1", kind: "capacitor", between: ["k1", "0"], uF: 47, tolerance: 0.2 },
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
    },
    measured: { ht: 300, a1: 299, k1: 4.5 },
    doubt_V: 0.5,
    meter_Mohm: 10,
  },
});
