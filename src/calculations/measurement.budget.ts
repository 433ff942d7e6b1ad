import { z } from "zod";
import { budget } from "../measurement/index.ts";
import { calculation } from "./calculation.ts";

const finite = z.number().min(-1e100).max(1e100);

export default calculation({
  name: "measurement.budget",
  title: "What each component brings into the doubt of a result",
  input: z.object({
    value: finite.optional().describe("The result, only to be repeated beside its doubt."),
    components: z
      .array(
        z.object({
          name: z.string().min(1).max(120),
          standard: z
            .number()
            .min(0)
            .max(1e100)
            .optional()
            .describe("Standard deviation, in the component's own unit."),
          halfWidth: z.number().min(0).max(1e100).optional().describe("A bound, meant as `shape` says."),
          shape: z
            .enum(["rectangular", "triangular", "arcsine", "doubt"])
            .optional()
            .describe("rectangular: only the bound is known; doubt: a 95 % half-width."),
          readings: z.array(finite).min(2).max(10_000).optional().describe("Repeated readings; their mean enters."),
          sensitivity: finite.optional().describe("Change of the result per change of this; 1 if left out."),
          freedom: z.number().min(1).max(1e9).optional().describe("Degrees of freedom; left out, known well."),
        }),
      )
      .min(1)
      .max(200)
      .describe("Each told in one way: `standard`, `halfWidth` with `shape`, or `readings`."),
    correlations: z
      .array(z.object({ between: z.tuple([z.string(), z.string()]), r: z.number().min(-1).max(1) }))
      .max(1000)
      .optional(),
    confidence_pct: z.number().min(50).max(99.9).optional().describe("95 if left out."),
  }),
  output: z.object({
    value: z.number().optional(),
    standard: z.number().describe("Combined standard uncertainty."),
    freedom: z.number().optional().describe("Effective degrees of freedom; left out where all is known well."),
    factor: z.number(),
    doubt: z.number().describe("Half-width of the result: factor times standard."),
    lines: z
      .array(z.object({ name: z.string(), standard: z.number(), contribution: z.number(), share_pct: z.number() }))
      .describe("Largest contribution first."),
    notes: z.array(z.string()),
  }),
  compute({ value, components, correlations, confidence_pct }) {
    const found = budget(components, correlations, confidence_pct);
    const first = found.lines[0]!;
    return {
      ...(value === undefined ? {} : { value }),
      ...found,
      lines: [...found.lines],
      notes: [
        found.standard === 0
          ? "No component brings any spread."
          : `${first.name} brings ${Math.round(first.share_pct)} % of the variance: only a smaller one there makes the result much surer.`,
        ...(found.freedom !== undefined && found.freedom < 10
          ? [
              `Only ${Math.floor(found.freedom)} effective degrees of freedom: the factor is ${found.factor.toFixed(2)}, not 1.96.`,
            ]
          : []),
        ...(correlations?.length ? ["With correlations the shares of the variance need not make 100."] : []),
      ],
    };
  },
  formula: [
    "u² = Σᵢ (cᵢuᵢ)² + 2·Σᵢ<ⱼ cᵢcⱼ·rᵢⱼ·uᵢuⱼ law of propagation",
    "ν = u⁴/Σ (cᵢuᵢ)⁴/νᵢ Welch and Satterthwaite",
    "doubt = t(ν cut to a whole number)·u",
  ],
  sources: [
    "JCGM 100:2008, Guide to the expression of uncertainty in measurement, clauses 4.3, 5.1.2, 5.2.2, G.4.1 (from memory; examples H.1 and H.2 read in public test files)",
  ],
  validity:
    "First order: the result may be taken as straight within the doubts of its components. Effective degrees of freedom are cut to a whole number, as the guide allows.",
  cautions: [],
  example: {
    value: 0.1003,
    components: [
      { name: "reference resistor", halfWidth: 0.0002, shape: "doubt" },
      { name: "meter, last digit", halfWidth: 0.00005, shape: "rectangular" },
      { name: "repeated readings", readings: [0.1003, 0.1004, 0.1002, 0.1003, 0.1005] },
    ],
  },
});
