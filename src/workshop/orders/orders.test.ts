import { expect, test } from "vitest";
import { claimStates, foldShop, releaseEntry } from "../../claims/index.ts";
import { at, Book } from "../../claims/testing/smallShop.ts";
import { ordersView, orderView, packView } from "./desk.ts";
import { returnView } from "./returned.ts";
import { workView } from "./work.ts";

const now = at(100);
const shopOf = (book: Book) => foldShop(book.entries);
const statesIn = (book: Book) => {
  const shop = shopOf(book);
  return claimStates(shop.modelOf("0101")!, shop.ledger, "0101", now);
};

function left(): Book {
  const book = Book.opened(["0101"]);
  book.proveAll(2);
  book.write(3, releaseEntry("0101", statesIn(book), "1", "0".repeat(64)), { by: "owner" });
  return book;
}

test("the next order and serial follow the greatest of their kind, with its leading noughts", () => {
  const book = Book.opened(["0101"]);
  const destination = { place: "inland", nominal_V: 120, frequency_Hz: 60 };
  const ordered = { kind: "order" as const, customer: "c2", model: "Skerry", revision: "1", destination };
  book.write(1, { ...ordered, order: "O9", units: ["0098", "0099"], options: { timber: "elm" } });
  const view = ordersView(shopOf(book), now);
  expect([view.nextOrder, view.nextUnit]).toEqual(["O10", "0102"]);
  expect(view.orders.map(({ order, stage }) => [order, stage])).toEqual([
    ["O9", "taken"],
    ["O1", "built"],
  ]);
  expect(view.options).toEqual([{ option: "timber", choices: ["elm"] }]);
  expect(ordersView(foldShop([]), now)).toMatchObject({ nextOrder: "W-1", nextUnit: "0001", orders: [], models: [] });
});

test("an order that nobody took is named with those that were", () => {
  expect(() => orderView(shopOf(Book.opened()), "O7", now, () => [])).toThrow(/orders here: O1/);
});

test("a unit under hands shows its steps, its places for valves and what hands may touch", () => {
  const book = Book.opened(["0101"]);
  const view = workView(shopOf(book), "0101", now, (valve) => (valve === "N3" ? "use" : "reject"));
  expect(view.steps).toMatchObject([{ step: "wiring", unattended: false }]);
  expect(view.steps[0]!.done).toBeUndefined();
  expect(view.positions[0]).toMatchObject({ position: "V1", valve: "N1" });
  expect(view.positions[0]!.free.map(({ valve }) => valve)).toEqual(["N3", "N2"]);
  expect(view.things).toEqual(
    expect.arrayContaining([
      { aspect: "supply", name: "tap" },
      { aspect: "case", name: "closure" },
      { aspect: "stage", name: "input" },
      { aspect: "part", name: "C9" },
    ]),
  );
  book.write(1, { kind: "step", unit: "0101", step: "wiring" });
  expect(workView(shopOf(book), "0101", now, () => "use").steps[0]!.done).toEqual({ at: at(1), by: "bench" });
});

test("a parcel waits for the release", () => {
  expect(packView(shopOf(Book.opened()), "0101", now).released).toBeUndefined();
  expect(packView(shopOf(left()), "0101", now)).toMatchObject({
    released: { at: at(3), by: "owner" },
    valves: [
      { position: "V1", valve: "N1", type: "6SN7GT" },
      { position: "V2", valve: "T1", type: "6AS7G" },
    ],
  });
});

// source: by hand: 0.10 − 0.05 = 0.05 with a doubt of √(0.002² + 0.004²) = 0.00447; 120 − 121 = −1 within √2
test("what was read anew stands beside what the unit left with, and moved only beyond both doubts", () => {
  const book = Book.opened(["0101"]);
  book.proveAll(2);
  book.read(2.1, "earth-bond", { value: 0.05, doubt: 0.002 });
  book.read(2.1, "ht", { value: 200, doubt: 1 });
  book.write(3, releaseEntry("0101", statesIn(book), "1", "0".repeat(64)), { by: "owner" });
  book.write(4, { kind: "return", unit: "0101", says: "it hums" });
  book.read(5, "earth-bond", { value: 0.1, doubt: 0.004 });
  book.read(5, "ht", { value: 199, doubt: 1 });
  book.read(5, "case-soak", { value: 0, doubt: 0 });
  const view = returnView(shopOf(book), "0101", now, statesIn(book));
  expect(view).toMatchObject({ isHere: true, left: { at: at(3), by: "owner" }, returns: [{ says: "it hums" }] });
  const of = (quantity: string) => view.figures.find((figure) => figure.quantity === quantity)!;
  expect(of("bond_ohm").change!.value).toBeCloseTo(0.05, 12);
  expect(of("bond_ohm").change!.doubt).toBeCloseTo(0.004472, 5);
  expect(of("bond_ohm").change!.state).toBe("moved");
  expect(of("ht_V").change).toMatchObject({ value: -1, state: "can't be told apart" });
  expect(of("cracks").change).toMatchObject({ value: 0, state: "as it left" });
  // Not read since it left, it has no figure of today.
  expect(of("heater_Vrms").now).toBeUndefined();
  expect(of("heater_Vrms").left).toBeDefined();
});
