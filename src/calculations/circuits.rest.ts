import { z } from "zod";
import { netlistSchema, solveRest } from "../circuits/index.ts";
import { calculation } from "./calculation.ts";

const flow = { current_mA: z.number(), voltage_V: z.number(), power_mW: z.number() };

const part = z.object({
  current_mA: z.number().describe("through the part, from the first of between to the second; of a valve, the plate's"),
  voltage_V: z.number().describe("first end against the second; of a valve, plate against cathode"),
  power_mW: z.number().describe("taken up by the part; negative where it delivers"),
  windings: z.array(z.object(flow)).readonly().optional(),
  plate_V: z.number().optional().describe("to cathode, as grid_V and screen_V"),
  grid_V: z.number().optional(),
  screen_V: z.number().optional(),
  plate_mA: z.number().optional(),
  grid_mA: z.number().optional(),
  screen_mA: z.number().optional(),
  cathode_mA: z.number().optional(),
  gm_mS: z.number().optional(),
  rp_ohm: z.number().optional().describe("left out, like mu, where the valve is cut off"),
  mu: z.number().optional(),
  dissipation_W: z.number().optional().describe("heat of the plate"),
  screenDissipation_W: z.number().optional(),
});

export default calculation({
  name: "circuits.rest",
  title: "Working point of a circuit: voltages, currents, power, and the slopes of its valves",
  input: z.object({ netlist: netlistSchema }),
  output: z.discriminatedUnion("state", [
    z.object({
      state: z.literal("solved"),
      nodes: z.record(z.string(), z.number()).describe("volts to ground"),
      parts: z.record(z.string(), part),
      ratings: z
        .array(
          z.object({
            part: z.string(),
            what: z.string(),
            value: z.number(),
            unit: z.string(),
            limit: z.number(),
            under: z.boolean().optional().describe("the value lies under the limit; left out, over it"),
          }),
        )
        .readonly()
        .describe(
          "ratings of the catalogue that are not kept: plate, screen, both sections, heater, heater to cathode",
        ),
      notes: z.array(z.string()).readonly().describe("ratings exceeded, valves cut off, nodes with a single end"),
    }),
    z.object({
      state: z.literal("undecided"),
      node: z.string().describe("the node that would not settle, or that nothing determines"),
      reason: z.string(),
      notes: z.array(z.string()).readonly(),
    }),
  ]),
  compute: ({ netlist }) => solveRest(netlist),
  formula: [
    "Ia = I(Va, Vg) · Va²/(Va² + knee_V²) for Va above 0, else 0",
    "u = Ve/mu + h·(Vg + bend·r·(√(1 + (Vg/r)²) − 1) + offset_V), r = 100/mu volts",
    "E = s·ln(1 + e^(u/s))",
    "I = current_A · (E / 1 V)^exponent",
    "I = saturation · (exp(V/(emission·kT/q)) − 1)",
  ],
  sources: [
    "Modified nodal analysis: Ho, Ruehli, Brennan, IEEE Trans. Circuits Syst. 22, 1975 (remembered)",
    "Damping of Newton's method: Deuflhard, Newton Methods for Nonlinear Problems, Springer 2004 (remembered)",
    "Three-halves law: Child 1911, Langmuir 1913 (remembered); diode: Shockley 1949 (remembered)",
    "Curves and ratings of catalogue types: reference/tubes.json, each with its source",
  ],
  validity:
    "Direct current: capacitors open, coils their resistance, alternating sources at zero. A catalogue curve is an average " +
    "new valve; single valves differ by 30 % in current. Where a circuit has several rests, one of them is given.",
  cautions: ["Voltages of valve circuits kill. Discharge the reservoir and measure before touching."],
  example: {
    netlist: {
      ground: "0",
      parts: [
        { id: "HT", kind: "voltage", between: ["ht", "0"], dc_V: 300 },
        { id: "R1", kind: "resistor", between: ["ht", "a1"], ohm: 100_000 },
        { id: "R2", kind: "resistor", between: ["k1", "0"], ohm: 1_500 },
        { id: "R3", kind: "resistor", between: ["g1", "0"], ohm: 470_000 },
        {
          id: "V1a",
          kind: "triode",
          law: { mu: 20, perveance_mA_per_V1p5: 1.5 },
          plate: "a1",
          grid: "g1",
          cathode: "k1",
        },
      ],
    },
  },
});
