import type { z } from "zod";
import type { Recording } from "../../src/bench/recording.ts";
import type { Calculation } from "../../src/calculations/calculation.ts";
import type { Random } from "../../src/maths/random.ts";

/** One thing that an answer said, and whether it came true. */
export interface Said {
  readonly what: string;
  /** How often such things are said to come true, 0 to 1. */
  readonly stated: number;
  readonly isTrue: boolean;
  /** Said to come true so often or oftener, by design. */
  readonly atLeast?: boolean;
  /** Odds, which differ from draw to draw; counted by how high they were. */
  readonly isOdds?: boolean;
}

export type Recordings = Readonly<Record<string, Recording>>;
export type Ask = (input: unknown, recordings?: Recordings) => Promise<unknown>;

/** A question whose truth is known. */
export interface Trial {
  readonly input: unknown;
  readonly recordings?: Recordings;
  /** What the answer said, held against the truth; may ask again where that hangs on the first answer. */
  said(output: unknown, ask: Ask): readonly Said[] | Promise<readonly Said[]>;
}

/** How a calculation's intervals and odds are held against what is true. */
export interface Calibration {
  /** Name of the calculation. */
  readonly of: string;
  /** How truth and question are drawn, for the page. */
  readonly drawn: string;
  /** Draws in the suite, 200 where left out; with fewer `why` says so. */
  readonly suite?: number;
  readonly why?: string;
  /** @returns nothing where a shop would not ask */
  draw(random: Random): Trial | undefined;
}

interface Drawn<O> {
  /** Held to the calculation's schema when it is asked. */
  readonly input: unknown;
  readonly recordings?: Recordings;
  said(
    output: O,
    ask: (input: unknown, recordings?: Recordings) => Promise<O>,
  ): readonly Said[] | Promise<readonly Said[]>;
}

/** A calibration whose answers have the types of the calculation's paper. */
export function calibrated<I extends z.ZodType, O extends z.ZodType>(
  paper: Calculation<I, O>,
  how: Omit<Calibration, "of" | "draw"> & { draw(random: Random): Drawn<z.output<O>> | undefined },
): Calibration {
  return { of: paper.name, ...how } as Calibration;
}

type Manner = Pick<Said, "atLeast"> & { readonly stated?: number };

/** An interval, said to hold the truth 95 times in 100 unless told otherwise. */
export const within = (
  what: string,
  low: number,
  truth: number,
  high: number,
  { stated = 0.95, ...manner }: Manner = {},
): Said => ({ what, stated, isTrue: low <= truth && truth <= high, ...manner });

/** The same, from a value and its half-width. */
export const near = (what: string, value: number, doubt: number, truth: number, manner: Manner = {}): Said =>
  within(what, value - doubt, truth, value + doubt, manner);

/** Odds that something is so. */
export const odds = (what: string, stated: number, isTrue: boolean): Said => ({ what, stated, isTrue, isOdds: true });
