import { z } from "zod";
import { emcRange, judgeCase, usualWall_C } from "../timber/index.ts";
import { calculation } from "./calculation.ts";

const { temperature_C, humidity_pct } = emcRange;
const wall = z.number().min(temperature_C.low).max(temperature_C.high);

export default calculation({
  name: "timber.case",
  title: "What a case's panels will do over a year at its destination",
  input: z.object({
    panels: z
      .array(
        z.object({
          name: z.string().min(1).max(100),
          species: z.string().min(1).max(100),
          width_mm: z.number().positive().max(1e4).describe("Across the grain."),
          thickness_mm: z.number().min(1).max(200),
          ringAngle_deg: z.number().min(0).max(90).describe("0 flat-sawn, 90 quarter-sawn."),
          moisture_pct: z.number().min(0).max(30).describe("At assembly, percent of oven-dry mass."),
          fixed: z.enum(["edges", "centre", "free"]),
          warm: z.boolean().optional().describe("Its inner face is at the wall's temperature."),
        }),
      )
      .min(1)
      .max(30),
    destination: z
      .array(
        z.object({
          month: z.number().int().min(1).max(12),
          temperature_C: z.number().min(temperature_C.low).max(60),
          humidity_pct: z.number().min(humidity_pct.low).max(humidity_pct.high),
        }),
      )
      .length(12)
      .describe("Air of the room, month by month."),
    wall_C: wall.optional().describe(`Inner faces of all panels; left out, of warm ones, ${usualWall_C} °C.`),
    gaps: z.record(z.string().max(100), z.number().min(0).max(1000)).describe("Millimetres to swell into, by panel."),
  }),
  output: z.object({
    panels: z.array(
      z.object({
        name: z.string(),
        driest_pct: z.number(),
        wettest_pct: z.number(),
        shrink_mm: z.number().describe("From assembly to the driest."),
        swell_mm: z.number().describe("From assembly to the wettest."),
        clearance_mm: z
          .number()
          .describe("Gap less swell, negative binds; edges: movement the fixing would have to take, negative."),
        low: z.number().describe("95 % range of clearance_mm."),
        high: z.number(),
        verdict: z.enum(["proven", "refuted", "undecided"]),
        remedy: z.string(),
        doubt: z.object({ shrink_mm: z.number(), swell_mm: z.number(), moisture_pct: z.number() }),
      }),
    ),
    notes: z.array(z.string()),
  }),
  compute(question) {
    const unused = Object.keys(question.gaps).filter((name) => !question.panels.some((panel) => panel.name === name));
    return {
      panels: judgeCase(question),
      notes: [
        "Months are taken as steady air; a home's true climate is unknown, and a week of extremes is not in them.",
        "Edge-fixed panels: refuted when the movement is surely beyond the strain at which wood parts, proven when surely below half of it.",
        "A finish slows the exchange but does not stop it: over a season the panel comes to the same moisture.",
        ...(unused.length > 0 ? [`No panel has the name of these gaps: ${unused.slice(0, 5).join(", ")}.`] : []),
      ],
    };
  },
  sources: [
    "Forest Products Laboratory, Wood Handbook, FPL-GTR-190 (2010), eq. 4-5, eq. 13-2, tables 13-5 and 4-3",
    "W. Wagner and A. Pruss, J. Phys. Chem. Ref. Data 22 (1993) 783-787, vapour pressure",
    "W. T. Simpson and J. Y. Liu, Wood and Fiber Science 29(4), 1997, diffusivity of red oak",
  ],
  validity:
    "Solid panels moving across the grain, both faces open, coefficients from 6 to 14 % moisture. Plywood, cross-battens and knots move otherwise.",
  cautions: ["Hardwood dust sensitises; rags with drying oil heat up by themselves: spread them flat outdoors."],
  example: {
    panels: [
      {
        name: "top",
        species: "white ash",
        width_mm: 300,
        thickness_mm: 20,
        ringAngle_deg: 0,
        moisture_pct: 11,
        fixed: "edges",
        warm: true,
      },
      {
        name: "side",
        species: "white ash",
        width_mm: 180,
        thickness_mm: 18,
        ringAngle_deg: 80,
        moisture_pct: 10,
        fixed: "free",
      },
    ],
    destination: [15, 16, 20, 26, 34, 42, 45, 44, 36, 28, 20, 16].map((humidity, i) => ({
      month: i + 1,
      temperature_C: 21,
      humidity_pct: humidity,
    })),
    gaps: { side: 1.5 },
  },
});
