import { bookOpened, later, on } from "../days.ts";

const day_ms = 86_400_000;

/** What is told here ends on the eve of the ordinary demo's first entry. */
export const lastDay = later(bookOpened, -24 * 60).slice(0, 10);

/** The first day of so many years before. */
export function firstDay(years: number): string {
  return `${Number(lastDay.slice(0, 4)) - years}${lastDay.slice(4)}`;
}

/** Every working day from one to the other, both included; the shop is closed from Christmas Eve to the New Year. */
function daysOfWork(from: string, to: string): readonly string[] {
  const days: string[] = [];
  for (let t = Date.parse(from); t <= Date.parse(to); t += day_ms) {
    const date = new Date(t);
    const weekday = date.getUTCDay();
    const day = date.toISOString().slice(0, 10);
    const isFeast = day.slice(5) >= "12-24" || day.slice(5) === "01-01";
    if (weekday !== 0 && weekday !== 6 && !isFeast) days.push(day);
  }
  return days;
}

/** A date so many calendar days on. */
export function plusDays(date: string, days: number): string {
  return later(on(date, "12:00"), days * 24 * 60).slice(0, 10);
}

/** Days of work in order, found by date. */
export class WorkingDays {
  readonly days: readonly string[];
  private readonly places: ReadonlyMap<string, number>;

  constructor(from: string, to: string) {
    this.days = daysOfWork(from, to);
    this.places = new Map(this.days.map((day, i) => [day, i]));
  }

  /** The day itself, or the next on which somebody works, and so many working days on; nothing beyond the last. */
  onOrAfter(date: string, on = 0): string | undefined {
    let at = date;
    while (!this.places.has(at) && at <= this.days.at(-1)!) at = plusDays(at, 1);
    const place = this.places.get(at);
    return place === undefined ? undefined : this.days[place + on];
  }
}
