import { expect, test } from "vitest";
import { foldShop } from "../index.ts";
import { at, Book } from "../testing/smallShop.ts";

const plan = (series: string, more = {}) =>
  ({
    kind: "listening-series",
    series,
    model: "Skerry",
    versions: ["a", "b"],
    listeners: ["L1", "L2"],
    ...more,
  }) as never;
const answer = (series: string, listener: string, trial: number, more = {}) =>
  ({ kind: "listening-answer", series, listener, trial, ...more }) as never;

/** A book of entries as they are, whose bodies the room alone reads. */
function bookOf(): Book & { put(hour: number, body: object): string } {
  const book = new Book();
  return Object.assign(book, {
    put: (hour: number, body: object) => {
      const seq = book.entries.length + 1;
      book.entries.push({ id: `e${seq}`, seq, at: at(hour), recordedAt: at(seq), by: "bench", body: body as never });
      return `e${seq}`;
    },
  });
}

test("a series has the answers that stand of its own listeners, and its end once it has one", () => {
  const book = bookOf();
  book.put(1, plan("first"));
  book.put(3, plan("third"));
  book.put(2, plan("second"));
  const slip = book.put(4, answer("first", "L1", 1));
  const right = book.put(4, answer("first", "L1", 1, { supersedes: slip }));
  const other = book.put(4, answer("first", "L2", 1));
  const next = book.put(5, answer("first", "L2", 2));
  book.put(5, answer("second", "L1", 1));
  book.put(6, answer("nobody planned it", "L1", 1));
  const { listening } = foldShop(book.entries);
  expect(listening.names).toEqual(["third", "second", "first"]);
  const first = listening.series("first")!;
  expect([...first.answers].map(([who, of]) => [who, [...of].map(([trial, { id }]) => [trial, id])])).toEqual([
    ["L1", [[1, right]]],
    [
      "L2",
      [
        [1, other],
        [2, next],
      ],
    ],
  ]);
  expect(first).not.toHaveProperty("closed");
  expect(listening.series("third")!.answers.size).toBe(0);
  expect(listening.series("nobody planned it")).toBeUndefined();
  const end = book.put(7, { kind: "listening-close", series: "first" });
  const closed = foldShop(book.entries).listening;
  expect(closed.series("first")!.closed?.id).toBe(end);
  expect(closed.series("second")!).not.toHaveProperty("closed");
});

test("an answer put right under another name or trial is no answer of the first any more", () => {
  const book = bookOf();
  book.put(1, plan("first"));
  const slip = book.put(2, answer("first", "L2", 1));
  const right = book.put(2, answer("first", "L1", 1, { supersedes: slip }));
  const early = book.put(3, answer("first", "L1", 3));
  const next = book.put(3, answer("first", "L1", 2, { supersedes: early }));
  const { answers } = foldShop(book.entries).listening.series("first")!;
  expect([...answers].map(([who, of]) => [who, [...of].map(([trial, { id }]) => [trial, id])])).toEqual([
    [
      "L1",
      [
        [1, right],
        [2, next],
      ],
    ],
  ]);
});

test("levels and notes but those put right: levels as written down, notes by their hour", () => {
  const book = bookOf();
  const reading = (quantity: string, more = {}) => ({ kind: "reading", subject: { unit: "0101" }, quantity, ...more });
  const note = (more = {}) => ({ kind: "listener-note", unit: "0101", says: "dark", ...more });
  const slip = book.put(1, reading("level_V"));
  const level = book.put(9, reading("level_dBV", { supersedes: slip }));
  book.put(2, reading("output_level"));
  const second = book.put(3, reading("level_V"));
  const wrong = book.put(4, note());
  const late = book.put(8, note());
  const early = book.put(5, note({ supersedes: wrong }));
  const { listening } = foldShop(book.entries);
  expect(listening.levels.map(({ id }) => id)).toEqual([level, second]);
  expect(listening.notes.map(({ id }) => id)).toEqual([early, late]);
  const none = foldShop([]).listening;
  expect([none.levels, none.notes, none.names]).toEqual([[], [], []]);
});

test("what it says grows with what it was said from", () => {
  const book = bookOf();
  book.put(1, plan("first"));
  const shop = foldShop(book.entries);
  const { cabinet } = shop.ledger;
  const asks = [
    [() => shop.listening.names, plan("second")],
    [() => shop.listening.series("first"), answer("first", "L1", 1)],
    [() => shop.listening.series("first"), { kind: "listening-close", series: "first" }],
    [() => shop.listening.levels, { kind: "reading", subject: { unit: "0101" }, quantity: "level_V" }],
    [() => shop.listening.notes, { kind: "listener-note", unit: "0101", says: "dark" }],
  ] as const;
  for (const [ask, body] of asks) {
    const opened: { readonly grownAt: number }[] = [];
    cabinet.watch((drawer) => opened.push(drawer));
    ask();
    const begun = cabinet.grown;
    book.put(2, body);
    shop.add(book.entries.at(-1)!);
    expect(
      opened.some(({ grownAt }) => grownAt > begun),
      JSON.stringify(body),
    ).toBe(true);
  }
});
