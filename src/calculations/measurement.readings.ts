import { z } from "zod";
import { readingsNeeded } from "../measurement/index.ts";
import { calculation } from "./calculation.ts";

const chance = z.number().min(1e-6).max(0.49);

export default calculation({
  name: "measurement.readings",
  title: "How many readings tell a difference of a given size",
  input: z.object({
    sd: z.number().min(1e-100).max(1e100).describe("Standard deviation of one reading."),
    difference: z.number().min(1e-100).max(1e100).describe("What must be told from none, same unit."),
    falseAlarm: chance.optional().describe("0.05 if left out."),
    missed: chance.optional().describe("0.1 if left out."),
    sides: z
      .union([z.literal(1), z.literal(2)])
      .optional()
      .describe("2 if left out: either way."),
  }),
  output: z.object({
    n: z.number().int(),
    nKnown: z.number().int().describe("Were the spread known beforehand."),
    notes: z.array(z.string()),
  }),
  compute({ falseAlarm = 0.05, missed = 0.1, sides = 2, ...wanted }) {
    return {
      ...readingsNeeded({ ...wanted, falseAlarm, missed, sides }),
      notes: ["Readings repeated at once share the instrument's own error, which no number of them takes away."],
    };
  },
  formula: ["n = ((z₁ + z₂)·sd/difference)², then with t at n − 1 degrees of freedom until it holds"],
  sources: ["NIST/SEMATECH e-Handbook of Statistical Methods, section 7.2.2.2 (figures read)"],
  validity: "Independent, about normal readings of a mean against a known value.",
  cautions: [],
  example: { sd: 1, difference: 1, sides: 1 },
});
