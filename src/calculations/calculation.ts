import type { z } from "zod";
import type { Recording } from "../bench/recording.ts";
import type { RecordingStream } from "../bench/recordingStream.ts";

/** What a calculation may ask of whoever calls it; it opens no file and reads no clock by itself. */
export interface Surroundings {
  /**
   * Reads a recording named in the input.
   * @param path   as written in the input
   * @param field  where in the input it stands, for the error
   * @throws BadInput at `field` when there is no readable WAV file
   */
  recording(path: string, field: string): Recording;
  /**
   * Opens such a recording for reading a stretch at a time; without it, analyses of any length take what
   * `recording` reads.
   */
  stream?(path: string, field: string): RecordingStream;
  /** Told the share done, 0 to 1, and what is under way. */
  progress?(share: number, what: string): void;
  readonly signal?: AbortSignal;
}

/** A pure function with its paper: one description, from which every door to it is made. */
export interface Calculation<I extends z.ZodType = z.ZodType, O extends z.ZodType = z.ZodType> {
  readonly name: string;
  readonly title: string;
  readonly input: I;
  readonly output: O;
  compute(input: z.output<I>, surroundings: Surroundings): z.input<O> | Promise<z.input<O>>;
  /** What it works by, line by line as the docstrings of the trade folders write it; a procedure has none. */
  readonly formula?: readonly string[];
  /** Published formulas and tables it rests on, each with whether it was read or remembered. */
  readonly sources: readonly string[];
  /** Where it holds, and what it leaves out. */
  readonly validity: string;
  /** Where work with the result can hurt someone. */
  readonly cautions: readonly string[];
  readonly example: z.input<I>;
}

/** Keeps the types of a calculation's input and output together while it is written down. */
export function calculation<I extends z.ZodType, O extends z.ZodType>(paper: Calculation<I, O>): Calculation<I, O> {
  return paper;
}
