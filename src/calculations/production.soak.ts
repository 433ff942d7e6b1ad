import { z } from "zod";
import { soak } from "../production/index.ts";
import { calculation } from "./calculation.ts";

const cents = z.number().min(0).max(1e12);
const saved = z.object({
  hours: z.number(),
  saving_cents: z.number(),
  low_cents: z.number().describe("95 % interval, from curves as likely as the pieces leave them."),
  high_cents: z.number(),
  state: z.enum(["saves", "costs", "undecided"]).describe("undecided where the interval holds 0."),
});

export default calculation({
  name: "production.soak",
  title: "Share of pieces that survive a soak, and the hours that pay",
  input: z.object({
    pieces: z
      .array(
        z.object({
          hours: z.number().min(0).max(1e9).describe("Until it failed, or was last seen good."),
          failed: z.boolean(),
        }),
      )
      .min(1)
      .max(200_000),
    costs: z
      .object({
        hour_cents: cents.describe("One piece soaking for one hour."),
        escape_cents: cents.describe("One fault that gets past the soak: return, repair, carriage."),
        today_h: z.number().min(0).max(1e9).optional().describe("Hours soaked today, to compare with."),
      })
      .optional()
      .describe("With both costs the answer holds the hours that pay."),
  }),
  output: z.object({
    curve: z.array(
      z.object({
        hours: z.number(),
        atRisk: z.number().describe("Pieces still good just before."),
        failures: z.number(),
        survival: z.number().min(0).max(1),
        low: z.number().min(0).max(1).describe("95 % interval."),
        high: z.number().min(0).max(1),
      }),
    ),
    median_h: z.number().optional().describe("First hour with survival at or under one half."),
    hoursThatPay: z.number().optional().describe("Length of soak that saves most on average."),
    saving_cents: z.number().optional().describe("What a soak of that length saves, a piece."),
    againstNone: saved.optional().describe("Those hours against no soak."),
    againstToday: saved.optional().describe("Those hours against today's."),
    notes: z.array(z.string()),
  }),
  compute({ pieces, costs }) {
    const { curve, ...answer } = soak(pieces, costs);
    const failures = curve.reduce((sum, point) => sum + point.failures, 0);
    return {
      curve: [...curve],
      ...answer,
      notes: [
        `${failures} of ${pieces.length} pieces failed; the others count as good up to their last hour.`,
        ...(failures < 10 ? ["Fewer than ten failures: the curve is rough, and its interval says how rough."] : []),
        ...(answer.median_h === undefined
          ? ["More than half survive as far as was watched, so there is no median."]
          : []),
        ...(curve.at(-1)?.survival === 0
          ? ["The last pieces all failed: survival 0 has no interval of its own; from 0 to the bound before it."]
          : []),
        ...(costs === undefined
          ? ["What hours pay depends on costs: give costs.hour_cents and costs.escape_cents."]
          : [
              "Hours that pay count every failure seen as caught and worth catching; they go no further than the last failure seen.",
              "They were chosen on the same pieces that the saving is told of, so it looks a little greater than it will be.",
              ...(answer.againstNone?.state === "undecided" || answer.againstToday?.state === "undecided"
                ? [
                    "An interval that holds 0 decides nothing: keep what is done today until more pieces have been watched.",
                  ]
                : []),
            ]),
      ],
    };
  },
  formula: [
    "S(t) = ∏ (1 − dᵢ/nᵢ) over failure hours tᵢ ≤ t product limit",
    "v(t) = Σ dᵢ/(nᵢ(nᵢ − dᵢ)) / ln²S Greenwood, on the log-log scale",
    "saving(t) = escape·(1 − S(t)) − hour·∫₀ᵗ S greatest at `hoursThatPay`",
  ],
  sources: [
    "E. L. Kaplan and P. Meier, Nonparametric estimation from incomplete observations, J. American Statistical Association 53 (1958) 457-481 (from memory)",
    "M. Greenwood (1926); log-log interval as in Kalbfleisch and Prentice, The Statistical Analysis of Failure Time Data (from memory)",
    "N. L. Hjort, Nonparametric Bayes estimators based on beta processes in models for life history data, Annals of Statistics 18 (1990) 1259-1294 (from memory)",
  ],
  validity:
    "Pieces alike, failing independently, and taken out for reasons that have nothing to do with failing. Nothing is said beyond the last hour watched. Hours that pay are chosen on the same pieces, which flatters them; the interval's lower end allows for it.",
  cautions: [
    "Units and plates on soak are hot and live: keep them guarded, with a limiter that does not depend on the controller.",
  ],
  example: {
    pieces: [
      { hours: 5, failed: true },
      { hours: 6, failed: false },
      { hours: 10, failed: true },
      { hours: 12, failed: false },
    ],
    costs: { hour_cents: 20, escape_cents: 9000 },
  },
});
