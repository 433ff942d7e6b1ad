import { z } from "zod";
import { analyseSupply, usualLimits } from "../bench/supply/supply.ts";
import { calculation } from "./calculation.ts";
import { cutShort } from "./cutShort.ts";
import { recordingInput } from "./recordingInput.ts";

const level = z.number().nonnegative();
const state = z.enum(["proven", "refuted", "undecided"]);

export default calculation({
  name: "bench.supply",
  title: "A mains supply or regenerator on trial: level, crest factor, distortion, sag",
  input: z.object({
    recording: recordingInput.recording,
    fullScale_Vpk: recordingInput.fullScale_Vpk,
    channels: recordingInput.channels,
    channel: z
      .string()
      .min(1)
      .max(120)
      .optional()
      .describe("Which channel holds the supply; `supply`, else `mains`, else the first"),
    volts_per_V: z
      .number()
      .positive()
      .max(1e6)
      .default(1)
      .describe("Volts of the supply for one at the recorder: its divider"),
    limits: z
      .object({
        nominal_V: z.number().positive().max(1e5).optional(),
        level_pct: z.number().positive().max(50).default(usualLimits.level_pct),
        crestFactor: z.number().min(1).max(3).default(usualLimits.crestFactor),
        thd_pct: z.number().positive().max(100).default(usualLimits.thd_pct),
      })
      .default(usualLimits),
  }),
  output: z.object({
    frequency_Hz: z.number(),
    level_Vrms: level,
    peak_V: level,
    crestFactor: level.describe("Peak over r.m.s.; 1.414 for a sine"),
    thd_pct: level.describe("Orders 2 to 40 over the fundamental"),
    flat_pct: level.describe("Share of the cycle within 5 % of the peak; 20.2 for a sine"),
    lowest_Vrms: level.describe("Of blocks of about 200 ms"),
    highest_Vrms: level,
    state,
    tests: z.array(
      z.object({
        name: z.string(),
        value: z.number(),
        doubt: level,
        low: z.number().optional(),
        high: z.number().optional(),
        state,
      }),
    ),
    reasons: z.array(z.string()),
    doubt: z.object({
      frequency_Hz: level,
      level_Vrms: level,
      peak_V: level,
      crestFactor: level,
      thd_pct: level,
      flat_pct: level,
    }),
    truncated: z.boolean().optional(),
    usable_s: z.number().positive().optional(),
    notes: z.array(z.string()),
  }),
  compute(input, surroundings) {
    const recording = surroundings.recording(input.recording, "recording");
    const { doubt_Hz, doubt, tests, reasons, ...report } = analyseSupply(recording, input.fullScale_Vpk, {
      ...(input.channels && { names: input.channels }),
      ...(input.channel && { channel: input.channel }),
      volts_per_V: input.volts_per_V,
      limits: input.limits,
    });
    return {
      ...report,
      tests: [...tests],
      reasons: [...reasons],
      doubt: { frequency_Hz: doubt_Hz, ...doubt },
      ...cutShort([recording]),
      notes: [
        "Doubts are the scatter between blocks of about 200 ms; the divider's own error is not among them.",
        "Limits left out are common practice for a supply that shall count as clean, with no source.",
      ],
    };
  },
  formula: ["crest factor = peak / r.m.s., THD = √(ΣU₂…U₄₀²)/U₁"],
  sources: [
    "Blocks of 10 or 12 cycles and orders up to 40: IEC 61000-4-30 and IEC 61000-4-7 (remembered)",
    "Crest factor of a sine: √2",
  ],
  validity:
    "A steady supply between 15 and 1000 Hz in records of 0.7 s or more. Doubts of the frequency and of the crest factor are on the wide side: the first counts a level that wanders as noise, the second adds what noise and the steps of the folded cycle may hide.",
  cautions: [
    "Mains voltage: join the recorder only through a divider or small isolating transformer made for it, in a closed box.",
  ],
  example: { recording: "supply.wav", fullScale_Vpk: 1, volts_per_V: 400, limits: { nominal_V: 230 } },
});
