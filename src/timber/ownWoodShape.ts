import { z } from "zod";

const coefficient = z.number().positive().max(2);
const moisture = z.number().min(0).max(30);
const width = z.number().positive().max(5000);

/** Fields of a wood of the shop's own, as evidence and questions carry them. */
export const ownWoodShape = {
  density_kg_m3: z.number().min(50).max(1500).describe("At about 12 % moisture."),
  densityDoubt_kg_m3: z.number().positive().max(700).optional().describe("95 % half-width; a tenth where left out."),
  tangential_pct_per_pct: coefficient
    .optional()
    .describe("Percent of the width for each percent of moisture, along the rings; 0.27 for instance."),
  tangentialDoubt_pct_per_pct: coefficient.optional().describe("95 % half-width; 15 % of it where left out."),
  radial_pct_per_pct: coefficient.optional().describe("The same across the rings; left out, 0.6 ± 0.25 of the other."),
  radialDoubt_pct_per_pct: coefficient.optional(),
  measured: z
    .array(
      z.strictObject({
        ringAngle_deg: z.number().min(0).max(90).describe("0 flat-sawn, 90 quarter-sawn."),
        width_mm: width.describe("Across the grain at moisture_pct."),
        moisture_pct: moisture,
        laterWidth_mm: width.describe("Of the same piece, at the same place on it, at laterMoisture_pct."),
        laterMoisture_pct: moisture,
        widthDoubt_mm: z.number().min(0).max(50).optional().describe("95 % half-width of a reading; 0.05 left out."),
        moistureDoubt_pct: z.number().min(0).max(10).optional().describe("The same of a moisture; 0.3 left out."),
      }),
    )
    .max(50)
    .optional()
    .describe("Pieces of it measured at two moistures, each another board; with or in place of coefficients."),
};
