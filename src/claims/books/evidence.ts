import { z } from "zod";

/**
 * What is written down of faults and money, and of the limits that somebody answers for: where a fault was found and
 * could have been, what an hour and a part cost, what a finished unit took, what a market allows of a safety test, and how far readings
 * of the same thing differ.
 */

const name = z.string().min(1).max(120);
const words = z.string().max(4000);
const supersedes = name.optional();
const hours = z.number().nonnegative().max(100_000);
const cents = z.number().int().nonnegative().max(1e12);
const currency = z.string().regex(/^[A-Z]{3}$/);
const bySkill = z.record(name, hours);

/**
 * A fault as it was found. Stages are build steps, claims, or `customer`: `arose` where it came into the unit,
 * `possible` the first at which a check could have shown it, `found` where it was.
 */
const fault = z.strictObject({
  kind: z.literal("fault"),
  unit: name,
  /** What sort it is, in the shop's own few words: dry joint, cracked panel, hum. */
  fault: name,
  what: words.default(""),
  part: name.optional(),
  arose: name.optional(),
  possible: name,
  found: name,
  /** Hands spent on putting it right, the repeated checks included. */
  repair_h: hours,
  /** Parts and carriage that it cost. */
  cost_cents: cents.default(0),
  supersedes,
});

/** What an hour of each skill costs the shop, and an hour of a unit standing. */
const rates = z.strictObject({
  kind: z.literal("rates"),
  currency,
  hour_cents: z.record(name, cents),
  /** What it costs that a unit is an hour of work later. */
  waiting_cents_per_h: cents.default(0),
  supersedes,
});

/** The bought parts of a model and what it sells for. */
const bill = z.strictObject({
  kind: z.literal("bill"),
  model: name,
  revision: name,
  currency,
  parts: z
    .array(
      z.strictObject({
        part: name,
        count: z.number().int().positive().max(100_000),
        cost_cents: cents,
        /** Share that is thrown away before one is good. */
        scrap: z.number().min(0).max(0.95).default(0),
      }),
    )
    .min(1)
    .max(1000),
  price_cents: cents,
  supersedes,
});

/** What one unit took, closed when it left: parts, hours by skill, what was done twice or thrown away, what was paid. */
const account = z.strictObject({
  kind: z.literal("account"),
  unit: name,
  currency,
  /** What its customer chose: `{ timber: "white ash", finish: "oil", voltage: "230 V", valves: "matched" }`. */
  options: z.record(name, name).default({}),
  parts_cents: cents,
  hours: bySkill,
  /** Hours among these that were spent on doing something again. */
  rework_h: hours.default(0),
  scrap_cents: cents.default(0),
  price_cents: cents.optional(),
  supersedes,
});

/**
 * Limits of the routine safety tests as one person adopted them for a market and answers for them. They take the place
 * of what the model says for units that go to these destinations.
 */
const safetyLimits = z.strictObject({
  kind: z.literal("safety-limits"),
  market: name,
  /** Destinations, as orders name them. */
  places: z.array(name).min(1).max(200),
  /** The standard with its edition, and when it was adopted here. */
  edition: name,
  limits: z
    .array(
      z.strictObject({
        quantity: name,
        point: name.optional(),
        low: z.number().optional(),
        high: z.number().optional(),
        /** Clause or table. */
        source: name,
        /** Whether it was read in the standard, in another public text, or is from memory. */
        seen: z.enum(["standard", "copy", "memory", "own"]),
      }),
    )
    .min(1)
    .max(100),
  supersedes,
});

/**
 * The same things read by several people, each several times and without a look at what was read before: how much of a
 * reading is the instrument and the hands that hold it.
 */
const gaugeStudy = z.strictObject({
  kind: z.literal("gauge-study"),
  instrument: name,
  quantity: name,
  /** Where on a unit it was read, where that matters. */
  what: words.default(""),
  readings: z
    .array(z.strictObject({ part: name, operator: name, value: z.number().min(-1e12).max(1e12) }))
    .min(1)
    .max(2000),
  supersedes,
});

export const bookBodies = [fault, rates, bill, account, safetyLimits, gaugeStudy] as const;
