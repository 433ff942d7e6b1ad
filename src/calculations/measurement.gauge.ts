import { z } from "zod";
import { gaugeStudy } from "../measurement/index.ts";
import { calculation } from "./calculation.ts";

const name = z.string().min(1).max(200);
const interval = z.object({ low: z.number(), high: z.number() });

export default calculation({
  name: "measurement.gauge",
  title: "How much of a reading is the instrument and the hands that hold it",
  input: z.object({
    readings: z
      .array(z.object({ part: name, operator: name, value: z.number().min(-1e100).max(1e100) }))
      .min(1)
      .max(50_000)
      .describe("Every part read equally often, twice or more, by every operator."),
    tolerance: z
      .number()
      .positive()
      .max(1e100)
      .optional()
      .describe("Width from the lower to the upper limit, same unit."),
  }),
  output: z.object({
    state: z.enum(["solved", "undecided"]),
    reason: z.string().optional().describe("Why nothing can be said."),
    repeatability_sd: z.number().describe("Same part, same hands."),
    reproducibility_sd: z.number().describe("Between operators, their interaction with parts included."),
    gauge_sd: z.number().describe("Both together."),
    part_sd: z.number().describe("Between parts."),
    total_sd: z.number(),
    gauge_pct: z.number().optional().describe("100·gauge_sd over the total; left out where all readings are equal."),
    tolerance_pct: z.number().optional().describe("600·gauge_sd over the tolerance."),
    interaction: z.object({
      p: z.number().min(0).max(1),
      pooled: z.boolean().describe("Taken as chance and counted as repeatability."),
    }),
    interval: z
      .object({
        repeatability_sd: interval,
        reproducibility_sd: interval,
        gauge_sd: interval,
        part_sd: interval,
        gauge_pct: interval.optional(),
        tolerance_pct: interval.optional(),
      })
      .describe("95 %."),
    doubt: z.object({
      repeatability_sd: z.number(),
      reproducibility_sd: z.number(),
      gauge_sd: z.number(),
      part_sd: z.number(),
    }),
    notes: z.array(z.string()),
  }),
  compute({ readings, tolerance }) {
    const study = gaugeStudy(readings, tolerance);
    const isBlind = study.gauge_pct === undefined;
    const operators = new Set(readings.map(({ operator }) => operator)).size;
    return {
      state: isBlind ? ("undecided" as const) : ("solved" as const),
      ...(isBlind
        ? { reason: "All readings are equal: read parts that differ, or with an instrument of a finer step." }
        : {}),
      ...study,
      notes: [
        study.interaction.pooled
          ? "The interaction of operators and parts is no more than chance (p over 0.25) and is pooled into repeatability."
          : "Operators differ by part: that interaction counts as reproducibility.",
        ...(operators < 5 ? [`Reproducibility rests on ${operators} operators only; its doubt is wide.`] : []),
        "As a guide of common practice, under 10 % is good, over 30 % needs a better instrument or method.",
      ],
    };
  },
  formula: [
    "repeatability² = MSe (with the interaction pooled in where its p > 0.25)",
    "reproducibility² = (MSo − MSi)/(p·r) + (MSi − MSe)/r (pooled: (MSo − MSe)/(p·r))",
    "part² = (MSp − MSi)/(o·r) (pooled: (MSp − MSe)/(o·r))",
    "gauge_pct = 100·gauge/total, tolerance_pct = 600·gauge/tolerance",
  ],
  sources: [
    "AIAG, Measurement Systems Analysis, 4th edition, chapter III, ANOVA method (worked figures read in public test files)",
    "M. Hamada and S. Weerahandi, Journal of Quality Technology 32 (2000) 241-253, intervals (from memory)",
  ],
  validity:
    "Crossed and balanced studies with about normal scatter, parts that stay as they are, and operators blind to earlier readings.",
  cautions: [],
  example: {
    readings: [
      { part: "T-1", operator: "bench", value: 9.02 },
      { part: "T-1", operator: "bench", value: 9.05 },
      { part: "T-1", operator: "store", value: 9.08 },
      { part: "T-1", operator: "store", value: 9.06 },
      { part: "T-2", operator: "bench", value: 8.4 },
      { part: "T-2", operator: "bench", value: 8.37 },
      { part: "T-2", operator: "store", value: 8.44 },
      { part: "T-2", operator: "store", value: 8.45 },
    ],
    tolerance: 1,
  },
});
