import { z } from "zod";
import { type CaseQuestion, emcRange, judgeCase, usualWall_C } from "../timber/index.ts";
import { calculation } from "./calculation.ts";
import { plainCopy } from "./timberAnswer.ts";
import { coatSchema, ownWoodSchema } from "./timberInput.ts";

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
          wood: ownWoodSchema,
          tangential_per_pct: z
            .number()
            .min(0)
            .max(0.02)
            .optional()
            .describe("With radial_per_pct, of a wood not in the catalogue."),
          radial_per_pct: z.number().min(0).max(0.02).optional(),
          density_kg_m3: z.number().min(50).max(1500).optional(),
          width_mm: z.number().positive().max(1e4).describe("Across the grain."),
          thickness_mm: z.number().min(1).max(200),
          ringAngle_deg: z.number().min(0).max(90).describe("0 flat-sawn, 90 quarter-sawn."),
          moisture_pct: z.number().min(0).max(30).describe("At assembly, percent of oven-dry mass."),
          fixed: z.enum(["edges", "centre", "free"]),
          warm: z.boolean().optional().describe("Its inner face is at the wall's temperature."),
          coats: z.array(coatSchema).max(10).optional().describe("first is the outside, second the inside."),
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
    amplifier: z
      .object({
        dissipation_W: z.number().min(0).max(1e4),
        area_m2: z.number().positive().max(100).describe("Outer surface of the case."),
        ventedShare: z.number().min(0).max(1).optional().describe("Heat that leaves by openings; 0.6 left out."),
        hoursADay: z.number().min(0).max(24).optional().describe("4 where left out."),
      })
      .optional()
      .describe("In place of a measured wall_C."),
    home: z
      .object({
        heatedTo_C: z.number().min(0).max(40),
        cooledTo_C: z.number().min(0).max(40).optional(),
        gain_g_m3: z.number().min(0).max(30).optional(),
      })
      .optional()
      .describe("The destination's months are of the air outside; the home treats it so."),
    parcel: z
      .object({
        by: z.enum(["air", "sea"]),
        days: z.number().min(0).max(400).optional(),
        temperature_C: z.number().min(-30).max(60).optional(),
        humidity_pct: z.number().min(0).max(100).optional(),
      })
      .optional()
      .describe("How it travels; by sea 45 damp days, by air 5 dry ones where left out."),
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
        remedies: z.array(
          z.object({
            kind: z.enum(["none", "slot", "gap", "quarter-sawn", "condition", "leave alone"]),
            value: z.number().optional().describe("Millimetres, or percent of moisture."),
            words: z.string(),
          }),
        ),
        year: z
          .array(z.object({ month: z.number(), moisture_pct: z.number(), clearance_mm: z.number() }))
          .describe("As each month of the repeating year ends."),
        parcel_pct: z.number().optional().describe("As it comes out of the parcel."),
        cup_mm: z.number().describe("Most by unequal faces; positive where the outside goes hollow."),
        stressIndex: z.number().describe("Strain held back over that at which wood parts: to rank by, no chance."),
        wallRise_K: z.number().optional(),
        doubt: z.object({ shrink_mm: z.number(), swell_mm: z.number(), moisture_pct: z.number() }),
      }),
    ),
    notes: z.array(z.string()),
  }),
  compute(question) {
    const unused = Object.keys(question.gaps).filter((name) => !question.panels.some((panel) => panel.name === name));
    return {
      panels: plainCopy(judgeCase(plainCopy(question) as CaseQuestion)),
      notes: [
        "Months are taken as steady air; a home's true climate is unknown, and a week of extremes is not in them.",
        "Edge-fixed panels: refuted when the movement is surely beyond the strain at which wood parts, proven when surely below half of it.",
        ...(question.amplifier && question.wall_C === undefined
          ? [
              "The wall's warmth is reckoned from the amplifier's heat; a thermometer on the inner face would narrow it.",
            ]
          : []),
        "A finish slows the exchange but does not stop it: over a season the panel comes to the same moisture.",
        ...(unused.length > 0 ? [`No panel has the name of these gaps: ${unused.slice(0, 5).join(", ")}.`] : []),
      ],
    };
  },
  formula: [
    "shrink = width·C·(at assembly − driest), swell = width·C·(wettest − at assembly), 0 at least",
    "clearance = gap − swell (free, centre); −max(shrink, swell) (edges)",
    "curvature = C·(12/h³)·∫M(z)·(z − h/2)·dz",
  ],
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
