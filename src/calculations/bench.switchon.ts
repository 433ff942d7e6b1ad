import { z } from "zod";
import { analyseSweep } from "../bench/sweep.ts";
import { type HighPass, highPassOf } from "../bench/switchOn/highPass.ts";
import { analyseSwitchOn } from "../bench/switchOn/switchOn.ts";
import { BadInput } from "../maths/badInput.ts";
import { calculation, type Surroundings } from "./calculation.ts";
import { recordingInput, streamed } from "./recordingInput.ts";
import { sweepInput } from "./sweepInput.ts";

const level = z.number().nonnegative();
const limit = z.number().positive().max(1e6).optional();
const state = z.enum(["proven", "refuted", "undecided"]);

const input = z.object({
  ...recordingInput,
  coupling: z
    .enum(["dc", "ac", "unknown"])
    .default("unknown")
    .describe("Whether the recorder passes direct voltage; unknown counts as not"),
  load_ohm: z.number().positive().max(1e6).describe("What the headphone takes"),
  loadDoubt_ohm: level.max(1e6).optional(),
  recordedInto_ohm: z.number().positive().max(1e9).optional().describe("What was joined to the jack meanwhile"),
  settled_mV: z
    .number()
    .positive()
    .max(1e6)
    .default(15)
    .describe("Half of the band about its rest in which it has settled"),
  limits: z.object({ rest_mV: limit, pulse_Vpk: limit, settle_s: limit, energy_mJ: limit }).optional(),
  response: z
    .object({
      frequencies_Hz: z.array(z.number().positive()).min(3).max(400),
      gain_dB: z.array(z.number()).min(3).max(400),
    })
    .optional()
    .describe("The recorder's own response as its loop-back gave it"),
  loopback: z
    .object({ recording: recordingInput.recording, sweep: sweepInput })
    .optional()
    .describe("A sweep played from the recorder's output into its input, from which that response is read"),
});

