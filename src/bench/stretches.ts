import { thinner, thinningFactor } from "../maths/spectra/thinOut.ts";
import type { RecordingStream } from "./recordingStream.ts";

/** Part of a recording that is looked at by itself. */
export interface Stretch {
  readonly first: number;
  readonly count: number;
}

/** Thinned values of one stretch, all channels together: what its arrays may take stays under 300 MB. */
const mostValues = 4_500_000;
/** Mains orders and band edges that every analysis needs. */
const leastPassband_Hz = 7_000;

/**
 * How a recording is cut and thinned out for analysis: as few equal stretches as memory allows, three quarters of a
 * minute of stereo being one, at the lowest rate that holds `passband_Hz`.
 *
 * @param most  values of all channels together that a stretch may hold
 */
export function cutUp({ rate_Hz, frames, channels }: RecordingStream, passband_Hz: number, most = mostValues) {
  const passband = Math.min(0.49 * rate_Hz, Math.max(leastPassband_Hz, passband_Hz));
  const factor = thinningFactor(rate_Hz, passband);
  const count = Math.ceil(((frames / factor) * channels) / most);
  const edges = Array.from({ length: count + 1 }, (_, i) => Math.round((i * frames) / count));
  const stretches = edges.slice(1).map((end, i): Stretch => ({ first: edges[i]!, count: end - edges[i]! }));
  const low_Hz = rate_Hz / factor;
  return { stretches, factor, low_Hz, thinner: (length: number) => thinner(length, factor, rate_Hz, passband) };
}

/** Samples read at once. */
const block = 2 ** 15;

/**
 * Shows a stretch of a recording block by block.
 *
 * @param look  given the channels' samples, scaled so that 1 is digital full scale, and may write into them
 */
export function eachBlock(
  stream: RecordingStream,
  { first, count }: Stretch,
  look: (channels: readonly Float64Array[], from: number) => void,
): void {
  const rooms = Array.from({ length: stream.channels }, () => new Float64Array(Math.min(block, count)));
  for (let from = 0; from < count; from += block) {
    const into = count - from < block ? rooms.map((room) => room.subarray(0, count - from)) : rooms;
    stream.read(first + from, into);
    look(into, from);
  }
}

export function scaleInPlace(samples: Float64Array, factor: number): void {
  if (factor === 1) return;
  for (let n = 0; n < samples.length; n++) samples[n]! *= factor;
}

/** How a long recording was looked at, for whoever reads the figures. */
export function notesOnStretches(count: number, duration_s: number): string[] {
  if (count === 1) return [];
  return [
    `Read in ${count} stretches of ${(duration_s / count).toFixed(0)} s: levels are r.m.s. over all of them, frequencies means, and a mains line must stand out within a stretch.`,
  ];
}
