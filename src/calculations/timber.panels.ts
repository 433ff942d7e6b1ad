import { z } from "zod";
import { boardsToPanels } from "../timber/index.ts";
import { calculation } from "./calculation.ts";
import { plainCopy } from "./timberAnswer.ts";
import { ownWoodSchema } from "./timberInput.ts";

const name = z.string().min(1).max(100);
const size = z.number().positive().max(20_000);
const angle = z.number().min(0).max(90);
const percent = z.number().min(0).max(100);
const along = z.number().min(0).max(20_000);
const stretch = { from_mm: along, to_mm: along };
const figure = z.number().min(0).max(3).optional();

export default calculation({
  name: "timber.panels",
  title: "Which piece of which board becomes which panel, over all open cases",
  input: z.object({
    boards: z
      .array(
        z.object({
          id: name,
          species: name,
          wood: ownWoodSchema,
          length_mm: size,
          width_mm: size,
          thickness_mm: size,
          ringAngle_deg: angle.describe("0 flat-sawn, 90 quarter-sawn."),
          moisture_pct: percent,
          defects: z
            .array(z.object({ ...stretch, across: z.object(stretch).optional().describe("From the edge.") }))
            .max(60)
            .optional()
            .describe("What no panel may hold, from the board's end; the whole width without across."),
          figure: figure.describe("0 plain to 3 the finest."),
        }),
      )
      .min(1)
      .max(300),
    panels: z
      .array(
        z.object({
          case: name,
          name,
          species: name,
          wood: ownWoodSchema,
          length_mm: size.describe("Finished, along the grain."),
          width_mm: size,
          thickness_mm: size,
          staves: z.number().int().min(1).max(20).optional(),
          target_pct: percent.describe("Moisture at which it is to be built."),
          span_pct: percent.describe("How far its home will take it from there."),
          figure: figure.describe("Least wanted."),
          matched: name.optional().describe("Panels of a case with the same word come from one board."),
          ringAngle_deg: z.object({ from: angle, to: angle }).optional(),
        }),
      )
      .min(1)
      .max(400),
    allowance: z
      .object({
        length_mm: z.number().min(0).max(500).optional(),
        width_mm: z.number().min(0).max(500).optional(),
        thickness_mm: z.number().min(0).max(50).optional(),
        kerf_mm: z.number().min(0).max(20).optional(),
      })
      .optional()
      .describe("20, 8, 3 and 3 mm where left out."),
    worth: z
      .object({
        movement_per_mm: z.number().min(0).max(1e4).optional(),
        moisture_per_pct: z.number().min(0).max(1e4).optional(),
        figureUnused: z.number().min(0).max(1e4).optional(),
      })
      .optional()
      .describe("Against one square decimetre of board: 3 a millimetre, 0.5 a percent, 2 a step of figure."),
    keep_mm: size.optional().describe("Offcuts from this length on are kept; 300 where left out."),
    seconds: z.number().positive().max(60).optional(),
  }),
  output: z.object({
    cuts: z.array(
      z.object({
        case: z.string(),
        panel: z.string(),
        stave: z.number(),
        board: z.string(),
        from_mm: z.number(),
        to_mm: z.number(),
        across_mm: z.number(),
        width_mm: z.number(),
        movement_mm: z.number(),
        dryBy_pct: z.number().describe("Board over the panel's target: to be dried out first."),
      }),
    ),
    unplaced: z.array(z.object({ case: z.string(), panel: z.string(), why: z.string() })),
    boards: z.array(
      z.object({
        board: z.string(),
        opened_dm2: z.number(),
        used_dm2: z.number(),
        offcuts_mm: z.array(z.number()),
      }),
    ),
    opened_dm2: z.number(),
    wasted_dm2: z.number(),
    movement_mm: z.number(),
    cost: z.number(),
    bound: z.number().describe("No plan that places as many can cost less."),
    optimal: z.boolean(),
    notes: z.array(z.string()),
  }),
  async compute(question) {
    const { allowance, worth, ...rest } = question;
    const whole = <T extends object>(part: T | undefined) =>
      Object.fromEntries(Object.entries(part ?? {}).filter(([, value]) => value !== undefined));
    return plainCopy(await boardsToPanels({ ...plainCopy(rest), allowance: whole(allowance), worth: whole(worth) }));
  },
  formula: [
    "a panel's staves all or none; Σ (length + kerf) ≤ (bay + kerf)·opened in each bay; a stretch ripped one way",
  ],
  sources: [
    "Wood Handbook, FPL-GTR-190, eq. 13-2, tables 13-5 and 4-3 (movement)",
    "Allowances and kerf: common practice, no source",
  ],
  validity:
    "Rip first, then cut across; a strip is cut round the defects that it meets. Proved best for small questions, else within the bound. Boards move as their species' mean.",
  cautions: ["Saws maim and hardwood dust sensitises: guards on, extraction on, mask on."],
  example: {
    boards: [
      {
        id: "B-101",
        species: "white ash",
        length_mm: 1800,
        width_mm: 210,
        thickness_mm: 27,
        ringAngle_deg: 10,
        moisture_pct: 9,
      },
      {
        id: "B-102",
        species: "white ash",
        length_mm: 1500,
        width_mm: 190,
        thickness_mm: 27,
        ringAngle_deg: 80,
        moisture_pct: 8.5,
        defects: [
          { from_mm: 700, to_mm: 760 },
          { from_mm: 0, to_mm: 1500, across: { from_mm: 0, to_mm: 18 } },
        ],
      },
    ],
    panels: [
      {
        case: "0417",
        name: "top",
        species: "white ash",
        length_mm: 420,
        width_mm: 300,
        thickness_mm: 18,
        staves: 2,
        target_pct: 7,
        span_pct: 4,
      },
      {
        case: "0417",
        name: "left",
        species: "white ash",
        length_mm: 300,
        width_mm: 160,
        thickness_mm: 18,
        target_pct: 7,
        span_pct: 4,
      },
      {
        case: "0417",
        name: "right",
        species: "white ash",
        length_mm: 300,
        width_mm: 160,
        thickness_mm: 18,
        target_pct: 7,
        span_pct: 4,
      },
    ],
  },
});
