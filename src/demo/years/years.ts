import { randomStream } from "../../maths/random.ts";
import { limitsOfMarkets, prices } from "../accounts.ts";
import { on } from "../days.ts";
import { type DemoEntry, entry } from "../entry.ts";
import { headphones } from "../headphones.ts";
import { type ModelName, modelNamed, modelNames } from "../models/models.ts";
import { destinations, roles, shop } from "../shop.ts";
import { places, plate_C } from "../timber/boards.ts";
import { homeClimates } from "../timber/homes.ts";
import { Weather } from "../timber/weather.ts";
import { firstDay, lastDay, plusDays, WorkingDays } from "./calendar.ts";
import { type Happening, written } from "./happening.ts";
import { Drifts, instrumentsBought, morning } from "./instruments.ts";
import { drawn, Numbers, sharedOut } from "./numbers.ts";
import { type OrderOfYears, orderYears, type ShopOfYears } from "./units.ts";
import { Stock, ValveYears } from "./valves.ts";

/** What a year of the shop holds, in the mean; good years hold more. */
const unitsAYear = 500;
const valvesAYear = 4000;
const ordersWithSeveral = 0.12;
/** In the first months only valves are bought; in the last, what is begun must still be able to leave. */
const firstOrders_months = 2;
const lastOrders_months = 5;
const lastValves_months = 2;
/** Before the first unit is built some of each type must have come. */
const typesBoughtFirst = 7;

const mixes: readonly (readonly [ModelName, number])[] = [
  ["Ebb", 40],
  ["Flood", 25],
  ["Neap", 20],
  ["Bore", 15],
];

/** From which of the years on a model was built as which revision, counted back from the last. */
const revisionsSince: Readonly<Record<ModelName, readonly (readonly [yearsBefore: number, revision: string])[]>> = {
  Ebb: [
    [100, "A"],
    [6, "B"],
    [2, "C"],
  ],
  Flood: [
    [100, "A"],
    [4, "B"],
  ],
  Neap: [[100, "A"]],
  Bore: [[100, "A"]],
};

/** The editions that the shop's limits are taken from had all come out by then. */
const limitsAdopted = 2019;

interface YearsBefore {
  readonly customers: readonly { readonly id: string; readonly name: string; readonly address: string }[];
  /** By the clock, each only once what it needs has happened. */
  happenings(): Generator<Happening>;
}

/**
 * The shop's years before the ordinary demo opens its book: batches of valves with lots of their own, units with their
 * own resistors, boards that dried in the weather of their weeks, instruments that drifted from New Year to New Year,
 * prices that rose. Made month by month, so that no more than a season is ever in memory.
 *
 * @param years  how many, 1 to 30; ten of them hold 5,000 units and 40,000 valves
 * @param share  of the usual number of units and valves: a smaller shop of the same kind, from a tenth
 * @returns the same every time for the same seed
 */
export function yearsBefore(seed: number, years: number, share = 1): YearsBefore {
  const chance = randomStream(`Quarrin Ness ${seed}, ${years} years before`);
  const customers = Array.from({ length: 120 * years }, (_, i) => ({
    id: `k-${String(i + 1).padStart(4, "0")}`,
    name: `A listener, number ${i + 1}`,
    address: destinations[placeNames[i % placeNames.length]!].place,
  }));
  return { customers, happenings: () => happenings(chance, { years, share }, customers) };
}

const placeNames = Object.keys(destinations) as readonly (keyof typeof destinations)[];

function* happenings(
  chance: ReturnType<typeof randomStream>,
  { years, share }: { readonly years: number; readonly share: number },
  customers: YearsBefore["customers"],
): Generator<Happening> {
  const first = firstDay(years);
  const months = monthsOf(first, 12 * years);
  const weather = new Weather(`${plusDays(first, -20)}T00:00:00Z`, `${lastDay}T23:00:00Z`, chance.fork("weather"));
  const days = new WorkingDays(plusDays(first, 1), plusDays(lastDay, -1));
  const numbers = new Numbers();
  const drifts = new Drifts(chance.fork("drifts"));
  const stock = new Stock();
  const mostInBatch = Math.floor((share * valvesAYear * firstOrders_months) / 12 / typesBoughtFirst);
  const valves = new ValveYears({ days, numbers, misreads: drifts.tester, stock, mostInBatch }, chance.fork("valves"));
  const at: ShopOfYears = {
    days,
    numbers,
    stock,
    weather,
    misreads: drifts.tester,
    chance: chance.fork("units"),
    until: lastDay,
  };
  const lively = months.map((_, i) => 0.75 + 0.5 * chance.fork(`year ${Math.floor(i / 12)}`).uniform());
  const between = (from: number, to: number) =>
    lively.map((weight, i) => (i >= from && i < months.length - to ? weight : 0));
  const unitCounts = sharedOut(share * unitsAYear * years, between(firstOrders_months, lastOrders_months));
  const valveCounts = sharedOut(share * valvesAYear * years, between(0, lastValves_months));

  yield* written(opening(first, yearsLeft(first), priceLevel(first)));
  let pending: Happening[] = [];
  for (const [i, { from, to }] of months.entries()) {
    const working = days.days.filter((day) => day >= from && day <= to);
    const newYear = i > 0 && from.slice(0, 4) !== months[i - 1]!.from.slice(0, 4);
    if (newYear) pending.push(...written(yearBegins(working[0]!)));
    for (const day of working) pending.push(...written(morning(day, weather, drifts, chance.fork("mornings"))));
    pending.push(...valves.month(working, valveCounts[i]!));
    for (const order of ordersOf(working, unitCounts[i]!, customers, chance.fork(`orders ${from}`))) {
      pending.push(...orderYears(order, at));
    }
    pending = pending.toSorted((a, b) => Date.parse(a.recordedAt) - Date.parse(b.recordedAt));
    const next = pending.findIndex(({ recordedAt }) => recordedAt.slice(0, 10) > to);
    yield* pending.splice(0, next < 0 ? pending.length : next);
  }
  yield* pending;
}

