import { z } from "zod";
import { mostTasks, planDay } from "../production/index.ts";
import { calculation } from "./calculation.ts";
import { person, promiseInput } from "./promiseInput.ts";

const name = z.string().min(1).max(200);
const instant = z.string().max(80).describe("ISO 8601 with offset.");
const counted = z
  .object({
    found: z.number().int().min(0).max(1e9),
    of: z.number().int().min(0).max(1e9),
    guess: z.number().min(0).max(1).optional().describe("Thought beforehand; 0.1 if left out."),
    weight: z.number().positive().max(10_000).optional().describe("Units that the guess is worth; 10 if left out."),
  })
  .describe("What the shop counted, softened by the guess: (found + guess·weight)/(of + weight).");
const odds = z.union([z.number().min(0).max(1), counted]);
const danger = z.enum(["none", "dust", "hot", "mains", "high-voltage"]);
const hours = z.number().min(0).max(1e6);
const interval = z.object({ odds: z.number(), low: z.number(), high: z.number() });
const worth = {
  saves_h: z.number().describe("Expected hours saved by making it now."),
  saves_h_per_min: z.number(),
  others: z.number().int().describe("Faults looked for besides the chief one."),
  chief: z
    .object({
      fault: z.string(),
      odds: interval,
      finds: interval,
      now_h: z.number(),
      later_h: z.number(),
      records: counted.optional(),
    })
    .optional()
    .describe("The fault that most of it comes from."),
};

export default calculation({
  name: "production.next",
  title: "The next check for each pair of hands, and what to start before going home",
  input: z.object({
    now: instant,
    timeZone: z.string().max(80).optional().describe("IANA name; times of day keep the offset of now if left out."),
    calendars: promiseInput.shape.calendars,
    people: z
      .array(
        person.extend({
          dangers: z.array(danger).optional().describe("Dangers this person may meet; all if left out."),
        }),
      )
      .min(1)
      .max(500),
    free: z
      .record(name, z.number().int().min(0).max(10_000))
      .optional()
      .describe("Free slots of places; 1 if not named."),
    tasks: z
      .array(
        z.object({
          id: name,
          unit: name.optional().describe("What it is done on; one thing at a time goes on with it."),
          skill: name,
          hands_min: z.number().min(0).max(100_000),
          wait_h: z.number().min(0).max(100_000).optional().describe("Goes on by itself afterwards."),
          splits: z.boolean().optional().describe("May be broken off when hands go home, and go on the next day."),
          place: name.optional(),
          danger: danger.optional(),
          ready: instant.optional(),
          due: instant.optional(),
          faults: z
            .array(
              z.object({
                fault: name,
                odds: odds.describe("That it is there."),
                finds: odds.optional().describe("That this check finds it where it is there; 1 if left out."),
                now_h: hours.describe("Cost of putting it right now."),
                later_h: hours.describe("Cost where it would be found else."),
              }),
            )
            .max(100)
            .optional(),
        }),
      )
      .max(mostTasks),
    limits: z
      .object({
        wait_h: z.number().min(0).max(100_000).optional(),
        alone: z.boolean().optional().describe("Lets somebody work on live parts with nobody else at work."),
      })
      .optional(),
    hour_cents: z.number().min(0).max(1e9).optional().describe("With it, hours are told in money too."),
    currency: z
      .string()
      .regex(/^[A-Z]{3}$/)
      .optional(),
    depth: z.number().int().min(1).max(50).optional().describe("Tasks listed for each; 3 if left out."),
  }),
  output: z.object({
    hands: z.array(
      z.object({
        person: z.string(),
        home: z.string().optional().describe("Left out when not at work any more today."),
        next: z.array(z.object({ task: z.string(), start: z.string(), ...worth, why: z.string() })),
        beforeHome: z.array(
          z.object({
            task: z.string(),
            latest: z.string(),
            ripe: z.string().describe("First moment at work after it is done."),
            tomorrow: z.string().describe("The same, were it begun on the next day at work."),
            gains_h: z.number().describe("Hours at work between the two."),
            why: z.string(),
          }),
        ),
      }),
    ),
    blocked: z.array(z.object({ task: z.string(), why: z.string() })),
    notes: z.array(z.string()),
  }),
  compute(input) {
    const plan = planDay(input as Parameters<typeof planDay>[0]);
    return {
      hands: plan.hands.map(({ next, beforeHome, ...hands }) => ({
        ...hands,
        next: next.map((one) => ({ ...one })),
        beforeHome: [...beforeHome],
      })),
      blocked: [...plan.blocked],
      notes: [
        "Odds from counts are softened: the guess counts as its weight in units more.",
        "Danger, places and waiting are limits, never weighed against hours saved.",
        ...(input.limits?.alone ? ["Somebody may be alone on live parts: that was allowed in the input."] : []),
      ],
    };
  },
  formula: [
    "worth = Σ over faults odds it is there · odds this check finds it · max(0, hours later − hours now)",
    "next = greatest worth per minute of hands among what may be done",
    "odds = (found + guess·weight)/(of + weight) mean of Beta(found + g·w, of − found + (1 − g)·w)",
  ],
  sources: [
    "Ratio of odds to cost in a search: L. G. Mitten, J. Industrial Engineering 11 (1960) 17 (from memory)",
    "Beta prior of a share from few counts: A. Gelman et al., Bayesian Data Analysis, chapter 2 (from memory); a weight of ten units is common practice, no source",
    "Never alone on open live equipment: bench practice as taught on public pages (read)",
  ],
  validity:
    "One day ahead. Faults are taken as independent, hands as able to stop between tasks, and a task as done in one go where it fits between pauses.",
  cautions: [
    "Live work needs a second person who knows how to cut the power; safety tests that protect the tester come first whatever they are worth.",
  ],
  example: {
    now: "2026-12-02T08:00:00+00:00",
    calendars: { full: { week: { wed: ["08:00-12:00", "13:00-17:00"], thu: ["08:00-12:00", "13:00-17:00"] } } },
    people: [
      { id: "bench", skills: ["audio", "safety"], calendar: "full" },
      { id: "wiring", skills: ["wiring"], calendar: "full" },
    ],
    tasks: [
      {
        id: "0417 hum",
        skill: "audio",
        hands_min: 30,
        danger: "hot",
        faults: [{ fault: "hum", odds: { found: 6, of: 44 }, finds: 0.9, now_h: 3, later_h: 14 }],
      },
      {
        id: "0418 balance",
        skill: "audio",
        hands_min: 8,
        faults: [{ fault: "valves unlike", odds: { found: 2, of: 44 }, now_h: 1, later_h: 9 }],
      },
      { id: "0419 case soak", skill: "audio", hands_min: 10, wait_h: 12, place: "heat-run rack" },
    ],
    hour_cents: 5200,
  },
});
