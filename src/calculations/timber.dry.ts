import { z } from "zod";
import { dry } from "../timber/index.ts";
import { calculation } from "./calculation.ts";
import { plainCopy } from "./timberAnswer.ts";
import { ownWoodSchema } from "./timberInput.ts";

const hour = z.number().min(0).max(1e6);
const percent = z.number().min(0).max(100);

export default calculation({
  name: "timber.dry",
  title: "How a board dries through its thickness, and whether it is at risk",
  input: z.object({
    species: z.string().min(1).max(100).optional().describe("English name; or give density_kg_m3 and diffusionFactor."),
    wood: ownWoodSchema,
    density_kg_m3: z.number().min(50).max(1500).optional(),
    diffusionFactor: z
      .number()
      .min(1e-4)
      .max(1e4)
      .optional()
      .describe("Times the diffusivity of red oak, or of the law given."),
    diffusivity: z
      .discriminatedUnion("kind", [
        z.object({ kind: z.literal("constant"), m2_per_s: z.number().min(1e-16).max(1e-4) }),
        z.object({
          kind: z.literal("arrhenius"),
          d0_m2_per_s: z.number().min(1e-16).max(1e6),
          activation_K: z.number().min(0).max(20_000),
          moistureFactor: z.number().min(-50).max(50),
        }),
      ])
      .optional()
      .describe("constant, or D = d0·exp(−activation/T)·exp(moistureFactor·M/100)."),
    thickness_mm: z.number().positive().max(1000),
    start_pct: percent.describe("Throughout the piece at hour 0, percent of oven-dry mass."),
    stages: z
      .array(
        z.object({
          hours: hour,
          temperature_C: z.number().min(-30).max(150),
          humidity_pct: percent.optional(),
          humidityDoubt_pct: z.number().min(0).max(50).optional().describe("95 % half-width; none where left out."),
          emc_pct: percent.optional().describe("Equilibrium moisture, in place of humidity_pct."),
          faces: z.enum(["both", "one"]).default("both").describe("Which faces are open; both if left out."),
          surface_m_per_s: z.number().min(0).max(1e3).optional().describe("Surface resistance; left out, none."),
        }),
      )
      .min(1)
      .max(60)
      .describe("One after another; the last goes on for as long as is asked."),
    weighings: z
      .array(z.object({ hour, mass_g: z.number().positive().max(1e9) }))
      .max(60)
      .optional()
      .describe("Of this piece; they fit its diffusivity."),
    ovenDry_g: z.number().positive().max(1e9).optional().describe("Mass of the piece without water."),
    target_pct: percent.optional(),
    outputs_h: z.array(hour).min(1).max(2000).optional().describe("Hours to answer for; a row of 49 if left out."),
  }),
  output: z.object({
    state: z.enum(["solved", "undecided"]),
    reason: z.string().optional().describe("Why there is no hoursToTarget."),
    hours: z.array(z.number()),
    mean_pct: z.array(z.number()),
    surface_pct: z.array(z.number()).describe("At the open face."),
    core_pct: z.array(z.number()).describe("At mid-thickness, or at the closed face."),
    profile: z
      .array(z.object({ z_mm: z.number(), moisture_pct: z.number() }))
      .describe("At the last of hours, from the open face."),
    hoursToTarget: z.number().optional().describe("From hour 0 until the mean comes to target_pct."),
    overDry: z.boolean().describe("The rule stands in notes."),
    checkIndex: z
      .number()
      .describe("Strain of the face over the strain at which wood parts, elastic: a number to rank by."),
    diffusionFactor: z.number().describe("As used; fitted where there are weighings."),
    equilibriumOffset_pct: z.number().describe("How far above the table this wood comes to rest, as weighings tell."),
    stageEnds: z
      .array(
        z.object({
          hour: z.number(),
          mean_pct: z.number(),
          surface_pct: z.number(),
          core_pct: z.number(),
          leftUndone: z.number().describe("Of the change that the stage's air asked for, the share still to come."),
        }),
      )
      .describe("What each stage leaves undone."),
    doubt: z.object({
      mean_pct: z.array(z.number()),
      checkIndex: z.number(),
      diffusionFactor: z.number(),
      hoursToTarget: z.number().optional(),
    }),
    notes: z.array(z.string()),
  }),
  compute: (question) => plainCopy(dry(question)),
  formula: [
    "∂M/∂t = ∂/∂z(D(M, T)·∂M/∂z); open face: −D·∂M/∂n = S·(M − EMC), or M = EMC; closed face: no flow",
    "index = (mean − face)·C_T / ε, near an index: the third of past pieces nearest to it, 30 at least",
    "least of |z|² + Σ ((value − predicted(z))/σ)², covariance ≈ (JᵀJ + 1)⁻¹",
  ],
  sources: [
    "J. Crank, The Mathematics of Diffusion, 2nd ed. 1975, chapter 4 (from memory; series recomputed)",
    "W. T. Simpson and J. Y. Liu, Wood and Fiber Science 29(4), 1997: diffusivity of northern red oak (regression read in a public calculation)",
    "Wood Handbook, FPL-GTR-190, eq. 4-5 (equilibrium), tables 5-1, 5-3, 13-5 (index of checking)",
  ],
  validity:
    "Sawn boards below fibre saturation, ends sealed, one temperature through the piece. The red-oak law rests on 43 to 82 °C; hot plates at 90 °C and cold stores are extrapolations. Growth stress, set and end checks are left out.",
  cautions: [
    "Plates and chambers burn, and wood chars slowly on a plate whose control fails: a limiter of its own, and nobody away.",
    "Rags with drying oil heat up by themselves: keep them out of the chamber.",
  ],
  example: {
    species: "black cherry",
    thickness_mm: 20,
    start_pct: 12,
    stages: [{ hours: 48, temperature_C: 45, humidity_pct: 25, faces: "both" }],
    target_pct: 8,
  },
});
