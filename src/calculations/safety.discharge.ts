import { z } from "zod";
import { discharge, safetyCautions } from "../safety/index.ts";
import { calculation } from "./calculation.ts";

const doubt = z.number().min(0).max(1e12).optional();

export default calculation({
  name: "safety.discharge",
  title: "Time until a capacitor has fallen to a voltage that may be touched",
  input: z.object({
    capacitance_uF: z.number().positive().max(1e9).describe("At the top of its tolerance."),
    bleeder_ohm: z.number().positive().max(1e15),
    start_V: z.number().min(0).max(1e6).describe("Highest unloaded voltage: high mains, valves cold or out."),
    limit_V: z.number().positive().max(1e6).describe("As adopted by the responsible person."),
    doubt: z
      .object({ capacitance_uF: doubt, bleeder_ohm: doubt, start_V: doubt })
      .optional()
      .describe("95 % half-widths of the parts; 0 if left out."),
  }),
  output: z.object({
    time_s: z.number(),
    doubt: z.object({ time_s: z.number() }),
    energy_J: z.number().describe("Stored at the start."),
    bleeder_W: z.number().describe("In the bleeder at the start."),
    notes: z.array(z.string()),
  }),
  compute(store) {
    return {
      ...discharge(store),
      notes: [
        ...safetyCautions.slice(0, 2),
        "Holds with the bleeder alone, wired straight across the capacitor; nothing recharges it.",
        "Choose a resistor rated for twice this power and for more than the start voltage.",
      ],
    };
  },
  formula: ["t = R·C·ln(V₀/V), E = C·V₀²/2, P = V₀²/R"],
  sources: ["Exponential discharge, t = R·C·ln(V0/V); formula read in an engineering note on residual voltage"],
  validity: "One capacitance through one resistor. Dielectric absorption can bring back some volts afterwards.",
  cautions: [
    "A bleeder can fail open: measure before touching, whatever time has passed.",
    "Limits are guides; local codes and a licensed practitioner decide.",
  ],
  example: { capacitance_uF: 100, bleeder_ohm: 220000, start_V: 450, limit_V: 60 },
});
