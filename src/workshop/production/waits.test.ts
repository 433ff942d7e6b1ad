import { expect, test } from "vitest";
import { answer } from "../../calculations/answer.ts";
import { claimStates, foldShop } from "../../claims/index.ts";
import { at, Book, smallModel } from "../../claims/testing/smallShop.ts";
import type { Calculate } from "../calculate.ts";
import { morningCard, morningOf } from "../morningCard.ts";
import { promiseQuestion } from "../promises/question.ts";
import { checksView } from "./checks.ts";
import { dayHands } from "./dayPlan.ts";
import { soakChanges, soakSorts, soaksView } from "./soaks.ts";

const calculate = (async (name: string, input: unknown) => {
  const given = await answer(name, input, {} as never);
  if (!given.ok) throw new Error(`${given.error.path}: ${given.error.message}`);
  return given.output;
}) as Calculate;

const rack = { step: "heat run", place: "rack", unattended: true, hours: { fast: 24, usual: 24, slow: 24 } };
const claims = smallModel.claims.map((claim) =>
  claim.claim === "case-soak" ? { ...claim, check: { ...claim.check, waitPlace: "shelf" } } : claim,
);

/** A shop at work every day of the week, with a rack, a shelf, and a unit whose case is to be soaked. */
function shopWith(units: readonly string[] = ["0101"], build = smallModel.build): Book {
  const book = Book.opened(units);
  book.write(1, { ...smallModel, claims, build });
  const hours = ["08:00-16:00"];
  const week = { mon: hours, tue: hours, wed: hours, thu: hours, fri: hours, sat: hours, sun: hours };
  book.write(1, {
    kind: "shop",
    timeZone: "UTC",
    calendars: { day: { week } },
    people: [
      { id: "bench", skills: ["audio", "bench", "safety", "wiring"], calendar: "day" },
      { id: "owner", skills: ["safety"], calendar: "day" },
    ],
    places: [
      { id: "shelf", kind: "single", capacity: 2 },
      { id: "rack", kind: "batch", capacity: 4, cycle_h: 24 },
    ],
    building_Hz: 50,
    currency: "EUR",
  });
  return book;
}

function soaking(): Book {
  const book = shopWith();
  book.write(4, { kind: "step", unit: "0101", step: "wiring" });
  for (const claim of claims) {
    if (claim.claim !== "case-soak") for (const index of claim.requires.keys()) book.read(5, claim.claim, { index });
  }
  return book;
}
const begun = {
  kind: "begun" as const,
  run: "soak 1",
  units: ["0101"],
  claim: "case-soak",
  place: "shelf",
  slot: 1,
  hours: 12,
};

function morning(book: Book, hour: number) {
  const shop = foldShop(book.entries);
  const now = at(hour);
  const statesOf = (unit: string) => claimStates(shop.modelOf(unit)!, shop.ledger, unit, now);
  return { shop, now, statesOf, card: () => morningOf(morningCard(shop, statesOf), now) };
}
const offered = async ({ shop, now, statesOf }: ReturnType<typeof morning>) => {
  const { hands } = await dayHands(shop, now, statesOf, calculate);
  return hands.flatMap(({ next, beforeHome = [] }) => [
    ...next.map(({ claim, why }) => ({ claim, why })),
    ...beforeHome.map(({ claim, place, slot, wait_h }) => ({ claim, place, slot, wait_h })),
  ]);
};

test("a soak that waits to be begun is offered with its place; one that runs is not, and says when it is ripe", async () => {
  const book = soaking();
  expect(await offered(morning(book, 33))).toEqual([{ claim: "case-soak", place: "shelf", slot: 1, wait_h: 12 }]);
  book.write(33, begun);
  const running = morning(book, 34);
  expect(await offered(running)).toEqual([]);
  expect(running.card().ripens).toEqual([
    { at: at(45), what: "case-soak: its 12 h are up (shelf, slot 1)", unit: "0101" },
  ]);
});

test("once its hours are over the check is offered as plain hands, and once it is read the wait is past", async () => {
  const book = soaking();
  book.write(33, begun);
  const [ripe] = await offered(morning(book, 57));
  expect(ripe).toMatchObject({ claim: "case-soak", why: expect.stringContaining("Its 12 h are over (shelf, slot 1)") });
  book.read(57.2, "case-soak");
  const read = morning(book, 58);
  expect(read.card().ripens).toEqual([]);
  expect(await offered(read)).toEqual([]);
});

test("a rework breaks a soak off: it is offered to be begun again", async () => {
  const book = soaking();
  book.write(33, begun);
  book.write(34, { kind: "rework", unit: "0101", touched: [{ case: "closure" }], why: "opened once more" });
  expect((await offered(morning(book, 34.5))).map(({ claim }) => claim)).toContain("earth-bond");
});

