import { z } from "zod";
import { weeklyDose } from "../safety/index.ts";
import { calculation } from "./calculation.ts";

const level = z.number().min(0).max(194);
const hours = z.number().positive().max(168);

export default calculation({
  name: "safety.dose",
  title: "Weekly sound dose at a listening level",
  input: z.object({
    level_dBA: level.describe("A-weighted level at the ear."),
    hours: hours.describe("Hours a week."),
    allowance: z
      .object({ level_dBA: level, hours })
      .describe("What a week allows, as adopted: WHO-ITU safe listening has 80 dBA for 40 h, for children 75 dBA."),
  }),
  output: z.object({
    dose_Pa2h: z.number(),
    share: z.number().describe("Of what is allowed."),
    hoursAllowed: z.number().describe("Hours a week at this level that make the allowed dose."),
    notes: z.array(z.string()),
  }),
  compute({ level_dBA, hours: listened, allowance }) {
    const found = weeklyDose(level_dBA, listened, allowance);
    return {
      ...found,
      notes: [
        "Each 3 dB more halves the time. A note for whoever listens, not a verdict on the amplifier.",
        ...(found.share > 1 ? ["More than a week allows."] : []),
      ],
    };
  },
  formula: ["E = p₀²·10^(L/10)·t, p₀ = 20 µPa"],
  sources: [
    "Equal energy, ITU-T H.870 (2019) and EN 50332-3 (from memory); 80 dBA for 40 h in pages that report WHO-ITU safe listening (read)",
  ],
  validity: "Steady listening; peaks and other noise of the day are left out.",
  cautions: ["Ringing or dullness after listening is a sign of too much, whatever the figure says."],
  example: { level_dBA: 85, hours: 10, allowance: { level_dBA: 80, hours: 40 } },
});
