import { z } from "zod";

/** The exponential sweep that was sent. */
export const sweepInput = z
  .object({
    start_Hz: z.number().min(1).max(96_000),
    stop_Hz: z.number().min(2).max(192_000),
    duration_s: z.number().min(0.2).max(120),
    level_Vpk: z.number().positive().max(1e6).optional(),
    synchronised: z.boolean().optional().describe("start_Hz·L is whole; the analysis holds either way"),
  })
  .describe("level·sin(2π·start·L·(e^{t/L} − 1)), L = duration/ln(stop/start), no fades");
