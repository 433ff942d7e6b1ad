import { z } from "zod";
import { mostRecordings, traceHum } from "../hum/index.ts";
import { randomStream } from "../maths/random.ts";
import { calculation } from "./calculation.ts";
import { streamed } from "./recordingInput.ts";

const name = z.string().min(1).max(120);
const supply = z.object({
  source: z.enum(["building", "regenerated"]),
  frequency_Hz: z
    .number()
    .min(15)
    .max(500)
    .describe("Nominal; a regenerated supply at the building's is taken as locked"),
});
const valves = z.record(name, name).describe("Position to the valve fitted there");
const causeName = z.enum(["mains", "pick-up", "amplifier", "valve"]);
const share = { share: z.number(), low: z.number(), high: z.number() };
const leads = z.number().describe("Odds that no other cause makes more");
const cause = z.union([
  z.object({ cause: z.literal("valve"), position: z.string(), valve: z.string(), ...share, leads }),
  z.object({ cause: z.enum(["mains", "pick-up", "amplifier"]), ...share, leads }),
]);
const named = z.union([
  z.object({ cause: z.literal("valve"), position: z.string(), valve: z.string() }),
  z.object({ cause: z.enum(["mains", "pick-up", "amplifier"]) }),
]);
const origin = z.union([
  z.object({ state: z.literal("one cause"), causes: z.array(named).length(1).readonly() }),
  z.object({ state: z.literal("not told apart") }),
]);
const verdict = z.union([
  z.object({
    state: z.literal("decided"),
    cause: causeName,
    position: z.string().optional(),
    valve: z.string().optional(),
    odds: z.number(),
    ...share,
  }),
  z.object({
    state: z.literal("undecided"),
    reason: z.string(),
    candidates: z.array(causeName).readonly(),
    possible: z
      .array(
        z.object({
          cause: causeName,
          position: z.string().optional(),
          valve: z.string().optional(),
          odds: z.number(),
        }),
      )
      .readonly(),
    together: z
      .array(cause)
      .readonly()
      .optional()
      .describe("Two or three causes that surely make the hum together, none surely more than half"),
  }),
  z.object({ state: z.literal("quiet") }),
]);

const example = {
  building_Hz: 50,
  feeds: { V1: ["left"], V2: ["left", "right"] },
  recordings: (
    [
      ["r1", "building", 50, "T-117"],
      ["r2", "regenerated", 57, "T-117"],
      ["r3", "regenerated", 57, "T-118"],
    ] as const
  ).map(([id, source, frequency_Hz, second]) => ({
    id,
    recording: `${id}.wav`,
    fullScale_Vpk: 0.5,
    channels: ["left", "right"],
    supply: { source, frequency_Hz },
    valves: { V1: "T-001", V2: second },
    input: "shorted",
  })),
};

export default calculation({
  name: "hum.trace",
  title: "Where the hum of a unit comes from, and which recording would tell more",
  input: z.object({
    building_Hz: z.number().min(15).max(500).describe("Nominal frequency of the building's mains"),
    feeds: z
      .record(name, z.array(name).max(8))
      .optional()
      .describe("Channels that a valve position can reach; all of them where left out"),
    recordings: z
      .array(
        z.object({
          id: name,
          recording: z.string().min(1).max(4000).describe("Path of a WAV file"),
          fullScale_Vpk: z.number().positive().max(1e6).describe("Volts at digital full scale"),
          channels: z
            .array(name)
            .min(1)
            .max(8)
            .optional()
            .describe("What each channel holds; `mains` and `supply` are references"),
          supply,
          valves,
          input: z.string().max(120).default("shorted").describe("How the input was closed"),
        }),
      )
      .min(1)
      .max(mostRecordings),
    seconds: z
      .number()
      .min(1)
      .max(120)
      .optional()
      .describe(
        "Time granted for the answer, 10 s when left out; many recordings are read longer and weighed finer with more",
      ),
  }),
  output: z.object({
    lines: z
      .array(
        z.object({
          channel: z.string(),
          order: z.number().int(),
          of: z.enum(["supply", "building"]),
          frequency_Hz: z.number(),
          level_Vrms: z.number(),
          doubt_Vrms: z.number().describe("95 % half-width of the level"),
          recording: z.string(),
          causes: z
            .array(cause)
            .readonly()
            .describe("Shares of the line's power with their 95 % bounds; they sum to one"),
          origin: origin.describe("What of the causes may be named"),
        }),
      )
      .readonly(),
    verdict: z.record(z.string(), verdict).describe("Cause of most of the A-weighted hum, a channel"),
    nextRecording: z
      .object({
        why: z.string(),
        supply,
        valves: z.record(z.string(), z.string()),
        gain_bits: z.number().describe("What it is expected to tell of the cause; 0 where it repeats what is known"),
        minutes: z.number().describe("At the bench, from how the unit stands after the last recording"),
      })
      .nullable(),
    recordings: z
      .array(
        z.object({
          id: z.string(),
          supply_Hz: z.number(),
          building_Hz: z.number(),
          duration_s: z.number(),
          supplyTrial: z
            .object({
              crestFactor: z.number(),
              thd_pct: z.number(),
              level_pct: z.number().optional(),
              against: z.array(z.string()).readonly(),
            })
            .optional()
            .describe("A regenerated supply by the recording's own supply channel; not sound, it decides nothing"),
        }),
      )
      .readonly(),
    truncated: z.literal(true).optional(),
    usable_s: z.number().optional(),
    notes: z.array(z.string()).readonly(),
  }),
  compute({ building_Hz, feeds, recordings, seconds }, surroundings) {
    return traceHum(
      {
        building_Hz,
        feeds,
        seconds,
        recordings: recordings.map((entry, i) => {
          const recording = streamed(surroundings, entry.recording, `recordings[${i}].recording`);
          return { ...entry, recording, channels: entry.channels ?? usualNames(recording.channels) };
        }),
      },
      randomStream("hum.trace"),
      surroundings.progress,
    );
  },
  formula: [
    "c_jk = p_k + m_k + G_jk (a_k + Σ v_pk)",
    "P(Λ | all) ∝ Π_k Σ_i Π_s p(a_ksi | Λ_s) / p₀(a_ksi)",
    "I(C; Y) = H(C) + H(Y) − H(C, Y)",
  ],
  sources: [
    "Contrast of supplies and of valves: common practice; the reasoning is in docs/decisions/0003-hum-by-contrast.md",
    "P. Del Moral, A. Doucet, A. Jasra, Sequential Monte Carlo samplers, J. R. Stat. Soc. B 68 (2006) (from memory)",
    "IEC 61672-1:2013, A-weighting (constants seen in public code)",
  ],
  validity:
    "Recordings of one unit with its input closed the same way; orders 1 to 40; each source's own spectrum is steady within a few per cent between recordings, and what the unit makes itself changes between supplies by no more than powers of the frequency ratio from −2 to 2.",
  cautions: [
    "Valves are exchanged with the unit off, its capacitors discharged and the valves cold: high voltage stays after switching off.",
    "Never run a transformer below its rated frequency to offset the supply: the core saturates. Go upward.",
  ],
  example,
});

function usualNames(channels: number): string[] {
  return Array.from({ length: channels }, (_, c) => ["left", "right"][c] ?? String(c + 1));
}
