import { z } from "zod";
import { analyseLoopback } from "../bench/loopback/loopback.ts";
import { calculation } from "./calculation.ts";
import { cutShort } from "./cutShort.ts";
import { recordingInput } from "./recordingInput.ts";

const level = z.number().nonnegative();
const usualMeter_pct = 1;

export default calculation({
  name: "bench.loopback",
  title: "What a recorder is worth: full scale in volts, grain, own noise and distortion",
  input: z.object({
    recording: recordingInput.recording.describe("A steady tone played from the recorder's output into its input"),
    applied_Vrms: z.number().positive().max(1e4).describe("What a meter read across that lead meanwhile"),
    appliedDoubt_Vrms: z.number().positive().max(1e4).optional().describe("Its 95 % half-width; 1 % when left out"),
    quiet: recordingInput.recording.optional().describe("The same lead with nothing played"),
    channels: recordingInput.channels,
    seconds: recordingInput.seconds,
  }),
  output: z.object({
    frequency_Hz: z.number(),
    grain_bits: z.number().describe("Bits of the samples as handed over; 25 is a float's own precision"),
    channels: z.record(
      z.string(),
      z.object({
        fullScale_Vpk: z.number().positive(),
        thd_pct: level,
        noise_Vrms: level.optional(),
        noiseA_Vrms: level.optional(),
        doubt: z.object({ fullScale_Vpk: level }),
      }),
    ),
    truncated: z.boolean().optional(),
    usable_s: z.number().positive().optional(),
    notes: z.array(z.string()),
  }),
  compute(input, surroundings) {
    const quiet = input.quiet === undefined ? undefined : surroundings.recording(input.quiet, "quiet");
    const tone = surroundings.recording(input.recording, "recording");
    const { channels, notes, ...figures } = analyseLoopback({
      tone,
      applied_Vrms: input.applied_Vrms,
      appliedDoubt_Vrms: input.appliedDoubt_Vrms ?? (input.applied_Vrms * usualMeter_pct) / 100,
      ...(quiet && { quiet }),
      ...(input.channels && { names: input.channels }),
      ...(input.seconds && { seconds: input.seconds }),
    });
    return {
      ...figures,
      ...cutShort(quiet ? [tone, quiet] : [tone]),
      channels: Object.fromEntries(
        channels.map(({ name, doubt_Vpk, ...channel }) => [name, { ...channel, doubt: { fullScale_Vpk: doubt_Vpk } }]),
      ),
      notes: [
        ...notes,
        ...(input.appliedDoubt_Vrms === undefined ? [`The meter is taken as good to ${usualMeter_pct} %.`] : []),
      ],
    };
  },
  formula: [
    "full scale = applied_Vrms / r.m.s. of the samples (full scale 1), doubts of meter and fit as root sum square",
  ],
  sources: [
    "Level and distortion as bench.tone, noise as bench.noise",
    "Joining a player to its own recorder: common practice, no source",
  ],
  validity:
    "A tone between 40 dB and half a decibel under full scale. Noise and distortion are those of player and recorder together, so an upper limit for the recorder.",
  cautions: ["Loop the recorder to itself only: never join its input to a live amplifier for this."],
  example: { recording: "loop.wav", applied_Vrms: 0.71, quiet: "loop-quiet.wav" },
});
