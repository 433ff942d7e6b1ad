import { expect, test } from "vitest";
import { answer } from "../../calculations/answer.ts";
import { foldShop } from "../../claims/index.ts";
import { at, Book } from "../../claims/testing/smallShop.ts";
import { playings } from "../../listening/index.ts";
import { BadInput } from "../../maths/badInput.ts";
import { notebookDesk } from "../notebook/desk.ts";
import { listeningIndex, plannedSeries, seriesView, switchingView } from "./desk.ts";

const calculate = async <T>(name: string, input: unknown): Promise<T> => {
  const given = await answer(name, input, {} as never);
  if (!given.ok) throw new BadInput(given.error.path, "a question", given.error.message, "ask otherwise");
  return given.output as T;
};
const version = (name: string) => ({
  kind: "version" as const,
  model: "Skerry",
  version: name,
  netlist: { ground: "0", parts: [{ id: "IN", kind: "voltage", between: ["g", "0"], ac_V: 1 }] },
  channels: [{ channel: "left", input: "IN", output: "g" }],
  why: "a drawing",
});
const question = {
  by: "owner",
  model: "Skerry",
  versions: ["1", "2"],
  asked: "difference",
  listeners: ["one", "two", "three"],
};

function opened(): Book {
  const book = Book.opened();
  book.write(30, version("1"));
  book.write(30, version("2"));
  return book;
}
const roomOf = (book: Book) => ({ shop: foldShop(book.entries), now: at(80), calculate });

async function planned(book: Book, more: object = {}) {
  const { at: _, by, ...body } = await plannedSeries({ ...question, ...more }, roomOf(book));
  book.write(40, body as never, { by: by as string });
  return body as { series: string; lot: string; trials: number };
}

// source: design by the exact binomial with three listeners, 0.05/3 each: 30 trials, from listening.design
test("a series takes the number of trials that its design asks for, a name of its own and a fresh lot", async () => {
  const book = opened();
  const { trials: asked } = await calculate<{ trials: number }>("listening.design", { heard: 0.75, listeners: 3 });
  const first = await planned(book);
  const second = await planned(book);
  expect(first.trials).toBe(asked);
  expect([first.series, second.series]).toEqual(["Skerry 1 2 1", "Skerry 1 2 2"]);
  expect(first.lot).not.toBe(second.lot);
  expect((await planned(book, { trials: 4, asked: "preference" })).trials).toBe(4);
});

test("while a series runs nothing but the switcher's page tells what is played, or who was right", async () => {
  const book = opened();
  const { series, lot, trials } = await planned(book, { trials: 6 });
  book.write(50, { kind: "listening-answer", series, listener: "one", trial: 1, answer: "first" });
  const room = roomOf(book);
  const view = await seriesView(series, room);
  const seen = JSON.stringify([view, listeningIndex(room)]);
  expect(seen).not.toContain(lot);
  expect(view).not.toHaveProperty("told");
  expect(view).toMatchObject({ state: "open", answered: 1, of: 18 });
  const shown = switchingView(series, "one", room.shop).trials;
  const third = playings(lot, "one", trials, "difference").map((one) => one.asked === "difference" && one.third);
  expect(shown.map(({ plays }) => plays[2])).toEqual(third.map((which) => (which === "first" ? "1" : "2")));
  expect(shown.map(({ isAnswered }) => isAnswered)).toEqual([true, false, false, false, false, false]);
});

