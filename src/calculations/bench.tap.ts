import { z } from "zod";
import { analyseTap } from "../bench/tap.ts";
import { calculation } from "./calculation.ts";
import { recordingInput, streamed } from "./recordingInput.ts";

const level = z.number().nonnegative();

export default calculation({
  name: "bench.tap",
  title: "Resonances that ring after a tap: frequency, quality and decay",
  input: z.object(recordingInput),
  output: z.object({
    taps: z.number().int().nonnegative(),
    resonances: z
      .array(
        z.object({
          frequency_Hz: z.number().positive(),
          q: level,
          decay_ms: level.describe("To 1/e"),
          peak_Vpk: level.describe("Envelope at its tap, in the tap that struck it most"),
          doubt: z.object({ frequency_Hz: level, q: level, decay_ms: level, peak_Vpk: level }),
        }),
      )
      .describe("Strongest first"),
    state: z.literal("undecided").optional(),
    reason: z.string().optional(),
    truncated: z.boolean().optional(),
    usable_s: z.number().positive().optional(),
    notes: z.array(z.string()),
  }),
  compute(input, surroundings) {
    const recording = streamed(surroundings, input.recording, "recording");
    const report = analyseTap(recording, input.fullScale_Vpk, input.channels, input.seconds);
    return {
      taps: report.taps,
      resonances: [...report.resonances],
      ...(report.undecided === undefined ? {} : { state: "undecided" as const, reason: report.undecided }),
      ...(recording.truncated ? { truncated: true, usable_s: report.usable_s } : {}),
      notes: [...report.notes],
    };
  },
  formula: ["y = Σ Re{a·e^{(−α + jω)t}}, Q = ω/2α, decay = 1/α"],
  sources: [
    "Damped sinusoids by least squares with amplitudes solved linearly: G. Golub, V. Pereyra (1973) (remembered)",
    "Quality and decay: Q = πfτ",
  ],
  validity:
    "Taps 30 ms or more apart, each ringing freely until the next; resonances of quality 3 to some thousand from 12 Hz to 20 kHz, the same in all taps; of more than 16 taps or a minute, those in a row that were struck hardest. Doubts are 95 % half-widths from noise; peaks go with when the tap is taken to be, known to a sample or two.",
  cautions: ["Tap with an insulated rod: valve sockets and chassis wiring hold lethal voltages."],
  example: { recording: "tap.wav", fullScale_Vpk: 2 },
});
