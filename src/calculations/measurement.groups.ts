import { z } from "zod";
import { compareGroups } from "../measurement/index.ts";
import { calculation } from "./calculation.ts";

const square = z.object({ freedom: z.number(), squares: z.number(), meanSquare: z.number() });

export default calculation({
  name: "measurement.groups",
  title: "Whether groups of readings differ by more than their own scatter",
  input: z.object({
    groups: z
      .array(z.array(z.number().min(-1e100).max(1e100)).min(1).max(100_000))
      .min(2)
      .max(1000)
      .describe("Readings by instrument, batch or hand."),
  }),
  output: z.object({
    between: square,
    within: square,
    F: z.number().optional(),
    p: z.number().min(0).max(1).optional().describe("Chance of as much difference, were the groups alike."),
    rSquared: z.number(),
    sd: z.number().describe("Scatter within a group."),
    notes: z.array(z.string()),
  }),
  compute({ groups }) {
    const found = compareGroups(groups);
    return {
      ...found,
      p: found.p === undefined ? undefined : Math.min(1, Math.max(0, found.p)),
      notes: [
        found.p === undefined
          ? "Nothing varies within the groups, so there is no scatter to compare with."
          : found.p <= 0.05
            ? "The groups differ by more than their scatter explains."
            : "No difference shown; that is not the same as none.",
      ],
    };
  },
  formula: ["F = (Σ nᵢ(meanᵢ − mean)²/(k − 1)) / (Σ Σ(x − meanᵢ)²/(n − k)) one-way analysis of variance"],
  sources: ["NIST/SEMATECH e-Handbook, section 3.2.3.1; NIST StRD analysis of variance (figures read)"],
  validity: "Independent readings of about equal scatter in all groups.",
  cautions: [],
  example: {
    groups: [
      [0.125, 0.127, 0.125, 0.126, 0.128],
      [0.118, 0.122, 0.12, 0.124, 0.119],
      [0.123, 0.125, 0.125, 0.124, 0.126],
    ],
  },
});
