import { z } from "zod";
import { emcRange } from "../timber/index.ts";

const temperature = z.number().min(emcRange.temperature_C.low).max(emcRange.temperature_C.high);
const humidity = z.number().min(emcRange.humidity_pct.low).max(emcRange.humidity_pct.high);
const percent = z.number().min(0).max(100);

/** What is said of a wood: a species, or density with a factor, or a diffusivity of its own. */
export const woodSchema = {
  species: z.string().min(1).max(100).optional().describe("English name; or give density_kg_m3 and diffusionFactor."),
  density_kg_m3: z.number().min(50).max(1500).optional().describe("For a species that the catalogue lacks."),
  diffusionFactor: z.number().min(1e-4).max(1e4).optional().describe("Known already; left out, it is fitted."),
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
    .optional(),
};

export const coatSchema = z.object({
  finish: z.enum(["oil", "wax", "shellac", "lacquer", "varnish"]),
  coats: z.number().int().min(1).max(30),
  on: z.enum(["both", "first", "second"]).optional(),
});

/** One stage of a piece's life. */
export const stageSchema = z.object({
  place: z.string().min(1).max(100).describe("In the shop's own words; any."),
  hours: z.number().min(0).max(1e6),
  temperature_C: temperature.optional(),
  humidity_pct: humidity.optional(),
  emc_pct: percent.optional().describe("Equilibrium moisture, in place of humidity_pct."),
  log: z
    .array(z.object({ hour: z.number().min(0).max(1e6), temperature_C: temperature, humidity_pct: humidity }))
    .max(2000)
    .optional()
    .describe("Air that drifted; hours from the stage's beginning."),
  humidityDoubt_pct: z.number().min(0).max(50).optional().describe("95 % half-width; 3 % where left out."),
  faces: z.enum(["both", "one", "none"]).optional().describe("Open faces; both where left out."),
  surface_m_per_s: z.number().min(0).max(1e3).optional().describe("Surface resistance; left out, none."),
  plate_C: temperature.optional().describe("The second face lies on a plate of this temperature."),
  wall_C: temperature.optional().describe("The second face is warmed from within to this temperature."),
  coats: z.array(coatSchema).max(10).optional(),
  machinedTo_mm: z.number().positive().max(1000).optional().describe("Planed to this as the stage begins."),
  taken_mm: z.tuple([z.number().min(0), z.number().min(0)]).optional(),
  massChanged: z.boolean().optional().describe("Cut, shaped or oiled as the stage begins."),
});
