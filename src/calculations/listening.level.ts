import { z } from "zod";
import { levelMatch } from "../listening/index.ts";
import { calculation } from "./calculation.ts";

const level = z.number().min(-300).max(300);
const state = z.enum(["proven", "refuted", "undecided"]);

export default calculation({
  name: "listening.level",
  title: "Whether two amplifiers are set equally loud, doubt included",
  input: z.object({
    pairs: z
      .array(
        z.object({
          at: z.string().min(1).max(120).describe("Channel and frequency."),
          first_dB: level,
          second_dB: level,
          doubt_dB: z.number().min(0).max(100).describe("95 % half-width of each reading."),
          shared_dB: z.number().min(0).max(100).optional().describe("Part of it that is the same error in both."),
        }),
      )
      .min(1)
      .max(200),
    within_dB: z.number().min(0.001).max(20).optional().describe("0.1 if left out."),
  }),
  output: z.object({
    state,
    pairs: z.array(z.object({ at: z.string(), difference_dB: z.number(), doubt_dB: z.number(), state })),
    trim_dB: z.number().describe("Gain to give the second."),
    trimDoubt_dB: z.number(),
    wouldDecide_dB: z.number().optional().describe("Doubt of a reading that would decide."),
    notes: z.array(z.string()),
  }),
  compute({ pairs, within_dB }) {
    const { pairs: judged, ...found } = levelMatch(pairs, within_dB);
    return {
      ...found,
      pairs: [...judged],
      notes: [
        "Read at the listener's end, with the headphone or speaker connected: an output impedance bends the level.",
        ...(found.state === "refuted" ? ["Trim and read again before the first trial."] : []),
      ],
    };
  },
  formula: [
    "difference = second − first, doubt = √2·√(doubt² − shared²)",
    "proven |difference| + doubt ≤ within, refuted |difference| − doubt ≥ within",
  ],
  sources: [
    "0.1 dB as the difference allowed: D. Clark, J. Audio Engineering Society 30 (1982) 330-338 (from memory); guard band as JCGM 106:2012 (from memory)",
  ],
  validity: "Steady tones or noise read with one instrument on the same range.",
  cautions: [],
  example: {
    pairs: [
      { at: "left 1 kHz", first_dB: -20.02, second_dB: -19.97, doubt_dB: 0.03, shared_dB: 0.02 },
      { at: "right 1 kHz", first_dB: -20.01, second_dB: -19.99, doubt_dB: 0.03, shared_dB: 0.02 },
    ],
  },
});