export default calculation({
  name: "bench.switchon",
  title: "Switching on: direct voltage and pulse at the headphone jack",
  input,
  output: z.object({
    channels: z.record(
      z.string(),
      z.object({
        switched_s: level.optional().describe("From the record's start"),
        rest_mV: z
          .number()
          .optional()
          .describe("Against the voltage before the switch; left out where the recorder can't show it"),
        pulse_Vpk: level.describe("Greatest departure from the voltage before the switch"),
        pulseSign: z.enum(["positive", "negative"]).optional(),
        pulse_s: level.optional().describe("From the switch to the peak"),
        settle_s: level.optional().describe("From the switch until it stays in the band"),
        energy_mJ: level.describe("Into the load until settled, the rest aside"),
        clipped: z.boolean(),
        state: state.optional().describe("Over the limits given"),
        reasons: z.array(z.string()),
        tests: z.array(
          z.object({ name: z.string(), value: z.number(), doubt: level, limit: level, unit: z.string(), state }),
        ),
        doubt: z.object({
          rest_mV: level.optional(),
          pulse_Vpk: level,
          settle_s: level.optional(),
          energy_mJ: level,
        }),
      }),
    ),
    seesDirectVoltage: z.boolean(),
    highPass: z
      .object({ corner_Hz: level, doubt_Hz: level })
      .optional()
      .describe("Of player and recorder together, as the loop-back shows it"),
    truncated: z.boolean().optional(),
    usable_s: z.number().positive().optional(),
    notes: z.array(z.string()),
  }),
  compute({ response, loopback, recordedInto_ohm, limits = {}, ...asked }, surroundings) {
    const recording = surroundings.recording(asked.recording, "recording");
    const highPass = highPassFrom({ response, loopback }, surroundings);
    const { channels, seesDirectVoltage, notes, usable_s } = analyseSwitchOn(recording, asked.fullScale_Vpk, {
      coupling: asked.coupling,
      load_ohm: asked.load_ohm,
      settled_mV: asked.settled_mV,
      limits,
      ...(asked.channels && { names: asked.channels }),
      ...(asked.loadDoubt_ohm !== undefined && { loadDoubt_ohm: asked.loadDoubt_ohm }),
      ...(asked.seconds !== undefined && { seconds: asked.seconds }),
      ...(highPass && { highPass }),
    });
    return {
      channels: Object.fromEntries(
        channels.map(({ name, state, reasons, tests, ...figures }) => [
          name,
          { ...figures, ...(tests.length > 0 && { state }), reasons: [...reasons], tests: [...tests] },
        ]),
      ),
      seesDirectVoltage,
      ...(highPass && { highPass }),
      ...(recording.truncated ? { truncated: true, usable_s } : {}),
      notes: [
        ...notes,
        ...(recordedInto_ohm !== undefined && Math.abs(recordedInto_ohm / asked.load_ohm - 1) < 0.1
          ? []
          : [
              `The energy is what this voltage puts into ${asked.load_ohm} ohm; the jack must have been loaded so, for its own resistance and a coupling capacitor change pulse and settling with the load.`,
            ]),
      ],
    };
  },
  formula: [
    "E = ∫ (v − rest)² dt / R from the switch until settled, the mean square of the rest's noise taken off",
    "y = a + b·t + c·t²; sd of a fitted value √(s²·(9/4N)) at the middle",
  ],
  sources: [
    "Energy into a resistance: ∫v²/R dt",
    "First-order high-pass and its inverse: textbook",
    "A band of 15 mV about the rest: common practice, no source",
  ],
  validity:
    "One switching on, recorded from a second before it until it has settled, not beyond; the amplifier's zero is taken to be the voltage before. Doubts are 95 % half-widths from noise, drift and what the recorder's high-pass can have hidden; clicks shorter than two samples read low.",
  cautions: [
    "Do not wear headphones while the amplifier is switched on or its valves are changed: a pulse of volts is a bang at the ear and can hurt hearing and burn a driver. Load the jack with a resistor.",
    "Join the recorder through a divider or attenuator that holds the highest voltage the jack can reach; an output capacitor that fails puts the supply on it.",
  ],
  example: {
    recording: "switching-on.wav",
    fullScale_Vpk: 20,
    coupling: "dc",
    load_ohm: 300,
    recordedInto_ohm: 300,
    limits: { rest_mV: 15, pulse_Vpk: 2 },
  },
});

/** The recorder's high-pass from a response that was given or from a sweep that was looped back. */
function highPassFrom(
  { response, loopback }: Pick<z.infer<typeof input>, "response" | "loopback">,
  surroundings: Surroundings,
): HighPass | undefined {
  if (response) {
    if (response.frequencies_Hz.length !== response.gain_dB.length) {
      throw new BadInput(
        "response.gain_dB",
        `${response.gain_dB.length} gains for ${response.frequencies_Hz.length} frequencies`,
        "one gain for each frequency",
        "give both lists alike long",
      );
    }
    return highPassOf(response.frequencies_Hz, response.gain_dB) ?? refuseHigh("response.frequencies_Hz");
  }
  if (!loopback) return undefined;
  const { frequencies_Hz, gain_dB, doubt } = sweptBack(loopback, surroundings);
  return highPassOf(frequencies_Hz, gain_dB, doubt.gain_dB) ?? refuseHigh("loopback.sweep.start_Hz");
}

function sweptBack({ recording, sweep }: NonNullable<z.infer<typeof input>["loopback"]>, surroundings: Surroundings) {
  const looped = streamed(surroundings, recording, "loopback.recording");
  try {
    return analyseSweep(looped, 1, sweep).channels[0]!;
  } catch (error) {
    throw error instanceof BadInput ? BadInput.at(`loopback.${error.path}`, error) : error;
  }
}

function refuseHigh(path: string): never {
  throw new BadInput(
    path,
    "fewer than three frequencies under 300 Hz",
    "a response that reaches down to 20 Hz or below",
    "sweep from 5 or 10 Hz",
  );
}
