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

/** Benches of one kind, made from a seed and read by the analysis on trial. */
export interface Draws {
  readonly of: string;
  /** How the benches are drawn, for the report. */
  readonly drawn: string;
  draw(seed: string): readonly Stated[];
}

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
