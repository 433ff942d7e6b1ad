import { describe, expect, test } from "vitest";
import { randomStream } from "../maths/random.ts";
import type { Drawer } from "./drawers.ts";
import type { Evidence } from "./evidence.ts";
import { Ledger } from "./ledger.ts";
import { at, Book } from "./testing/smallShop.ts";
import { byTaking } from "./when.ts";

const bySeq = (a: Evidence, b: Evidence) => a.seq - b.seq;
const ids = (entries: readonly Evidence[]) => entries.map(({ id }) => id);
const unitOf = ({ body }: Evidence) => ("unit" in body ? body.unit : "subject" in body ? body.subject.unit : undefined);

/** Entries of many kinds about few things, at few moments, so that much of it is taken at once and out of order. */
function randomBook(seed: string): Book {
  const chance = randomStream(seed);
  const some = <T>(things: readonly T[]): T => things[chance.integer(things.length)]!;
  const book = new Book();
  const hour = () => chance.integer(6);
  const unit = () => some(["0101", "0102"]);
  const valve = () => some(["N1", "T1"]);
  const supersedes = () => (book.entries.length > 0 && chance.uniform() < 0.25 ? some(book.entries).id : undefined);
  const size = { length_mm: 700, width_mm: 200, thickness_mm: 24 };
  const size_h = { hardens_h: 200, finish: "oil" as const };
  for (let i = 0; i < 60; i++) {
    const putRight = supersedes();
    const more = putRight === undefined ? {} : { supersedes: putRight };
    const instrument = some(["meter", "recorder"]);
    const quantity = some(["level_V", "hum_uVrms"]);
    some([
      () => book.write(hour(), { kind: "trial", instrument, value: some([10, 10, 10.5]), doubt: 0.01, ...more }),
      () => {
        const [of, about] = [unit(), valve()];
        const subject = some([{ unit: of }, { valve: about }, { unit: of, valve: about }]);
        book.write(hour(), { kind: "reading", subject, quantity, value: 1, doubt: 0.1, instrument, ...more });
      },
      () => book.write(hour(), { kind: "step", unit: unit(), step: some(["wiring", "chassis"]) }),
      () =>
        book.write(hour(), {
          kind: "rework",
          unit: unit(),
          touched: [{ position: "V1" }],
          why: "noisy",
          ...fittedBy(),
        }),
      () => book.write(hour(), { kind: "concession", unit: unit(), claim: "balance", reason: "accepted" }),
      () => book.write(hour(), { kind: "coat", pieces: ["A-1"], ...size_h, ...some([{}, { unit: unit() }]), ...more }),
      () => book.write(hour(), { kind: "machined", piece: "A-1", ...size, ...some([{}, { unit: unit() }]), ...more }),
      () =>
        book.write(hour(), {
          kind: "valve-reading",
          valve: valve(),
          section: "a",
          phase: "cold",
          time_h: 1,
          plate_V: 250,
          grid_V: -8,
          plate_mA: 9,
          instrument,
          ...more,
        }),
      () =>
        book.write(hour(), {
          kind: "reference-reading",
          valve: "REF",
          type: some(["6SN7GT", "6AS7G"]),
          time_h: 1,
          plate_mA: 9,
          instrument,
          ...more,
        }),
      () =>
        book.write(hour(), {
          kind: "unit",
          unit: unit(),
          order: "O1",
          model: "Skerry",
          revision: "1",
          fitted: { V1: valve() },
          tap: "120",
        }),
    ])();
  }
  return book;

  function fittedBy() {
    return chance.uniform() < 0.5 ? { fitted: { V2: valve() } } : {};
  }
}