// source: by hand: 12 h begun at 33 h, at 36 h 9 h are left; its slot is taken until 45 h
test("promises count from what was begun, and its slot is taken until then", () => {
  const book = soaking();
  const before = promiseQuestion(morning(book, 36))!;
  expect(before.routes["0101"]![0]).toMatchObject({ step: "case-soak, waiting", place: "shelf", hours: { usual: 12 } });
  book.write(33, begun);
  const { routes, places } = promiseQuestion(morning(book, 36))!;
  expect(routes["0101"]![0]).toMatchObject({ step: "case-soak, waiting", hours: { fast: 9, usual: 9, slow: 9 } });
  expect(routes["0101"]![0]).not.toHaveProperty("place");
  expect(places[0]).toMatchObject({ id: "shelf", busy: [{ slots: 1, until: at(45) }] });
  expect(promiseQuestion(morning(book, 50))!.routes["0101"]![0]!.hours.usual).toBe(0);
});

test("a step that goes on by itself is to be set going until somebody writes that it is", () => {
  const book = shopWith(["0101", "0102"], [rack, ...smallModel.build]);
  book.write(10, {
    kind: "begun",
    run: "rack 1",
    units: ["0101"],
    step: "heat run",
    place: "rack",
    slot: 1,
    hours: 24,
  });
  const card = morning(book, 12).card();
  expect(card.ripens).toEqual([{ at: at(34), what: "heat run finished (rack, slot 1)", unit: "0101" }]);
  expect(card.toBegin).toEqual([{ unit: "0102", step: "heat run", hours: 24, place: "rack", free: 3, slot: 2 }]);
  const { routes, places } = promiseQuestion(morning(book, 12))!;
  expect(routes["0101"]![0]).toMatchObject({ step: "heat run", hours: { usual: 22 } });
  expect(routes["0102"]![0]).toMatchObject({ step: "heat run", hours: { usual: 24 }, place: "rack" });
  expect(places[1]!.busy).toEqual([{ slots: 1, until: at(34) }]);
});

/** Forty units on the rack for a day: eight give way within the first two hours, the others come out good. */
function rackBook(failed: number): Book {
  const units = Array.from({ length: 40 }, (_, i) => `0${201 + i}`);
  const book = shopWith(units, [rack, ...smallModel.build]);
  book.write(2, { kind: "rates", currency: "EUR", hour_cents: { bench: 6_000 }, waiting_cents_per_h: 200 });
  book.write(3, { kind: "return", unit: units[39]!, says: "it crackles" });
  book.write(3, {
    kind: "fault",
    unit: units[39]!,
    fault: "dry joint",
    possible: "wiring",
    found: "customer",
    repair_h: 4,
  });
  units.forEach((unit, i) => {
    const run = `rack ${i}`;
    book.write(10, { kind: "begun", run, units: [unit], step: "heat run", place: "rack", hours: 24 });
    if (i < failed) book.write(13, { kind: "ended", run, outcome: "failed", hours: 0.2 + 0.2 * i, fault: "dry joint" });
    else if (i < 39) book.write(34, { kind: "ended", run, outcome: "good" });
  });
  return book;
}

// source: by hand: 8 failed after 0.2 to 1.6 h, 31 good after 24 h, one still in after 30 h: 0.2·36 + 31·24 + 30 = 781.2 h
test("hours on record count failures, what came out good, and what is still in", async () => {
  const asked = morning(rackBook(8), 40);
  const { sorts, running } = await soaksView(asked, await soakSorts(asked.shop, asked.now, calculate));
  const [sort] = sorts;
  expect(sort).toMatchObject({ what: "heat run of units", pieces: 40, failures: 8, today_h: 24 });
  expect(sort!.soaked_h).toBeCloseTo(781.2, 6);
  expect(sort!.curve.at(-1)).toMatchObject({ atRisk: 33, failures: 1 });
  expect(sort!.faults).toEqual([expect.objectContaining({ fault: "dry joint", count: 8 })]);
  expect(running.map(({ run }) => run)).toEqual(["rack 39"]);
});

test("a run begun by a clock that is a little ahead is no sort of soak yet", async () => {
  const begun = rackBook(0).entries.filter(({ body }) => body.kind !== "ended");
  expect(await soakSorts(foldShop(begun), at(9.9), calculate)).toEqual([]);
});

test("a soak is to be shortened only where the hours surely say so; with no failure nothing is proposed", async () => {
  const changes = await soakChanges(foldShop(rackBook(8).entries), at(40), calculate, new Set());
  expect(changes).toHaveLength(1);
  const [change] = changes;
  expect(change).toMatchObject({ kind: "shorten", from_h: 24, pieces: 40, failures: 8 });
  expect(change!.to_h).toBeCloseTo(1.6, 9);
  expect(change!.low_cents).toBeLessThan(change!.saving_cents);
  expect(change!.state === "saves").toBe(change!.low_cents > 0);
  expect(await soakChanges(foldShop(rackBook(0).entries), at(40), calculate, new Set())).toEqual([]);
});

test("where checks belong lists a soak once, and leaves out what a place's own record tells", async () => {
  const shop = foldShop(rackBook(8).entries);
  const view = await checksView(shop, at(40), calculate);
  expect(view.soaks).toEqual(await soakChanges(shop, at(40), calculate, new Set()));
  expect([...view.saves, ...view.silent].filter(({ check }) => /heat run/.test(check))).toEqual([]);
  expect(await soakChanges(shop, at(40), calculate, new Set(["rack"]))).toEqual([]);
});
