import { z } from "zod";
import { keeping, readInstant } from "../production/index.ts";
import { calculation } from "./calculation.ts";
import { instant, name } from "./promiseInput.ts";

export default calculation({
  name: "production.kept",
  title: "Whether promised dates were kept as often as was said",
  input: z.object({
    promises: z
      .array(
        z.object({
          order: name,
          share_pct: z.number().describe("How often such dates were said to be kept, 80 for four in five."),
          date: instant.describe("The date given."),
          done: instant.describe("When the order was done."),
          group: name.optional().describe("Counted apart; left out, all go together."),
        }),
      )
      .min(1)
      .max(100_000),
  }),
  output: z.object({
    groups: z.array(
      z.object({
        group: z.string().optional(),
        share_pct: z.number(),
        made: z.int(),
        kept: z.int(),
        kept_pct: z.number(),
        low_pct: z.number().describe("95 % interval of the share kept."),
        high_pct: z.number(),
        state: z
          .enum(["holds", "too early", "too late", "undecided"])
          .describe("Undecided while the interval holds the share said and reaches more than 10 % from it."),
        shift_days: z.number().describe("By which dates should have been later for the share said to hold."),
        shiftLow_days: z
          .number()
          .optional()
          .describe("95 % interval; an end is left out where so few promises set none."),
        shiftHigh_days: z.number().optional(),
      }),
    ),
    notes: z.array(z.string()),
  }),
  compute({ promises }) {
    const groups = keeping(
      promises.map(({ order, share_pct, date, done, group }, i) => ({
        order,
        share_pct,
        date_ms: readInstant(date, `promises[${i}].date`),
        done_ms: readInstant(done, `promises[${i}].done`),
        ...(group !== undefined && { group }),
      })),
    );
    return {
      groups: groups.map((one) => ({ ...one })),
      notes: [
        "The interval takes promises as independent; those of the same weeks share the shop's luck, so that it is rather too narrow.",
      ],
    };
  },
  formula: ["low = B(0.025; k, n − k + 1), high = B(0.975; k + 1, n − k) for k of n kept"],
  sources: [
    "C. Clopper and E. Pearson, The use of confidence or fiducial limits, Biometrika 26 (1934) 404-413 (from memory)",
    "Order statistics of a binomial count: H. A. David and H. N. Nagaraja, Order Statistics (from memory)",
  ],
  validity:
    "Orders that are done; a date is kept when the order was done by that instant. The interval of shift_days ends at orders there were; with few promises, or dates of 95 %, no order was late enough to end it, and that end is left out.",
  cautions: [],
  example: {
    promises: [3, -1, -4, -2, 6, -3, -5, 0, -2, 1].map((late, i) => ({
      order: `order ${i + 1}`,
      share_pct: 80,
      date: `2026-0${1 + (i % 8)}-15T17:00:00Z`,
      done: `2026-0${1 + (i % 8)}-${15 + late < 10 ? "0" : ""}${15 + late}T15:00:00Z`,
    })),
  },
});
