import { z } from "zod";
import { mostChecks, mostExact, orderChecks } from "../production/index.ts";
import { calculation } from "./calculation.ts";

const id = z.string().min(1).max(200);

export default calculation({
  name: "production.checks",
  title: "The order of checks that costs least when work stops at the first fail",
  input: z.object({
    checks: z
      .array(
        z.object({
          id,
          cost: z.number().min(0).max(1e12).describe("Minutes or money; the same unit for all."),
          failOdds: z
            .number()
            .min(0)
            .max(1)
            .describe("Share of units that fail here, having passed what stands before."),
          after: z.array(id).max(mostChecks).optional().describe("Checks that must come before this one."),
          fixed: z.boolean().optional().describe("Keeps the position that it has in this list."),
        }),
      )
      .min(1)
      .max(mostChecks)
      .describe("As they are made today: `id`, `cost`, `failOdds`, `after?`, `fixed?`."),
  }),
  output: z.object({
    order: z.array(z.string()),
    expectedCost: z.number().describe("Mean cost of a unit, in the unit of `cost`."),
    optimal: z.boolean().describe("Proven: no allowed order costs less."),
    givenCost: z.number().optional().describe("Mean cost in the order given, where that order is allowed."),
    saving: z.number().optional().describe("What a unit saves on average against the order given."),
    notes: z.array(z.string()),
  }),
  compute({ checks }) {
    const answer = orderChecks(checks);
    const { expectedCost, givenCost, optimal } = answer;
    return {
      ...answer,
      order: [...answer.order],
      ...(givenCost === undefined ? {} : { saving: Math.max(0, givenCost - expectedCost) }),
      notes: [
        "Fails are taken as independent; where two checks find the same fault, give the second the odds that remain after the first has passed.",
        ...(givenCost === undefined ? ["The order given breaks its own `after`, so there is no saving to state."] : []),
        ...(optimal
          ? []
          : [
              `Beyond ${mostExact} checks with rules the order is improved move by move and not proven to be the cheapest.`,
            ]),
        ...(checks.some((check) => check.fixed)
          ? ["Fixed checks keep their place whatever they cost: those that protect the tester belong there."]
          : ["No check is marked fixed: earth bond and withstand, which protect the tester, should be."]),
      ],
    };
  },
  formula: ["E = c₁ + (1 − p₁)·c₂ + (1 − p₁)(1 − p₂)·c₃ + …"],
  sources: [
    "L. G. Mitten, An analytic solution to the least cost testing sequence problem, J. Industrial Engineering 11 (1960) 17 (from memory)",
    "R. Boothroyd, Least-cost testing sequence, Operational Research Quarterly 11 (1960) 137-138 (from memory)",
  ],
  validity: `Checks that stop the unit at its first fail, with independent fails and known odds. Exact up to ${mostExact} checks; repair and repetition after a fail are left out.`,
  cautions: [
    "Safety tests that protect the tester keep their place: earth continuity, then insulation or withstand, before mains power is applied.",
  ],
  example: {
    checks: [
      { id: "visual and earth bond", cost: 4, failOdds: 0.02, fixed: true },
      { id: "insulation and withstand", cost: 5, failOdds: 0.01, after: ["visual and earth bond"] },
      { id: "cold resistances", cost: 6, failOdds: 0.05 },
      {
        id: "heaters and bias",
        cost: 15,
        failOdds: 0.06,
        after: ["insulation and withstand", "cold resistances"],
      },
      { id: "distortion and hum", cost: 30, failOdds: 0.06, after: ["heaters and bias"] },
    ],
  },
});
