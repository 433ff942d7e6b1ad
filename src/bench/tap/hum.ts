import { fitMains, leastDuration_s, type MainsFit } from "../mains.ts";
import { takeOutMains } from "../takeOutMains.ts";

/** Frames whose power is watched. */
const frame_s = 0.01;
/** A frame this many times as loud as the quiet third of the record rings, and tells nothing of hum. */
const overQuiet = 3;
/** With less than this share of the record quiet, hum is not told from what rings. */
const leastQuiet = 0.3;
/** What rings is replaced by the hum as last fitted, and hum fitted afresh, so often. */
const passes = 3;

/**
 * Mains lines of a record that is struck now and then, fitted to what is quiet in it.
 *
 * What rings is cut out and the gaps filled with the hum as last fitted, which with every pass comes nearer to least
 * squares over the quiet samples alone.
 *
 * @param signal  taken over: its hum is taken out where it stands
 * @returns whether hum was found
 * @source filling gaps by expectation: A. Dempster, N. Laird, D. Rubin (1977) (remembered)
 */
export function takeOutHum(signal: Float64Array, rate_Hz: number): boolean {
  if (signal.length < 1.2 * leastDuration_s * rate_Hz) return false;
  const frame = Math.max(1, Math.round(frame_s * rate_Hz));
  const quiet = quietFrames(signal, frame);
  if (quiet.filter(Boolean).length < leastQuiet * quiet.length) return false;
  const gaps = quiet.includes(false);
  const filled = signal.slice();
  let found = gaps ? humOfLongest(signal, rate_Hz, quiet, frame) : [];
  for (let pass = 0; pass < (gaps ? passes : 1); pass++) {
    if (gaps) fillGaps(filled, quiet, frame, found);
    found = fitMains([filled], rate_Hz, [50, 60]).filter((fit) => fit.found);
    if (found.length === 0) return false;
  }
  takeOutMains(signal, found, 0);
  return true;
}

/** Frames in which nothing rings: those about as loud as the quietest third. */
function quietFrames(signal: Float64Array, frame: number): boolean[] {
  const power = Array.from({ length: Math.max(1, Math.floor(signal.length / frame)) }, (_, i) => {
    let sum = 0;
    for (let n = i * frame; n < (i + 1) * frame; n++) sum += signal[n]! ** 2;
    return sum;
  });
  const third = [...power].sort((a, b) => a - b)[Math.floor(power.length / 3)]!;
  const calm = power.map((one) => one <= overQuiet * third);
  // What dies away under the threshold, and what a tap did before its frame, goes with what rings.
  return calm.map((one, i) => one && calm[i - 1] !== false && calm[i - 2] !== false && calm[i + 1] !== false);
}

/** Hum as the longest quiet shows it, to begin with. */
function humOfLongest(signal: Float64Array, rate_Hz: number, quiet: readonly boolean[], frame: number): MainsFit[] {
  let [first, count] = [0, 0];
  for (let from = 0; from < quiet.length; from++) {
    let end = from;
    while (end < quiet.length && quiet[end]) end++;
    if (end - from > count) [first, count] = [from * frame, end - from];
    from = end;
  }
  if (count * frame < leastDuration_s * rate_Hz) return [];
  const fits = fitMains([signal.subarray(first, first + count * frame)], rate_Hz, [50, 60]);
  return fits
    .filter((fit) => fit.found)
    .map((fit) => ({ ...fit, phase_rad: (at: number, into: Float64Array) => fit.phase_rad(at - first, into) }));
}

function fillGaps(filled: Float64Array, quiet: readonly boolean[], frame: number, found: readonly MainsFit[]): void {
  const hum = new Float64Array(filled.length);
  takeOutMains(hum, found, 0);
  quiet.forEach((calm, i) => {
    if (calm) return;
    const end = i === quiet.length - 1 ? filled.length : (i + 1) * frame;
    for (let n = i * frame; n < end; n++) filled[n] = -hum[n]!;
  });
}
