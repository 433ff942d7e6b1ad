import { z } from "zod";
import { linkDescription } from "./description.ts";

/**
 * What is written down of instruments on a wire: how one is spoken to, what its owner lets it be set to, what it was
 * set to, and runs of readings that it takes by itself.
 */

const name = z.string().min(1).max(120);
const number = z.number();

/** How an instrument is spoken to from now on; null when it is unlinked. */
const link = z.strictObject({
  kind: z.literal("link"),
  instrument: name,
  description: linkDescription.nullable(),
});

const limit = z.strictObject({ low: number.nonnegative(), high: number.positive() });

/** Between what limits its owner lets a programmable supply be set. */
const supplyLimits = z.strictObject({
  kind: z.literal("supply-limits"),
  instrument: name,
  limits: z.partialRecord(z.enum(["output_Vrms", "output_V", "frequency_Hz"]), limit),
  why: z.string().max(4000).default(""),
});

const settings = z.partialRecord(z.enum(["output_Vrms", "output_V", "frequency_Hz"]), number.nonnegative());

/** What a supply was set to and confirmed when it was asked. */
const supplySet = z.strictObject({
  kind: z.literal("supply-set"),
  instrument: name,
  set: settings,
  /** What it answered that it is set to. */
  readBack: settings,
  isOn: z.boolean().optional(),
  /** The unit that it fed. */
  unit: name.optional(),
});

/** A unit at a point or channel, a valve's section, or a piece of timber on the balance. */
const logged = z.strictObject({
  unit: name.optional(),
  valve: name.optional(),
  section: name.optional(),
  channel: name.optional(),
  point: name.optional(),
  piece: name.optional(),
});

/** A run of readings at even steps; each becomes an entry of its own, its id that of the log with the step's number. */
const log = z.strictObject({
  kind: z.literal("log"),
  instrument: name,
  quantity: name,
  /** The name it is kept under, where that is another of the same unit. */
  as: name.optional(),
  about: logged,
  every_s: z.number().min(1).max(86_400),
  for_s: z
    .number()
    .positive()
    .max(31 * 86_400),
  conditions: z.record(name, z.union([number, z.string().max(400)])).default({}),
});

const logEnd = z.strictObject({
  kind: z.literal("log-end"),
  log: name,
  because: z.string().min(1).max(400),
  logged: z.number().int().nonnegative(),
  /** Steps without a reading, by what was the matter. */
  missed: z.array(z.strictObject({ count: z.number().int().positive(), why: z.string().max(400) })).max(100),
});

export const linkBodies = [link, supplyLimits, supplySet, log, logEnd] as const;

/** Steps of a log; more belong into several. */
export const mostSteps = 20_000;