/** Each question with its answer by looking at every entry. */
function plainly(entries: readonly Evidence[]) {
  const taken = entries.toSorted(byTaking);
  const written = entries.toSorted(bySeq);
  const touches = (unit: string) =>
    taken.filter(
      ({ body }) => (body.kind === "rework" || body.kind === "coat" || body.kind === "machined") && body.unit === unit,
    );
  const questions: [string, (ledger: Ledger) => readonly Evidence[], readonly Evidence[]][] = [
    ["coats", (ledger) => ledger.coats, taken.filter(({ body }) => body.kind === "coat")],
  ];
  for (const unit of ["0101", "0102", "none", ""]) {
    questions.push([`rework ${unit}`, (ledger) => ledger.about("rework", unit), touches(unit)]);
    questions.push([`folder ${unit}`, (ledger) => ledger.ofUnit(unit), written.filter((one) => unitOf(one) === unit)]);
    for (const kind of ["unit", "step", "concession"] as const) {
      const those = taken.filter(({ body }) => body.kind === kind && body.unit === unit);
      questions.push([`${kind} ${unit}`, (ledger) => ledger.about(kind, unit), those]);
    }
  }
  for (const instrument of ["meter", "recorder"]) {
    const those = taken.filter(({ body }) => body.kind === "trial" && body.instrument === instrument);
    questions.push([`trial ${instrument}`, (ledger) => ledger.about("trial", instrument), those]);
  }
  for (const quantity of ["level_V", "hum_uVrms"])
    for (const [of, what] of [
      ["unit", "0101"],
      ["unit", "0102"],
      ["unit", ""],
      ["valve", ""],
      ["valve", "N1"],
      ["valve", "T1"],
    ] as const) {
      const those = taken.filter(
        ({ body }) => body.kind === "reading" && body.quantity === quantity && body.subject[of] === what,
      );
      questions.push([`${quantity} of ${what}`, (ledger) => ledger.figures(of, what, quantity), those]);
    }
  for (const kind of ["trial", "reading", "coat", "valve-reading"] as const)
    questions.push([
      `every ${kind}`,
      (ledger) => ledger.ofKind(kind),
      written.filter(({ body }) => body.kind === kind),
    ]);
  for (const valve of ["N1", "T1"]) {
    const those = written.filter(({ body }) => body.kind === "valve-reading" && body.valve === valve);
    questions.push([`tester ${valve}`, (ledger) => ledger.valveReadings(valve), those]);
  }
  for (const type of ["6SN7GT", "6AS7G"]) {
    const those = written.filter(({ body }) => body.kind === "reference-reading" && body.type === type);
    questions.push([`reference ${type}`, (ledger) => ledger.referenceReadings(type), those]);
  }
  return questions;
}

const supersedesOf = ({ body }: Evidence) => ("supersedes" in body ? body.supersedes : undefined);

test.each(["one", "two", "three", "four"])(
  "every question finds what a look at all entries finds, in any order: %s",
  (seed) => {
    const { entries } = randomBook(seed);
    const shuffled = randomStream(`order ${seed}`);
    const orders = [entries, entries.toReversed(), entries.toSorted(() => shuffled.uniform() - 0.5)];
    for (const order of orders) {
      const ledger = Ledger.of([...order, ...order.slice(0, 5)]);
      for (const [what, ask, expected] of plainly(entries)) expect(ids(ask(ledger)), what).toEqual(ids(expected));
      expect(ledger.size).toBe(entries.length);
      const newest_ms = Math.max(...entries.map(({ at: taken }) => Date.parse(taken)));
      expect(ledger.newest).toEqual({ taken_ms: newest_ms, seq: entries.length });
      for (const unit of ["0101", "0102"]) {
        const of = entries.toSorted(byTaking).filter(({ body }) => "unit" in body && body.unit === unit);
        const opened = of.find(({ body }) => body.kind === "unit")?.body;
        const reworks = of.map(({ body }) => (body.kind === "rework" ? body.fitted : undefined));
        expect(ledger.fitted(unit)).toEqual(
          Object.assign({}, opened?.kind === "unit" ? opened.fitted : {}, ...reworks),
        );
      }
    }
    const ledger = Ledger.of(entries);
    for (const { id } of entries) {
      const last = entries.findLast((one) => one.id !== id && supersedesOf(one) === id);
      expect(ledger.supersederOf(id), id).toBe(last?.id);
    }
    const putRight = new Set(entries.map(supersedesOf).filter((id) => id !== undefined));
    expect(ledger.corrections).toBe(putRight.size);
  },
);

/** The drawers that a question opens, in a ledger that somebody watches. */
function opened(ledger: Ledger, ask: (ledger: Ledger) => unknown): Drawer[] {
  const drawers: Drawer[] = [];
  ledger.cabinet.watch((drawer) => drawers.push(drawer));
  ask(ledger);
  return drawers;
}

