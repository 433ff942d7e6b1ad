import { z } from "zod";
import { netlistSchema, startUp, usualWarmUp_s } from "../circuits/index.ts";
import { calculation } from "./calculation.ts";

const name = z.string().min(1).max(60);
const volts = z.number();
const level = z.number().min(0);
const warmUp = z.number().min(0).max(600);

export default calculation({
  name: "circuits.startup",
  title: "Switching on: voltages against time, inrush, diode currents, ripple",
  input: z.object({
    netlist: netlistSchema,
    mains: z
      .object({
        source: name.describe("id of the voltage source that the mains comes in by"),
        frequency_Hz: z.number().min(1).max(100_000),
        voltage_Vrms: z.number().positive().max(1e5),
      })
      .optional()
      .describe("Left out, only the direct sources are switched on."),
    duration_s: z.number().positive().max(3600),
    points: z.array(name).min(1).max(50).describe("Nodes to watch, against ground."),
    switchOn_deg: z.number().min(-360).max(360).optional().describe("Phase of the mains' sine at switching on; 0."),
    warmUp_s: z
      .union([warmUp, z.record(name, warmUp)])
      .optional()
      .describe(`Until valves give their full current, for all or by id; ${usualWarmUp_s} if left out.`),
    ratings_V: z
      .record(name, z.number().positive().max(1e6))
      .optional()
      .describe("Rated voltages of capacitors, by id."),
  }),
  output: z.discriminatedUnion("state", [
    z.object({
      state: z.literal("solved"),
      points: z.record(
        z.string(),
        z.object({
          time_s: z.array(z.number()).readonly().describe("Ends of spans, whole periods of the mains."),
          mean_V: z.array(volts).readonly().describe("Over each span, like lowest and highest."),
          low_V: z.array(volts).readonly(),
          high_V: z.array(volts).readonly(),
          final_V: volts.describe("Mean of the last period."),
          peak_V: volts,
          peakAt_s: z.number(),
          overshoot_V: level.describe("Highest of all above the highest of the last period."),
          settle_s: z.number().optional().describe("From then on within 2 % of the last; left out where still moving."),
          ripple_Vpp: level.describe("Over the last period."),
          ripple: z
            .array(z.object({ order: z.number(), level_Vrms: level }))
            .readonly()
            .describe("Multiples of the mains frequency, over the last periods."),
        }),
      ),
      diodes: z.record(
        z.string(),
        z.object({
          peak_mA: z.number(),
          peakAt_s: z.number(),
          runningPeak_mA: z.number().describe("Over the last periods, like the next two."),
          running_mArms: level,
          runningMean_mA: z.number(),
          reverse_V: level.describe("Highest reverse voltage of all."),
        }),
      ),
      capacitors: z.record(
        z.string(),
        z.object({
          peak_V: level,
          running_mArms: level,
          rated_V: z.number().optional(),
          state: z.enum(["within", "over"]).optional(),
        }),
      ),
      inrush: z
        .object({ peak_A: level, switchOn_deg: z.number() })
        .optional()
        .describe("Highest current from the mains in the first period, switched on at the worst moment."),
      notes: z.array(z.string()).readonly(),
    }),
    z.object({ state: z.literal("undecided"), reason: z.string(), notes: z.array(z.string()).readonly() }),
  ]),
  compute: ({ netlist, ...question }) => startUp(netlist, question),
  formula: ["w(t) = 3τ² − 2τ³, τ = (t/warmUp − 0.4)/0.6 within 0 to 1"],
  sources: [
    "TR-BDF2: Bank et al., IEEE Trans. Electron Devices 32, 1985; Hosea and Shampine, Applied Numerical Mathematics 20, 1996 (remembered)",
    "Rise of a valve's current while its heater warms: common practice",
  ],
  validity:
    "Capacitors empty and coils without current at time 0. Coils are linear, so the inrush of a core that saturates is not in it. The warming of valves is a usual figure, not that of a type. Local error of a step 1e-4 of the largest value.",
  cautions: [
    "Capacitors in a supply hold lethal voltage long after switching off, and more than their working voltage while valves are cold.",
    "Before a first switching on: raise the mains slowly behind a current limiter, one hand away, and let a licensed practitioner judge the supply.",
  ],
  example: {
    netlist: {
      ground: "0",
      parts: [
        { id: "MAINS", kind: "voltage", between: ["m", "0"] },
        {
          id: "T1",
          kind: "transformer",
          windings: [
            { between: ["m", "0"], turns: 230, resistance_ohm: 15 },
            { between: ["s1", "0"], turns: 250, resistance_ohm: 40 },
            { between: ["0", "s2"], turns: 250, resistance_ohm: 40 },
          ],
          primaryInductance_H: 15,
          leakage_H: 0.01,
        },
        { id: "D1", kind: "diode", between: ["s1", "c"], law: { saturation_A: 1e-9, emission: 1.8 } },
        { id: "D2", kind: "diode", between: ["s2", "c"], law: { saturation_A: 1e-9, emission: 1.8 } },
        { id: "C1", kind: "capacitor", between: ["c", "0"], uF: 47 },
        { id: "R1", kind: "resistor", between: ["c", "ht"], ohm: 470 },
        { id: "C2", kind: "capacitor", between: ["ht", "0"], uF: 47 },
        { id: "R2", kind: "resistor", between: ["ht", "0"], ohm: 6800 },
      ],
    },
    mains: { source: "MAINS", frequency_Hz: 50, voltage_Vrms: 230 },
    duration_s: 1,
    points: ["c", "ht"],
    ratings_V: { C1: 400, C2: 400 },
  },
});
