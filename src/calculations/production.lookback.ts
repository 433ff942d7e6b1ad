import { z } from "zod";
import { lookBack } from "../production/index.ts";
import { calculation } from "./calculation.ts";
import { name } from "./promiseInput.ts";

const cents = z.number().min(0).max(1e12);

export default calculation({
  name: "production.lookback",
  title: "From where faults were found to where they could have been, in hours and money",
  input: z.object({
    stages: z.array(name).min(1).max(1000).describe("In the order of work; the customer last."),
    hour_cents: cents.optional().describe("What an hour of hands costs; left out, money is parts and carriage alone."),
    faults: z
      .array(
        z.object({
          unit: name,
          fault: name.describe("What sort it is."),
          possible: name.describe("First stage at which a check could have shown it."),
          found: name,
          repair_h: z.number().min(0).max(100_000),
          cost_cents: cents.default(0).describe("Parts and carriage."),
        }),
      )
      .max(100_000),
  }),
  output: z.object({
    arrows: z.array(
      z.object({
        fault: z.string(),
        found: z.string(),
        possible: z.string(),
        faults: z.int(),
        units: z.array(z.string()),
        spent_h: z.number(),
        spent_cents: z.number(),
        early: z.int().describe("Of the same sort, found as early as could be."),
        saved_h: z.number().optional().describe("What finding them there would have saved."),
        savedLow_h: z.number().optional().describe("95 % interval."),
        savedHigh_h: z.number().optional(),
        saved_cents: z.number().optional(),
        savedLow_cents: z.number().optional(),
        savedHigh_cents: z.number().optional(),
        state: z.enum(["saves", "silent", "undecided"]),
      }),
    ),
    rungs: z.array(z.object({ stage: z.string(), found: z.int(), possible: z.int(), spent_h: z.number() })),
    faults: z.int(),
    late: z.int(),
    notes: z.array(z.string()),
  }),
  compute({ stages, faults, hour_cents = 0 }) {
    const answer = lookBack(
      stages,
      faults.map((fault) => ({ ...fault, cost_cents: fault.cost_cents + hour_cents * fault.repair_h })),
    );
    return {
      ...answer,
      arrows: answer.arrows.map((arrow) => ({ ...arrow, units: [...arrow.units] })),
      rungs: answer.rungs.map((rung) => ({ ...rung })),
      notes: [
        "An arrow saves when its interval leaves zero out; it is silent when it does not, and undecided while fewer than three of its sort were found late or early.",
        "That those found early are like those found late is taken for granted; the hard ones may be late because they are hard.",
        ...(hour_cents === 0 ? ["Money is parts and carriage alone: give hour_cents to count hands."] : []),
      ],
    };
  },
  formula: ["saved = n·(mean spent on those found late − mean on the same sort found early)"],
  sources: [
    "B. L. Welch, The generalization of Student's problem when several different population variances are involved, Biometrika 34 (1947) 28-35 (from memory)",
  ],
  validity:
    "Faults written down with where they were found and could have been. Whether a check there pays its own minutes is another question.",
  cautions: [],
  example: {
    stages: ["wiring", "test points", "noise", "customer"],
    hour_cents: 4500,
    faults: [
      ...[0.3, 0.4, 0.5, 0.4].map((repair_h, i) => ({
        unit: `030${i}`,
        fault: "dry joint",
        possible: "wiring",
        found: "wiring",
        repair_h,
        cost_cents: 0,
      })),
      ...[4.5, 5.2, 3.9].map((repair_h, i) => ({
        unit: `031${i}`,
        fault: "dry joint",
        possible: "wiring",
        found: "customer",
        repair_h,
        cost_cents: 14_000,
      })),
    ],
  },
});
