import { z } from "zod";
import { analyseTone } from "../bench/tone.ts";
import { calculation } from "./calculation.ts";
import { recordingInput, streamed } from "./recordingInput.ts";

const level = z.number().nonnegative();

export default calculation({
  name: "bench.tone",
  title: "Level, distortion and noise of a steady tone",
  input: z.object({
    ...recordingInput,
    fundamental_Hz: z
      .number()
      .min(5)
      .max(192_000)
      .optional()
      .describe("Nominal, good to 0.1 %; the strongest line that is not mains without it"),
    band_Hz: z
      .tuple([z.number().nonnegative().max(192_000), z.number().positive().max(192_000)])
      .default([20, 20_000])
      .describe("Band of the noise figures and of THD+N"),
  }),
  output: z.object({
    channels: z.record(
      z.string(),
      z.object({
        frequency_Hz: z.number(),
        level_Vrms: level,
        thd_pct: level.describe("Root sum square of orders 2 to 10 over the fundamental, noise taken off"),
        thdn_pct: level.describe("Everything in the band but the fundamental, over the fundamental"),
        harmonics: z.array(
          z.object({
            order: z.number(),
            frequency_Hz: z.number(),
            level_Vrms: level,
            level_dB: z.number().describe("Relative to the fundamental"),
            doubt_Vrms: level,
            detected: z.boolean().describe("Stands out of the noise"),
          }),
        ),
        noise_Vrms: level.describe("Without fundamental, harmonics and mains lines"),
        noiseA_Vrms: level,
        sinad_dB: z.number(),
        clipped: z.boolean(),
        doubt: z.object({
          frequency_Hz: level,
          level_Vrms: level,
          thd_pct: level,
          thdn_pct: level,
          noise_Vrms: level,
          noiseA_Vrms: level,
          sinad_dB: level,
        }),
      }),
    ),
    mains: z.object({
      frequency_Hz: z.number(),
      doubt_Hz: level,
      found: z.boolean(),
      lines: z.array(z.object({ order: z.number(), level_Vrms: level, doubt_Vrms: level })),
    }),
    truncated: z.boolean().optional(),
    usable_s: z.number().positive().optional(),
    notes: z.array(z.string()),
  }),
  compute(input, surroundings) {
    const recording = streamed(surroundings, input.recording, "recording");
    const report = analyseTone(recording, input.fullScale_Vpk, {
      names: input.channels,
      fundamental_Hz: input.fundamental_Hz,
      band_Hz: input.band_Hz,
      seconds: input.seconds,
    });
    return {
      channels: Object.fromEntries(
        report.channels.map(({ name, ...figures }) => [name, { ...figures, harmonics: [...figures.harmonics] }]),
      ),
      mains: { ...report.mains, lines: [...report.mains.lines] },
      ...(recording.truncated ? { truncated: true, usable_s: report.usable_s } : {}),
      notes: [...report.notes],
    };
  },
  formula: ["THD = √(U₂² + … + U₁₀²)/U₁ with the noise power S/T that each Uₙ² holds taken off"],
  sources: [
    "Four-parameter sine fit: IEEE Std 1057 and 1241, read in public implementations citing them",
    "Bounds: Rife and Boorstyn, IEEE Trans. IT-20 (1974)",
    "Total harmonic distortion relative to the fundamental; A-weighting: IEC 61672-1:2013",
  ],
  validity:
    "One steady tone in records of 0.5 s or more; clocks of generator and recorder may differ and drift. Orders above half the sample rate are not counted. Doubts are 95 % half-widths from the noise in the recording; the recorder's own distortion is not taken off.",
  cautions: ["Measure at a level the amplifier is rated for; a load on the output may be hot."],
  example: { recording: "tone.wav", fullScale_Vpk: 2, band_Hz: [20, 20000] },
});
