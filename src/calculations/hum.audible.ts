import { z } from "zod";
import { audibility } from "../hum/audibility.ts";
import { audibleRange_Hz } from "../hum/hearing.ts";
import { calculation } from "./calculation.ts";

const audible = z.enum(["yes", "no", "doubtful"]);
/** Specimens differ from their type by about 3 dB, listeners from the table by about 10 dB (95 %); common practice. */
const specimen_dB = 3;
const listener_dB = 10;
/** Below this, how a headphone sits changes its level by up to so much; common practice, no source. */
const fit = { below_Hz: 200, level_dB: 10 } as const;
const level_dB = (frequency_Hz: number) =>
  frequency_Hz < fit.below_Hz ? Math.hypot(specimen_dB, fit.level_dB) : specimen_dB;

export default calculation({
  name: "hum.audible",
  title: "Which hum lines and hiss a listener hears on a headphone",
  input: z.object({
    lines: z
      .array(
        z.object({
          frequency_Hz: z
            .number()
            .min(audibleRange_Hz[0])
            .max(audibleRange_Hz[1])
            .describe("Frequency of the line, within the table of thresholds (20 Hz to 18 kHz)"),
          level_Vrms: z.number().positive().max(1e4).describe("Level at the open output"),
        }),
      )
      .max(10_000)
      .describe("Hum lines at the output socket, unloaded"),
    hissDensity: z
      .array(
        z.object({
          frequency_Hz: z.number().positive().max(1e6),
          V_per_rtHz: z.number().nonnegative().max(1e3),
        }),
      )
      .min(1)
      .max(100_000)
      .optional()
      .describe("Noise density at the open output; level beyond the first and last point"),
    outputImpedance_ohm: z.number().nonnegative().max(1e7).describe("Output impedance of the unit"),
    headphone: z.object({
      impedance_ohm: z.number().positive().max(1e7),
      sensitivity_dB_per_V: z.number().min(-100).max(250).describe("Sound pressure level for 1 Vrms at its terminals"),
    }),
  }),
  output: z.object({
    lines: z.array(
      z.object({
        frequency_Hz: z.number(),
        spl_dB: z.number(),
        threshold_dB: z.number(),
        margin_dB: z.number(),
        audible,
        masking: z
          .object({
            hiss_dB: z.number().describe("Hiss in the line's own band of the ear, dB SPL"),
            margin_dB: z.number().describe("Line over what just stands out of that hiss"),
            masked: audible,
          })
          .optional()
          .describe("Where a hiss was given: whether it covers the line; `audible` is in silence"),
        doubt: z.object({ spl_dB: z.number(), threshold_dB: z.number(), margin_dB: z.number() }),
      }),
    ),
    bands: z
      .array(
        z.object({
          low_Hz: z.number(),
          high_Hz: z.number(),
          lines: z.number().int().describe("How many lines fall into it"),
          spl_dB: z.number(),
          margin_dB: z.number().describe("Lines and hiss together over the threshold"),
          audible,
        }),
      )
      .describe("Bands of the ear, one equivalent rectangular bandwidth each, that hold a line or hiss"),
    hiss: z
      .object({
        margin_dB: z.number(),
        audible,
        frequency_Hz: z.number().describe("Centre of the band heard best"),
        doubt: z.object({ margin_dB: z.number() }),
      })
      .optional(),
    notes: z.array(z.string()),
  }),
  compute(input) {
    const answer = audibility(input);
    const margin_dB = Math.hypot(specimen_dB, listener_dB);
    const notes = [
      "Flat headphone response and a resistive load are assumed; threshold is that of a free field (ISO 389-7).",
      "yes: 10 dB or more over the threshold; no: 10 dB or more under it; between them specimens and listeners differ.",
    ];
    if (input.lines.some(({ frequency_Hz }) => frequency_Hz < fit.below_Hz)) {
      notes.push("Below 200 Hz the seal and fit of a headphone move its level by up to 10 dB, mostly down.");
    }
    const frequencies_Hz = input.hissDensity?.map((point) => point.frequency_Hz) ?? [];
    if (answer.hiss && (!frequencies_Hz.some((f) => f <= 100) || !frequencies_Hz.some((f) => f >= 12_500))) {
      notes.push("The hiss was given over part of 100 Hz to 12.5 kHz; beyond it, the nearest density was taken.");
    }
    if (input.hissDensity && !answer.hiss) notes.push("The hiss was given as zero throughout, so it has no margin.");
    return {
      lines: answer.lines.map((line) => {
        const spl_dB = level_dB(line.frequency_Hz);
        return {
          ...line,
          doubt: { spl_dB, threshold_dB: listener_dB, margin_dB: Math.hypot(spl_dB, listener_dB) },
        };
      }),
      bands: [...answer.bands],
      ...(answer.hiss && { hiss: { ...answer.hiss, doubt: { margin_dB } } }),
      notes,
    };
  },
  formula: [
    "SPL = sensitivity + 20 lg(U · Z / (Z + Z_out)) margin = SPL − threshold",
    "ERB = 24.7 (4.37 f/1000 + 1)",
    "P(a, b) = ∫ₐᵇ e(f)² df",
  ],
  sources: [
    "ISO 389-7:2019 Table 1, free-field threshold of hearing (seen in two public codes; reference/hearing.json)",
    "Glasberg and Moore, Hear. Res. 47 (1990) 103-138, equation 3, ear bandwidth (seen in public code)",
    "Hawkins and Stevens, J. Acoust. Soc. Am. 22 (1950), critical ratios of tones in noise (from memory)",
    "IEC 60268-7:2010 8.2 and 8.3, sensitivity at the terminals and source divider (seen in a transcription)",
  ],
  validity:
    "Pure tones from 20 Hz to 18 kHz and hiss from 100 Hz to 12.5 kHz, young listeners in silence, flat headphone response. Masking by the hiss stands beside each line and is good to about 5 dB, worse below 200 Hz; masking of one line by another is left out.",
  cautions: ["Try a noisy unit at low volume first: what is inaudible as hum can still be loud as a switching thump."],
  example: {
    lines: [
      { frequency_Hz: 57, level_Vrms: 0.00012 },
      { frequency_Hz: 114, level_Vrms: 0.000015 },
    ],
    hissDensity: [
      { frequency_Hz: 20, V_per_rtHz: 4e-8 },
      { frequency_Hz: 20000, V_per_rtHz: 2e-8 },
    ],
    outputImpedance_ohm: 30,
    headphone: { impedance_ohm: 300, sensitivity_dB_per_V: 102.2 },
  },
});
