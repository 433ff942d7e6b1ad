import { floorNear } from "../../maths/spectra/noiseFloor.ts";
import { type Density, periodogram } from "../../maths/spectra/welch.ts";
import { cosineWindow } from "../../maths/spectra/windows.ts";
import { reach_Hz } from "./search.ts";

/** Periodograms of what is left of each signal when its lines are taken out. */
export function spectraOfRest(left: readonly Float64Array[], rate_Hz: number): Density[] {
  const window = cosineWindow("hann", left[0]?.length ?? 0);
  return left.map((signal) => periodogram(signal, rate_Hz, window));
}

/** Mean density close by may exceed the floor further off by this factor through chance alone. */
const chanceExcess = 3;

/**
 * Noise density at a line. The median about it does not notice neighbouring lines; where skirts of the line itself
 * remain (a frequency that moved faster than could be followed), the higher density close by counts.
 */
export function noiseAtLine(rest: Density, frequency_Hz: number, duration_s: number): number {
  const wide = floorNear(rest, frequency_Hz, reach_Hz(duration_s), 3 / duration_s);
  const close = meanBetween(rest, frequency_Hz, 1.5 / duration_s, 4 / duration_s);
  return close > chanceExcess * wide ? close : wide;
}

function meanBetween({ step_Hz, V2_per_Hz }: Density, frequency_Hz: number, from_Hz: number, to_Hz: number): number {
  let sum = 0;
  let count = 0;
  for (const side of [-1, 1]) {
    for (let off = from_Hz; off <= to_Hz; off += step_Hz) {
      const value = V2_per_Hz[Math.round((frequency_Hz + side * off) / step_Hz)];
      if (value === undefined) continue;
      sum += value;
      count++;
    }
  }
  return count > 0 ? sum / count : 0;
}
