import { z } from "zod";

const name = z.string().min(1).max(60);

/** Where each channel's signal enters and leaves, as calculations on a whole design take it. */
export const channelEnds = z
  .array(
    z.object({
      channel: name.describe("left, right, …"),
      input: name.describe("id of the source that drives it"),
      output: name.describe("node it is taken from, against ground"),
    }),
  )
  .max(8)
  .describe("none for a design that has no signal yet");
