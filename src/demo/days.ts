/** The town lies on Irish time; the demo runs from December to March, when that is universal time. */
export const timeZone = "Europe/Dublin";
/** Wednesday, half past eight. */
export const now = "2027-03-03T08:30:00Z";
export const friday = "2027-03-05T17:00:00Z";

const minute_ms = 60_000;
const day_ms = 24 * 60 * minute_ms;

/** An instant by local date and clock, `on("2027-03-01", "09:40")`. */
export function on(date: string, clock: string): string {
  return `${date}T${clock}:00Z`;
}

export function later(instant: string, minutes: number): string {
  return new Date(Date.parse(instant) + Math.round(minutes * minute_ms)).toISOString().replace(".000Z", "Z");
}

/** Hours on the valve tester's clock, which was started with the book of reference readings. */
export function tester_h(instant: string): number {
  return (Date.parse(instant) - Date.parse(bookOpened)) / (60 * minute_ms);
}

/** Ninety days before `now`. */
export const bookOpened = "2026-12-03T00:00:00Z";

/** The day on which the paper of the year before was typed in. */
export const paperTypedIn = "2026-12-04";

/** The dates of all working days from one to the other, both included, `["2026-12-03", …]`. */
export function workingDays(from: string, to: string): readonly string[] {
  const days: string[] = [];
  for (let t = Date.parse(from); t <= Date.parse(to); t += day_ms) {
    const date = new Date(t);
    const isWeekend = date.getUTCDay() === 0 || date.getUTCDay() === 6;
    const day = date.toISOString().slice(0, 10);
    if (!isWeekend && !closed.includes(day)) days.push(day);
  }
  return days;
}

export const closed = [
  "2026-12-25",
  "2026-12-28",
  "2026-12-29",
  "2026-12-30",
  "2026-12-31",
  "2027-01-01",
  "2027-02-01",
];
