import { z } from "zod";
import { type Balance, balanceOfSweep, balanceOfTone } from "../bench/balance.ts";
import { balanceChange } from "../bench/balanceChange.ts";
import type { RecordingStream } from "../bench/recordingStream.ts";
import { BadInput } from "../maths/badInput.ts";
import { calculation } from "./calculation.ts";
import { recordingInput, streamed } from "./recordingInput.ts";
import { sweepInput } from "./sweepInput.ts";

const { seconds, ...recorded } = recordingInput;
const driven = z.enum(["both", "left", "right"]);
const level = z.number().nonnegative();
const list = z.array(z.number());

export default calculation({
  name: "bench.balance",
  title: "Balance of left and right over the volume control, and crosstalk",
  input: z.object({
    recordings: z
      .array(
        z.object({
          ...recorded,
          position: z
            .union([z.number(), z.string().max(120)])
            .optional()
            .describe("Where the volume control stood"),
          driven: driven.optional().describe("Where it differs from recording to recording"),
        }),
      )
      .min(1)
      .max(100),
    kind: z.enum(["tone", "sweep"]),
    driven: driven.default("both"),
    sweep: sweepInput.optional(),
    seconds,
  }),
  output: z.object({
    byPosition: z.array(
      z.object({
        position: z.union([z.number(), z.string()]),
        difference_dB: z.number().describe("Left over right"),
        doubt_dB: level,
      }),
    ),
    overFrequency: z
      .object({ frequencies_Hz: list, difference_dB: list, doubt_dB: z.array(level) })
      .optional()
      .describe("Of the first recording, where a sweep was sent"),
    crosstalk_dB: z
      .object({ leftToRight: z.number().optional(), rightToLeft: z.number().optional() })
      .optional()
      .describe("Undriven over driven channel; the worst of the positions"),
    change: z
      .object({
        state: z
          .enum(["changes", "stays", "undecided"])
          .describe("Control tracking changes with position, valves do not"),
        common_dB: z.number(),
        spread_dB: level,
        spreadDoubt_dB: level,
        reason: z.string(),
      })
      .optional(),
    doubt: z.object({
      crosstalk_dB: z.object({ leftToRight: level.optional(), rightToLeft: level.optional() }).optional(),
    }),
    truncated: z.boolean().optional(),
    usable_s: z.number().positive().optional().describe("Of the shortest truncated recording"),
    notes: z.array(z.string()),
  }),
  compute(input, surroundings) {
    const { sweep } = input;
    if (input.kind === "sweep" && !sweep) {
      throw new BadInput("sweep", "nothing", "the sweep that was sent is needed", "add the field");
    }
    const each_s = (input.seconds ?? 10) / input.recordings.length;
    const cut_s: number[] = [];
    const measured = input.recordings.map((one, i) => {
      const field = `recordings[${i}]`;
      const given = {
        fullScale_Vpk: one.fullScale_Vpk,
        names: one.channels,
        driven: one.driven ?? input.driven,
        field,
      };
      const cut = ({ truncated, frames, rate_Hz }: RecordingStream) => truncated && cut_s.push(frames / rate_Hz);
      const ofTone = () => {
        const recording = streamed(surroundings, one.recording, `${field}.recording`);
        cut(recording);
        return balanceOfTone({ ...given, recording }, each_s);
      };
      const ofSweep = (sent: NonNullable<typeof sweep>) => {
        const recording = streamed(surroundings, one.recording, `${field}.recording`);
        cut(recording);
        return balanceOfSweep({ ...given, recording }, sent, each_s);
      };
      const balance = sweep && input.kind === "sweep" ? ofSweep(sweep) : ofTone();
      return { ...balance, driven: given.driven, position: one.position ?? i + 1 };
    });
    const byPosition = measured.map(({ position, difference_dB, doubt_dB }) => ({ position, difference_dB, doubt_dB }));
    const change = balanceChange(byPosition.filter((_, i) => measured[i]!.driven === "both"));
    const worst = (side: "left" | "right") => {
      const of = measured.filter((one) => one.driven === side && one.crosstalk_dB !== undefined);
      return of.length === 0 ? undefined : of.reduce((a, b) => (b.crosstalk_dB! > a.crosstalk_dB! ? b : a));
    };
    const leftToRight = worst("left");
    const rightToLeft = worst("right");
    const both = (of: (balance: Balance) => number | undefined) => ({
      ...(leftToRight ? { leftToRight: of(leftToRight)! } : {}),
      ...(rightToLeft ? { rightToLeft: of(rightToLeft)! } : {}),
    });
    const crossed = leftToRight !== undefined || rightToLeft !== undefined;
    const curve = measured[0]!.overFrequency;
    return {
      byPosition,
      ...(curve
        ? {
            overFrequency: {
              frequencies_Hz: [...curve.frequencies_Hz],
              difference_dB: [...curve.difference_dB],
              doubt_dB: [...curve.doubt_dB],
            },
          }
        : {}),
      ...(crossed ? { crosstalk_dB: both((one) => one.crosstalk_dB) } : {}),
      ...(change ? { change } : {}),
      doubt: crossed ? { crosstalk_dB: both((one) => one.crosstalkDoubt_dB) } : {},
      ...(cut_s.length > 0 ? { truncated: true, usable_s: Math.min(...cut_s) } : {}),
      notes: [
        ...measured.flatMap(({ notes }) => notes),
        ...(crossed
          ? ["Crosstalk holds the recorder's own; take that off with a recording of the same drive at its inputs."]
          : []),
        ...(change ? [change.reason] : []),
      ],
    };
  },
  formula: ["sd = 8.69·√(S/T·(1/A_L² + 1/A_R²)) dB", "χ² = Σ ((d − d̄)/σ)² on positions − 1 degrees of freedom"],
  sources: [
    "Channel gain difference and crosstalk as characteristics of amplifiers: IEC 60268-3 (remembered)",
    "Bounds: Rife and Boorstyn, IEEE Trans. IT-20 (1974)",
  ],
  validity:
    "Both channels recorded at once by one recorder. Doubts are 95 % half-widths from noise; the recorder's own difference of gain is not taken off (exchange its inputs and take half the difference). A change over position is judged with 0.03 dB for contacts that do not repeat.",
  cautions: ["Terminate the undriven input as in use."],
  example: { recordings: [{ recording: "tone.wav", fullScale_Vpk: 2, position: 5 }], kind: "tone" },
});
