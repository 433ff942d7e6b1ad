import type { Code, Lines } from "./code.ts";

/** Currents and slopes as `DeviceCurrents` has them: current by electrode, slope at 3·electrode + voltage. */
export interface WrittenCurve {
  readonly current: readonly Code[];
  readonly slope: readonly (Code | undefined)[];
}

/** A curve that is written out for two units at a time. */
export interface CurveWriter {
  /** What the lines need of a part, each a row of the memory with one number a lane. */
  readonly names: readonly string[];
  /** Those of a lane's part. */
  numbers(lane: number): Readonly<Record<string, number>>;
  /** They change from draw to draw. */
  readonly isDrawn: boolean;
  /**
   * @param p  a number by its name
   * @param u  voltages of the electrodes, counted from the last
   */
  write(lines: Lines, p: (name: string) => Code, u: readonly Code[]): WrittenCurve;
}
