import { z } from "zod";
import { analyseNoise } from "../bench/noise.ts";
import { calculation } from "./calculation.ts";
import { recordingInput, streamed } from "./recordingInput.ts";

const level = z.number().nonnegative();
const line = { frequency_Hz: z.number(), level_Vrms: level, doubt_Vrms: level };

export default calculation({
  name: "bench.noise",
  title: "Hum, hiss and stray lines of a quiet recording",
  input: z.object({
    ...recordingInput,
    building_Hz: z
      .number()
      .min(15)
      .max(500)
      .optional()
      .describe("Nominal of the mains; 50 and 60 are tried without it"),
  }),
  output: z.object({
    channels: z.record(
      z.string(),
      z.object({
        noise_Vrms: level.describe("Everything from 20 Hz to 20 kHz"),
        noiseA_Vrms: level.describe("The same, A-weighted"),
        noise468_Vqp: level.describe("Highest reading of the quasi-peak meter of BS.468, hum left in"),
        hiss_Vrms: level.describe("Without lines"),
        hissA_Vrms: level,
        hissDensity: z.array(z.object({ frequency_Hz: z.number(), V_per_rtHz: level })),
        mains: z.object({
          frequency_Hz: z.number().describe("Mean over the record; the nominal when nothing was found"),
          doubt_Hz: level,
          found: z.boolean(),
          lines: z.array(z.object({ order: z.number(), ...line, phase_deg: z.number() })),
        }),
        otherLines: z.array(z.object(line)),
        clipped: z.boolean(),
        doubt: z.object({
          noise_Vrms: level,
          noiseA_Vrms: level,
          noise468_Vqp: level,
          hiss_Vrms: level,
          hissA_Vrms: level,
        }),
      }),
    ),
    truncated: z.boolean().optional(),
    usable_s: z.number().positive().optional(),
    notes: z.array(z.string()),
  }),
  compute(input, surroundings) {
    const recording = streamed(surroundings, input.recording, "recording");
    const report = analyseNoise(recording, input.fullScale_Vpk, input.channels, input.building_Hz, input.seconds);
    return {
      channels: Object.fromEntries(
        report.channels.map(({ name, ...figures }) => [
          name,
          {
            ...figures,
            mains: mutable(figures.mains),
            hissDensity: [...figures.hissDensity],
            otherLines: [...figures.otherLines],
          },
        ]),
      ),
      ...(recording.truncated ? { truncated: true, usable_s: report.usable_s } : {}),
      notes: [...report.notes],
    };
  },
  formula: [
    "y = Σ over families and orders of Re{c·e^{jkθ(t)}} + noise",
    "P = ∫ W²·S df, var P = ∫ (W²·S)² df / T",
    "A(f) = f₄²f⁴ / ((f²+f₁²)·√(f²+f₂²)·√(f²+f₃²)·(f²+f₄²)) / A(1000)",
  ],
  sources: [
    "A-weighting: IEC 61672-1:2013, formula and constants as read in public code citing it",
    "Quasi-peak meter and its weighting: Recommendation ITU-R BS.468-4; network as read, burst tables remembered",
    "Bounds of line estimates: Rife and Boorstyn, IEEE Trans. IT-20 (1974)",
    "Spectra: Welch (1967); Heinzel, Rüdiger, Schilling (2002)",
  ],
  validity:
    "Records of 1 s or more. Mains is sought within 2 % of its nominal, up to order 100 or half the sample rate, and followed where it wanders. A tone that stands at a multiple of the mains and is not a line of it is told by its frequency: within a sixth of one over the record's length it counts as the line. Strays that agree on a frequency are no mains while the mains shows at one of its first four multiples; strays at those multiples can be taken for it. Doubts are 95 % half-widths and hold for noise that stays alike over the record.",
  cautions: ["Inputs shorted or terminated as in use: a loose lead picks up more hum than the amplifier makes."],
  example: { recording: "quiet.wav", fullScale_Vpk: 0.5, building_Hz: 50 },
});

function mutable<M extends { readonly lines: readonly unknown[] }>(mains: M) {
  return { ...mains, lines: [...mains.lines] as M["lines"][number][] };
}
