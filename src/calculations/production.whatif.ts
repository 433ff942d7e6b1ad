import { z } from "zod";
import { whatIfWork } from "../production/index.ts";
import { calculation } from "./calculation.ts";
import promise from "./production.promise.ts";
import { hours, instant, name, odds, order, person, promiseInput } from "./promiseInput.ts";
import { takenInTurns } from "./takenInTurns.ts";

const date = z.string().max(40).describe("A date, 2027-03-08.");

const change = z.discriminatedUnion("kind", [
  z.object({
    kind: z.literal("place"),
    place: name,
    slots: z.number().optional().describe("Slots more, or below zero fewer: another plate is 1."),
    cycle_h: z.number().optional().describe("Another length of a run."),
  }),
  z.object({ kind: z.literal("holiday"), date, calendar: name.optional().describe("Left out, nobody works.") }),
  z.object({ kind: z.literal("rush"), order }),
  z.object({
    kind: z.literal("due"),
    order: name,
    due: instant.optional().describe("Another due date, and so another urgency; left out, none."),
  }),
  z.object({
    kind: z.literal("fail"),
    order: name,
    unit: z.number().optional().describe("Which of its units fails, from 0; 0 if left out."),
    step: name,
  }),
  z.object({ kind: z.literal("late"), part: name, days: z.number().describe("Days later, or below zero sooner.") }),
  z.object({ kind: z.literal("away"), person: name, from: date, to: date }),
  z.object({ kind: z.literal("hands"), person: person.describe("Another pair of hands.") }),
  z.object({
    kind: z.literal("hours"),
    step: name,
    hours,
    route: name.optional().describe("One route alone; left out, all that have the step."),
  }),
  z.object({ kind: z.literal("odds"), step: name, failOdds: odds, route: name.optional() }),
]);

const dates = z.object({ p50: z.string(), p80: z.string(), p95: z.string() });

export default calculation({
  name: "production.whatif",
  title: "What another plate, a holiday, a rush order, a failed unit or a late part does to every date",
  input: promiseInput.extend({
    changes: z.array(change).min(1).max(100).describe("What is otherwise, one after the other."),
  }),
  output: z.object({
    orders: z.array(
      z.object({
        id: z.string(),
        before: dates.optional().describe("Left out for an order that only the changed shop has."),
        after: dates,
        shift_h: z
          .number()
          .optional()
          .describe("80 % date after less before, hours of the clock, weighed over the runs near it."),
        low_h: z.number().optional().describe("95 % interval of the shift."),
        high_h: z.number().optional(),
        mean_h: z.number().optional().describe("Mean of the same difference, run against run."),
        moves: z
          .enum(["earlier", "later", "silent", "new"])
          .describe("Silent when the interval holds zero; new for an order that only the changed shop has."),
      }),
    ),
    earlier: z.array(z.string()),
    later: z.array(z.string()),
    overall: z
      .object({ shift_h: z.number(), low_h: z.number(), high_h: z.number() })
      .optional()
      .describe("Mean shift of the 80 % dates of all orders that both shops have, with its 95 % interval."),
    notes: z.array(z.string()),
  }),
  async compute({ changes, ...input }, surroundings) {
    const work = whatIfWork(input, changes);
    await takenInTurns(work, surroundings, "letting both shops run");
    const { orders, earlier, later, overall, notes } = work.answer();
    return {
      orders: orders.map((one) => ({ ...one })),
      earlier: [...earlier],
      later: [...later],
      ...(overall && { overall: { ...overall } }),
      notes: [...notes],
    };
  },
  sources: [
    "Common random numbers: S. Asmussen and P. Glynn, Stochastic Simulation (2007), chapter V (from memory)",
    "Interval by drawing the runs again: B. Efron, Bootstrap methods: another look at the jackknife, Annals of Statistics 7 (1979) 1-26; a quantile weighed over the values near it: F. E. Harrell and C. E. Davis, Biometrika 69 (1982) 635-640 (both from memory)",
    "Discrete-event simulation of a job shop with people, batch places and rework: common practice",
  ],
  validity:
    "As production.promise, both shops run with the same luck: each unit draws the same hours and fails. Each order's interval stands by itself: of 20 orders that a change does not really move, about one may be said to move. At least 200 runs.",
  cautions: promise.cautions,
  example: {
    ...promise.example,
    changes: [{ kind: "place", place: "audio bench", slots: 1 }],
  },
});