function monthsOf(first: string, count: number): readonly { readonly from: string; readonly to: string }[] {
  const starts = Array.from({ length: count + 1 }, (_, i) => {
    const date = new Date(`${first}T00:00:00Z`);
    date.setUTCMonth(date.getUTCMonth() + i);
    return date.toISOString().slice(0, 10);
  });
  return starts.slice(0, count).map((from, i) => ({ from, to: plusDays(starts[i + 1]!, -1) }));
}

/** Orders of a month: most of one unit, some of two or three. */
function ordersOf(
  days: readonly string[],
  units: number,
  customers: YearsBefore["customers"],
  chance: ReturnType<typeof randomStream>,
): readonly OrderOfYears[] {
  const orders: OrderOfYears[] = [];
  for (let left = units, nth = 0; left > 0; nth++) {
    const draw = chance.fork(nth);
    const taken = days[Math.floor((nth * days.length) / units)] ?? days.at(-1)!;
    const model = drawn(mixes, draw);
    const count = Math.min(left, draw.uniform() < ordersWithSeveral ? 2 + draw.integer(2) : 1);
    const customer = draw.integer(customers.length);
    left -= count;
    orders.push({
      taken,
      model,
      revision: revisionOn(model, taken),
      units: count,
      customer: customers[customer]!.id,
      to: placeNames[customer % placeNames.length]!,
      level: priceLevel(taken),
    });
  }
  return orders;
}

function yearsLeft(date: string): number {
  return Number(lastDay.slice(0, 4)) - Number(date.slice(0, 4));
}

function revisionOn(model: ModelName, date: string): string {
  const left = yearsLeft(date);
  return revisionsSince[model].findLast(([before]) => before >= left)![1];
}

/** Prices rose by some three per cent a year, in some years by more. */
function priceLevel(date: string): number {
  const year = Number(date.slice(0, 4));
  let level = 1;
  for (let y = Number(lastDay.slice(0, 4)); y > year; y--) {
    level /= 1.012 + 0.04 * randomStream(`prices ${y}`).uniform();
  }
  return level;
}

/** All that stands when the shop opens. */
function opening(day: string, left: number, level: number): readonly DemoEntry[] {
  const closed = Array.from({ length: left + 1 }, (_, i) => Number(day.slice(0, 4)) + i).flatMap((year) => [
    `${year}-12-25`,
    `${year + 1}-01-01`,
  ]);
  const larger = { "heat-run rack": 60, "soak shelf": 60, "burn-in rack": 480 } as Readonly<Record<string, number>>;
  const body = {
    ...shop,
    calendars: Object.fromEntries(
      Object.entries(shop.calendars).map(([name, calendar]) => [name, { ...calendar, closed }]),
    ),
    places: shop.places.map((place) => ({ ...place, capacity: larger[place.id] ?? place.capacity! })),
  };
  return [
    entry(on(day, "07:30"), roles.owner, body),
    ...headphones.map((headphone) => entry(on(day, "07:35"), roles.owner, headphone)),
    ...modelNames.flatMap((model) =>
      revisionsSince[model]
        .filter(([before], i, all) => before >= left && (all[i + 1]?.[0] ?? -1) < left)
        .map(([, revision]) => entry(on(day, "07:40"), roles.owner, { ...modelNamed(model), revision })),
    ),
    ...instrumentsBought(day),
    ...(
      [
        { kind: "timber-place", place: places.shop, what: "room", faces: "both" },
        { kind: "timber-place", place: places.chamber, what: "chamber", faces: "both", set_C: 45 },
        { kind: "timber-place", place: places.plate, what: "plate", faces: "one", set_C: plate_C },
        { kind: "timber-place", place: places.soak, what: "amplifier", faces: "one", set_C: 40, holds: 2 },
      ] as const
    ).map((place) => entry(on(day, "15:40"), roles.wood, place)),
    ...homeClimates.map((climate) => entry(on(day, "15:45"), roles.owner, climate)),
    ...prices(on(day, "16:00"), revisionsOn(day), level),
    ...(Number(day.slice(0, 4)) > limitsAdopted ? limitsOfMarkets(on(day, "16:10")) : []),
  ];
}

function revisionsOn(day: string): Readonly<Record<ModelName, string>> {
  return Object.fromEntries(modelNames.map((model) => [model, revisionOn(model, day)])) as Record<ModelName, string>;
}

/** The New Year's new prices, and models that are built otherwise from now on. */
function yearBegins(day: string): readonly DemoEntry[] {
  const left = yearsLeft(day);
  return [
    ...modelNames.flatMap((model) =>
      revisionsSince[model]
        .filter(([before]) => before === left)
        .map(([, revision]) => entry(on(day, "07:40"), roles.owner, { ...modelNamed(model), revision })),
    ),
    ...prices(on(day, "09:05"), revisionsOn(day), priceLevel(day)),
    ...(Number(day.slice(0, 4)) === limitsAdopted ? limitsOfMarkets(on(day, "16:10")) : []),
  ];
}
