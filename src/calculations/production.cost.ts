import { z } from "zod";
import { unitCost } from "../production/index.ts";
import { calculation } from "./calculation.ts";

const name = z.string().min(1).max(200);
const whole = z.number().int().min(0).max(1e12);
const spread = z.object({ fast: z.number().min(0), usual: z.number().min(0), slow: z.number().min(0).max(1e5) });
const spent = {
  mean_cents: z.number().int(),
  p05_cents: z.number().int(),
  p50_cents: z.number().int(),
  p80_cents: z.number().int(),
  p95_cents: z.number().int(),
};

export default calculation({
  name: "production.cost",
  title: "What a unit costs, as a distribution, and what is left of its price",
  input: z.object({
    parts: z
      .array(
        z.object({
          part: name,
          count: z.number().int().min(1).max(10_000),
          cost_cents: whole,
          scrap: z.number().min(0).max(0.95).optional().describe("Share thrown away before one is good."),
        }),
      )
      .max(2000),
    steps: z
      .array(
        z.object({
          step: name,
          skill: name,
          hours: spread,
          rework: z
            .object({
              odds: z.union([
                z.number().min(0).max(0.99),
                z.object({
                  found: z.number().int().min(0).max(1e9),
                  of: z.number().int().min(0).max(1e9),
                  guess: z.number().min(0).max(1).optional(),
                  weight: z.number().positive().max(10_000).optional(),
                }),
              ]),
              hours: z.number().min(0).max(1e5).describe("Putting right, before it is done again."),
              parts_cents: whole.optional(),
            })
            .optional(),
        }),
      )
      .max(500),
    hour_cents: z.record(name, z.number().min(0).max(1e9)).describe("By skill."),
    price_cents: whole.optional(),
    currency: z.string().regex(/^[A-Z]{3}$/),
    runs: z.number().int().min(100).max(20_000).optional(),
    seed: z.union([z.number(), z.string().max(200)]).optional(),
  }),
  output: z.object({
    currency: z.string(),
    cost: z.object(spent),
    parts: z.object(spent),
    work: z.object(spent).describe("Hands, the first time through."),
    rework: z.object(spent).describe("Hands and parts of doing again."),
    scrap: z.object(spent).describe("Parts thrown away."),
    bySkill: z.array(z.object({ skill: z.string(), mean_h: z.number(), mean_cents: z.number().int() })),
    margin: z.object({ ...spent, oddsOfLoss: z.number() }).optional(),
    doubt: z.object({ mean_cents: z.number() }).describe("95 % half-width of the mean, from the number of runs."),
    notes: z.array(z.string()),
  }),
  compute({ currency, ...input }) {
    const found = unitCost(input);
    return {
      currency,
      ...found,
      bySkill: [...found.bySkill],
      notes: [
        "Whole minor units. Rent, tools and carriage are in the hourly rates or nowhere.",
        ...(found.margin && found.margin.oddsOfLoss > 0.05
          ? [`One unit in ${Math.round(1 / found.margin.oddsOfLoss)} is sold at a loss.`]
          : []),
      ],
    };
  },
  formula: [
    "mean of a part = count·cost/(1 − s)",
    "mean of a step = rate·(h + p/(1 − p)·(h + repair)) + p/(1 − p)·parts",
  ],
  sources: ["Sums of drawn times and counted repeats (own arithmetic; means checked against closed form)"],
  validity: "Steps take their time independently; what fails is put right and done again until it passes.",
  cautions: [],
  example: {
    parts: [
      { part: "mains transformer", count: 1, cost_cents: 14500 },
      { part: "6SN7GT", count: 1, cost_cents: 3200, scrap: 0.15 },
    ],
    steps: [
      {
        step: "wiring",
        skill: "wiring",
        hours: { fast: 7, usual: 9, slow: 13 },
        rework: { odds: { found: 4, of: 44 }, hours: 1 },
      },
      { step: "case", skill: "wood", hours: { fast: 5, usual: 7, slow: 10 }, rework: { odds: 0.05, hours: 2 } },
    ],
    hour_cents: { wiring: 5200, wood: 4800 },
    price_cents: 190000,
    currency: "EUR",
  },
});
