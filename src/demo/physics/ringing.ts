import type { Random } from "../../maths/random.ts";

/** Something in a valve or under it that rings when it is struck. */
export interface Ring {
  readonly frequency_Hz: number;
  readonly q: number;
  /** At the output, after a tap of usual strength. */
  readonly peak_V: number;
}

const first_s = 0.7;
const apart_s = 1.25;
/** The soft knock of the pencil itself, through chassis and sockets: it dies within a swing or two. */
const knock: Ring = { frequency_Hz: 118, q: 1.4, peak_V: 0.00012 };

/**
 * Adds what a unit's output gives to a pencil's taps on the bottle, about one a second, no two of the same strength.
 *
 *     Σ over taps  s·peak·e^{−π·f·t/Q}·sin(2π·f·t),   s normal about 1 by a sixth
 */
export function addTaps(into_V: Float64Array, rate_Hz: number, rings: readonly Ring[], chance: Random): void {
  const seconds = into_V.length / rate_Hz;
  for (let tap = 0, at_s = first_s; at_s < seconds - 0.5; tap++, at_s += apart_s) {
    const hand = chance.fork(`tap ${tap}`);
    const struck = Math.max(0.5, hand.normal(1, 0.16));
    const begins = Math.round((at_s + hand.normal(0, 0.06)) * rate_Hz);
    for (const { frequency_Hz, q, peak_V } of [knock, ...rings]) {
      const turn = (2 * Math.PI * frequency_Hz) / rate_Hz;
      const fade = Math.exp(-turn / (2 * q));
      // Until nothing is left of it over the finest noise.
      const lasts = Math.ceil((2 * q * Math.log(1e5)) / turn);
      let left = struck * peak_V;
      for (let n = 0; n < lasts && begins + n < into_V.length; n++) {
        into_V[begins + n]! += left * Math.sin(turn * n);
        left *= fade;
      }
    }
  }
}
