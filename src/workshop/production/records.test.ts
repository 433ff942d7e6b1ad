import { expect, test } from "vitest";
import { answer } from "../../calculations/answer.ts";
import { claimStates, foldShop, type Shop } from "../../claims/index.ts";
import { at, Book, smallModel } from "../../claims/testing/smallShop.ts";
import type { Calculate } from "../calculate.ts";
import { checksView } from "./checks.ts";
import { costsView } from "./costs.ts";
import { dayHands } from "./dayPlan.ts";
import { recordsOf } from "./records.ts";

const now = at(30, 2);
const calculate = (async (name: string, input: unknown) => {
  const given = await answer(name, input, {
    recording: () => {
      throw new Error("no recording is asked for");
    },
  });
  if (!given.ok) throw new Error(`${given.error.path}: ${given.error.message}`);
  return given.output;
}) as Calculate;
const step = smallModel.build[0]!.step;

/** A shop of one model, twenty units that left, with the faults found in them. */
function shopWith(faults: readonly { unit: number; found: string; repair_h: number; cost_cents?: number }[]): Book {
  const units = Array.from({ length: 20 }, (_, i) => `0${101 + i}`);
  const book = Book.opened(["0999"]);
  book.write(1, {
    kind: "shop",
    timeZone: "UTC",
    calendars: { day: { week: { mon: ["08:00-16:00"], tue: ["08:00-16:00"], wed: ["08:00-16:00"] } } },
    people: [
      { id: "bench", skills: ["audio", "bench", "safety", "wiring"], calendar: "day" },
      { id: "owner", skills: ["safety"], calendar: "day" },
    ],
    places: [],
    building_Hz: 50,
    currency: "EUR",
  });
  book.write(2, { kind: "rates", currency: "EUR", hour_cents: { bench: 6_000 } });
  book.write(2, {
    kind: "order",
    order: "O-before",
    customer: "c1",
    model: "Skerry",
    revision: "1",
    units,
    destination: { place: "inland", nominal_V: 120, frequency_Hz: 60 },
  });
  book.write(3, { kind: "delivery", order: "O-before" });
  for (const { unit, ...rest } of faults) {
    book.write(4, { kind: "fault", unit: units[unit]!, fault: "dry joint", arose: step, possible: step, ...rest });
  }
  return book;
}

const five = [0, 1, 2]
  .map((unit) => ({ unit, found: "ht", repair_h: 1 }))
  .concat([3, 4].map((unit) => ({ unit, found: "customer", repair_h: 4, cost_cents: 6_000 })));
const shopOf = (book: Book): Shop => foldShop(book.entries);

// source: by hand. Of 20 units five had the fault there by the check of HT: three found by it, two by the customer. Found
// there it cost 1 h, at the customer's 4 h and 6,000 cents at 6,000 an hour, 5 h; the model's own figures count as two
test("odds, finding and hours are the shop's own counts", () => {
  const shop = shopOf(shopWith(five));
  const records = recordsOf(shop);
  const ht = smallModel.claims.find(({ claim }) => claim === "ht")!;
  const [joint, ...others] = records.suspected(smallModel, ht);
  expect(others).toEqual([]);
  expect(records.units).toBe(20);
  expect(joint).toMatchObject({
    fault: "dry joint",
    odds: { found: 5, of: 20, guess: ht.check.failOdds, weight: 10 },
    finds: { found: 3, of: 5 },
  });
  expect(joint!.now_h).toBeCloseTo((3 * 1 + 2 * ht.check.repair_h) / 5, 12);
  expect(joint!.later_h).toBeCloseTo((2 * 5 + 2 * ht.check.lateCost_h) / 4, 12);
});

test("a check that never found anything starts from the model's guess alone", () => {
  const records = recordsOf(shopOf(shopWith(five)));
  const fuse = smallModel.claims.find(({ claim }) => claim === "fuse")!;
  expect(records.suspected(smallModel, fuse)).toMatchObject([
    {
      odds: { found: 0, of: 20, guess: fuse.check.failOdds },
      now_h: fuse.check.repair_h,
      later_h: fuse.check.lateCost_h,
    },
  ]);
});

test("the day goes to hands with the skill, says why with the counts, and safety comes before live work", async () => {
  const book = shopWith(five);
  for (const { step: name } of smallModel.build) book.write(5, { kind: "step", unit: "0999", step: name });
  const shop = shopOf(book);
  const statesOf = (unit: string) => claimStates(shop.modelOf(unit)!, shop.ledger, unit, now);
  const { hands, blocked } = await dayHands(shop, now, statesOf, calculate);
  const told = hands.flatMap(({ next }) => next);
  expect(told.length).toBeGreaterThan(0);
  expect(told[0]!.why).toMatch(/^1 in \d+ has .+ saved on average/);
  // The insulation test waits for the earth bond, and touch current for both.
  const claims = [...told, ...(blocked ?? [])].map(({ claim }) => claim);
  expect(claims).not.toContain("insulation");
  expect(claims).not.toContain("touch-current");
});

