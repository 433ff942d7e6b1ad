import { z } from "zod";
import { capability } from "../measurement/index.ts";
import { calculation } from "./calculation.ts";

const finite = z.number().min(-1e100).max(1e100);
const held = z.object({ value: z.number(), low: z.number().optional(), high: z.number().optional() });

export default calculation({
  name: "measurement.capability",
  title: "How well what is made fits between its limits",
  input: z.object({
    mean: finite,
    sd: z.number().min(1e-100).max(1e100),
    low: finite.optional(),
    high: finite.optional(),
    n: z.number().int().min(3).max(1e9).optional().describe("Pieces behind mean and spread; with it, 95 % intervals."),
  }),
  output: z.object({
    cp: held.optional().describe("Room between both limits over six standard deviations."),
    cpk: held.describe("Room to the nearer limit over three standard deviations."),
    cpLow: z.number().optional(),
    cpHigh: z.number().optional(),
    notes: z.array(z.string()),
  }),
  compute(made) {
    const found = capability(made);
    return {
      ...found,
      notes: [
        ...(made.n === undefined ? ["Without the number of pieces there is no interval, and so no judgement."] : []),
        ...(found.cpk.low !== undefined && found.cpk.low < 1 && found.cpk.value > 1
          ? ["The interval reaches below 1: more pieces would decide whether three spreads fit."]
          : []),
      ],
    };
  },
  formula: ["cp = (high − low)/6s, cpk = min((high − mean)/3s, (mean − low)/3s)"],
  sources: ["NIST/SEMATECH e-Handbook of Statistical Methods, section 6.1.6 (figures read)"],
  validity: "A process in control whose pieces are about normal.",
  cautions: [],
  example: { mean: 74.00118, sd: 0.009785, low: 73.95, high: 74.05, n: 125 },
});
