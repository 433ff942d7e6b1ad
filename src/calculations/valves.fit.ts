import { z } from "zod";
import { fitAnswer } from "../valves/index.ts";
import { calculation } from "./calculation.ts";

const volts = (most: number) => z.number().min(-most).max(most);
const doubts = z.record(z.string(), z.number()).describe("95 % half-widths, under the names of the figures.");

export default calculation({
  name: "valves.fit",
  title: "Fit a valve's curves to readings",
  input: z.object({
    type: z
      .string()
      .max(60)
      .optional()
      .describe("Type, such as 6SN7GT: its catalogue curve and usual spread then count beside the points."),
    kind: z
      .enum(["triode", "pentode"])
      .describe("A beam tetrode counts as pentode; a pentode with its screen tied to the plate as triode."),
    points: z
      .array(
        z.object({
          plate_V: z.number().min(0).max(5000).describe("Plate to cathode."),
          grid_V: volts(1000).describe("Grid to cathode."),
          plate_mA: z.number().min(0).max(20000),
          screen_V: z.number().min(0).max(5000).optional().describe("Screen to cathode; needed for a pentode."),
          screen_mA: z.number().min(0).max(20000).optional(),
        }),
      )
      .min(3)
      .max(500)
      .describe("Readings of one section, spread over plate and grid voltage."),
    at: z
      .array(
        z.object({
          plate_V: z.number().min(0).max(5000),
          grid_V: volts(1000),
          screen_V: z.number().min(0).max(5000).optional(),
        }),
      )
      .max(500)
      .optional()
      .describe("Where current, gm, rp and mu are wanted."),
    curveOnly: z
      .boolean()
      .optional()
      .describe("True leaves all doubts out, which take nearly all of the time (some tenths of a second)."),
  }),
  output: z.object({
    model: z
      .looseObject({ kind: z.enum(["triode", "pentode"]) })
      .describe("The curves; may stand as `model` of a valve in a net list."),
    rms_mA: z.number().describe("Root mean square distance of the points from the curve, plate current."),
    worst_mA: z.number(),
    at: z.array(
      z.object({
        plate_V: z.number(),
        grid_V: z.number(),
        screen_V: z.number().optional(),
        plate_mA: z.number(),
        screen_mA: z.number().optional(),
        gm_mS: z.number(),
        rp_ohm: z.number().optional().describe("Left out, with a reason, where the valve is cut off."),
        mu: z.number().optional(),
        doubt: doubts,
        state: z.literal("undecided").optional(),
        reason: z.string().optional(),
      }),
    ),
    doubt: z
      .object({
        model: doubts,
        current_pct: z
          .number()
          .describe("95 % half-width of the curve's current where the points lie; valves.sets takes it."),
        mu_pct: z.number(),
      })
      .optional()
      .describe("Left out where only the curve was wanted."),
    notes: z.array(z.string()),
  }),
  compute(input) {
    const { model, at, notes, doubt, ...rest } = fitAnswer(input);
    return {
      model: { ...model },
      ...rest,
      ...(doubt && { doubt: { ...doubt, model: { ...doubt.model } } }),
      at: at.map((a) => ({ ...a, doubt: { ...a.doubt } })),
      notes: [...notes],
    };
  },
  formula: [
    "Ia = I(Va, Vg) · Va²/(Va² + knee_V²) for Va above 0, else 0",
    "u = Ve/mu + h·(Vg + bend·r·(√(1 + (Vg/r)²) − 1) + offset_V), r = 100/mu volts",
    "E = s·ln(1 + e^(u/s))",
    "I = current_A · (E / 1 V)^exponent",
    "Ik = I(Vs, Vg) of `plateLaw.ts`, with Va/plateMu added to u (Va below 0 taken as 0)",
    "Is = Ik·(far + (1 − far)·q), Ia = Ik − Is",
  ],
  sources: [
    "Child 1911, Langmuir 1913: the three-halves law (from memory)",
    "N. Koren, Improved vacuum tube models, Glass Audio 8(5), 1996: cut-off that softens with plate voltage (read)",
    "Dempwolf, Holters and Zölzer, AES 131st Convention, paper 8507, 2011: smooth law of the cathode current (abstract read, equations from memory)",
    "Doubts: Bayes' rule over parameters, scatter and the law's misfit, walked over by adaptive Metropolis (Haario, Saksman and Tamminen 2001; differences of past places, ter Braak and Vrugt 2008; misfit as in Kennedy and O'Hagan 2001; both from memory)",
    "Catalogue curves: data sheets as listed in reference/tubes.json",
  ],
  validity:
    "Static curves of one section, warmed up. gm, rp and mu are slopes of the fitted curve. Doubts are meant to hold 95 % of such valves, few points or many (counted: triodes 90 to 98 % of figures at 10 and 30 points, at three points 93 to 96 % with their type and 88 % without; pentodes on few valves only, and without a type at three points some 80 %; see docs/decisions/valves.md): for a type of the catalogue whose valve spreads about it as new valves do (third deviations at the limits of test sheets), or without a type for any valve like those of the catalogue; readings that scatter by 0.3 to 3 % one by one, and a law that misses the valve smoothly, by some half a per cent. They do not count the meter's own scale, nor a valve sold as another type. A parameter's doubt is that of the law beneath such misses; where the points say little of it, the notes say so and its doubt is what was believed before.",
  cautions: [
    "Plate and screen voltages kill. Take readings one-handed, and let the supply discharge before moving a clip.",
  ],
  example: {
    kind: "triode",
    type: "6SN7GT",
    points: [
      { plate_V: 90, grid_V: 0, plate_mA: 10.6 },
      { plate_V: 150, grid_V: -4, plate_mA: 7.2 },
      { plate_V: 180, grid_V: -6, plate_mA: 5.9 },
      { plate_V: 250, grid_V: -8, plate_mA: 9.7 },
      { plate_V: 250, grid_V: -10, plate_mA: 4.9 },
      { plate_V: 300, grid_V: -10, plate_mA: 11.1 },
    ],
    at: [{ plate_V: 240, grid_V: -8 }],
  },
});
