import type { BodyOf } from "../../claims/evidence.ts";
import type { Shop } from "../../claims/index.ts";
import { dayBook } from "../../production/dayBook.ts";
import { workingHours } from "../../production/workingHours.ts";
import type { Hands } from "../../timber/hands.ts";

const hour_ms = 3_600_000;
/** So far ahead hours are told. */
const ahead_days = 42;
/** A break shorter than this is none for a weighing or a coat. */
const break_h = 2;

/**
 * When someone of the timber is in, hours from a moment: by the calendar of that person, or of whoever works wood.
 *
 * @returns nothing where the shop's hours were never written down
 */
export function handsThere({ shop }: Shop, from_ms: number, who?: string): Hands | undefined {
  if (!shop) return undefined;
  const known = told.get(shop) ?? new Map<string, Hands | undefined>();
  if (known.size >= mostTold) known.clear();
  told.set(shop, known);
  const asked = `${from_ms} ${who ?? ""}`;
  if (!known.has(asked)) known.set(asked, hoursThere(shop, from_ms, who));
  return known.get(asked);
}

/** Many pieces ask from the same moment; the shop's hours are an entry, which never changes. */
const told = new WeakMap<BodyOf<"shop">, Map<string, Hands | undefined>>();
const mostTold = 1000;

function hoursThere(shop: BodyOf<"shop">, from_ms: number, who: string | undefined): Hands | undefined {
  const { people, calendars, timeZone } = shop;
  const person =
    people.find(({ id }) => id === who) ??
    people.find(({ skills }) => skills.some((skill) => /wood|finish/i.test(skill))) ??
    people[0];
  const calendar = person && calendars[person.calendar];
  if (!calendar) return undefined;
  const { week, closed } = calendar;
  const asked = { week, ...(closed && { closed }) };
  const hours = workingHours(asked, `calendars.${person.calendar}`, dayBook(timeZone, from_ms));
  while (hours.known < ahead_days * 24 * hour_ms) hours.extend();
  const there: { from_h: number; to_h: number }[] = [];
  for (const [i, start] of hours.starts.entries()) {
    const [from_h, to_h] = [hundredth(start / hour_ms), hundredth(hours.ends[i]! / hour_ms)];
    if (to_h <= 0 || from_h > ahead_days * 24) continue;
    const last = there.at(-1);
    if (last && from_h - last.to_h < break_h) last.to_h = to_h;
    else there.push({ from_h, to_h });
  }
  return there;
}

function hundredth(hours: number): number {
  return Number(hours.toFixed(2));
}
