import type { ShopView } from "../../workshop/orders/views.ts";
import type { Note } from "../common/api.ts";
import { numberOf } from "../common/fields.tsx";
import { readNumber } from "../common/number.ts";
import { words } from "./messages.ts";

/** The form of the shop as it is typed, row by row, and the entry that follows from it. */

export const weekdays = ["mon", "tue", "wed", "thu", "fri", "sat", "sun"] as const;
type Weekday = (typeof weekdays)[number];

export interface TypedHours {
  readonly name: string;
  readonly week: Readonly<Record<Weekday, string>>;
  readonly closed: string;
}
export interface TypedPerson {
  readonly id: string;
  readonly skills: string;
  readonly hours: string;
}
export interface TypedPlace {
  readonly id: string;
  readonly kind: "single" | "batch";
  readonly capacity: string;
  readonly cycle: string;
}
export interface TypedRows {
  readonly hours: readonly TypedHours[];
  readonly people: readonly TypedPerson[];
  readonly places: readonly TypedPlace[];
}

export type ShopField = "title" | "zone" | "mains" | "clean" | "currency" | "rows";

type ShopNote = Extract<Note, { kind: "shop" }>;

const usual = "08:00-12:00 13:00-17:00";
const usualWeek = { mon: usual, tue: usual, wed: usual, thu: usual, fri: usual, sat: "", sun: "" };

export const blankHours = (name: string): TypedHours => ({ name, week: usualWeek, closed: "" });
export const blankPerson = (hours: string): TypedPerson => ({ id: "", skills: "", hours });
export const blankPlace: TypedPlace = { id: "", kind: "single", capacity: "", cycle: "" };

/** The fields as the shop on record fills them; of a new one, with what is usual. */
export function typedOf({ shop, zone }: ShopView): Record<ShopField, string> {
  const rows: TypedRows = shop
    ? {
        hours: Object.entries(shop.calendars).map(([name, { week, closed = [] }]) => ({
          name,
          week: Object.fromEntries(weekdays.map((day) => [day, (week[day] ?? []).join(" ")])) as TypedHours["week"],
          closed: closed.join(" "),
        })),
        people: shop.people.map(({ id, skills, calendar }) => ({ id, skills: skills.join(", "), hours: calendar })),
        places: shop.places.map(({ id, kind, capacity, cycle_h }) => ({
          id,
          kind,
          capacity: capacity === undefined ? "" : String(capacity),
          cycle: cycle_h === undefined ? "" : String(cycle_h),
        })),
      }
    : { hours: [blankHours("all")], people: [blankPerson("all")], places: [blankPlace] };
  return {
    title: shop?.title ?? "",
    zone: shop?.timeZone ?? zone,
    mains: shop === undefined ? "" : String(shop.building_Hz),
    clean: (shop?.cleanSupply_Hz ?? []).join(" "),
    currency: shop?.currency ?? "",
    rows: JSON.stringify(rows),
  };
}

export function rowsOf(text: string): TypedRows {
  const { hours = [], people = [], places = [] } = JSON.parse(text) as Partial<TypedRows>;
  return { hours, people, places };
}

const listed = (typed: string, by: RegExp) =>
  typed
    .split(by)
    .map((one) => one.trim())
    .filter(Boolean);

const span = /^\d{2}:\d{2}-\d{2}:\d{2}$/;
const isNumber = (typed: string) => readNumber(typed).ok;

/** What still stands in the way, by field; nothing when the shop can be written down. */
export function faultsOf(typed: Readonly<Record<ShopField, string>>): Readonly<Partial<Record<string, string>>> {
  const rows = rowsOf(typed.rows);
  const people = rows.people.filter(({ id, skills }) => id.trim() !== "" || skills.trim() !== "");
  const badDay = rows.hours
    .flatMap(({ week }) => weekdays.map((day) => ({ day, spans: listed(week[day], /[\s,;]+/) })))
    .find(({ spans }) => spans.some((one) => !span.test(one)));
  const lacksCount = rows.places.some(
    ({ id, kind, capacity, cycle }) =>
      id.trim() !== "" && kind === "batch" && (!isNumber(capacity) || (cycle.trim() !== "" && !isNumber(cycle))),
  );
  const isWhole = people.length > 0 && people.every(({ id, skills }) => id.trim() !== "" && skills.trim() !== "");
  return {
    ...(!isZone(typed.zone.trim()) && { zone: words.needs.zone }),
    ...(!(isNumber(typed.mains) && numberOf(typed.mains) > 0) && { mains: words.needs.mains }),
    ...(!/^[A-Z]{3}$/.test(typed.currency.trim()) && { currency: words.needs.currency }),
    ...(badDay && { hours: words.needs.hours(words.days[badDay.day]) }),
    ...(!isWhole && { people: words.needs.people }),
    ...(lacksCount && { places: words.needs.places }),
  };
}

function isZone(name: string): boolean {
  try {
    new Intl.DateTimeFormat("en", { timeZone: name });
    return name !== "";
  } catch {
    return false;
  }
}

export function shopNote(typed: Readonly<Record<ShopField, string>>): ShopNote {
  const { hours, people, places } = rowsOf(typed.rows);
  return {
    kind: "shop",
    ...(typed.title.trim() !== "" && { title: typed.title.trim() }),
    timeZone: typed.zone.trim(),
    calendars: Object.fromEntries(
      hours.map(({ name, week, closed }) => [
        name,
        {
          week: Object.fromEntries(
            weekdays.flatMap((day) => {
              const spans = listed(week[day], /[\s,;]+/);
              return spans.length === 0 ? [] : [[day, spans]];
            }),
          ),
          ...(closed.trim() !== "" && { closed: listed(closed, /[\s,;]+/) }),
        },
      ]),
    ),
    people: people
      .filter(({ id }) => id.trim() !== "")
      .map(({ id, skills, hours: of }) => ({ id: id.trim(), skills: listed(skills, /[,;]+/), calendar: of })),
    places: places
      .filter(({ id }) => id.trim() !== "")
      .map(({ id, kind, capacity, cycle }) => ({
        id: id.trim(),
        kind,
        ...(isNumber(capacity) && { capacity: numberOf(capacity) }),
        ...(kind === "batch" && isNumber(cycle) && { cycle_h: numberOf(cycle) }),
      })),
    building_Hz: numberOf(typed.mains),
    cleanSupply_Hz: listed(typed.clean, /[\s;]+/).flatMap((one) => (isNumber(one) ? [numberOf(one)] : [])),
    currency: typed.currency.trim(),
  };
}
