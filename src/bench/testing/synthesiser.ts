import type { Random } from "../../maths/random.ts";

/** How the frequency of a made-up mains moves: not at all, as a random walk pulled back, or in slow swings. */
export type Wander =
  | { kind: "steady" }
  | { kind: "walk"; Hz_per_rts: number }
  | { kind: "swing"; Hz: number; period_s: number };

/** Phase of a mains at every sample, and its true mean frequency. */
export function mainsPhase(random: Random, frequency_Hz: number, wander: Wander, rate_Hz: number, length: number) {
  const theta = new Float64Array(length);
  const start = 2 * Math.PI * random.uniform();
  const swingStart = 2 * Math.PI * random.uniform();
  const grid = Math.max(1, Math.round(rate_Hz / 100));
  let phase = start;
  let walk = 0;
  let slope = 0;
  for (let n = 0; n < length; n++) {
    theta[n] = phase;
    let offset_Hz = 0;
    if (wander.kind === "walk") {
      if (n % grid === 0) {
        const kick = wander.Hz_per_rts * Math.sqrt(grid / rate_Hz) * random.normal();
        slope = (kick - (walk / 30) * (grid / rate_Hz)) / grid;
      }
      walk += slope;
      offset_Hz = walk;
    }
    if (wander.kind === "swing") {
      offset_Hz = wander.Hz * Math.cos(swingStart + (2 * Math.PI * n) / rate_Hz / wander.period_s);
    }
    phase += (2 * Math.PI * (frequency_Hz + offset_Hz)) / rate_Hz;
  }
  const mean_Hz = ((theta[length - 1]! - theta[0]!) / (2 * Math.PI) / (length - 1)) * rate_Hz;
  return { theta, mean_Hz };
}

/** A line of a comb: peak amplitude and phase of a cosine at order times the mains phase. */
export interface MadeLine {
  readonly order: number;
  readonly peak: number;
  readonly phase_rad: number;
}

export function addComb(signal: Float64Array, theta: Float64Array, lines: readonly MadeLine[]): void {
  for (const { order, peak, phase_rad } of lines) {
    for (let n = 0; n < signal.length; n++) signal[n]! += peak * Math.cos(order * theta[n]! + phase_rad);
  }
}

export function addTone(
  signal: Float64Array,
  rate_Hz: number,
  frequency_Hz: number,
  peak: number,
  phase_rad: number,
): void {
  for (let n = 0; n < signal.length; n++) {
    signal[n]! += peak * Math.cos((2 * Math.PI * frequency_Hz * n) / rate_Hz + phase_rad);
  }
}

/**
 * Noise of one-sided density `V_per_rtHz`, white, with flicker below `corner_Hz` added by a sum of one-pole filters an
 * octave apart (within 0.3 dB of 1/f from 2 Hz to the corner).
 */
export function addNoise(
  signal: Float64Array,
  random: Random,
  rate_Hz: number,
  V_per_rtHz: number,
  corner_Hz = 0,
): void {
  const sd = V_per_rtHz * Math.sqrt(rate_Hz / 2);
  for (let n = 0; n < signal.length; n++) signal[n]! += sd * random.normal();
  if (corner_Hz <= 0) return;
  const poles = Array.from({ length: 14 }, (_, i) => 0.5 * 2 ** i).filter((pole) => pole < rate_Hz / 8);
  // Octave-spaced relaxations of equal power p sum to a density of p/(ln 2·f) where many overlap.
  const power = V_per_rtHz ** 2 * corner_Hz * Math.LN2;
  for (const pole_Hz of poles) {
    const keep = Math.exp((-2 * Math.PI * pole_Hz) / rate_Hz);
    const drive = Math.sqrt(power * (1 - keep * keep));
    let state = Math.sqrt(power) * random.normal();
    for (let n = 0; n < signal.length; n++) {
      signal[n]! += state;
      state = keep * state + drive * random.normal();
    }
  }
}

/** Standing levels of a plausible comb: falling with order, odd and even by chance. */
export function drawLines(random: Random, orders: number, strongest: number): MadeLine[] {
  const lines: MadeLine[] = [];
  for (let order = 1; order <= orders; order++) {
    if (random.uniform() < 0.35 && order > 2) continue;
    const fall_dB = -20 * Math.log10(order) * (0.5 + 1.5 * random.uniform()) - 15 * random.uniform();
    lines.push({ order, peak: strongest * 10 ** (fall_dB / 20), phase_rad: 2 * Math.PI * random.uniform() });
  }
  return lines;
}