test("a look where the fault could first be seen is proposed only once the records carry it", async () => {
  const view = await checksView(shopOf(shopWith(five)), now, calculate);
  expect(view).toMatchObject({ units: 20, faults: 5, currency: "EUR" });
  expect(view.sorts).toMatchObject([{ fault: "dry joint", count: 5, possible: step }]);
  const [order] = view.orders;
  expect(order!.best_min).toBeLessThanOrEqual(order!.now_min);
  expect(order!.best.toSorted()).toEqual(smallModel.claims.map(({ title }) => title).toSorted());
  const one = await checksView(shopOf(shopWith(five.slice(0, 1))), now, calculate);
  expect(one.saves).toEqual([]);
});

test("without rates or a bill nothing is told of costs but what is missing", async () => {
  const book = shopWith([]);
  const view = await costsView(shopOf(book), calculate);
  expect(view.models).toEqual([]);
  expect(view.missing).toEqual([{ model: "Skerry", why: "its bill of parts is not written down" }]);
});

// source: by hand. Of 20 units the check of HT found three, each an hour and 500 cents; the model's guess counts as ten
// units, its hours as two faults. At the wiring bench nothing was found, of 20
test("what is done again is as often and as long as the shop found it there", () => {
  const found = five.map((fault) => ({ ...fault, cost_cents: 500 }));
  const records = recordsOf(shopOf(shopWith(found)));
  const guess = { odds: 0.1, hours: 2 };
  expect(records.reworkAt(smallModel, "ht", guess)).toEqual({
    odds: { found: 3, of: 20, guess: 0.1, weight: 10 },
    hours: (3 * 1 + 2 * 2) / 5,
    parts_cents: (3 * 500) / 5,
  });
  expect(records.reworkAt(smallModel, step, guess)).toMatchObject({
    odds: { found: 0, of: 20 },
    hours: 2,
    parts_cents: 0,
  });
});

// source: second method, the mean in closed form: rate·(h + p/(1 − p)·(h + repair)) + p/(1 − p)·parts, h a third of the
// triangle's corners
test("a unit's mean cost is its parts, its hands, and what its own records say is done again", async () => {
  const skills = new Set(["wiring", ...smallModel.claims.map(({ check }) => check.skill)]);
  const handBuilt = {
    ...smallModel,
    revision: "2",
    build: smallModel.build.map((one) => ({ ...one, skill: "wiring" })),
  };
  const book = shopWith(five);
  book.write(5, handBuilt);
  book.write(5, {
    kind: "rates",
    currency: "EUR",
    hour_cents: Object.fromEntries([...skills].map((one) => [one, 6_000])),
  });
  book.write(5, {
    kind: "bill",
    model: "Skerry",
    revision: "2",
    currency: "EUR",
    price_cents: 200_000,
    parts: [{ part: "mains transformer", count: 2, cost_cents: 10_000, scrap: 0.2 }],
  });
  const records = recordsOf(shopOf(book));
  const mean = (h: number, { odds, hours, parts_cents }: ReturnType<typeof records.reworkAt>) => {
    const p = (odds.found + 10 * odds.guess!) / (odds.of + 10);
    return 6_000 * (h + (p / (1 - p)) * (h + hours)) + (p / (1 - p)) * parts_cents;
  };
  const built = handBuilt.build.map(({ step: name, hours, failOdds = 0, unattended }) => {
    // What goes on by itself takes no hands.
    const { fast, usual, slow } = unattended ? { fast: 0, usual: 0, slow: 0 } : hours;
    return mean((fast + usual + slow) / 3, records.reworkAt(handBuilt, name, { odds: failOdds, hours: usual / 2 }));
  });
  const checked = handBuilt.claims.map(({ claim, check }) =>
    mean(
      ((check.hands_min / 60) * (0.75 + 1 + 1.75)) / 3,
      records.reworkAt(handBuilt, claim, { odds: check.failOdds, hours: check.repair_h }),
    ),
  );
  const all = [...built, ...checked].reduce((sum, one) => sum + one, 0) + 20_000 / 0.8;
  const [model] = (await costsView(shopOf(book), calculate)).models;
  const room = (4 * (model!.cost.p95_cents - model!.cost.p05_cents)) / 3.29 / Math.sqrt(4000);
  expect(Math.abs(model!.cost.mean_cents - all)).toBeLessThan(room);
  expect(model!.margin.mean_cents).toBeCloseTo(200_000 - model!.cost.mean_cents, -1);
});
