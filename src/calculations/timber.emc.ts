import { z } from "zod";
import { emcDoubt_pct, emcNotes, emcRange, equilibriumMoisture_pct } from "../timber/index.ts";
import { calculation } from "./calculation.ts";

const { temperature_C, humidity_pct } = emcRange;

export default calculation({
  name: "timber.emc",
  title: "Moisture content that wood comes to in steady air",
  input: z.object({
    temperature_C: z
      .number()
      .min(temperature_C.low)
      .max(temperature_C.high)
      .describe("Air temperature; the handbook's table spans -1.1 to 93.3 °C."),
    humidity_pct: z
      .number()
      .min(humidity_pct.low)
      .max(humidity_pct.high)
      .describe("Relative humidity in percent; the table spans 5 to 95 %."),
  }),
  output: z.object({
    emc_pct: z.number().describe("Equilibrium moisture content, percent of oven-dry mass."),
    doubt: z.object({
      emc_pct: z.number().describe("95 % half-width for a real piece: species, heating history, wet or dry side."),
    }),
    notes: z.array(z.string()),
  }),
  compute({ temperature_C, humidity_pct }) {
    const emc_pct = equilibriumMoisture_pct(temperature_C, humidity_pct);
    return {
      emc_pct,
      doubt: { emc_pct: emcDoubt_pct(emc_pct) },
      notes: [...emcNotes(temperature_C, humidity_pct)],
    };
  },
  formula: ["M = (1800/W)·[K·h/(1 − K·h) + (K1·K·h + 2·K1·K2·K²·h²)/(1 + K1·K·h + K1·K2·K²·h²)]"],
  sources: [
    "Forest Products Laboratory, Wood Handbook, FPL-GTR-190 (2010), eq. 4-5 and table 4-2 (table read; equation confirmed by reproducing the table)",
  ],
  validity:
    "Wood at atmospheric pressure, -1.1 to 93.3 °C and 5 to 95 % relative humidity; extrapolated and said so down to -30 °C, up to 100 °C, and to 0 and 100 % humidity. One curve for all species.",
  cautions: [
    "Wood stored for long against a heat source chars slowly: a plate or chamber needs a limiter that does not depend on its controller.",
  ],
  example: { temperature_C: 21.1, humidity_pct: 50 },
});
