import { z } from "zod";
import { bleederFor, chargedLimit_V, safetyCautions } from "../safety/index.ts";
import { calculation } from "./calculation.ts";

const above0 = z.number().positive().max(1e9);

export default calculation({
  name: "safety.store",
  title: "The bleeder that a store of charge needs",
  input: z.object({
    capacitance_uF: above0.describe("At the top of its tolerance."),
    start_V: above0.describe("Highest unloaded voltage: high mains, valves cold or out."),
    limit_V: above0.describe("As adopted by the responsible person."),
    time_s: above0.describe("In which it must have fallen."),
  }),
  output: z.object({
    most_ohm: z.number().describe("The greatest resistance that does it."),
    dissipation_W: z.number().describe("In a resistor of that size."),
    rating_W: z.number().describe("What it should be rated for: twice that."),
    energy_J: z.number(),
    charge_mC: z.number(),
    guide: z
      .object({ class1_V: z.number(), class2_V: z.number() })
      .describe(
        "Voltage of a charged capacitor of this size in energy classes 1 and 2; a guide, adopted by nobody here.",
      ),
    notes: z.array(z.string()),
  }),
  compute(design) {
    return {
      ...bleederFor(design),
      guide: { class1_V: chargedLimit_V(design.capacitance_uF, 1), class2_V: chargedLimit_V(design.capacitance_uF, 2) },
      notes: [
        ...safetyCautions.slice(0, 2),
        "Wire it straight across the store, never behind a switch, fuse or standby contact; two in series for high voltage.",
        "A discharge resistor of a mains capacitor stands on the plug side of any switch.",
      ],
    };
  },
  formula: ["R ≤ t/(C·ln(V₀/V)), P = V₀²/R, E = C·V₀²/2, Q = C·V₀"],
  sources: [
    "Exponential discharge, R ≤ t/(C·ln(V0/V)); formula read in an engineering note on residual voltage",
    "IEC 62368-1:2018 (ed. 3) table 5, read in a national translation of its tables",
  ],
  validity: "One capacitance through one resistor. Dielectric absorption can bring back some volts afterwards.",
  cautions: ["A bleeder can fail open: measure before touching, whatever time has passed."],
  example: { capacitance_uF: 100, start_V: 450, limit_V: 60, time_s: 60 },
});
