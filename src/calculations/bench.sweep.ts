import { z } from "zod";
import { analyseSweep } from "../bench/sweep.ts";
import { calculation } from "./calculation.ts";
import { recordingInput, streamed } from "./recordingInput.ts";
import { sweepInput } from "./sweepInput.ts";

const level = z.number().nonnegative();
const list = z.array(z.number());

export default calculation({
  name: "bench.sweep",
  title: "Gain, phase and harmonics over frequency from one exponential sweep",
  input: z.object({
    ...recordingInput,
    sweep: sweepInput,
    frequencies_Hz: z
      .array(z.number().positive().max(192_000))
      .min(1)
      .max(2000)
      .optional()
      .describe("Sixths of an octave over the sweep without it"),
  }),
  output: z.object({
    channels: z.record(
      z.string(),
      z.object({
        frequencies_Hz: list,
        gain_dB: list.describe("Relative to level_Vpk; to 1 V peak without it"),
        phase_deg: list.describe("Delay to the sweep's start taken out"),
        harmonics: z.record(
          z.string(),
          z.object({
            level_dB: list.describe(
              "Relative to order 1 at the same drive frequency; may end before the frequencies do",
            ),
            doubt_dB: z.array(level),
            detected: z.array(z.boolean()).describe("Stands out of the noise; a limit where it does not"),
          }),
        ),
        clipped: z.boolean(),
        doubt: z.object({ gain_dB: z.array(level), phase_deg: z.array(level) }),
      }),
    ),
    start_s: z.number().describe("When the sweep begins in the recording"),
    clockOffset_ppm: z.number().describe("Player's clock against the recorder's; 0 when nothing speaks for one"),
    doubt: z.object({ clockOffset_ppm: level }),
    truncated: z.boolean().optional(),
    usable_s: z.number().positive().optional(),
    notes: z.array(z.string()),
  }),
  compute(input, surroundings) {
    const recording = streamed(surroundings, input.recording, "recording");
    const report = analyseSweep(recording, input.fullScale_Vpk, input.sweep, {
      names: input.channels,
      frequencies_Hz: input.frequencies_Hz,
      seconds: input.seconds,
    });
    return {
      channels: Object.fromEntries(
        report.channels.map(({ name, harmonics, doubt, ...curves }) => [
          name,
          {
            ...curves,
            frequencies_Hz: [...curves.frequencies_Hz],
            gain_dB: [...curves.gain_dB],
            phase_deg: [...curves.phase_deg],
            harmonics: Object.fromEntries(
              Object.entries(harmonics).map(([order, { level_dB, doubt_dB, detected }]) => [
                order,
                { level_dB: [...level_dB], doubt_dB: [...doubt_dB], detected: [...detected] },
              ]),
            ),
            doubt: { gain_dB: [...doubt.gain_dB], phase_deg: [...doubt.phase_deg] },
          },
        ]),
      ),
      start_s: report.start_s,
      clockOffset_ppm: report.clockOffset_ppm,
      doubt: { clockOffset_ppm: report.clockDoubt_ppm },
      ...(recording.truncated ? { truncated: true, usable_s: report.usable_s } : {}),
      notes: [...report.notes],
    };
  },
  formula: ["H(f) = Σ w·c·e^{−j2πft} / Σ w·r·e^{−j2πft}", "sd of H = √(S·f·∫w²/(a²·L)), S the noise density"],
  sources: [
    "Exponential sweep and its harmonics: A. Farina, AES 108th Convention (2000) (remembered)",
    "Synchronised sweep: A. Novak, P. Lotton, L. Simon, JAES 63 (2015) (remembered)",
    "Phase of a minimum-phase network: H. W. Bode (1945) (remembered)",
  ],
  validity:
    "One exponential sweep without fades, its start anywhere in the recording; clocks of player and recorder may differ by 0.2 %. Gain holds from start to stop, harmonics from twice start to stop/1.6 and below 0.49 of the sample rate. A response that rings for longer than 60 periods is smoothed. Doubts are 95 % half-widths from noise and window.",
  cautions: [
    "A sweep reaches the lowest and highest frequencies at full level: keep it below what the load is rated for.",
  ],
  example: {
    recording: "sweep.wav",
    fullScale_Vpk: 2,
    sweep: { start_Hz: 20, stop_Hz: 20000, duration_s: 3, level_Vpk: 0.6 },
    frequencies_Hz: [100, 1000, 5000],
  },
});
