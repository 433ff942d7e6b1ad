import { z } from "zod";
import { emcRange } from "../timber/index.ts";
import { ownWoodShape } from "../timber/ownWoodShape.ts";

const temperature = z.number().min(emcRange.temperature_C.low).max(emcRange.temperature_C.high);
const humidity = z.number().min(emcRange.humidity_pct.low).max(emcRange.humidity_pct.high);
const percent = z.number().min(0).max(100);

/** The wood as the shop measured it, beside its name. */
export const ownWoodSchema = z
  .strictObject(ownWoodShape)
  .optional()
  .describe("A wood of the shop's own, in place of the catalogue's: its density, and coefficients or pieces measured.");

/** What is said of a wood: a species, or density with a factor, or a diffusivity of its own. */
export const woodSchema = {
  species: z.string().min(1).max(100).optional().describe("English name; or give density_kg_m3 and diffusionFactor."),
  wood: ownWoodSchema,
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

const hour = z.number().min(0).max(1e6);
const mass = z.number().positive().max(1e9);

/** When someone is there, so that nothing is asked for at night or on a day off. */
export const handsSchema = z
  .array(z.object({ from_h: z.number().min(-1e6).max(1e6), to_h: z.number().min(-1e6).max(1e6) }))
  .max(400)
  .optional()
  .describe("Hours at which someone is there; any where left out.");

/** A piece, its life and its weighings. */
export const pieceSchema = {
  ...woodSchema,
  thickness_mm: z.number().positive().max(1000).describe("As the first stage begins."),
  start_pct: percent.optional().describe("At hour 0 throughout; left out, 12 ± 8 %."),
  startDoubt_pct: percent.optional().describe("95 % half-width; 2 where start_pct is given without it."),
  stages: z.array(stageSchema).min(1).max(60).describe("Past and planned, one after another; the last goes on."),
  weighings: z
    .array(
      z.object({
        hour: z.number().min(-1e6).max(1e6),
        mass_g: z.number().min(-1e9).max(1e9),
        after: z.boolean().optional().describe("Just after it was machined, cut or coated at that hour."),
      }),
    )
    .max(200)
    .optional()
    .describe("Hours from the beginning of the first stage. What cannot be is kept aside with its reason."),
  balance_g: mass.optional().describe("95 % half-width of one weighing; left out, from how masses are written."),
  ovenDry_g: mass.optional().describe("Of the whole piece as the first stage begins."),
  ovenDryDoubt_g: z.number().min(0).max(1e9).optional().describe("95 % half-width; 0.1 % where left out."),
  offcut: z
    .object({ hour, wet_g: mass, dry_g: mass })
    .optional()
    .describe("An offcut of the piece, weighed at that hour and dried at 103 °C."),
  target_pct: percent.optional(),
  now_h: hour.optional().describe("The present; the last weighing where left out."),
  outputs_h: z.array(hour).min(1).max(2000).optional(),
  hands: handsSchema,
  past: z
    .array(z.object({ checkIndex: z.number().min(0).max(1e6), cracked: z.boolean() }))
    .max(100_000)
    .optional()
    .describe("The shop's own past pieces of this species."),
};
