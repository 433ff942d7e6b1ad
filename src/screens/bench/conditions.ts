import type { Note } from "../common/api.ts";
import { numberError, numberOf } from "../common/fields.tsx";
import { common } from "../common/messages.ts";
import { type Stimulus, synchronised } from "./capture/stimulus.ts";
import { take } from "./messages.ts";

/** What the workshop knows of the unit and the building before anything is typed. */
export interface Surroundings {
  readonly building_Hz: number;
  readonly fitted: Readonly<Record<string, string>>;
}

/** Everything typed about a recording to be made or brought, as it stands in the draft. */
export interface Typed {
  readonly purpose: string;
  readonly name: string;
  readonly instrument: string;
  readonly fullScale: string;
  readonly channels: string;
  readonly seconds: string;
  readonly rate: string;
  readonly tone: string;
  readonly low: string;
  readonly high: string;
  readonly products: string;
  readonly start: string;
  readonly stop: string;
  readonly sweepTime: string;
  readonly level: string;
  readonly sent: string;
  readonly driven: string;
  readonly volume: string;
  readonly load: string;
  readonly coupling: string;
  readonly source: string;
  readonly supply: string;
}

export type Part = keyof Typed;

/** The fields that a purpose needs beside those of every recording. */
const played: Readonly<Record<string, readonly Part[]>> = {
  tone: ["tone", "level", "sent", "seconds"],
  "two tones": ["low", "high", "level", "sent", "seconds"],
  sweep: ["start", "stop", "sweepTime", "level", "sent"],
  noise: ["seconds"],
  tap: ["seconds"],
  supply: ["seconds"],
  "switching on": ["seconds", "coupling"],
};

export const asksFor = (purpose: string, part: Part): boolean => played[purpose]?.includes(part) ?? false;

const filled = (typed: string) => (typed.trim() === "" ? common.needed : undefined);
const positive = (typed: string) => numberError(typed) ?? (numberOf(typed) > 0 ? undefined : take.positive);
const optional = (typed: string) => (typed.trim() === "" ? undefined : positive(typed));

/** What is wrong with what was typed, field by field. */
export function errorsOf(typed: Typed): Partial<Record<Part, string>> {
  const { purpose } = typed;
  const needed = (part: Part) => (asksFor(purpose, part) ? positive(typed[part]) : undefined);
  const errors: Record<string, string | undefined> = {
    name: filled(typed.name),
    instrument: filled(typed.instrument),
    fullScale: positive(typed.fullScale),
    channels: filled(typed.channels),
    supply: positive(typed.supply),
    rate: optional(typed.rate),
    load: optional(typed.load),
    sent: asksFor(purpose, "sent") ? optional(typed.sent) : undefined,
  };
  for (const part of ["tone", "low", "high", "start", "stop", "sweepTime", "seconds"] as const)
    errors[part] = needed(part);
  if (asksFor(purpose, "level")) {
    errors.level = numberError(typed.level) ?? (numberOf(typed.level) < 0 ? take.notBelowZero : undefined);
  }
  if (purpose === "sweep" && !errors.start && !errors.stop && numberOf(typed.stop) <= numberOf(typed.start))
    errors.stop = take.rising;
  return Object.fromEntries(Object.entries(errors).filter(([, error]) => error !== undefined));
}

/** What the page plays for it; fields that `errorsOf` found sound. */
export function stimulusOf(typed: Typed): Stimulus {
  const level = asksFor(typed.purpose, "level") ? 10 ** (-numberOf(typed.level) / 20) : 0;
  switch (typed.purpose) {
    case "tone":
      return { kind: "tone", frequency_Hz: numberOf(typed.tone), level };
    case "two tones":
      return {
        kind: "two tones",
        tones_Hz: [numberOf(typed.low), numberOf(typed.high)],
        products: typed.products === "difference" ? "difference" : "modulation",
        level,
      };
    case "sweep": {
      const asked = {
        start_Hz: numberOf(typed.start),
        stop_Hz: numberOf(typed.stop),
        duration_s: numberOf(typed.sweepTime),
      };
      return { kind: "sweep", sweep: synchronised(asked), level };
    }
    default:
      return { kind: "silence" };
  }
}

type RecordingNote = Extract<Note, { readonly kind: "recording" }>;

/** The entry that goes into the ledger beside the file. */
export function recordingNote(
  typed: Typed,
  about: {
    readonly unit: string;
    readonly file_sha256: string;
    readonly building_Hz: number;
    readonly valves: Readonly<Record<string, string>>;
  },
): RecordingNote {
  const stimulus = stimulusOf(typed);
  const sent = typed.sent.trim() === "" ? {} : { level_Vpk: numberOf(typed.sent) };
  return {
    kind: "recording",
    unit: about.unit,
    recording: typed.name.trim(),
    file_sha256: about.file_sha256,
    fullScale_Vpk: numberOf(typed.fullScale),
    channels: typed.channels.split(/[,;\s]+/).filter(Boolean),
    supply: {
      source: typed.source === "regenerated" ? "regenerated" : "building",
      frequency_Hz: numberOf(typed.supply),
    },
    building_Hz: about.building_Hz,
    valves: { ...about.valves },
    input: stimulus.kind === "silence" ? "shorted" : "driven",
    instrument: typed.instrument.trim(),
    purpose: typed.purpose as RecordingNote["purpose"],
    stimulus: noted(stimulus, sent),
    driven: typed.driven === "left" || typed.driven === "right" ? typed.driven : "both",
    ...(typed.volume.trim() !== "" && { volume: typed.volume.trim() }),
    ...(typed.load.trim() !== "" && { load_ohm: numberOf(typed.load) }),
    ...(asksFor(typed.purpose, "coupling") && isCoupling(typed.coupling) && { coupling: typed.coupling }),
  };
}

const isCoupling = (typed: string): typed is "dc" | "ac" => typed === "dc" || typed === "ac";

function noted(stimulus: Stimulus, sent: { level_Vpk?: number }): NonNullable<RecordingNote["stimulus"]> {
  switch (stimulus.kind) {
    case "silence":
      return { kind: "silence" };
    case "tone":
      return { kind: "tone", frequency_Hz: stimulus.frequency_Hz, ...sent };
    case "two tones":
      return { kind: "two tones", tones_Hz: [...stimulus.tones_Hz], products: stimulus.products, ...sent };
    case "sweep":
      return { kind: "sweep", ...stimulus.sweep, synchronised: true, ...sent };
  }
}
