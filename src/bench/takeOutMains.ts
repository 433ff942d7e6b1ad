import { takeOut } from "./mains/waveform.ts";
import type { MainsFit } from "./mains.ts";

/** A copy of one signal without the detected lines of the families found. */
export function withoutMains(signal: Float64Array, fits: readonly MainsFit[], channel: number): Float64Array {
  return takeOutMains(signal.slice(), fits, channel);
}

/** The same where the signal may be given up: it is written into and returned. */
export function takeOutMains(left: Float64Array, fits: readonly MainsFit[], channel: number): Float64Array {
  for (const fit of fits) {
    const lines = fit.channels[channel]!.filter((line) => line.detected);
    const phasors = Float64Array.from(lines.flatMap(({ re, im }) => [re, im]));
    takeOut(
      [left],
      fit.phase_rad,
      lines.map(({ order }) => order),
      [phasors],
    );
  }
  return left;
}
