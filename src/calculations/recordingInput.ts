import { z } from "zod";
import { type RecordingStream, streamOf } from "../bench/recordingStream.ts";
import type { Surroundings } from "./calculation.ts";

/** How one recording is named in an input, and the time granted for it. */
export const recordingInput = {
  recording: z.string().min(1).max(4096).describe("Path of a WAV file"),
  fullScale_Vpk: z.number().positive().max(1e6).describe("Volts at digital full scale"),
  channels: z
    .array(z.string().min(1).max(120))
    .min(1)
    .max(8)
    .optional()
    .describe("What each channel holds, in order; `mains` is a reference of the building's mains"),
  seconds: z
    .number()
    .min(1)
    .max(600)
    .optional()
    .describe("Time granted for the answer, 10 s when left out; a long recording needs more"),
};

/** A recording for an analysis that reads it a stretch at a time. */
export function streamed(surroundings: Surroundings, path: string, field: string): RecordingStream {
  return surroundings.stream?.(path, field) ?? streamOf(surroundings.recording(path, field));
}
