import { expect, test } from "vitest";
import { admit, claimStates, foldShop, type Submitted } from "../../claims/index.ts";
import { at, Book, parsed, smallModel } from "../../claims/testing/smallShop.ts";
import { BadInput } from "../../maths/badInput.ts";
import { safetySheet } from "./sheet.ts";

const sheetOf = (book: Book) => {
  const shop = foldShop(book.entries);
  return safetySheet(shop, "0101", claimStates(shop.modelOf("0101")!, shop.ledger, "0101", at(60)));
};
const refusal = (entry: object) => {
  try {
    admit({ at: at(10), by: "owner", ...parsed(entry as never) } as Submitted, foldShop([]), { now: at(20) });
    return "";
  } catch (fault) {
    if (!(fault instanceof BadInput)) throw fault;
    return `${fault.path}: ${fault.message}`;
  }
};

test("a model that lets a test on live mains go before earth continuity is refused, with the test that protects", () => {
  expect(refusal(smallModel)).toBe("");
  const loose = smallModel.claims.map((claim) =>
    claim.claim === "touch-current" ? { ...claim, check: { ...claim.check, after: ["insulation"] } } : claim,
  );
  expect(refusal({ ...smallModel, claims: loose })).toBe("");
  const freed = loose.map((claim) =>
    claim.claim === "insulation" ? { ...claim, check: { ...claim.check, after: [] } } : claim,
  );
  expect(refusal({ ...smallModel, claims: freed })).toMatch(
    /^claims\[\d+\]\.check\.after: .*of insulation; .*earth-bond is proven before/,
  );
});

test("a test read before the ones that protect it were ever read is told so, and not after a later repeat of those", () => {
  const early = Book.opened();
  early.read(4, "touch-current");
  early.read(5, "earth-bond");
  early.read(6, "insulation");
  const turn = (book: Book) =>
    Object.fromEntries(sheetOf(book).figures.map(({ quantity, outOfTurn }) => [quantity, outOfTurn]));
  expect(turn(early)).toMatchObject({
    touch_mA: ["protective earth continuity", "insulation"],
    resistance_Mohm: [],
    bond_ohm: [],
  });
  const right = Book.opened();
  for (const [i, claim] of ["earth-bond", "insulation", "touch-current", "earth-bond"].entries())
    right.read(4 + i, claim);
  expect(turn(right)).toMatchObject({ touch_mA: [], resistance_Mohm: [], bond_ohm: [] });
});

test("a limit adopted for direct voltage at the jack takes the place of the model's, which is no safety claim", () => {
  const book = Book.opened();
  book.read(4, "dc-at-jack", { value: 8, doubt: 0.5 });
  const jack = (of: Book) => sheetOf(of).figures.find(({ quantity }) => quantity === "jack_mV")!;
  expect(jack(book)).toMatchObject({ state: "proven", limit: { seen: "model" } });
  book.write(5, {
    kind: "safety-limits",
    market: "inland",
    places: ["inland"],
    edition: "own rule of 2026",
    limits: [{ quantity: "jack_mV", low: -5, high: 5, source: "own rule", seen: "own" }],
  });
  expect(jack(book)).toMatchObject({ state: "refuted", high: 5, limit: { seen: "own", source: "own rule" } });
});

// source: by hand: 100 µF with a tolerance of a fifth at its top 120 µF; the resistor lies across the same two nodes
test("stores of the net list stand at the top of their tolerance, with the resistor straight across them", () => {
  const book = Book.opened();
  const store = { id: "C20", kind: "capacitor", between: ["ht", "0"], uF: 100, tolerance: 0.2, supply: "ht" };
  const bleeder = { id: "R20", kind: "resistor", between: ["0", "ht"], ohm: 220_000 };
  const parts = [...(smallModel.netlist.parts as object[]), store, bleeder];
  book.write(1, { ...smallModel, netlist: { ...smallModel.netlist, parts } });
  const found = sheetOf(book).stores.find(({ part }) => part === "C20");
  expect(found).toEqual({ part: "C20", capacitance_uF: 120, bleeder: "R20", bleeder_ohm: 220_000 });
});
