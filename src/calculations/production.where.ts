import { z } from "zod";
import { shorterChecks, whereChecks } from "../production/index.ts";
import { calculation } from "./calculation.ts";

const name = z.string().min(1).max(200);
const cents = z.number().min(0).max(1e12);
const check = {
  check: name,
  stage: name,
  cost_cents: cents.describe("Of making it once."),
  finds: z.record(name, z.number().min(0).max(1)).describe("Sort of fault to the odds that it is found."),
};
const proposal = z.object({
  what: z.enum(["move", "add", "drop"]),
  check: z.string(),
  from: z.string().optional(),
  to: z.string().optional(),
  saving_cents: z.number().int().describe("A unit, on average."),
  low_cents: z.number().int(),
  high_cents: z.number().int(),
  units: z.number().int().describe("Units whose faults would have been found elsewhere."),
  state: z.enum(["saves", "costs", "undecided"]),
});

export default calculation({
  name: "production.where",
  title: "Where each check belongs: moved earlier, added, shortened or dropped",
  input: z.object({
    stages: z
      .array(z.object({ stage: name, found_cents: cents.describe("Mean cost of a fault found here.") }))
      .min(2)
      .max(60)
      .describe("In the order of work; the last is the customer."),
    checks: z
      .array(
        z.object({
          ...check,
          fixed: z.boolean().optional(),
          earliest: name.optional().describe("First stage at which it could be made."),
        }),
      )
      .max(60),
    candidates: z.array(z.object(check)).max(60).optional().describe("Checks not made today."),
    units: z.number().int().min(1).max(1e6).describe("Units looked back at, with and without faults."),
    faults: z
      .array(
        z.object({
          unit: name,
          fault: name.describe("Its sort."),
          possible: name.describe("First stage at which a check could have shown it."),
          found: name,
          cost_cents: cents.describe("What it really cost."),
        }),
      )
      .max(20_000),
    lengths: z
      .array(
        z.object({
          check: name,
          length: z.number().positive().max(1e6).describe("Today, in hours or in readings."),
          step: z.number().positive().max(1e6).describe("By so much it can be made shorter at a time."),
          cents_per_step: cents.describe("What a step of it costs a piece."),
          pieces: z.number().int().min(1).max(1e6).describe("That went through the whole length."),
          shown: z
            .array(z.object({ by: z.number().min(0), later_cents: z.number().min(-1e12).max(1e12) }))
            .max(20_000)
            .describe("By when each fault showed, and how much dearer it is where it would be found instead."),
        }),
      )
      .max(60)
      .optional()
      .describe("Checks that take a length, such as hours on a plate or repeated readings."),
    seed: z.union([z.number(), z.string().max(200)]).optional(),
    all: z.boolean().optional().describe("Lists undecided proposals too; else they are only counted."),
  }),
  output: z.object({
    saves: z.array(proposal).describe("What saves by its whole interval, the surest first."),
    rest: z.array(proposal).optional(),
    shorter: z
      .array(
        z.object({
          check: z.string(),
          from: z.number(),
          to: z.number(),
          saving_cents: z.number().int().describe("A piece, on average."),
          low_cents: z.number().int(),
          high_cents: z.number().int(),
          pieces: z.number().int(),
          missed: z.number().int().describe("Faults that showed in the part left out."),
          shown: z.number().int(),
          state: z.enum(["saves", "costs", "undecided"]),
        }),
      )
      .optional()
      .describe("Of each check in `lengths`, the shorter length surest to pay."),
    silent: z.number().int().describe("Proposals whose interval holds 0: nothing is said of them."),
    today_cents: z.number().int().describe("What faults and checks cost a unit today."),
    notes: z.array(z.string()),
  }),
  compute({ all, lengths, ...placement }) {
    const { saves, rest, today_cents } = whereChecks(placement);
    const silent = rest.filter(({ state }) => state === "undecided").length;
    return {
      saves: [...saves],
      ...(all ? { rest: [...rest] } : {}),
      ...(lengths ? { shorter: [...shorterChecks(lengths, placement.seed)] } : {}),
      silent,
      today_cents,
      notes: [
        "A fault's own cost is scaled by what a fault costs on average where it would have been found.",
        ...(silent > 0 ? [`Of ${silent} more proposals the records do not tell whether they save.`] : []),
        ...(placement.faults.length < 10 ? ["Fewer than ten faults: only large savings can show."] : []),
      ],
    };
  },
  formula: [
    "saving a unit = (Σ over faults of what it cost − what it would have cost)/units − (checks' cost then − now)",
    "saving a piece = (length − t)·cents_per_step/step − (loss of what showed after t)/pieces",
  ],
  sources: [
    "Replay of records; placing of inspection as in G. F. Lindsay and A. B. Bishop, Allocation of screening inspection effort, Management Science 10 (1964) 342-352 (from memory)",
    "Mean loss of few losses: binomial share with Jeffreys' prior, ln-normal size (from memory; coverage counted in the project's tests)",
  ],
  validity:
    "Faults of the past stand for those to come. Odds of finding are taken as known, and a check moved earlier as finding there what it finds where it is.",
  cautions: ["Checks that protect whoever works on are marked fixed, and are neither moved nor dropped."],
  example: {
    stages: [
      { stage: "wiring", found_cents: 3000 },
      { stage: "audio bench", found_cents: 12000 },
      { stage: "customer", found_cents: 90000 },
    ],
    checks: [{ check: "hum", stage: "audio bench", cost_cents: 2600, finds: { "dry joint": 0.7 } }],
    candidates: [{ check: "cold resistances", stage: "wiring", cost_cents: 500, finds: { "dry joint": 0.8 } }],
    units: 60,
    faults: Array.from({ length: 9 }, (_, i) => ({
      unit: `04${10 + i}`,
      fault: "dry joint",
      possible: "wiring",
      found: i < 7 ? "audio bench" : "customer",
      cost_cents: i < 7 ? 9000 + 1000 * i : 80000 + 5000 * i,
    })),
    all: true,
  },
});
