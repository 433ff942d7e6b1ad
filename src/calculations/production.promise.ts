import { z } from "zod";
import { promise } from "../production/index.ts";
import { calculation } from "./calculation.ts";

const name = z.string().min(1).max(200);
const instant = z.string().max(80).describe("ISO 8601 with its offset, 2026-12-04T17:00:00+01:00.");
const odds = z.number().meta({ minimum: 0, exclusiveMaximum: 1 });

const hours = z
  .object({ fast: z.number(), usual: z.number(), slow: z.number() })
  .describe("Hours: the fastest, the usual and the slowest; all equal means fixed.");
const days = z
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
});

export default calculation({
  name: "production.promise",
  title: "Dates that each open order will keep, what holds it, and when to order parts",
  input: z.object({
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
        }),
      )
      .describe("Working hours by name."),
    people: z.array(z.object({ id: name, skills: z.array(name).max(500), calendar: name })).max(500),
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
        }),
      )
      .max(500),
    routes: z.record(name, z.array(step).max(500)).describe("Steps in order, by model."),
    parts: z
      .array(z.object({ id: name, model: name, step: name, lead_days: days, ordered: instant.optional() }))
      .max(2000)
      .optional(),
    orders: z
      .array(
        z.object({
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
        }),
      )
      .max(5000),
    runs: z.number().int().min(1).describe("2000 settle the dates well."),
    allowOverdue: z
      .boolean()
      .optional()
      .describe("Take a due date before now as most urgent, and say so, instead of refusing it."),
    seed: z.union([z.number(), z.string().max(200)]).describe("The same seed gives the same answer."),
  }),
  output: z.object({
    orders: z.array(
      z.object({
        id: z.string(),
        p50: z.string().describe("The instant by which half of the runs have the order done."),
        p80: z.string(),
        p95: z.string(),
        heldBy: z.string().describe("Person, place or part most often the longest wait; else the longest step."),
        heldShare: z.number().describe("Share of the runs in which it was."),
        onTime: z.number().optional().describe("Share of the runs done by the due date."),
        doubt_h: z.object({ p50: z.number(), p80: z.number(), p95: z.number() }),
      }),
    ),
    orderBy: z.array(z.object({ part: z.string(), order: z.string(), by: z.string() })),
    load: z.array(z.object({ place: z.string(), share: z.number() })),
    hands: z.array(z.object({ person: z.string(), share: z.number() })),
    notes: z.array(z.string()),
  }),
  compute(input, { progress }) {
    const result = promise(input, { progress: (share) => progress?.(share, "letting the shop run") });
    return {
      orders: result.orders.map((order) => ({ ...order })),
      orderBy: [...result.orderBy],
      load: [...result.load],
      hands: [...result.hands],
      notes: [...result.notes],
    };
  },
  sources: [
    "Discrete-event simulation of a job shop with people, batch places and rework: common practice",
    "Doubt of a quantile from order statistics of a binomial count: H. A. David and H. N. Nagaraja, Order Statistics (from memory)",
  ],
  validity:
    "Greedy work by urgency: at each instant all that ends is ended first, then waiting units begin, most urgent first. Times and delays from triangles, all luck independent. At most 20 years ahead. Sickness, new orders and returns are not foreseen.",
  cautions: ["A date gives nobody the right to hurry a safety test: what voids a proof adds its retest to the route."],
  example: {
    now: "2026-11-25T08:00:00+01:00",
    timeZone: "Europe/Paris",
    calendars: {
      bench: {
        week: {
          mon: ["08:00-12:00", "13:00-17:00"],
          tue: ["08:00-12:00", "13:00-17:00"],
          wed: ["08:00-12:00", "13:00-17:00"],
          thu: ["08:00-12:00", "13:00-17:00"],
          fri: ["08:00-12:00"],
        },
        closed: ["2026-12-25", "2027-01-01"],
      },
    },
    people: [
      { id: "builder", skills: ["wire", "case"], calendar: "bench" },
      { id: "tester", skills: ["test", "wire"], calendar: "bench" },
    ],
    places: [
      { id: "heat rack", kind: "batch", capacity: 4, cycle_h: 48 },
      { id: "audio bench", kind: "single" },
    ],
    routes: {
      Preamplifier: [
        { step: "wire", skill: "wire", hours: { fast: 6, usual: 8, slow: 14 } },
        { step: "heat run", place: "heat rack", hours: { fast: 48, usual: 48, slow: 48 } },
        {
          step: "measure",
          skill: "test",
          place: "audio bench",
          hours: { fast: 1, usual: 1.5, slow: 3 },
          failOdds: 0.12,
          onFail: { back: "heat run", repair_h: 2 },
        },
        { step: "case", skill: "case", hours: { fast: 3, usual: 4, slow: 6 } },
      ],
    },
    parts: [
      {
        id: "output transformers",
        model: "Preamplifier",
        step: "wire",
        lead_days: { fast: 7, usual: 10, slow: 21 },
        ordered: "2026-11-18T09:00:00+01:00",
      },
      { id: "case plates", model: "Preamplifier", step: "case", lead_days: { fast: 4, usual: 5, slow: 9 } },
    ],
    orders: [
      { id: "order 12", model: "Preamplifier", units: 1, due: "2026-12-18T17:00:00+01:00" },
      { id: "order 13", model: "Preamplifier", units: 2 },
    ],
    runs: 1000,
    seed: 12,
  },
});
