import type { Random } from "../../maths/random.ts";

/** Order to amplitude over the nominal fundamental's and phase of a cosine; order 1 of an unloaded supply is (1, 0). */
export type Shape = ReadonlyMap<number, { readonly ratio: number; readonly phase_cycles: number }>;

/** What a socket gives: where its phase stands at each sample, and its shape. */
export interface Socket {
  /** Cycles of the fundamental since the record began, plus the phase it began with. */
  readonly cycles: Float64Array;
  readonly mean_Hz: number;
  readonly shape: Shape;
}

/** Seconds between the knots of the wandering frequency. */
const knot_s = 0.5;
/** How far and how slowly the frequency of an interconnected network strays from its mean. */
const stray_Hz = 0.02;
const stray_s = 60;

/**
 * The building's own mains: a frequency that strays by milliherz within seconds, and the flat-topped, slowly changing
 * shape that rectifiers in the street give it.
 *
 * The frequency is a random walk drawn back to its mean, taken every half second and joined smoothly:
 * x(k+1) = ρ·x(k) + √(1 − ρ²)·0.02 Hz·n, with ρ = e^(−0.5 s/60 s).
 *
 * @param rate_Hz  true samples a second, the recorder's clock error included
 * @source fifth and seventh harmonic of a few per cent in low-voltage networks: common practice
 */
export function buildingMains(
  nominal_Hz: number,
  length: number,
  rate_Hz: number,
  distortion: number,
  chance: Random,
): Socket {
  const walk = chance.fork("frequency");
  const pull = Math.exp(-knot_s / stray_s);
  const kick_Hz = stray_Hz * Math.sqrt(1 - pull * pull);
  const knots_Hz = [walk.normal(0, stray_Hz)];
  const knots = Math.ceil(length / rate_Hz / knot_s) + 2;
  while (knots_Hz.length < knots) knots_Hz.push(pull * knots_Hz.at(-1)! + walk.normal(0, kick_Hz));

  const cycles = new Float64Array(length);
  let at = chance.fork("phase").uniform();
  let sum_Hz = 0;
  for (let n = 0; n < length; n++) {
    cycles[n] = at;
    const knot = n / rate_Hz / knot_s;
    const left = Math.floor(knot);
    const way = knot - left;
    const blend = way * way * (3 - 2 * way);
    const frequency_Hz = nominal_Hz + knots_Hz[left]! * (1 - blend) + knots_Hz[left + 1]! * blend;
    sum_Hz += frequency_Hz;
    at += frequency_Hz / rate_Hz;
  }

  const shape = chance.fork("shape");
  const near = (ratio: number) => ratio * distortion * (1 + shape.normal(0, 0.08));
  return {
    cycles,
    mean_Hz: sum_Hz / length,
    shape: new Map([
      [1, { ratio: 1, phase_cycles: 0 }],
      [3, { ratio: near(0.012), phase_cycles: 0.08 }],
      [5, { ratio: near(0.031), phase_cycles: 0.52 + shape.normal(0, 0.01) }],
      [7, { ratio: near(0.016), phase_cycles: 0.05 + shape.normal(0, 0.01) }],
      [9, { ratio: near(0.003), phase_cycles: 0.31 }],
      [11, { ratio: near(0.0025), phase_cycles: 0.61 }],
      [13, { ratio: near(0.0015), phase_cycles: 0.22 }],
    ]),
  };
}

/** The bench's regenerator: quartz-steady, within a few millionths of its nominal, and all but a pure sine. */
export function regenerator(nominal_Hz: number, length: number, rate_Hz: number, chance: Random): Socket {
  const mean_Hz = nominal_Hz * (1 + chance.fork("quartz").normal(0, 3e-6));
  const start = chance.fork("phase").uniform();
  return {
    cycles: Float64Array.from({ length }, (_, n) => start + (mean_Hz * n) / rate_Hz),
    mean_Hz,
    shape: new Map([
      [1, { ratio: 1, phase_cycles: 0 }],
      [3, { ratio: 0.0004, phase_cycles: 0.2 }],
      [5, { ratio: 0.0002, phase_cycles: 0.4 }],
    ]),
  };
}
