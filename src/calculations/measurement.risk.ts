import { z } from "zod";
import { decisionRisk, guardFor } from "../measurement/index.ts";
import { calculation } from "./calculation.ts";

const finite = z.number().min(-1e12).max(1e12);
const share = z.number().min(0).max(1);

export default calculation({
  name: "measurement.risk",
  title: "What a guard band lets through and turns away, over many pieces",
  input: z.object({
    mean: finite.describe("Of true values over many pieces."),
    sd: z.number().min(1e-12).max(1e12).describe("Spread of true values over many pieces."),
    shape: z
      .enum(["normal", "gamma"])
      .optional()
      .describe("How true values spread: normal if left out; gamma for what can't go below zero, such as a leakage."),
    doubt: z.number().min(0).max(1e12).describe("95 % half-width of one reading."),
    low: finite.optional(),
    high: finite.optional(),
    guard: finite.optional().describe("How far inside a limit a reading must lie; one doubt if left out."),
    falseAccept: z
      .number()
      .min(1e-9)
      .max(0.5)
      .optional()
      .describe("Share of pieces that may be wrongly accepted; with it, the guard band that keeps it."),
  }),
  output: z.object({
    outside: share.describe("Share of pieces that are outside the limits."),
    falseAccept: share.describe("Share of all pieces outside and accepted: the customer's risk."),
    falseReject: share.describe("Share of all pieces inside and turned away: the workshop's risk."),
    accepted: share,
    guard: z.number().describe("Used for these shares."),
    guardFor: z.number().optional().describe("Least guard band, 0 or more, that keeps the share asked for."),
    notes: z.array(z.string()),
  }),
  compute({ falseAccept, guard: given, ...inspection }) {
    const guard = given ?? inspection.doubt;
    return {
      ...decisionRisk({ ...inspection, guard }),
      guard,
      ...(falseAccept === undefined ? {} : { guardFor: guardFor(inspection, falseAccept) }),
      notes: [
        inspection.shape === "gamma"
          ? "True values are taken as gamma, none below zero, and readings as normal about them."
          : "True values and readings are taken as normal.",
      ],
    };
  },
  formula: [
    "accepted(x) = Φ((high − guard − x)/u) − Φ((low + guard − x)/u), u = doubt/1.96",
    "falseAccept = ∫ outside p(x)·accepted(x) dx, falseReject = ∫ inside p(x)·(1 − accepted(x)) dx",
  ],
  sources: [
    "JCGM 106:2012, clause 9.5, consumer's and producer's risk (from memory; example 9.5.4 as a public library works it)",
  ],
  validity: "A steady process whose values spread as normal or gamma. For one piece in hand, see measurement.guard.",
  cautions: [],
  example: { mean: 0, sd: 0.12, doubt: 0.0784, low: -0.2, high: 0.2, falseAccept: 0.001 },
});
