import { beforeAll, describe, expect, test } from "vitest";
import { answer } from "../../calculations/answer.ts";
import { type Evidence, submission } from "../../claims/evidence.ts";
import { claimStates, foldShop, Shop } from "../../claims/index.ts";
import { at, Book } from "../../claims/testing/smallShop.ts";
import type { Calculate } from "../calculate.ts";
import { workshopSurroundings } from "../surroundings.ts";
import { promiseToGive } from "./give.ts";
import { kept } from "./kept.ts";
import { lookBackView } from "./lookBack.ts";
import { type Bookkeeping, promiseQuestion } from "./question.ts";
import { stageOdds } from "./stageOdds.ts";
import { whatIf } from "./whatIf.ts";

const calculate: Calculate = async <T>(name: string, input: unknown) => {
  const given = await answer(
    name,
    input,
    workshopSurroundings(() => ""),
  );
  if (!given.ok) throw new Error(`${name}: ${given.error.path}: ${given.error.message}`);
  return given.output as T;
};

/** Two units in hand of one order, one order of before, people and a place. */
function book(write: (book: Book) => void = () => undefined): Book {
  const small = Book.opened(["0101", "0102"]);
  small.write(1, {
    kind: "shop",
    timeZone: "UTC",
    calendars: {
      day: { week: Object.fromEntries(["mon", "tue", "wed", "thu", "fri"].map((d) => [d, ["08:00-16:00"]])) },
    },
    people: [{ id: "bench", skills: [...skills], calendar: "day" }],
    places: [...places].map((id) => ({ id, kind: "single" as const })),
    building_Hz: 50,
    cleanSupply_Hz: [],
    currency: "EUR",
  });
  small.write(1, {
    kind: "order",
    order: "O-before",
    customer: "c9",
    model: "Skerry",
    revision: "1",
    units: ["0009"],
    destination: { place: "p", nominal_V: 230, frequency_Hz: 50 },
  });
  write(small);
  return small;
}
const model = foldShop(Book.opened().entries).models.values().next().value!.body;
const skills = new Set([
  ...model.claims.map(({ check }) => check.skill),
  ...model.build.flatMap(({ skill }) => skill ?? []),
]);
const places = new Set([
  ...model.claims.flatMap(({ check }) => check.place ?? []),
  ...model.build.flatMap(({ place }) => place ?? []),
]);
function asked(small: Book, hour = 40): Bookkeeping {
  const shop = foldShop(small.entries);
  const now = at(hour);
  return { shop, now, statesOf: (unit) => claimStates(shop.modelOf(unit)!, shop.ledger, unit, now) };
}
const step = model.build[0]!.step;
const part = {
  kind: "part" as const,
  part: "chassis",
  model: "Skerry",
  step,
  lead_days: { fast: 2, usual: 2, slow: 2 },
};

describe("what the promise is asked", () => {
  test("an order that left is no longer asked for, nor a part that came", () => {
    const before = promiseQuestion(asked(book((small) => small.write(2, part))))!;
    expect(before.orders.map(({ id }) => id)).toEqual(["O1", "O-before"]);
    expect(before.parts.map(({ id }) => id)).toEqual(["chassis"]);
    const after = promiseQuestion(
      asked(
        book((small) => {
          small.write(2, part);
          small.write(3, { kind: "arrival", part: "chassis" });
          small.write(3, { kind: "delivery", order: "O-before" });
        }),
      ),
    )!;
    expect(after.orders.map(({ id }) => id)).toEqual(["O1"]);
    expect(after.parts).toEqual([]);
  });

  // source: by hand: of one unit that left one failed at noise: (1 + 10·0.05)/(1 + 10) = 0.1364; at none, 0.5/11
  test("odds come from the shop's own faults, the model's guess counting as ten units", () => {
    const shop = foldShop(
      book((small) => {
        small.write(2, { kind: "delivery", order: "O-before" });
        small.write(3, {
          kind: "fault",
          unit: "0009",
          fault: "hiss",
          what: "",
          possible: "ht",
          found: "ht",
          repair_h: 1,
          cost_cents: 0,
        });
      }).entries,
    );
    const odds = stageOdds(shop);
    expect(odds("Skerry", "ht", 0.05)).toBeCloseTo(1.5 / 11, 10);
    expect(odds("Skerry", "balance", 0.05)).toBeCloseTo(0.5 / 11, 10);
    expect(odds("Skarry", "ht", 0.05)).toBe(0.05);
  });
});

describe("a promise given", () => {
  test("is written with what it was worked out from, and admitted", async () => {
    const small = book((one) => one.write(2, { ...part, ordered: at(2) }));
    const body = await promiseToGive(asked(small), { order: "O-before", share_pct: 80 }, calculate);
    expect(body).toMatchObject({ order: "O-before", share_pct: 80, assumed: { open: ["O1", "O-before"], seed: 1 } });
    expect(body.date).toBe(body.assumed!.p80);
    // Two days after it was ordered, for certain.
    expect(body.assumed!.parts).toEqual([
      { part: "chassis", by: new Date(Date.parse(at(2)) + 2 * 86_400_000).toISOString() },
    ]);
    expect(body.assumed!.repairs).toBeGreaterThan(0);
    expect(submission.safeParse({ at: at(40), by: "owner", ...body }).success).toBe(true);
  });

  test("is refused for an order that is not open, and for a day gone by", async () => {
    const small = asked(book());
    await expect(promiseToGive(small, { order: "O9", share_pct: 80 }, calculate)).rejects.toThrow(/"O9"; open orders/);
    await expect(promiseToGive(small, { order: "O1", share_pct: 80, date: at(1) }, calculate)).rejects.toThrow(
      /not before/,
    );
  });
});

