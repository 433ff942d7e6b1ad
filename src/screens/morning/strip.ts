import { wallClock } from "../common/calendar.ts";

export interface Placed<T> {
  readonly item: T;
  /** 0 at the strip's first hour, 1 at its last. */
  readonly along: number;
  readonly lane: number;
  /** The label hangs to the left of its mark. */
  readonly isFlipped: boolean;
}

export interface Strip<T> {
  readonly from_h: number;
  readonly to_h: number;
  readonly placed: readonly Placed<T>[];
  readonly lanes: number;
}

const hour_ms = 3_600_000;
const label = 0.23;

/** Hours from the midnight before `now`, so that what ends after midnight lies beyond 24. */
export function hourOf(at: string, now: string): number {
  const midnight = wallClock(`${now.slice(0, 10)}T00:00`)?.getTime() ?? 0;
  return ((wallClock(at)?.getTime() ?? midnight) - midnight) / hour_ms;
}

/**
 * Hangs labels under a strip of hours so that none covers another: each goes to the first lane that is free where it
 * lies. A label is taken to be 23 % of the strip wide.
 */
export function layStrip<T extends { readonly at: string }>(items: readonly T[], now: string): Strip<T> {
  const hours = [hourOf(now, now), ...items.map((item) => hourOf(item.at, now))];
  const from_h = Math.floor(Math.min(8, ...hours) - 0.25);
  const to_h = Math.ceil(Math.max(18, ...hours) + 0.25);
  const ends: number[] = [];
  const placed = [...items]
    .sort((a, b) => hourOf(a.at, now) - hourOf(b.at, now))
    .map((item) => {
      const along = (hourOf(item.at, now) - from_h) / (to_h - from_h);
      const isFlipped = along > 1 - label;
      const [left, right] = isFlipped ? [along - label, along] : [along, along + label];
      const free = ends.findIndex((end) => end <= left);
      const lane = free < 0 ? ends.length : free;
      ends[lane] = right + 0.012;
      return { item, along, lane, isFlipped };
    });
  return { from_h, to_h, placed, lanes: ends.length };
}
