import { z } from "zod";

/**
 * What is written down of listening: blind series as they were designed, each answer as it was given, the end of a
 * series, and what testers report in structured notes.
 */

const name = z.string().min(1).max(120);
const words = z.string().max(4000);
const supersedes = name.optional();
const level_dB = z.number().min(-300).max(300);
const doubt_dB = z.number().nonnegative().max(60);

/** Both versions read at the listener's end, typed in or taken from two readings on record. */
const match = z.strictObject({
  first_dB: level_dB,
  second_dB: level_dB,
  doubt_dB,
  /** Part of the doubt that is the same error in both. */
  shared_dB: doubt_dB.default(0),
  within_dB: z.number().positive().max(20).default(0.1),
  /** Two readings on record that the levels were taken from. */
  from: z.tuple([name, name]).optional(),
});

/**
 * A blind series as it was designed, before anybody listens. The lot draws what each listener is played and in which
 * order; it lies in the entry like a key in an envelope, and no page opens it until the series is closed.
 */
const series = z.strictObject({
  kind: z.literal("listening-series"),
  series: name,
  model: name,
  versions: z.tuple([name, name]),
  /** `difference`: which of the two was the third playing? `preference`: which of two playings is liked better? */
  asked: z.enum(["difference", "preference"]),
  listeners: z.array(name).min(1).max(200),
  /** For each listener, fixed beforehand. */
  trials: z.number().int().min(1).max(1000),
  /** What the number was chosen for. */
  design: z
    .strictObject({
      heard: z.number().min(0).max(1),
      falseAlarm: z.number().min(0).max(1),
      power: z.number().min(0).max(1),
    })
    .optional(),
  lot: z.string().regex(/^[0-9a-f]{32}$/),
  through: name.optional(),
  source: name.optional(),
  match: match.optional(),
});

/** One answer: of a difference, which version the third playing was; of a preference, which playing was liked better. */
const answer = z.strictObject({
  kind: z.literal("listening-answer"),
  series: name,
  listener: name,
  trial: z.number().int().min(1).max(1000),
  answer: z.enum(["first", "second"]),
  supersedes,
});

/** The series is over and its lot may be opened; a series that lacks answers says why. */
const close = z.strictObject({
  kind: z.literal("listening-close"),
  series: name,
  why: words.default(""),
});

/** What somebody outside heard of a version, in the notebook's own few words. */
const note = z.strictObject({
  kind: z.literal("listener-note"),
  model: name,
  version: name,
  /** By number or role, never by name. */
  tester: name,
  heard: z.enum([
    "hiss",
    "hum",
    "crackle",
    "ringing",
    "bass",
    "voices",
    "treble",
    "loudness",
    "balance",
    "space",
    "heat",
    "handling",
    "other",
  ]),
  /** Whether it spoke for the version or against it. */
  speaks: z.enum(["for", "against", "neither"]),
  /** 1 barely there, 3 plain, 5 cannot be overheard. */
  strength: z.number().int().min(1).max(5),
  isBlind: z.boolean(),
  /** The version it was held against. */
  against: name.optional(),
  through: name.optional(),
  source: name.optional(),
  says: words.default(""),
  supersedes,
});

export const listeningBodies = [series, answer, close, note] as const;
