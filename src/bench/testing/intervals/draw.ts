import { type Random, randomStream } from "../../../maths/random.ts";
import type { Recording } from "../../recording.ts";
import type { Wander } from "../synthesiser.ts";

/** One figure that an analysis gave of a bench whose truth is known. */
export interface Stated {
  readonly what: string;
  readonly value: number;
  readonly truth: number;
  /** 95 % half-width as stated. */
  readonly doubt: number;
  /** What tells this draw from others, beside its seed. */
  readonly note?: string;
}

/** A question to a calculation about a bench whose truth is known. */
export interface Made {
  readonly input: object;
  readonly recordings: Readonly<Record<string, Recording>>;
  /** As the answer has it, from the analysis alone. */
  analysed(): unknown;
  /** What the answer states, beside the truth. */
  read(output: unknown): readonly Stated[];
}

/** Benches of one kind, made from a seed and read by the analysis on trial. */
export interface Draws {
  readonly of: string;
  /** How the benches are drawn, for the report. */
  readonly drawn: string;
  draw(seed: string): readonly Stated[];
}

/** Benches that the published calculation can be asked about too. */
export interface AskedDraws extends Draws {
  readonly calculation: string;
  make(seed: string): Made;
}

export function asked(kind: Omit<AskedDraws, "draw">): AskedDraws {
  return {
    ...kind,
    draw(seed) {
      const made = kind.make(seed);
      return made.read(made.analysed());
    },
  };
}

/** Of an answer, the one channel that was recorded. */
export interface OneChannel<Report extends { readonly channels: readonly unknown[] }> {
  readonly channels: { readonly left: Report["channels"][number] };
}

export const leftOf = <Report extends { readonly channels: readonly unknown[] }>({
  channels: [left],
}: Report): OneChannel<Report> => ({ channels: { left } });

export const oneRecording = (recording: Recording) => ({
  recordings: { "a.wav": recording },
  input: { recording: "a.wav", fullScale_Vpk: 1 },
});

export function pick<T>(random: Random, choices: readonly T[]): T {
  return choices[random.integer(choices.length)]!;
}

export const between = (random: Random, low: number, high: number) => low + (high - low) * random.uniform();
/** Alike in every decade. */
export const decades = (random: Random, low: number, high: number) => 10 ** between(random, low, high);
export const anyPhase = (random: Random) => between(random, 0, 2 * Math.PI);

export function drawWander(random: Random): Wander {
  return pick<Wander>(random, [
    { kind: "steady" },
    { kind: "walk", Hz_per_rts: 0.002 },
    { kind: "swing", Hz: 0.01, period_s: 9 },
  ]);
}

export function recordingOf(rate_Hz: number, ...samples: Float64Array[]): Recording {
  return { rate_Hz, samples, truncated: false, bits: 24, float: true };
}

export function streams(seed: string): { readonly random: Random; readonly chance: Random } {
  const random = randomStream(seed);
  return { random, chance: random.fork("noise") };
}
