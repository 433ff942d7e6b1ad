import { z } from "zod";

/** What is written down of orders besides the order itself: the date given, what came for it, that it left or came back. */

const name = z.string().min(1).max(120);
const text = z.string().max(4000);
const instant = z.iso.datetime({ offset: true });

/** What a promised date rested on when it was given, so that it can be held against what happened. */
const assumed = z.strictObject({
  /** When it was worked out, and with which calculations. */
  now: instant,
  version: name,
  runs: z.number().int().positive(),
  seed: z.union([z.number(), name]),
  /** Hash of the question that was put, so that it can be shown to be the same. */
  question_sha256: z.string().regex(/^[0-9a-f]{64}$/),
  p50: instant,
  p80: instant,
  p95: instant,
  heldBy: name,
  /** Orders that were open beside it. */
  open: z.array(name).max(5000),
  /** Parts that it waits for, and the day by which four in five such arrive. */
  parts: z.array(z.strictObject({ part: name, by: instant })).max(2000),
  /** Repairs to expect on its units, by the odds of each step left to do. */
  repairs: z.number().nonnegative(),
});

const promise = z.strictObject({
  kind: z.literal("promise"),
  order: name,
  /** The date given to the customer, and the share of simulated runs that met it then. */
  date: instant,
  share_pct: z.number().min(0).max(100),
  assumptions: text,
  assumed: assumed.optional(),
});

/** A bought part that the shop waits for. */
const part = z.strictObject({
  kind: z.literal("part"),
  part: name,
  model: name,
  step: name,
  lead_days: z.strictObject({
    fast: z.number().nonnegative(),
    usual: z.number().nonnegative(),
    slow: z.number().nonnegative(),
  }),
  ordered: instant.optional(),
  /** Orders it was bought for; left out, every order of the model waits for it. */
  orders: z.array(name).min(1).max(500).optional(),
});

/** A part on order has come. */
const arrival = z.strictObject({ kind: z.literal("arrival"), part: name });

/** An order went to its customer as a whole; for orders of before, whose units have no folder here. */
const delivery = z.strictObject({ kind: z.literal("delivery"), order: name });

/** A unit came back. What was then found wrong with it, if anything, is a fault found at the customer's. */
const returned = z.strictObject({ kind: z.literal("return"), unit: name, says: text });

/** A unit lies in its parcel: what its voltage label says, what was wrapped apart from it, and what else went in. */
const packed = z.strictObject({
  kind: z.literal("packed"),
  unit: name,
  /** Read off the label on the unit, not off the order. */
  label: z.strictObject({ nominal_V: z.number().positive(), frequency_Hz: z.number().positive() }),
  /** Position to the valve that was wrapped apart for it. */
  valvesApart: z.record(name, name).default({}),
  /** Positions whose valve travels in its socket, held there. */
  leftIn: z.array(name).max(100).default([]),
  /** What else lies in the parcel, papers included. */
  contents: z.array(name).max(100).default([]),
  mass_kg: z.number().positive().max(1000).optional(),
  supersedes: name.optional(),
});

export const orderBodies = [promise, part, arrival, delivery, returned, packed] as const;
