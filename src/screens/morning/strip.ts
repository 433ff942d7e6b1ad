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
/** The strip begins no earlier than at midnight of the day before. */
const earliest_h = -24;

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
  // What was ripe before yesterday hangs at the strip's beginning, with its date; a strip of weeks could not be read.
  const shownAt = (at: string) => Math.max(earliest_h, hourOf(at, now));
  const hours = items.map((item) => shownAt(item.at));
  const from_h = Math.floor(Math.min(8, hourOf(now, now), ...hours) - 0.25);
  const last_h = Math.max(hourOf(now, now), ...hours);
  const to_h = Math.ceil(Math.max(18, from_h + (last_h - from_h) / (1 - label)));
  const ends: number[] = [];
  const placed = [...items]
    .sort((a, b) => hourOf(a.at, now) - hourOf(b.at, now))
    .map((item) => {
      const along = (shownAt(item.at) - from_h) / (to_h - from_h);
      const free = ends.findIndex((end) => end <= along);
      const lane = free < 0 ? ends.length : free;
      ends[lane] = along + label + gap;
      return { item, along, lane };
    });
  return { from_h, to_h, placed, lanes: ends.length };
}
