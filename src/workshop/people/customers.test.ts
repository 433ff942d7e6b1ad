import { expect, test } from "vitest";
import { foldShop } from "../../claims/index.ts";
import { Book } from "../../claims/testing/smallShop.ts";
import { CustomersDesk } from "./customers.ts";

/** A desk over a register of names and orders; each number is a customer, in the order in which they ordered. */
function deskOf(ordered: readonly number[], named: readonly number[]): CustomersDesk {
  const id = (number: number) => `c-${String(number).padStart(3, "0")}`;
  const book = Book.opened(["0101"]);
  for (const [i, number] of ordered.entries())
    book.write(1, {
      kind: "order",
      order: `X${i}`,
      customer: id(number),
      model: "Skerry",
      revision: "1",
      units: [`x${i}`],
      destination: { place: "inland", nominal_V: 120, frequency_Hz: 60 },
      options: {},
    });
  const kept = named.map((number) => ({
    customer: id(number),
    name: `Name ${number}`,
    address: `${number} Mill Lane`,
  }));
  return new CustomersDesk({
    store: { customers: { all: async () => kept }, folder: "" } as never,
    shop: () => foldShop(book.entries),
  });
}

const upTo = (count: number) => Array.from({ length: count }, (_, i) => i);

test("a small register is shown whole, with whoever has a name and no order", async () => {
  const { customers, inAll } = await deskOf([2, 1, 2], [1, 3]).view();
  // The shop's first order names c1.
  expect(customers.map(({ customer, orders }) => [customer, orders])).toEqual([
    ["c-001", ["X1"]],
    ["c-002", ["X0", "X2"]],
    ["c-003", []],
    ["c1", ["O1"]],
  ]);
  expect(inAll).toBe(4);
});

test("of a large register those are shown who ordered last, by their ids, and any other is found", async () => {
  // 100 ordered in the order of their numbers, then number 7 again; 100 to 119 have a name alone.
  const desk = deskOf([...upTo(100), 7], upTo(120));
  const { customers, inAll } = await desk.view();
  expect(inAll).toBe(121);
  expect(customers.map(({ customer }) => customer)).toEqual([
    "c-007",
    ...upTo(59).map((i) => `c-0${String(41 + i).padStart(2, "0")}`),
  ]);
  const found = async (words: string) => (await desk.view(words)).customers.map(({ customer }) => customer);
  expect(await found(" C-003 ")).toEqual(["c-003"]);
  expect(await found("name 115")).toEqual(["c-115"]);
  expect(await found("12 mill")).toEqual(["c-012", "c-112"]);
  expect(await found("X100")).toEqual(["c-007"]);
  expect(await found("nobody")).toEqual([]);
  // An address that asks twice hands over a list.
  await expect(desk.view(["c-003", "c-004"])).rejects.toThrow(/part of an id/);
  expect((await desk.view("name")).inAll).toBe(120);
  expect((await desk.view("name")).customers).toHaveLength(60);
});
