import { z } from "zod";
import { sourceImpedance } from "../bench/impedance.ts";
import { analyseTone } from "../bench/tone.ts";
import { BadInput } from "../maths/badInput.ts";
import { calculation } from "./calculation.ts";
import { cutShort } from "./cutShort.ts";
import { recordingInput } from "./recordingInput.ts";

const { seconds, ...recorded } = recordingInput;
const level = z.number().nonnegative();
/** A load left out is the recorder's own input. */
const open_ohm = 1e6;

export default calculation({
  name: "bench.impedance",
  title: "Output impedance from one drive into two loads",
  input: z.object({
    loads: z
      .tuple([
        z.object({ ...recorded, load_ohm: z.number().positive().max(1e9).optional() }),
        z.object({ ...recorded, load_ohm: z.number().positive().max(1e9).optional() }),
      ])
      .describe("The same tone at the same drive; load_ohm left out means the recorder alone"),
    fundamental_Hz: z.number().min(5).max(192_000).optional(),
    loadDoubt_pct: level.max(50).default(1).describe("95 % half-width of the loads' values"),
    seconds,
  }),
  output: z.object({
    channels: z.record(
      z.string(),
      z.object({
        outputImpedance_ohm: z.number(),
        open_Vrms: level.describe("What the output would give without load"),
        state: z.literal("undecided").optional(),
        reason: z.string().optional(),
        doubt: z.object({ outputImpedance_ohm: level }),
      }),
    ),
    truncated: z.boolean().optional(),
    usable_s: z.number().positive().optional(),
    notes: z.array(z.string()),
  }),
  compute(input, surroundings) {
    const recordings = input.loads.map(({ recording }, i) =>
      surroundings.recording(recording, `loads[${i}].recording`),
    );
    const reports = input.loads.map((load, i) => {
      const field = `loads[${i}]`;
      try {
        return analyseTone(recordings[i]!, load.fullScale_Vpk, {
          names: load.channels,
          fundamental_Hz: input.fundamental_Hz,
          seconds: (input.seconds ?? 10) / 2,
        });
      } catch (error) {
        if (error instanceof BadInput && /^(recording|channels)/.test(error.path)) {
          throw BadInput.at(`${field}.${error.path}`, error);
        }
        throw error;
      }
    });
    const [a, b] = reports as [(typeof reports)[0], (typeof reports)[0]];
    const both = a.channels.filter(({ name }) => b.channels.some((other) => other.name === name));
    if (both.length === 0) {
      throw new BadInput(
        "loads[1].channels",
        "no channel that holds a tone in both recordings",
        "the same channels in both",
        "name the channels alike",
      );
    }
    const channels = both.map((first) => {
      const second = b.channels.find(({ name }) => name === first.name)!;
      const [one, two] = [first, second].map(({ level_Vrms, doubt }, i) => ({
        load_ohm: input.loads[i]!.load_ohm ?? open_ohm,
        level_Vrms,
        doubt_Vrms: doubt.level_Vrms,
      }));
      const { doubt_ohm, ...figures } = sourceImpedance(one!, two!, input.loadDoubt_pct / 100);
      return [first.name, { ...figures, doubt: { outputImpedance_ohm: doubt_ohm } }] as const;
    });
    const moved = both.filter(
      ({ name, frequency_Hz }) =>
        Math.abs(b.channels.find((other) => other.name === name)!.frequency_Hz / frequency_Hz - 1) > 1e-3,
    );
    return {
      channels: Object.fromEntries(channels),
      ...cutShort(recordings),
      notes: [
        ...(input.loads.some(({ load_ohm }) => load_ohm === undefined)
          ? ["A load left out counts as the recorder alone, 1 Mohm."]
          : []),
        ...moved.map(
          ({ name }) => `${name}: the tone differs between the recordings by more than 0.1 %; was the drive the same?`,
        ),
        ...reports.flatMap(({ notes }, i) =>
          notes.filter((note) => /clipped|not alone/.test(note)).map((note) => `loads[${i}]: ${note}`),
        ),
      ],
    };
  },
  formula: ["R = (U_a − U_b)/(U_b/R_b − U_a/R_a)"],
  sources: ["Output source impedance from two loads: IEC 60268-3 (remembered)"],
  validity:
    "The same drive into both loads, far from clipping. Magnitudes are compared, so the figure is the resistive part while reactances stay small beside the loads. Doubts are 95 % half-widths from noise and the loads' values; drift of the drive between the recordings is not in them.",
  cautions: ["Loads for power amplifiers get hot; an output transformer without load can flash over: keep drive low."],
  example: {
    loads: [
      { recording: "tone.wav", fullScale_Vpk: 2, load_ohm: 32 },
      { recording: "tone-300.wav", fullScale_Vpk: 2, load_ohm: 300 },
    ],
  },
});
