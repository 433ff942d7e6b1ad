import { wallClock } from "../common/calendar.ts";

export interface Placed<T> {
  readonly item: T;
  /** 0 at the strip's first hour, 1 at its last. */
  readonly along: number;
  readonly lane: number;
}

export interface Strip<T> {
  readonly from_h: number;
  readonly to_h: number;
  readonly placed: readonly Placed<T>[];
  readonly lanes: number;
}

const hour_ms = 3_600_000;

/** Share of the strip's width that a tag takes, and that two tags of a lane keep between them. */
export const label = 0.22;
const gap = 0.012;

/** Hours from the midnight before `now`, so that what ends after midnight lies beyond 24. */
export function hourOf(at: string, now: string): number {
  const midnight = wallClock(`${now.slice(0, 10)}T00:00`)?.getTime() ?? 0;
  return ((wallClock(at)?.getTime() ?? midnight) - midnight) / hour_ms;
}

/**
 * Hangs tags to the right of their marks under a strip of hours, the earliest highest: each takes the first lane that is
 * free where it lies. The last mark keeps room for its tag before the strip ends.
 */
export function layStrip<T extends { readonly at: string }>(items: readonly T[], now: string): Strip<T> {
  const hours = items.map((item) => hourOf(item.at, now));
  const from_h = Math.floor(Math.min(8, hourOf(now, now), ...hours) - 0.25);
  const last_h = Math.max(hourOf(now, now), ...hours);
  const to_h = Math.ceil(Math.max(18, from_h + (last_h - from_h) / (1 - label)));
  const ends: number[] = [];
  const placed = [...items]
    .sort((a, b) => hourOf(a.at, now) - hourOf(b.at, now))
    .map((item) => {
      const along = (hourOf(item.at, now) - from_h) / (to_h - from_h);
      const free = ends.findIndex((end) => end <= along);
      const lane = free < 0 ? ends.length : free;
      ends[lane] = along + label + gap;
      return { item, along, lane };
    });
  return { from_h, to_h, placed, lanes: ends.length };
}
