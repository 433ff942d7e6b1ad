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

/** Samples at which a recording is struck: the energy leaps over everything just before and then dies away. */
export function findTaps(signal: Float64Array, rate_Hz: number): number[] {
  const frame = Math.max(4, Math.round(frame_s * rate_Hz));
  const count = Math.floor(signal.length / frame);
  const energy = new Float64Array(count);
  for (let i = 0; i < count; i++) {
    for (let n = i * frame; n < (i + 1) * frame; n++) energy[i]! += signal[n]! ** 2;
  }
  const sorted = energy.slice().sort();
  const quiet = sorted[Math.floor(0.3 * count)]!;
  const loudest = sorted[count - 1] ?? 0;
  const least = Math.max(overQuiet * quiet, leastShare * loudest);
  if (!(loudest > least)) return [];
  const reach = Math.round((before_s * rate_Hz) / frame);
  const attack = Math.max(1, Math.round((attack_s * rate_Hz) / frame));
  const taps: number[] = [];
  let last = Number.NEGATIVE_INFINITY;
  for (let i = 0; i < count; i++) {
    if (energy[i]! <= least || (i - last) * frame < apart_s * rate_Hz) continue;
    let earlier = quiet;
    for (let j = Math.max(0, i - reach); j < i - attack + 1; j++) earlier = Math.max(earlier, energy[j]!);
    if (energy[i]! < leap * earlier || i < attack) continue;
    last = i;
    taps.push(onset(signal, i * frame, frame, attack));
  }
  return taps;
}

/** First sample about a frame that stands out of what went before. */
function onset(signal: Float64Array, at: number, frame: number, attack: number): number {
  const from = Math.max(0, at - attack * frame);
  let before = 0;
  for (let n = Math.max(0, from - 10 * frame); n < from; n++) before = Math.max(before, Math.abs(signal[n]!));
  let peak = 0;
  for (let n = from; n < Math.min(signal.length, at + 4 * frame); n++) peak = Math.max(peak, Math.abs(signal[n]!));
  const threshold = Math.max(1.3 * before, 0.03 * peak);
  for (let n = from; n < at + frame; n++) if (Math.abs(signal[n]!) > threshold) return n;
  return at;
}