test.each(["five", "six", "seven"])(
  "no answer changes, nor is put right, without a drawer of it growing: %s",
  (seed) => {
    const { entries } = randomBook(seed);
    const ledger = new Ledger();
    let still = 0;
    for (const [i, entry] of entries.entries()) {
      const before = plainly(entries.slice(0, i));
      const kept = before.map(([what, ask, answer]) => ({
        what,
        ask,
        answer,
        drawers: opened(ledger, ask),
        at: ledger.cabinet.grown,
      }));
      ledger.add(entry);
      const after = plainly(entries.slice(0, i + 1));
      for (const [k, { what, answer, drawers, at: begun }] of kept.entries()) {
        const hasGrown = drawers.some(({ grownAt }) => grownAt > begun);
        const now = after[k]![2];
        const touched = now.length !== answer.length || answer.some(({ id }) => id === supersedesOf(entry));
        if (touched) expect(hasGrown, `${what} by ${entry.id}`).toBe(true);
        else if (!hasGrown) still += 1;
      }
    }
    // Kept answers are worth keeping: most writings leave most of them alone.
    expect(still).toBeGreaterThan(0.7 * entries.length * plainly([]).length);
  },
);

describe("what is asked for by its id", () => {
  const reading = (book: Book, hour: number, more = {}) =>
    book.write(hour, {
      kind: "reading",
      subject: { unit: "0101" },
      quantity: "level_V",
      value: 1,
      doubt: 0.1,
      instrument: "meter",
      ...more,
    });

  test("grows when it comes, and when it is put right; what nobody missed does not", () => {
    const book = new Book();
    const first = reading(book, 1);
    const second = reading(book, 2);
    reading(book, 3, { supersedes: first });
    const [a, b, c] = book.entries;
    const ledger = new Ledger();
    const missing = opened(ledger, () => ledger.get(second));
    expect(missing).toHaveLength(1);
    ledger.add(a!);
    expect(missing[0]!.grownAt).toBe(0);
    ledger.add(b!);
    expect(missing[0]!.grownAt).toBe(2);
    const there = opened(ledger, () => expect(ledger.get(first)).toBe(a));
    const begun = ledger.cabinet.grown;
    ledger.add(c!);
    expect(there.some(({ grownAt }) => grownAt > begun)).toBe(true);
    // It came once, and does not come again.
    expect(missing[0]!.grownAt).toBe(2);
  });

  test("is found without anybody watching, and told to nobody within a look that is unwatched", () => {
    const book = new Book();
    const id = reading(book, 1);
    const ledger = Ledger.of(book.entries);
    expect(ledger.cabinet.isWatched).toBe(false);
    expect(ledger.get(id)).toBe(book.entries[0]);
    expect(ledger.get("nowhere")).toBeUndefined();
    const told = opened(ledger, () => {
      expect(ledger.cabinet.isWatched).toBe(true);
      ledger.cabinet.unwatched(() => {
        expect(ledger.cabinet.isWatched).toBe(false);
        ledger.get(id);
      });
      expect(ledger.cabinet.isWatched).toBe(true);
      expect(() => ledger.cabinet.unwatched(() => JSON.parse("{"))).toThrow();
      expect(ledger.cabinet.isWatched).toBe(true);
    });
    expect(told).toEqual([]);
  });

  test("an entry that supersedes itself puts nothing right", () => {
    const book = new Book();
    book.write(1, { kind: "trial", instrument: "meter", value: 10, doubt: 0.01, supersedes: "own" }, { id: "own" });
    expect(Ledger.of(book.entries).supersederOf("own")).toBeUndefined();
    expect(Ledger.of(book.entries).corrections).toBe(0);
  });
});

