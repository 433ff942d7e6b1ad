import { z } from "zod";
import { BadInput } from "../maths/badInput.ts";
import { countChart, groupChart, individualsChart, weightedChart } from "../measurement/index.ts";
import { calculation } from "./calculation.ts";

const finite = z.number().min(-1e100).max(1e100);
const most = 200_000;

const signals = z.array(
  z.object({
    index: z.number().int().describe("Place in the series, from 0."),
    rule: z.enum(["outside", "run"]).describe("outside: beyond the limits; run: nine or more in a row on one side."),
  }),
);

export default calculation({
  name: "measurement.chart",
  title: "Control limits of a series of readings, and what stands out of them",
  input: z.object({
    values: z.array(finite).max(most).optional().describe("Readings, or counts, in the order they were taken."),
    groups: z
      .array(z.array(finite).min(2).max(10))
      .min(2)
      .max(20_000)
      .optional()
      .describe("For kind groups: 2 to 10 readings each, the same number in all."),
    kind: z
      .enum(["individuals", "weighted", "groups", "counts"])
      .describe("weighted: exponentially weighted mean, for small lasting shifts."),
    baseline: z.number().int().min(2).max(most).optional().describe("So many, from the first, give the limits."),
    weight: z.number().min(0.001).max(1).optional().describe("For kind weighted; 0.3 if left out."),
    centre: finite.optional().describe("For kind weighted: the good mean; from the readings if left out."),
    sd: z.number().min(1e-100).max(1e100).optional().describe("For kind weighted: spread of single readings."),
  }),
  output: z.object({
    centre: z.number(),
    low: z.number().describe("Three standard deviations below the centre."),
    high: z.number(),
    sd: z.number().describe("Standard deviation of a single reading."),
    signals,
    doubt: z.object({ centre: z.number(), low: z.number(), high: z.number() }).optional(),
    weighted: z.array(z.number()).optional(),
    means: z.array(z.number()).optional(),
    range: z.object({ centre: z.number(), low: z.number(), high: z.number(), signals }).optional(),
    deviation: z
      .object({ centre: z.number(), low: z.number(), high: z.number(), sd: z.number(), signals })
      .optional()
      .describe("Of the groups' standard deviations."),
    notes: z.array(z.string()),
  }),
  compute({ values, groups, kind, baseline, weight = 0.3, centre, sd }) {
    if (kind === "groups") {
      if (groups === undefined) throw missing("groups");
      const { ranges, means, range, deviation, signals: found, ...chart } = groupChart(groups, baseline);
      return {
        ...chart,
        signals: [...found],
        means: [...means],
        range: { ...range, signals: [...range.signals] },
        deviation: { ...deviation, signals: [...deviation.signals] },
        notes: ["Limits are of the groups' means; `range` holds those of their ranges."],
      };
    }
    if (values === undefined) throw missing("values");
    if (kind === "counts") {
      const chart = countChart(values, baseline);
      return { ...chart, signals: [...chart.signals], notes: ["Counts of like pieces, each rare and by itself."] };
    }
    const single = individualsChart(values, baseline);
    if (kind === "weighted") {
      const drawnFrom = centre === undefined ? (baseline ?? values.length) : baseline;
      const chart = weightedChart(values, weight, centre ?? single.centre, sd ?? single.sd, drawnFrom);
      return {
        ...chart,
        weighted: [...chart.weighted],
        signals: [...chart.signals],
        notes: ["Limits are those the weighted mean settles to; its first values keep well inside them."],
      };
    }
    return {
      ...single,
      signals: [...single.signals],
      notes: [
        "In control, about one reading in 370 lies outside by chance and about one in 250 ends a run of nine.",
        ...((baseline ?? values.length) < 20
          ? [`${baseline ?? values.length} readings make loose limits (see doubt); 20 or more make firm ones.`]
          : []),
        ...(single.sd === 0
          ? ["All readings are equal: the instrument's step is wider than what it should show."]
          : []),
      ],
    };
  },
  formula: [
    "sd = mean of |xᵢ − xᵢ₋₁| / 1.128379, limits = mean ± 3·sd",
    "zᵢ = λ·xᵢ + (1 − λ)·zᵢ₋₁, z₀ = centre, limits = centre ± 3·sd·√(λ/(2 − λ) + 1/drawnFrom)",
    "sd = mean range/d₂(n), means: mean ± 3·sd/√n, ranges: max(0, mean range·(1 − 3·d₃/d₂)) … (1 + 3·d₃/d₂)",
    "limits = mean ± 3·√mean, not under 0",
  ],
  sources: [
    "NIST/SEMATECH e-Handbook of Statistical Methods, sections 6.3.2.2, 6.3.2.4 and 6.3.3.1 (figures read in public test files that quote them)",
    "Means and ranges: D. C. Montgomery, Introduction to Statistical Quality Control, piston rings (figures read)",
    "Nine in a row on one side: common practice",
  ],
  validity:
    "Readings taken alike, one after another, whose scatter is about normal and independent. Slow drift and readings that follow their neighbours give many signals.",
  cautions: [],
  example: { values: [49.6, 47.6, 49.9, 51.3, 47.8, 51.2, 52.6, 52.4, 53.6, 52.1], kind: "individuals" },
});

function missing(field: string): BadInput {
  return new BadInput(field, "nothing", "the series", `give ${field} for this kind of chart`);
}