describe("what became of promises", () => {
  const promised = (small: Book, days: number, assumed?: object) =>
    small.write(2, {
      kind: "promise",
      order: "O-before",
      date: new Date(Date.parse(at(40)) + days * 86_400_000).toISOString(),
      share_pct: 80,
      assumptions: "",
      ...assumed,
    } as never);
  const given = (small: Book) => small.entries.filter((one): one is Evidence<"promise"> => one.body.kind === "promise");

  test("a date is kept until its day is over, and late after it", async () => {
    for (const [days, isKept] of [
      [0, true],
      [-1, false],
    ] as const) {
      const small = book((one) => promised(one, days));
      small.write(40, { kind: "delivery", order: "O-before" });
      const view = await kept(foldShop(small.entries), given(small), calculate);
      expect(view.orders).toMatchObject([{ order: "O-before", kept: isKept }]);
      expect(view.groups.at(-1)).toMatchObject({ group: "all", made: 1, kept: isKept ? 1 : 0, state: "undecided" });
    }
  });

  test("what went otherwise than was taken for granted is named", async () => {
    const assumed = {
      assumed: {
        now: at(2),
        version: "1",
        runs: 600,
        seed: 1,
        question_sha256: "0".repeat(64),
        p50: at(40),
        p80: at(40),
        p95: at(40),
        heldBy: "chassis",
        open: ["O1", "O-before"],
        parts: [{ part: "chassis", by: at(5) }],
        repairs: 0.2,
      },
    };
    const small = book((one) => {
      promised(one, -1, assumed);
      one.write(2, part);
    });
    small.write(34, { kind: "arrival", part: "chassis" });
    small.write(40, { kind: "delivery", order: "O-before" });
    const view = await kept(foldShop(small.entries), given(small), calculate);
    expect(view.orders[0]?.otherwise).toEqual([
      expect.stringMatching(/^chassis came \d+ days? later than four in five do$/),
    ]);
  });
});

describe("a change asked for in the shop's words", () => {
  let small: Bookkeeping;
  beforeAll(() => {
    small = asked(book((one) => one.write(2, { ...part, ordered: at(30) })));
  });

  test("a part later by a week moves what waits for it", async () => {
    const view = await whatIf(small, { changes: [{ kind: "late", part: "chassis", days: 7 }] }, calculate);
    expect(view.later).toContain("O-before");
    expect(view.changes).toEqual(["chassis comes 7 days later"]);
    expect(view.words).toMatch(/1 of \d+ dates moves out|\d+ of \d+ dates move out/);
    expect(view.overall!.low_h).toBeGreaterThan(0);
    expect(view.overall!.high_h).toBeGreaterThan(view.overall!.shift_h);
    expect(view.danger.every((id) => view.words.includes(id))).toBe(true);
  });

  test("a rush order is new, and another pair of hands makes nobody later", async () => {
    const changes = [
      { kind: "rush", model: "Skerry", units: 1, due: "2027-12-24" },
      { kind: "hands", like: "bench" },
    ];
    const view = await whatIf(small, { changes }, calculate);
    expect(view.orders.map(({ order, moves }) => [order, moves])).toContainEqual(["rush order", "new"]);
    expect(view.later).toEqual([]);
  });

  test.each([
    [{ kind: "late", part: "chassis" }, /changes\[0\]\.days|days/],
    [{ kind: "fail", unit: "0777", step }, /0777.*0101/],
    [{ kind: "rush", model: "Holm", units: 1, due: "2027-12-24" }, /Holm.*Skerry/],
    [{ kind: "rush", model: "Skerry", units: 1, due: "1999-12-24" }, /1999-12-24.*rush order of 1 Skerry/],
    [{ kind: "hands", like: "nobody" }, /nobody.*bench/],
    [{ kind: "holiday", date: "next week" }, /next week|date/],
  ])("%j is refused with its mend", async (change, words) => {
    await expect(
      (async () => whatIf(small, { changes: [change] }, calculate))().catch((fault: Error & { path?: string }) => {
        throw new Error(`${fault.path} ${fault.message}`);
      }),
    ).rejects.toThrow(words);
  });
});

test("the look-back leads from where a fault was found to where it could have been", async () => {
  const shop = foldShop(
    book((small) => {
      small.write(2, { kind: "delivery", order: "O-before" });
      small.write(3, { kind: "return", unit: "0009", says: "it hums" });
      small.write(4, {
        kind: "fault",
        unit: "0009",
        fault: "dry joint",
        what: "",
        possible: step,
        found: "customer",
        repair_h: 4,
        cost_cents: 9000,
      });
    }).entries,
  );
  expect(shop).toBeInstanceOf(Shop);
  const view = await lookBackView(shop, [], [], calculate);
  expect(view.rungs.map(({ stage }) => stage)).toEqual([step, "customer"]);
  expect(view.arrows).toMatchObject([
    { fault: "dry joint", found: "customer", possible: step, spent_h: 4, spent_cents: 9000, state: "undecided" },
  ]);
  expect(view).toMatchObject({ units: 1, faults: 1, late: 1, returns: { count: 1, without: 0 } });
});