describe("what is kept through writings on other things", () => {
  const read = (subject: object) => ({
    kind: "reading",
    subject,
    quantity: "q_V",
    value: 1,
    doubt: 0.1,
    instrument: "m",
  });
  const order = (name: string, unit: string) => ({
    kind: "order",
    order: name,
    customer: "c",
    model: "Skerry",
    revision: "1",
    units: [unit],
    destination: { place: "p", nominal_V: 230, frequency_Hz: 50 },
  });
  const batch = (name: string, valve: string) => ({
    kind: "batch",
    batch: name,
    type: "6AS7G",
    seller: "s",
    valves: [valve],
    sections: ["a"],
  });
  const coat = (piece: string) => ({ kind: "coat", pieces: [piece], finish: "oil", hardens_h: 10 });
  const flaw = (piece: string) => ({ kind: "flaw", piece, flaw: "crack", length_mm: 30, found: "sanding" });
  const pairs: readonly (readonly [string, object, object])[] = [
    ["a reading of a valve", read({ valve: "N1" }), read({ valve: "N2" })],
    ["a reading of a unit", read({ unit: "0101" }), read({ unit: "0102" })],
    ["an order", order("O1", "0101"), order("O2", "0102")],
    ["a batch", batch("B1", "X1"), batch("B2", "X2")],
    ["a coat of a piece", coat("A-1"), coat("A-2")],
    ["a piece's flaw", flaw("A-1"), flaw("A-2")],
  ];
  test.each(pairs)("%s, asked for by its id", (_, one, other) => {
    const book = new Book();
    const id = book.write(1, one as never);
    book.write(2, other as never);
    const ledger = Ledger.of(book.entries.slice(0, 1));
    const drawers = opened(ledger, () => expect(ledger.get(id)).toBe(book.entries[0]));
    const begun = ledger.cabinet.grown;
    ledger.add(book.entries[1]!);
    expect(drawers.map(({ grownAt }) => grownAt > begun)).toEqual([false]);
  });

  test("reworks, by a coat on pieces that belong to no unit", () => {
    const book = new Book();
    book.write(1, coat("A-1") as never);
    book.write(2, { ...coat("A-1"), unit: "0101" } as never);
    const ledger = new Ledger();
    const [of, ofNone] = [
      opened(ledger, () => ledger.about("rework", "0101")),
      opened(ledger, () => ledger.about("rework", "")),
    ];
    const grown = () => [...of, ...ofNone].map(({ grownAt }) => grownAt);
    ledger.add(book.entries[0]!);
    expect(grown()).toEqual([0, 0]);
    ledger.add(book.entries[1]!);
    expect(grown()).toEqual([2, 0]);
  });
});

describe("a look at everything, and at when something last grew", () => {
  test("grows with every entry; a drawer that nobody opened has not grown", () => {
    const book = new Book();
    for (const hour of [1, 2]) book.write(hour, { kind: "step", unit: "0101", step: "wiring" });
    const ledger = new Ledger();
    const [all] = opened(ledger, () => ledger.cabinet.openAll());
    expect(ledger.cabinet.grown).toBe(0);
    for (const [i, entry] of book.entries.entries()) {
      ledger.add(entry);
      expect([all!.grownAt, ledger.cabinet.grown]).toEqual([i + 1, i + 1]);
    }
    expect(ledger.cabinet.grownAt("nothing of that name")).toBe(0);
    ledger.cabinet.openAll();
    new Ledger().cabinet.openAll();
  });

  test("a good trial after a good one leaves trust as it was; any other trial does not", () => {
    const trust = (values: readonly number[], hours: readonly number[] = values.map((_, i) => i)) => {
      const book = Book.opened();
      const ledger = Ledger.of(book.entries);
      const [drawer] = opened(ledger, () => ledger.cabinet.open("trust\u0000meter"));
      return values.map((value, i) => {
        const begun = ledger.cabinet.grown;
        book.trial(1 + hours[i]!, value);
        ledger.add(book.entries.at(-1)!);
        return drawer!.grownAt > begun;
      });
    };
    expect(trust([10, 10])).toEqual([false, false]);
    expect(trust([10.5, 10, 10])).toEqual([true, true, false]);
    // One that is told late may take back what was read since.
    expect(trust([10, 10], [5, 2])).toEqual([false, true]);
  });
});

test("a rework that is only thought of stands with the others of its unit, and nowhere else", () => {
  const book = Book.opened(["0101", "0102"]);
  const done = book.write(1, { kind: "rework", unit: "0101", touched: [{ position: "V1" }], why: "noisy" });
  const slip = book.trial(2, 10);
  book.write(2, { kind: "trial", instrument: "meter", value: 10, doubt: 0.01, supersedes: slip });
  const real = Ledger.of(book.entries);
  const thought = {
    ...book.entries.find(({ id }) => id === done)!,
    id: "thought",
    at: at(9),
  } as Evidence<"rework">;
  const supposed = real.supposing(thought);
  expect(ids(supposed.about("rework", "0101"))).toEqual([done, "thought"]);
  expect(ids(supposed.about("rework", "0102"))).toEqual([]);
  expect(ids(supposed.about("unit", "0101"))).toEqual(ids(real.about("unit", "0101")));
  expect(supposed.get("thought")).toBe(thought);
  expect(supposed.get(done)).toBe(real.get(done));
  expect(supposed.supersederOf(slip)).toBe(real.supersederOf(slip));
  expect(supposed.corrections).toBe(1);
  expect(real.get("thought")).toBeUndefined();
});
