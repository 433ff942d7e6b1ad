import { z } from "zod";

/**
 * What is written down of work that goes on by itself: when hands set it going, where, and how it ended. Its hours are
 * the shop's record of what fails at which hour.
 */

const name = z.string().min(1).max(120);
const hours = z.number().positive().max(100_000);

/** A heat run, a soak, a coat's cure, a turn in the chamber, on the plate or on the burn-in rack is set going. */
const begun = z.strictObject({
  kind: z.literal("begun"),
  run: name,
  /** The build step, or the check whose wait it is, of each unit named. */
  units: z.array(name).max(500).default([]),
  step: name.optional(),
  claim: name.optional(),
  /** Valves of a heat run. */
  valves: z.array(name).max(5000).default([]),
  /** Timber in the chamber or on the plate. */
  pieces: z.array(name).max(500).default([]),
  place: name,
  /** Which slot of the place, counted from 1; of several things, the first of those that follow on. */
  slot: z.number().int().min(1).max(10_000).optional(),
  /** Until it is ripe. */
  hours,
  supersedes: name.optional(),
});

/** It ended, or one of the things in it failed or was taken out. */
const ended = z.strictObject({
  kind: z.literal("ended"),
  run: name,
  /** Units, valves or pieces that ended; all that still ran if left out. */
  things: z.array(name).min(1).max(5000).optional(),
  outcome: z.enum(["good", "failed"]),
  /** Hours on the clock until then; left out, from its beginning to this entry's moment. */
  hours: z.number().nonnegative().max(100_000).optional(),
  /** What failed. */
  fault: name.optional(),
  supersedes: name.optional(),
});

export const runBodies = [begun, ended] as const;
