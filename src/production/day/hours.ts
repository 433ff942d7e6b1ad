import { writeInstant } from "../instants.ts";
import type { WorkingHours } from "../workingHours.ts";
import type { Shift } from "./day.ts";

export const hour_ms = 3_600_000;
export const minute_ms = 60_000;
export const day_ms = 24 * hour_ms;

/** What is left of the day on which `now` falls, or, after hours, nothing. */
export function todayOf(hours: WorkingHours, now: number, zone: string): Shift[] {
  while (hours.known < 2 * day_ms) hours.extend();
  const date = (at: number) => writeInstant(now + at, zone).slice(0, 10);
  const today = date(0);
  const shifts: Shift[] = [];
  for (let i = 0; i < hours.starts.length; i++) {
    const [start, end] = [Math.max(0, hours.starts[i]!), hours.ends[i]!];
    if (end <= 0) continue;
    if (date(start) !== today) break;
    shifts.push([start, end]);
  }
  return shifts;
}

/** The first moment at work from `at` on. */
export function nextAtWork(hours: WorkingHours, at: number): number {
  for (let tries = 0; tries < 12; tries++) {
    const i = hours.ends.findIndex((end) => end > at);
    if (i >= 0) return Math.max(at, hours.starts[i]!);
    hours.extend();
  }
  return at;
}

export function workedBetween(hours: WorkingHours, from: number, to: number): number {
  while (hours.known < to && hours.ends.length < 5000) hours.extend();
  return hours.starts.reduce(
    (sum, start, i) => sum + Math.max(0, Math.min(hours.ends[i]!, to) - Math.max(start, from)),
    0,
  );
}
