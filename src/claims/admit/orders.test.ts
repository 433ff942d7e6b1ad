import { expect, test } from "vitest";
import { BadInput } from "../../maths/badInput.ts";
import { admit, claimStates, foldShop, releaseEntry, type Submitted } from "../index.ts";
import { at, Book } from "../testing/smallShop.ts";

const now = at(100);
/** An order of before, whose unit has no folder here, beside those in hand. */
const ofBefore = {
  kind: "order" as const,
  order: "O-before",
  customer: "c9",
  model: "Skerry",
  revision: "1",
  units: ["0009"],
  destination: { place: "p", nominal_V: 230, frequency_Hz: 50 },
};

function refusal(entry: object, before?: (book: Book) => void): string {
  const book = Book.opened(["0101"]);
  book.write(1, ofBefore);
  before?.(book);
  try {
    admit({ at: at(40), by: "bench", ...entry } as Submitted, foldShop(book.entries), { now });
    return "";
  } catch (fault) {
    if (!(fault instanceof BadInput)) throw fault;
    return `${fault.path}: ${fault.message}`;
  }
}
const leaves = (book: Book) => book.write(2, { kind: "delivery", order: "O-before" });
const fault = { kind: "fault", unit: "0009", fault: "hum", what: "", possible: "hum", found: "customer", repair_h: 3 };

test("an order of before is delivered as a whole, one with a unit in hand only by release", () => {
  expect(refusal({ kind: "delivery", order: "O-before" })).toBe("");
  expect(refusal({ kind: "delivery", order: "O1" })).toMatch(/^order: "O1"; .*0101 is in hand.*; release its units/);
  expect(refusal({ kind: "delivery", order: "O9" })).toMatch(/^order: "O9"/);
});

test("a unit that was ordered here comes back, and a fault of it can be written down", () => {
  const back = { kind: "return", unit: "0009", says: "it hums" };
  expect(refusal(back, leaves)).toBe("");
  expect(refusal({ ...back, unit: "0777" })).toMatch(/^unit: "0777"; a unit that was ordered here/);
  expect(refusal({ ...fault, cost_cents: 0 }, leaves)).toBe("");
});

test("a part comes only when it was on order, and is bought for orders that exist", () => {
  const part = {
    kind: "part" as const,
    part: "chassis",
    model: "Skerry",
    step: "wiring",
    lead_days: { fast: 1, usual: 2, slow: 3 },
  };
  expect(refusal({ kind: "arrival", part: "chassis" })).toMatch(/^part: "chassis"/);
  expect(refusal({ kind: "arrival", part: "chassis" }, (book) => book.write(2, part))).toBe("");
  expect(refusal({ ...part, orders: ["O-before"] })).toBe("");
  expect(refusal({ ...part, orders: ["O-none"] })).toMatch(/^orders\[0\]: "O-none"/);
});

test("an order has left when it was delivered, and the day is known", () => {
  const book = Book.opened(["0101"]);
  book.write(1, ofBefore);
  expect(foldShop(book.entries).isDelivered("O-before")).toBe(false);
  expect(foldShop(book.entries).isReleased("0009")).toBe(false);
  leaves(book);
  expect(foldShop(book.entries).deliveredAt("O-before")).toBe(at(2));
  expect(foldShop(book.entries).isReleased("0009")).toBe(true);
  expect(foldShop(book.entries).isDelivered("O1")).toBe(false);
});

/** Proven and released at hour 3, as a bench does it. */
function released(book: Book): void {
  book.proveAll(2);
  const shop = foldShop(book.entries);
  const states = claimStates(shop.modelOf("0101")!, shop.ledger, "0101", now);
  book.write(3, releaseEntry("0101", states, "1", "0".repeat(64)));
}

test("a unit is packed once it was released, with its order's voltage on its label and no valve forgotten", () => {
  const packed = {
    kind: "packed",
    unit: "0101",
    label: { nominal_V: 120, frequency_Hz: 60 },
    valvesApart: { V1: "N1" },
    leftIn: ["V2"],
    contents: [],
  };
  expect(refusal(packed)).toMatch(/^unit: "0101"; a unit that was released/);
  expect(refusal(packed, released)).toBe("");
  expect(refusal({ ...packed, label: { nominal_V: 230, frequency_Hz: 60 } }, released)).toMatch(
    /^label\.nominal_V: 230; order O1 goes to 120/,
  );
  expect(refusal({ ...packed, label: { nominal_V: 120, frequency_Hz: 50 } }, released)).toMatch(/^label\.frequency_Hz/);
  expect(refusal({ ...packed, leftIn: [] }, released)).toMatch(/^valvesApart: nothing on V2/);
  expect(refusal({ ...packed, valvesApart: { V1: "N2" } }, released)).toMatch(/^valvesApart\.V1: "N2"; N1 was proven/);
  expect(refusal({ ...packed, leftIn: ["V2", "V9"] }, released)).toMatch(/^leftIn\[1\]: "V9"/);
});

test("a parcel counts until its unit comes back, and then the unit can be released anew", () => {
  const book = Book.opened(["0101"]);
  released(book);
  const packed = book.write(4, {
    kind: "packed",
    unit: "0101",
    label: { nominal_V: 120, frequency_Hz: 60 },
    leftIn: ["V1", "V2"],
  });
  const shop = foldShop(book.entries);
  expect(shop.packed("0101")?.id).toBe(packed);
  const again = book.write(5, {
    kind: "packed",
    unit: "0101",
    label: { nominal_V: 120, frequency_Hz: 60 },
    leftIn: ["V1", "V2"],
    supersedes: packed,
  });
  expect(foldShop(book.entries).packed("0101")?.id).toBe(again);

  book.write(6, { kind: "return", unit: "0101", says: "it hums" });
  const back = foldShop(book.entries);
  expect(back.packed("0101")).toBeUndefined();
  expect(back.cameBackAfter("0101")?.body.says).toBe("it hums");
  const states = claimStates(back.modelOf("0101")!, back.ledger, "0101", now);
  const anew = { ...releaseEntry("0101", states, "1", "0".repeat(64)), at: at(7), by: "owner" } as Submitted;
  expect(() => admit(anew, back, { now })).not.toThrow();
  expect(() => admit(anew, shop, { now })).toThrow(/it stands released/);
});
