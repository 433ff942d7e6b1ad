import { BadInput, quote } from "../maths/badInput.ts";
import { type DayBook, dayBook } from "./dayBook.ts";
import { readZone } from "./instants.ts";
import type { PromiseInput } from "./shop.ts";
import { readDates, type WorkingHours, workingHours } from "./workingHours.ts";

export interface PlannedPeople {
  readonly people: readonly { readonly id: string; readonly hours: WorkingHours }[];
  /** Shifts that run over midnight, in words, so that one written by mistake is seen. */
  readonly nightShifts: readonly string[];
}

/**
 * Everybody's hours at work: their calendar's, in its own zone, less the days they are away.
 *
 * @throws BadInput  a calendar that does not exist or has no hours, days away that are none, with the person concerned
 */
export function planPeople(input: PromiseInput, zone: string, now_ms: number): PlannedPeople {
  const books = new Map<string, DayBook>();
  const daysIn = (name: string): DayBook => {
    const known = books.get(name) ?? dayBook(name, now_ms);
    books.set(name, known);
    return known;
  };
  const calendars = new Map(
    Object.entries(input.calendars).map(([name, calendar]) => {
      const path = `calendars.${name}`;
      const own = calendar.timeZone === undefined ? zone : readZone(calendar.timeZone, input.now, `${path}.timeZone`);
      const hours = (away?: ReadonlySet<string>) => workingHours(calendar, path, daysIn(own), away);
      return [name, { shared: hours(), hours }] as const;
    }),
  );
  const people = input.people.map((person, i) => {
    const calendar = calendars.get(person.calendar);
    if (!calendar) {
      const known = [...calendars.keys()].map((name) => quote(name)).join(", ") || "none yet";
      throw new BadInput(
        `people[${i}].calendar`,
        `${quote(person.calendar)} of ${quote(person.id)}`,
        `calendars given are ${known}`,
        "name one of them, or add it to calendars",
      );
    }
    const away = (person.away ?? []).flatMap(({ from, to }, k) =>
      readDates(from, to, `people[${i}].away[${k}]`, person.id),
    );
    return { id: person.id, hours: away.length === 0 ? calendar.shared : calendar.hours(new Set(away)) };
  });
  return {
    people,
    nightShifts: [...calendars].flatMap(([name, { shared }]) => shared.overMidnight.map((shift) => `${name} ${shift}`)),
  };
}
