/**
 * A date with its clock as people type it, in the offset of the workshop's own clock.
 *
 * @returns nothing where it can't be read
 * @example momentTyped("2027-03-05 14:00", "2027-03-03T08:30:00Z") // "2027-03-05T14:00:00.000Z"
 */
export function momentTyped(typed: string, now: string): string | undefined {
  const found = /^(\d{4})-(\d{1,2})-(\d{1,2})(?:[ T]+(\d{1,2})[:.](\d{2}))?$/.exec(typed.trim());
  if (!found) return undefined;
  const [, year, month, day, hour = "08", minute = "00"] = found;
  const offset = /(?:Z|[+-]\d{2}:\d{2})$/.exec(now)?.[0] ?? "Z";
  const two = (part: string) => part.padStart(2, "0");
  const at = new Date(`${year}-${two(month!)}-${two(day!)}T${two(hour)}:${minute}:00${offset}`);
  return Number.isNaN(at.getTime()) ? undefined : at.toISOString();
}

/** The day and the next full hour of a moment, as it is typed. */
export function typedMoment(now: string): string {
  const [date, hour] = [now.slice(0, 10), Number(now.slice(11, 13))];
  return hour >= 23 ? `${date} 23:59` : `${date} ${String(hour + 1).padStart(2, "0")}:00`;
}
