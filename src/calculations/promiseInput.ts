import { z } from "zod";

/** The shop as it stands, with all that is open in it: what dates are promised from. */

export const name = z.string().min(1).max(200);
export const instant = z.string().max(80).describe("ISO 8601 with its offset, 2026-12-04T17:00:00+01:00.");
export const odds = z.number().meta({ minimum: 0, exclusiveMaximum: 1 });

export const hours = z
  .object({ fast: z.number(), usual: z.number(), slow: z.number() })
  .describe("Hours: the fastest, the usual and the slowest; all equal means fixed.");
export const days = z
  .object({ fast: z.number(), usual: z.number(), slow: z.number() })
  .describe("Days of 24 hours from ordering to arrival; all equal means fixed.");

const step = z.object({
  step: name,
  skill: name.optional().describe("What a person must be able to do; left out, no person is needed."),
  place: name.optional(),
  hours,
  unattended: z.boolean().optional().describe("Runs by the clock, without a person."),
  failOdds: odds.optional().describe("Share of units that fail at the end of this step."),
  onFail: z
    .object({
      back: name.optional().describe("Step from which work is done again; left out, this step."),
      repair_h: z.number().optional(),
    })
    .optional(),
  failsOnce: z.boolean().optional().describe("A unit fails here for certain the first time it comes."),
});

export const person = z.object({
  id: name,
  skills: z.array(name).max(500),
  calendar: name,
  away: z
    .array(z.object({ from: z.string().max(40), to: z.string().max(40) }))
    .max(500)
    .optional()
    .describe("Days this person does not work, both ends included, 2027-03-08 to 2027-03-12."),
});

export const order = z.object({
  id: name,
  model: name,
  units: z.number().describe("How many; each goes through its route alone."),
  route: z
    .array(name)
    .max(5000)
    .optional()
    .describe("A route for each unit, where work has begun; left out, the model's own."),
  due: instant.optional(),
  released: instant.optional(),
});

export const promiseInput = z.object({
  now: instant,
  timeZone: name
    .optional()
    .describe("IANA name, Europe/Paris; left out, times of day keep the offset of now, without daylight saving."),
  calendars: z
    .record(
      name,
      z.object({
        week: z
          .partialRecord(z.enum(["mon", "tue", "wed", "thu", "fri", "sat", "sun"]), z.array(z.string()).max(48))
          .describe('Hours at work, {"mon":["08:00-12:00","13:00-17:00"]}.'),
        closed: z.array(z.string()).max(10_000).optional().describe("Dates without work, 2027-01-01."),
        timeZone: name.optional().describe("IANA name, for people elsewhere; left out, the shop's zone."),
      }),
    )
    .describe("Working hours by name."),
  people: z.array(person).max(500),
  places: z
    .array(
      z.object({
        id: name,
        kind: z.enum(["single", "batch"]).describe("Each unit on its own, or several together behind one door."),
        capacity: z.number().optional().describe("Units it holds; 1 if left out."),
        cycle_h: z
          .number()
          .optional()
          .describe("Hours of one run of a batch place; left out, the longest of its units'."),
        busy: z
          .array(z.object({ slots: z.number(), until: instant }))
          .max(1000)
          .optional()
          .describe("What stands in it already; a batch place is shut until the last of it comes out."),
      }),
    )
    .max(500),
  routes: z.record(name, z.array(step).max(500)).describe("Steps in order, by model."),
  parts: z
    .array(
      z.object({
        id: name,
        model: name,
        step: name,
        lead_days: days,
        ordered: instant.optional(),
        orders: z
          .array(name)
          .max(5000)
          .optional()
          .describe("Orders it was bought for; left out, every order of the model waits for it."),
      }),
    )
    .max(2000)
    .optional(),
  orders: z.array(order).max(5000),
  runs: z.number().int().min(1).describe("2000 settle the dates well."),
  allowOverdue: z
    .boolean()
    .optional()
    .describe("Take a due date before now as most urgent, and say so, instead of refusing it."),
  seed: z.union([z.number(), z.string().max(200)]).describe("The same seed gives the same answer."),
});
