/** Frames in which the energy is watched. */
const frame_s = 0.001;
/** Nothing rings up as fast as a tap: the energy must leap over all it was in this stretch before. */
const before_s = 0.028;
const attack_s = 0.003;
const leap = 4;
/** Energy over that of the quiet from which a leap counts, and its least share of the loudest frame. */
const overQuiet = 14;
const leastShare = 2e-4;
/** Taps nearer than this are one. */
const apart_s = 0.03;

/** Energy of a record's frames of a millisecond, heard as its samples come. */
export class FrameEnergies {
  readonly frame: number;
  readonly of: Float64Array;
  private seen = 0;

  constructor(
    readonly rate_Hz: number,
    length: number,
  ) {
    this.frame = Math.max(4, Math.round(frame_s * rate_Hz));
    this.of = new Float64Array(Math.floor(length / this.frame));
  }

  /** @param mean  constant voltage to leave out */
  push(samples: Float64Array, mean = 0): void {
    const { frame, of } = this;
    const whole = of.length * frame;
    for (let n = 0; n < samples.length && this.seen < whole; n++, this.seen++) {
      of[Math.floor(this.seen / frame)]! += (samples[n]! - mean) ** 2;
    }
  }
}

/**
 * Frames in which a recording is struck: the energy leaps over everything just before and then dies away.
 *
 * @param hums  hum is still in it: what swings in the first period is not yet a tap
 */
export function tapsAmong({ of: energy, frame, rate_Hz }: FrameEnergies, hums = false): number[] {
  const count = energy.length;
  const sorted = energy.slice().sort();
  const quiet = sorted[Math.floor(0.3 * count)]!;
  const loudest = sorted[count - 1] ?? 0;
  const least = Math.max(overQuiet * quiet, leastShare * loudest);
  if (!(loudest > least)) return [];
  const reach = Math.round((before_s * rate_Hz) / frame);
  const attack = attackFrames(frame, rate_Hz);
  const taps: number[] = [];
  let last = Number.NEGATIVE_INFINITY;
  for (let i = 0; i < count; i++) {
    if (energy[i]! <= least || (i - last) * frame < apart_s * rate_Hz) continue;
    let earlier = quiet;
    for (let j = Math.max(0, i - reach); j < i - attack + 1; j++) earlier = Math.max(earlier, energy[j]!);
    if (energy[i]! < leap * earlier || i < (hums ? reach : attack)) continue;
    last = i;
    taps.push(i);
  }
  return taps;
}

const attackFrames = (frame: number, rate_Hz: number) => Math.max(1, Math.round((attack_s * rate_Hz) / frame));

/** Samples at which a recording is struck. */
export function findTaps(signal: Float64Array, rate_Hz: number): number[] {
  const energies = new FrameEnergies(rate_Hz, signal.length);
  energies.push(signal);
  const { frame } = energies;
  return tapsAmong(energies).map((at) => onset(signal, at * frame, frame, attackFrames(frame, rate_Hz)));
}

/** Frames before and after the leap from which the voltages on either side are known. */
const [framesBefore, framesAfter] = [10, 4];
/** Share of the loudest sample below which a silence is no quieter. */
const silence = 1e-6;

/**
 * First sample about a frame from which the signal is another: where two stretches of normal noise, each with a power of
 * its own, are likeliest to meet. A single sample that chance lifts out of the noise is no onset.
 *
 *     least of n·ln P(before n) + (N − n)·ln P(from n on)
 *
 * @source N. Maeda, Zisin 38 (1985), onsets by the information criterion of two stretches (remembered)
 */
function onset(signal: Float64Array, at: number, frame: number, attack: number): number {
  const earliest = Math.max(1, at - attack * frame);
  const start = Math.max(0, earliest - framesBefore * frame);
  const end = Math.min(signal.length, at + framesAfter * frame);
  const energies = new Float64Array(end - start + 1);
  let peak = 0;
  for (let n = start; n < end; n++) {
    energies[n + 1 - start] = energies[n - start]! + signal[n]! ** 2;
    peak = Math.max(peak, Math.abs(signal[n]!));
  }
  const weigh = (samples: number, energy: number) =>
    samples * Math.log(Math.max(energy / samples, (silence * peak) ** 2));
  const whole = energies.at(-1)!;
  let best = at;
  let least = Number.POSITIVE_INFINITY;
  for (let n = earliest; n < Math.min(at + frame, end - 1); n++) {
    const before = energies[n - start]!;
    const cost = weigh(n - start, before) + weigh(end - n, whole - before);
    if (cost < least) [least, best] = [cost, n];
  }
  return best;
}
