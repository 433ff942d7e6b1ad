import { Temporal } from "temporal-polyfill";
import { BadInput, quote } from "../maths/badInput.ts";
import { firstWhere } from "../maths/firstWhere.ts";
import type { DayBook } from "./dayBook.ts";
import type { Calendar } from "./shop.ts";

const weekdays = ["mon", "tue", "wed", "thu", "fri", "sat", "sun"] as const;
const minutesOfDay = 24 * 60;
/** Nobody works longer through a night; beyond it the two ends were exchanged. Common practice, no source. */
const longestNight_min = 12 * 60;

interface Shift {
  readonly start_min: number;
  /** Beyond 24 h when the shift ends on the next day. */
  readonly end_min: number;
  readonly text: string;
}

/**
 * When a calendar's people are at work: intervals [start, end) in milliseconds from `now`, sorted, without overlap,
 * with the time at work before each. The lists grow as far as they are asked for.
 */
export interface WorkingHours {
  readonly starts: number[];
  readonly ends: number[];
  /** `before[i]` is the time at work before interval i, in milliseconds. */
  readonly before: number[];
  /** Everything up to here is in the lists. */
  known: number;
  readonly extend: () => void;
  /** Shifts that run over midnight, "sat 22:00-06:00". */
  readonly overMidnight: readonly string[];
}

/**
 * Turns a calendar into intervals of real time, so that a day on which clocks change is as long as it really is.
 *
 * @param days  a shift under way at `now` is cut to what is left of it
 * @param away  dates on which one person does not work, beside those on which nobody does
 * @throws BadInput  a day, time or date that does not exist, a shift whose ends look exchanged, a calendar without hours
 * @remarks A time of day that a clock change skips is taken as the clock would show had it not been changed yet; one
 *   that comes twice is taken the first time. A shift over midnight belongs to the day on which it starts.
 */
export function workingHours(
  calendar: Calendar,
  path: string,
  days: DayBook,
  away: ReadonlySet<string> = new Set(),
): WorkingHours {
  const week = readWeek(calendar, path);
  const closed = readClosed(calendar, path);
  let day = 0;

  const hours: WorkingHours = {
    starts: [],
    ends: [],
    before: [],
    known: 0,
    overMidnight: week.flatMap((shifts, day) =>
      shifts.filter(({ end_min }) => end_min > minutesOfDay).map(({ text }) => `${weekdays[day]} ${text}`),
    ),
    extend() {
      const until = day + 92;
      for (; day < until; day++) {
        const { date, weekday } = days.at(day);
        if (closed.has(date) || away.has(date)) continue;
        for (const { start_min, end_min } of week[weekday]!) {
          append(hours, days.instant(day, start_min), days.instant(day, end_min));
        }
      }
      hours.known = days.instant(day, 0);
    },
  };
  return hours;
}

function append(hours: WorkingHours, start: number, end: number): void {
  const { starts, ends, before } = hours;
  const last = starts.length - 1;
  const from = Math.max(start, 0, last >= 0 ? ends[last]! : 0);
  if (end <= from) return;
  starts.push(from);
  ends.push(end);
  before.push(last >= 0 ? before[last]! + ends[last]! - starts[last]! : 0);
}

/** Time at work from `now` until an instant that the lists reach. */
export function timeAtWork({ starts, ends, before }: WorkingHours, until: number): number {
  const i = firstWhere(0, starts.length, (at) => starts[at]! >= until) - 1;
  return i < 0 ? 0 : before[i]! + Math.min(until, ends[i]!) - starts[i]!;
}

function readWeek(calendar: Calendar, path: string): readonly (readonly Shift[])[] {
  for (const day of Object.keys(calendar.week)) {
    if (weekdays.includes(day as (typeof weekdays)[number])) continue;
    throw new BadInput(`${path}.week.${day}`, quote(day), `days are ${weekdays.join(", ")}`, "rename the day");
  }
  const week = weekdays.map((day) =>
    (calendar.week[day] ?? [])
      .map((text, i) => readShift(text, `${path}.week.${day}[${i}]`))
      .sort((a, b) => a.start_min - b.start_min),
  );
  if (week.every((shifts) => shifts.length === 0)) {
    throw new BadInput(
      `${path}.week`,
      "a calendar without any hours",
      "at least one shift in the week is needed",
      'give a day its hours, like "mon": ["08:00-12:00", "13:00-17:00"]',
    );
  }
  return week;
}

function readShift(text: string, path: string): Shift {
  const found = /^(\d{1,2}):(\d{2})\s*[-–]\s*(\d{1,2}):(\d{2})$/.exec(text.trim());
  const [from_h, from_min, to_h, to_min] = (found ?? []).slice(1).map(Number);
  const start_min = from_h! * 60 + from_min!;
  const end_min = to_h! * 60 + to_min!;
  const isTime = found && from_min! < 60 && to_min! < 60 && start_min < minutesOfDay && end_min <= minutesOfDay;
  if (!isTime || start_min === end_min) {
    throw new BadInput(path, quote(text), 'hours are written "08:00-12:00", up to 24:00', "write start and end so");
  }
  if (end_min > start_min) return { start_min, end_min, text };
  const overNight = end_min + minutesOfDay;
  if (overNight - start_min > longestNight_min) {
    const [from, to] = text.split(/[-–]/).map((clock) => clock.trim()) as [string, string];
    throw new BadInput(
      path,
      `${quote(text)}, which would run over midnight for ${(overNight - start_min) / 60} hours`,
      `a shift that ends after it begins, or one over midnight of at most ${longestNight_min / 60} hours`,
      `write "${to}-${from}" if the two ends were exchanged, else two shifts, "${from}-24:00" on this day and "00:00-${to}" on the next`,
    );
  }
  return { start_min, end_min: overNight, text };
}

function readClosed(calendar: Calendar, path: string): ReadonlySet<string> {
  return new Set((calendar.closed ?? []).map((text, i) => readDate(text, `${path}.closed[${i}]`).toString()));
}

function readDate(text: string, path: string, whose = ""): Temporal.PlainDate {
  try {
    if (!/^\d{4}-\d{2}-\d{2}$/.test(text)) throw new RangeError(text);
    return Temporal.PlainDate.from(text, { overflow: "reject" });
  } catch {
    throw new BadInput(path, `${quote(text)}${whose}`, "a date of the calendar", "write it like 2027-01-01");
  }
}

const mostDaysAway = 3660;

/**
 * All dates from one to the other, both included.
 *
 * @throws BadInput  a date that does not exist, or an end before the beginning, with the person concerned
 */
export function readDates(from: string, to: string, path: string, person: string): readonly string[] {
  const first = readDate(from, `${path}.from`, ` for ${quote(person)}`);
  const last = readDate(to, `${path}.to`, ` for ${quote(person)}`);
  const days = first.until(last, { largestUnit: "days" }).days;
  if (days < 0 || days > mostDaysAway) {
    throw new BadInput(
      path,
      `${quote(person)} away from ${from} to ${to}`,
      days < 0 ? "the last day away is not before the first" : "at most ten years",
      "give the first and the last day away",
    );
  }
  return Array.from({ length: days + 1 }, (_, i) => first.add({ days: i }).toString());
}
