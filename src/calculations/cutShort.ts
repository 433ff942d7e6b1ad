import type { Recording } from "../bench/recording.ts";

/** What an answer adds when a file's header promised more than it held: the shortest length that could be used. */
export function cutShort(recordings: readonly Recording[]): { truncated?: true; usable_s?: number } {
  const cut = recordings.filter(({ truncated }) => truncated);
  if (cut.length === 0) return {};
  return { truncated: true, usable_s: Math.min(...cut.map(({ samples, rate_Hz }) => samples[0]!.length / rate_Hz)) };
}
