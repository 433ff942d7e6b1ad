import type { Random } from "../../maths/random.ts";
import { addNoise } from "./synthesiser.ts";

export interface Ring {
  readonly frequency_Hz: number;
  readonly decay_s: number;
  /** Envelope at each tap. */
  readonly peaks: readonly number[];
}

/** Resonances struck at given instants, each time with a phase of its own, and noise. */
export function struck(
  random: Random,
  rate_Hz: number,
  seconds: number,
  taps_s: readonly number[],
  rings: readonly Ring[],
  V_per_rtHz: number,
): Float64Array {
  const signal = new Float64Array(Math.round(seconds * rate_Hz));
  for (const { frequency_Hz, decay_s, peaks } of rings) {
    taps_s.forEach((tap_s, j) => {
      const phase = 2 * Math.PI * random.uniform();
      for (let n = Math.ceil(tap_s * rate_Hz); n < signal.length; n++) {
        const t = n / rate_Hz - tap_s;
        signal[n]! += peaks[j]! * Math.exp(-t / decay_s) * Math.cos(2 * Math.PI * frequency_Hz * t + phase);
      }
    });
  }
  addNoise(signal, random, rate_Hz, V_per_rtHz);
  return signal;
}