// source: binomial tail by hand, 12 of 12 right by guessing 2⁻¹²
test("a closed series tells right answers by its lot, with odds and how many more; its notebook shows them too", async () => {
  const book = opened();
  const { series, lot } = await planned(book, { trials: 6, listeners: ["one", "two"] });
  for (const listener of ["one", "two"]) {
    playings(lot, listener, 6, "difference").forEach((one, i) => {
      if (one.asked !== "difference") return;
      book.write(50, { kind: "listening-answer", series, listener, trial: i + 1, answer: one.third });
    });
  }
  book.write(60, { kind: "listening-close", series });
  const view = await seriesView(series, roomOf(book));
  expect(view.told!.together).toMatchObject({ trials: 12, right: 12 });
  expect(view.told!.together.p).toBeCloseTo(2 ** -12, 12);
  // source: by hand, Bayes factor ∫ from ½ to 1 of 2p¹² dp over 2⁻¹² = 2/13·(1 − 2⁻¹³)·2¹²
  expect(view.told!.odds).toBeCloseTo((2 / 13) * (1 - 2 ** -13) * 2 ** 12, 3);
  expect(view.notes).toEqual([expect.stringContaining("Nobody read how loud")]);
  const { shop, now } = roomOf(book);
  const notebook = await notebookDesk({ shop, now, calculate }).model("Skerry");
  expect(notebook.blind.told[0]!.together).toMatchObject({ trials: 12, right: 12 });
});

test("a preference says what was played first, and the order of playing is told apart", async () => {
  const book = opened();
  const listeners = ["one", "two", "three", "four"];
  const { series, lot } = await planned(book, { trials: 8, asked: "preference", listeners });
  for (const listener of listeners) {
    const before = playings(lot, listener, 8, "preference").map((one) => one.asked === "preference" && one.before);
    // Each takes the first playing but once each way round: a habit, and no liking for either version.
    const others = [before.indexOf("first"), before.indexOf("second")];
    before.forEach((_, i) => {
      const taken = others.includes(i) ? "second" : "first";
      book.write(50, { kind: "listening-answer", series, listener, trial: i + 1, answer: taken });
    });
  }
  book.write(60, { kind: "listening-close", series });
  const { preferred } = await seriesView(series, roomOf(book));
  expect(preferred).toMatchObject({ trials: 32, listeners: 4, ordered: 32 });
  // source: by hand, 24 of 32 first playings taken, as often of either version: odds of 3, and strengths alike
  expect(preferred!.order!.odds).toBeCloseTo(3, 9);
  expect(preferred!.ranking.map(({ strength }) => strength)).toEqual([0.5, 0.5]);
});

test("levels come from two readings on record, volts as decibels", async () => {
  const book = opened();
  const read = (value: number) =>
    book.write(35, {
      kind: "reading",
      subject: { unit: "0101", channel: "left" },
      quantity: "level_Vrms",
      value,
      doubt: 0.002,
      instrument: "meter",
    });
  const from = [read(1), read(1.01)];
  const { series } = await planned(book, { trials: 4, match: { from, shared_dB: 0.017 } });
  const { level } = await seriesView(series, roomOf(book));
  // source: by hand, 20·lg 1.01 = 0.0864 dB
  expect(level!.difference_dB).toBeCloseTo(0.0864, 4);
  expect(listeningIndex(roomOf(book)).levels).toHaveLength(2);
  await expect(plannedSeries({ ...question, match: { from: ["x", "y"] } }, roomOf(book))).rejects.toThrow(
    expect.objectContaining({ path: "match.from[0]" }),
  );
  await expect(plannedSeries({ ...question, match: { first_dB: 1 } }, roomOf(book))).rejects.toThrow(
    expect.objectContaining({ path: "match.second_dB" }),
  );
});

test("testers are counted once a matter and version, those who heard it blind apart", async () => {
  const book = opened();
  const note = (tester: string, speaks: string, strength: number, isBlind: boolean) =>
    book.write(45, {
      kind: "listener-note",
      model: "Skerry",
      version: "2",
      tester,
      heard: "hiss",
      speaks,
      strength,
      isBlind,
    } as never);
  note("tester 1", "against", 4, false);
  note("tester 1", "against", 3, true);
  note("tester 2", "for", 2, false);
  const { shop, now } = roomOf(book);
  const { reports } = await notebookDesk({ shop, now, calculate }).model("Skerry");
  expect(reports).toMatchObject({ testers: 2, versions: ["1", "2"] });
  expect(reports.rows).toEqual([
    { heard: "hiss", cells: [null, { testers: 2, notes: 3, blind: 1, for: 1, against: 1, strength: 3 }] },
  ]);
});
