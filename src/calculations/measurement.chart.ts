import { z } from "zod";
import { individualsChart } from "../measurement/index.ts";
import { calculation } from "./calculation.ts";

export default calculation({
  name: "measurement.chart",
  title: "Control limits of a series of single readings, and what stands out of them",
  input: z.object({
    values: z
      .array(z.number().min(-1e100).max(1e100))
      .min(2)
      .max(200_000)
      .describe("Readings in the order they were taken."),
    kind: z.literal("individuals"),
  }),
  output: z.object({
    centre: z.number(),
    low: z.number().describe("Three standard deviations below the centre."),
    high: z.number(),
    sd: z.number().describe("Standard deviation from one reading to the next."),
    signals: z.array(
      z.object({
        index: z.number().int().describe("Place in `values`, from 0."),
        rule: z
          .enum(["outside", "run"])
          .describe("outside: beyond the limits; run: nine or more in a row on one side."),
      }),
    ),
    doubt: z.object({ centre: z.number(), low: z.number(), high: z.number() }),
    notes: z.array(z.string()),
  }),
  compute({ values }) {
    const chart = individualsChart(values);
    return {
      ...chart,
      signals: [...chart.signals],
      notes: [
        "In control, about one reading in 370 lies outside by chance and about one in 250 ends a run of nine.",
        ...(values.length < 20
          ? [`${values.length} readings make loose limits (see doubt); 20 or more make firm ones.`]
          : []),
        ...(chart.sd === 0 ? ["All readings are equal: the instrument's step is wider than what it should show."] : []),
      ],
    };
  },
  sources: [
    "NIST/SEMATECH e-Handbook of Statistical Methods, section 6.3.2.2, individuals control charts (figures read in public test files that quote it)",
    "Nine in a row on one side: common practice",
  ],
  validity:
    "Readings taken alike, one after another, whose scatter is about normal and independent. Slow drift and readings that follow their neighbours give many signals.",
  cautions: [],
  example: { values: [49.6, 47.6, 49.9, 51.3, 47.8, 51.2, 52.6, 52.4, 53.6, 52.1], kind: "individuals" },
});
