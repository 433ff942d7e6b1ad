import { z } from "zod";
import { analyseTwoTone } from "../bench/twoTone.ts";
import { calculation } from "./calculation.ts";
import { recordingInput } from "./recordingInput.ts";

const level = z.number().nonnegative();
const tone_Hz = z.number().min(5).max(192_000);

export default calculation({
  name: "bench.twotone",
  title: "Intermodulation of two steady tones",
  input: z.object({
    ...recordingInput,
    kind: z.enum(["modulation", "difference"]).describe("A low and a high tone, or two equal ones close together"),
    tones_Hz: z
      .tuple([tone_Hz, tone_Hz])
      .optional()
      .describe("Nominals, good to 0.1 %; the two strongest lines without it"),
  }),
  output: z.object({
    channels: z.record(
      z.string(),
      z.object({
        tones: z.array(z.object({ frequency_Hz: z.number(), level_Vrms: level, doubt_Vrms: level })),
        products: z.array(
          z.object({
            label: z.string().describe("In multiples of the lower tone a and the higher tone b"),
            frequency_Hz: z.number(),
            level_Vrms: level,
            doubt_Vrms: level,
            detected: z.boolean().describe("Stands out of the noise"),
          }),
        ),
        imd_pct: level,
        clipped: z.boolean(),
        doubt: z.object({ imd_pct: level }),
      }),
    ),
    truncated: z.boolean().optional(),
    usable_s: z.number().positive().optional(),
    notes: z.array(z.string()),
  }),
  compute(input, surroundings) {
    const recording = surroundings.recording(input.recording, "recording");
    const report = analyseTwoTone(recording, input.fullScale_Vpk, input.kind, {
      names: input.channels,
      tones_Hz: input.tones_Hz,
      seconds: input.seconds,
    });
    return {
      channels: Object.fromEntries(
        report.channels.map(({ name, tones, products, ...figures }) => [
          name,
          { ...figures, tones: [...tones], products: [...products] },
        ]),
      ),
      ...(recording.truncated ? { truncated: true, usable_s: report.usable_s } : {}),
      notes: [...report.notes],
    };
  },
  sources: [
    "Modulation and difference-frequency distortion as characteristics of amplifiers: IEC 60268-3 (remembered)",
    "Fit of several lines by least squares: IEEE Std 1057 and 1241, read in public implementations citing them",
    "Bounds: Rife and Boorstyn, IEEE Trans. IT-20 (1974)",
  ],
  validity:
    "Two steady tones in records of 0.5 s or more; clocks of generator and recorder may differ and drift. Products beyond half the sample rate are left out, and said. Doubts are 95 % half-widths from the noise in the recording; the recorder's and the generator's own products are not taken off.",
  cautions: ["Two tones peak at the sum of their levels: keep below what the amplifier and its load are rated for."],
  example: { recording: "twotone.wav", fullScale_Vpk: 2, kind: "difference" },
});
