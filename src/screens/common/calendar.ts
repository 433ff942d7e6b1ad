import { inGenitive } from "../languages/sentences/forms.ts";
import { localeInUse } from "../languages/spoken.ts";

/**
 * Dates as the workshop's wall shows them.
 *
 * An instant is read in the offset it is written with, never in the browser's own zone: a phone set to another
 * country must not move Friday.
 */

const pattern = /^(\d{4})-(\d{2})-(\d{2})T(\d{2}):(\d{2})/;
const day_ms = 86_400_000;

/** The wall clock of an instant, as a date whose UTC fields are the wall's. */
export function wallClock(instant: string): Date | undefined {
  const found = pattern.exec(instant);
  if (!found) return undefined;
  const [, year, month, day, hour, minute] = found;
  return new Date(Date.UTC(Number(year), Number(month) - 1, Number(day), Number(hour), Number(minute)));
}

const format = (options: Intl.DateTimeFormatOptions) =>
  new Intl.DateTimeFormat(localeInUse(), { timeZone: "UTC", ...options });
const formats = {
  day: format({ weekday: "short", day: "numeric", month: "short" }),
  longDay: format({ weekday: "long", day: "numeric", month: "long", year: "numeric" }),
  dayAndYear: format({ weekday: "short", day: "numeric", month: "short", year: "numeric" }),
  time: format({ hour: "2-digit", minute: "2-digit", hourCycle: "h23" }),
};

const write = (name: keyof typeof formats, instant: string) => {
  const wall = wallClock(instant);
  return wall ? inGenitive(formats[name].format(wall)).replace(",", "").replaceAll(" ", "\u00a0") : instant;
};

/** `Fri 27 Nov`, never broken over two lines; the year is added when it is not that of `beside`. */
export function day(instant: string, beside?: string): string {
  const otherYear = beside !== undefined && beside.slice(0, 4) !== instant.slice(0, 4);
  return write(otherYear ? "dayAndYear" : "day", instant);
}

/** `Wednesday 25 November 2026` */
export const longDay = (instant: string): string => write("longDay", instant).replaceAll("\u00a0", " ");

/** `08:10` */
export const time = (instant: string): string => write("time", instant);

/** `Fri 27 Nov, 16:30` */
export const dayAndTime = (instant: string): string => `${day(instant)}, ${time(instant)}`;

export const sameDay = (a: string, b: string): boolean => a.slice(0, 10) === b.slice(0, 10);

/** Days of the wall's calendar from `a` to `b`, not whole. */
export function daysBetween(a: string, b: string): number {
  const from = wallClock(a);
  const to = wallClock(b);
  return from && to ? (to.getTime() - from.getTime()) / day_ms : 0;
}
