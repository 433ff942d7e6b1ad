import { describe, expect, test } from "vitest";
import { BadInput } from "../maths/badInput.ts";
import { admit, claimStates, foldShop, type Submitted } from "./index.ts";
import { at, Book, smallModel } from "./testing/smallShop.ts";

const now = at(100);
const limits = (high: number, places = ["inland"]) => ({
  kind: "safety-limits" as const,
  market: "inland",
  places,
  edition: "A standard, edition 3, adopted 2026-11-01",
  limits: [{ quantity: "bond_ohm", high, source: "clause 5", seen: "memory" as const }],
});
const bondOf = (book: Book) => {
  const shop = foldShop(book.entries);
  return claimStates(shop.modelOf("0101")!, shop.ledger, "0101", now).find(({ claim }) => claim === "earth-bond")!;
};

// source: by hand. The model asks for at most 0.1 ohm, the market for 0.03; the book's reading lies in the middle, 0.05
describe("limits adopted for a market", () => {
  test("take the place of the model's for units that go there, and only those", () => {
    const book = Book.opened();
    book.proveAll(1);
    expect(bondOf(book)).toMatchObject({ state: "proven", figures: [{ high: 0.1 }] });
    book.write(2, limits(0.0001, ["elsewhere"]));
    expect(bondOf(book).state).toBe("proven");
    book.write(3, limits(0.0001));
    expect(bondOf(book)).toMatchObject({ state: "refuted", figures: [{ high: 0.0001 }] });
  });

  test("the newest holds, and can be put right", () => {
    const book = Book.opened();
    book.proveAll(1);
    book.write(3, limits(0.0001));
    book.write(4, limits(0.2));
    expect(bondOf(book)).toMatchObject({ state: "proven", figures: [{ high: 0.2 }] });
  });

  test("what was released before stays released", () => {
    const book = Book.opened();
    book.proveAll(1);
    const states = claimStates(smallModel, book.entries, "0101", now);
    book.write(
      2,
      {
        kind: "release",
        unit: "0101",
        version: "1",
        resting_sha256: "0".repeat(64),
        claims: states.map(({ claim, figures }) => ({
          claim,
          state: "proven",
          figures: figures.map((f) => ({ ...f })),
        })),
      },
      { by: "owner" },
    );
    expect(foldShop(book.entries).isReleased("0101")).toBe(true);
    book.write(3, limits(0.0001));
    expect(foldShop(book.entries).isReleased("0101")).toBe(true);
  });
});

function refusal(entry: object, before?: (book: Book) => void): string {
  const book = Book.opened();
  book.write(1, {
    kind: "shop",
    timeZone: "UTC",
    calendars: { day: { week: { mon: ["08:00-16:00"] } } },
    people: [
      { id: "bench", skills: ["safety"], calendar: "day" },
      { id: "wood", skills: ["wood"], calendar: "day" },
    ],
    places: [],
    building_Hz: 50,
    currency: "EUR",
  });
  before?.(book);
  try {
    admit({ at: at(40), by: "bench", ...entry } as Submitted, foldShop(book.entries), { now });
    return "";
  } catch (fault) {
    if (!(fault instanceof BadInput)) throw fault;
    return fault.path;
  }
}

const step = smallModel.build[0]!.step;
const fault = {
  kind: "fault",
  unit: "0101",
  fault: "dry joint",
  what: "",
  possible: step,
  found: "ht",
  repair_h: 1,
  cost_cents: 0,
};
const bill = {
  kind: "bill",
  model: "Skerry",
  revision: "1",
  currency: "EUR",
  parts: [{ part: "transformer", count: 1, cost_cents: 9000, scrap: 0 }],
  price_cents: 200_000,
};
const account = {
  kind: "account",
  unit: "0101",
  currency: "EUR",
  options: { timber: "ash" },
  parts_cents: 70_000,
  hours: { wiring: 11 },
  rework_h: 1,
  scrap_cents: 0,
};

test.each([limits(0.1), fault, bill, account])("a sound $kind is let in", (entry) => {
  expect(refusal(entry)).toBe("");
});

test.each<[string, object, string]>([
  ["limits by somebody without the skill", { ...limits(0.1), by: "wood" }, "by"],
  [
    "a limit of what no safety claim reads",
    { ...limits(0.1), limits: [{ quantity: "hum_dB", high: 1, source: "x", seen: "own" }] },
    "limits[0].quantity",
  ],
  [
    "a limit with neither end",
    { ...limits(0.1), limits: [{ quantity: "bond_ohm", source: "x", seen: "own" }] },
    "limits[0].high",
  ],
  ["a fault of no unit", { ...fault, unit: "9999" }, "unit"],
  ["a fault found at no stage", { ...fault, found: "nowhere" }, "found"],
  ["a fault found before it could be", { ...fault, possible: "ht", found: step }, "possible"],
  ["a fault that shows before it is there", { ...fault, arose: "ht", possible: step }, "arose"],
  ["a bill in another currency", { ...bill, currency: "USD" }, "currency"],
  ["a bill with a part twice", { ...bill, parts: [...bill.parts, ...bill.parts] }, "parts[1]"],
  ["more rework than hours", { ...account, rework_h: 20 }, "rework_h"],
])("%s is refused", (_, entry, path) => {
  expect(refusal(entry)).toBe(path);
});
