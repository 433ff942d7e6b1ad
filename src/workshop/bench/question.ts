import type { BodyOf } from "../../claims/evidence.ts";

export type RecordingBody = BodyOf<"recording">;

export interface Question {
  readonly calculation: string;
  readonly input: Readonly<Record<string, unknown>>;
}

const nominal_Hz = 1000;

type Recorder = BodyOf<"recorder-calibration">["channels"];

/** Common practice for a headphone that a valve amplifier is built for; no source. The answer names it. */
const usualLoad_ohm = 300;

/**
 * Which calculation judges a bench recording, and what it is asked; hum recordings have a hearing of their own.
 *
 * @param recorder  what its loop-back found of the recorder, where it was looped
 */
export function benchQuestion(body: RecordingBody, recorder?: Recorder): Question | undefined {
  const asked = { recording: body.file_sha256, fullScale_Vpk: body.fullScale_Vpk, channels: body.channels };
  const { stimulus } = body;
  switch (body.purpose) {
    case "tone":
      return {
        calculation: "bench.tone",
        input: { ...asked, ...(stimulus?.kind === "tone" && { fundamental_Hz: stimulus.frequency_Hz }) },
      };
    case "noise":
      return { calculation: "bench.noise", input: { ...asked, building_Hz: body.building_Hz } };
    case "two tones":
      if (stimulus?.kind !== "two tones") return undefined;
      return {
        calculation: "bench.twotone",
        input: { ...asked, kind: stimulus.products, tones_Hz: stimulus.tones_Hz },
      };
    case "sweep": {
      if (stimulus?.kind !== "sweep") return undefined;
      const { kind: _, synchronised, ...sweep } = stimulus;
      return {
        calculation: "bench.sweep",
        input: {
          ...asked,
          sweep,
          ...(synchronised !== undefined && { synchronised }),
          frequencies_Hz: frequenciesBetween(sweep.start_Hz, sweep.stop_Hz),
        },
      };
    }
    case "tap":
      return { calculation: "bench.tap", input: asked };
    case "switching on": {
      const response = recorder?.[body.channels[0] ?? ""]?.response;
      const reachesLow = response && response.frequencies_Hz.filter((hz) => hz <= lowEnough_Hz).length >= 3;
      return {
        calculation: "bench.switchon",
        input: {
          ...asked,
          load_ohm: body.load_ohm ?? usualLoad_ohm,
          ...(body.load_ohm !== undefined && { recordedInto_ohm: body.load_ohm }),
          ...(body.coupling && { coupling: body.coupling }),
          ...(reachesLow && { response }),
        },
      };
    }
    case "supply":
      return { calculation: "bench.supply", input: asked };
    default:
      return undefined;
  }
}

/** A response must reach so low, three times, to show how slow a pulse its recorder can follow. */
const lowEnough_Hz = 50;

/** A third of an octave apart through 1 kHz, at the preferred centres, within the sweep. */
function frequenciesBetween(start_Hz: number, stop_Hz: number): number[] {
  const all = Array.from({ length: 61 }, (_, i) => nominal_Hz * 10 ** ((i - 30) / 10));
  return all.filter((hz) => hz >= start_Hz * 1.05 && hz <= stop_Hz / 1.05);
}

/** What was done while it was recorded, for people. */
export function conditionsInWords({ stimulus, driven, volume, load_ohm, input, supply }: RecordingBody): string {
  const played = stimulus ? playedInWords(stimulus) : `input ${input}`;
  return [
    played,
    driven && driven !== "both" ? `${driven} driven alone` : "",
    volume === undefined ? "" : `volume at ${volume}`,
    load_ohm === undefined ? "" : `into ${load_ohm} Ω`,
    `${supply.source === "building" ? "on the building's mains" : "on clean supply"} at ${supply.frequency_Hz} Hz`,
  ]
    .filter(Boolean)
    .join(", ");
}

function playedInWords(stimulus: NonNullable<RecordingBody["stimulus"]>): string {
  const level = "level_Vpk" in stimulus && stimulus.level_Vpk !== undefined ? ` at ${stimulus.level_Vpk} V peak` : "";
  switch (stimulus.kind) {
    case "silence":
      return "nothing played";
    case "tone":
      return `${stimulus.frequency_Hz} Hz${level}`;
    case "two tones":
      return `${stimulus.tones_Hz.join(" and ")} Hz for ${stimulus.products}${level}`;
    case "sweep":
      return `sweep from ${stimulus.start_Hz} Hz to ${stimulus.stop_Hz} Hz in ${stimulus.duration_s.toFixed(1)} s${level}`;
  }
}
