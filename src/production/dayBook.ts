import { Temporal } from "temporal-polyfill";

const day_ms = 86_400_000;
const minutesOfDay = 24 * 60;

/** The days of a time zone from the day before `now` on, looked up once each. */
export interface DayBook {
  /** The date, and its weekday counted from Monday as 0, of the i-th day. */
  readonly at: (i: number) => { readonly date: string; readonly weekday: number };
  /** Milliseconds from `now` until a time of that day, in minutes after midnight; from 24 h on, of the next day. */
  readonly instant: (i: number, minute: number) => number;
}

interface Day {
  readonly plain: Temporal.PlainDate;
  readonly date: string;
  readonly weekday: number;
  readonly start_ms: number;
}

/**
 * @param origin_ms  epoch of `now`
 * @remarks The day before is in it because a shift that began then may reach over midnight.
 */
export function dayBook(zone: string, origin_ms: number): DayBook {
  const first = Temporal.Instant.fromEpochMilliseconds(origin_ms)
    .toZonedDateTimeISO(zone)
    .toPlainDate()
    .subtract({ days: 1 });
  const days: Day[] = [];
  const day = (i: number): Day => {
    while (days.length <= i) {
      const plain = first.add({ days: days.length });
      days.push({
        plain,
        date: plain.toString(),
        weekday: plain.dayOfWeek - 1,
        start_ms: exact(plain, 0),
      });
    }
    return days[i]!;
  };
  const exact = (plain: Temporal.PlainDate, minute: number) =>
    plain
      .toPlainDateTime({ hour: Math.floor(minute / 60), minute: minute % 60 })
      .toZonedDateTime(zone, { disambiguation: "compatible" }).epochMilliseconds - origin_ms;

  return {
    at: day,
    instant(i, minute) {
      if (minute >= minutesOfDay) return this.instant(i + 1, minute - minutesOfDay);
      const { plain, start_ms } = day(i);
      const isPlainDay = day(i + 1).start_ms - start_ms === day_ms;
      return isPlainDay ? start_ms + minute * 60_000 : exact(plain, minute);
    },
  };
}
