import { z } from "zod";
import { pieceOf } from "../timber/index.ts";
import { calculation } from "./calculation.ts";
import { plainCopy } from "./timberAnswer.ts";
import { pieceSchema } from "./timberInput.ts";

const percents = z.array(z.number());

export default calculation({
  name: "timber.piece",
  title: "What a piece holds now and will hold, from its own weighings and places",
  input: z.object(pieceSchema),
  output: z.object({
    state: z.enum(["fitted", "approach", "unweighed"]).describe("approach: no oven-dry mass is known."),
    reason: z.string().optional(),
    now: z.object({
      hour: z.number(),
      mean_pct: z.number(),
      low_pct: z.number().describe("95 % ends of the mean."),
      high_pct: z.number(),
      surface_pct: z.number(),
      core_pct: z.number(),
      lag_pct: z.number().describe("Core over skin."),
    }),
    hours: percents,
    mean_pct: percents,
    low_pct: percents,
    high_pct: percents,
    surface_pct: percents,
    core_pct: percents,
    profile: z.array(z.object({ z_mm: z.number(), moisture_pct: z.number() })).describe("Through the thickness, now."),
    thickness_mm: z.number().describe("Now."),
    stageEnds: z.array(
      z.object({
        place: z.string(),
        hour: z.number(),
        mean_pct: z.number(),
        surface_pct: z.number(),
        core_pct: z.number(),
        leftUndone: z.number().describe("Of the change that the stage's air asked for, the share still to come."),
      }),
    ),
    hoursToTarget: z.number().optional().describe("From hour 0; looked for from now on."),
    targetLow_h: z.number().optional(),
    targetHigh_h: z.number().optional().describe("Left out where there is no upper end."),
    approach: z
      .object({
        rest_g: z.number().describe("Mass at rest in the present air."),
        low_g: z.number(),
        high_g: z.number(),
        doneShare: z.number().describe("Of the change since the present stage began."),
      })
      .optional(),
    ovenDry_g: z.number().optional(),
    diffusionFactor: z.number(),
    factorLow: z.number(),
    factorHigh: z.number(),
    equilibriumOffset_pct: z.number().describe("How far above the table this wood comes to rest."),
    overDry: z.boolean(),
    checkIndex: z.number().describe("A number to rank by, not a chance."),
    checkRank: z.number().optional().describe("Share of past pieces that stayed below this index."),
    checkChance: z
      .object({ value: z.number(), low: z.number(), high: z.number(), pieces: z.number() })
      .optional()
      .describe("Only where the shop's records justify it."),
    masses: z.array(
      z.object({ hour: z.number(), mass_g: z.number(), expected_g: z.number(), moisture_pct: z.number() }),
    ),
    aside: z.array(z.object({ weighing: z.number(), hour: z.number(), mass_g: z.number(), why: z.string() })),
    nextWeighing: z
      .object({
        hour: z.number(),
        of: z.enum(["hoursToTarget", "moisture"]),
        before: z.number(),
        after: z.number(),
        information: z.number(),
        why: z.string(),
      })
      .optional(),
    doubt: z.object({
      mean_pct: percents,
      now_pct: z.number(),
      hoursToTarget: z.number().optional(),
      ovenDry_g: z.number().optional(),
      checkIndex: z.number(),
    }),
    notes: z.array(z.string()),
  }),
  compute: (question) => plainCopy(pieceOf(question)),
  formula: [
    "mass = oven-dry·(1 + M/100); M by diffusion through the thickness, stage after stage",
    "∂M/∂t = ∂/∂z(D(M)·∂M/∂z), closed face: no flow, open face: −D·∂M/∂n = S·(M − EMC)",
    "least of |z|² + Σ ((value − predicted(z))/σ)², covariance ≈ (JᵀJ + 1)⁻¹",
  ],
  sources: [
    "J. Crank, The Mathematics of Diffusion, 2nd ed. 1975, chapter 4 (from memory; series recomputed)",
    "W. T. Simpson and J. Y. Liu, Wood and Fiber Science 29(4), 1997: diffusivity of northern red oak (regression read in a public calculation)",
    "Wood Handbook, FPL-GTR-190, eq. 4-1 and 4-5 (moisture, equilibrium; read), eq. 4-15 (heat conduction; read), table 16-3 (coats; read)",
  ],
  validity:
    "Solid boards below fibre saturation, ends sealed, evenly moist as the first stage begins. Diffusivity before weighings is good to a factor of four; coats to a factor of three. Nothing is said of one board's growth stress or hidden checks.",
  cautions: [
    "Plates and chambers burn, and wood chars slowly on a plate whose control fails: a limiter of its own, and nobody away.",
    "Rags with drying oil heat up by themselves: keep them out of the chamber and away from plates.",
  ],
  example: {
    species: "black cherry",
    thickness_mm: 25,
    start_pct: 12,
    stages: [
      { place: "shop air", hours: 48, temperature_C: 18, humidity_pct: 65 },
      {
        place: "warm chamber",
        hours: 48,
        log: [
          { hour: 0, temperature_C: 38, humidity_pct: 30 },
          { hour: 6, temperature_C: 45, humidity_pct: 24 },
          { hour: 40, temperature_C: 46, humidity_pct: 22 },
        ],
      },
      { place: "recovery", hours: 72, temperature_C: 18, humidity_pct: 55, machinedTo_mm: 22 },
    ],
    weighings: [
      { hour: 48, mass_g: 513.1 },
      { hour: 60, mass_g: 505.1 },
      { hour: 84, mass_g: 498.1 },
    ],
    ovenDry_g: 458.1,
    target_pct: 8,
  },
});
