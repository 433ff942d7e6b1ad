import { Temporal } from "temporal-polyfill";
import { BadInput, quote } from "../maths/badInput.ts";

/**
 * Milliseconds since 1970 of an ISO 8601 instant.
 *
 * @throws BadInput  text that is no date and time with an offset
 */
export function readInstant(text: string, path: string): number {
  try {
    return Temporal.Instant.from(text).epochMilliseconds;
  } catch {
    throw new BadInput(
      path,
      quote(text),
      "a date and time with its offset from UTC is allowed",
      "write it like 2026-12-04T17:00:00+01:00",
    );
  }
}

/** The instant as local date and time with its offset, to the second or, where it has them, milliseconds. */
export function writeInstant(epoch_ms: number, zone: string): string {
  return Temporal.Instant.fromEpochMilliseconds(Math.round(epoch_ms)).toString({ timeZone: zone });
}

/**
 * The zone in which times of day are meant: the one named, or the offset that `now` was written with.
 *
 * @throws BadInput  a name that is no time zone
 */
export function readZone(timeZone: string | undefined, now: string, path = "timeZone"): string {
  if (timeZone !== undefined) {
    try {
      return Temporal.Instant.fromEpochMilliseconds(0).toZonedDateTimeISO(timeZone).timeZoneId;
    } catch {
      throw new BadInput(
        path,
        quote(timeZone),
        "an IANA time zone name is allowed",
        "write it like Europe/Paris, or leave it out to keep the offset of now",
      );
    }
  }
  const [, hours, minutes = "00"] = /[Tt ][^+\-[]*([+-]\d{2})(?::?(\d{2}))?/.exec(now) ?? [];
  return hours === undefined ? "UTC" : `${hours}:${minutes}`;
}
