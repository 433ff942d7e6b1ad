import { z } from "zod";
import { rights } from "./right.ts";

/**
 * How a person stands in the ledger and signs in: `bench-2`, `bench technician`. It can never be erased, so it is no
 * name of anybody; the name stands outside the chain.
 */
export const personId = z
  .string()
  .min(1)
  .max(40)
  .regex(/^[\p{L}\p{N}](?:[\p{L}\p{N} ._-]*[\p{L}\p{N}])?$/u, "letters, digits, and between them blanks, dots, - or _");

/** What somebody may do from here on. `nothing` when they have left; their acts stay under them. */
const person = z.strictObject({
  kind: z.literal("person"),
  person: personId,
  may: z.enum(rights),
  /** Licensed, and answering for the limits of safety tests that they adopt. */
  answersForSafety: z.boolean().default(false),
});

export const peopleBodies = [person] as const;
