import { expect, test } from "vitest";
import { foldShop } from "../index.ts";
import { at, Book } from "../testing/smallShop.ts";

const begun = (units: readonly string[]) => ({
  kind: "begun" as const,
  run: "rack 1",
  units: [...units],
  step: "wiring",
  place: "rack",
  slot: 2,
  hours: 24,
});

// source: by hand
test("a run tells each thing's end at its hour; what nobody ended ends with its step, and the rest goes on", () => {
  const book = Book.opened(["0101", "0102", "0103"]);
  book.write(10, begun(["0101", "0102", "0103"]));
  book.write(16, { kind: "ended", run: "rack 1", things: ["0102"], outcome: "failed", hours: 5.5, fault: "dry joint" });
  book.write(40, { kind: "step", unit: "0101", step: "wiring" });
  const { runs } = foldShop(book.entries);
  const run = runs.all.get("rack 1")!;
  expect(Object.fromEntries(run.endings)).toEqual({
    "0102": { at: at(16), outcome: "failed", hours: 5.5, fault: "dry joint" },
    "0101": { at: at(40), outcome: "good", hours: 30, isImplied: true },
  });
  expect(run.running).toEqual(["0103"]);
  expect(run.ripe).toBe(at(34));
  expect(runs.of("0103")?.body.run).toBe("rack 1");
  expect(runs.of("0102")).toBeUndefined();
  expect(runs.slotsOf("rack").map(({ slot, thing }) => [slot, thing])).toEqual([[4, "0103"]]);
});

test("an end counts from the run's clock where no hours are given, and a superseded one does not count", () => {
  const book = Book.opened(["0101"]);
  book.write(10, begun(["0101"]));
  const wrong = book.write(12, { kind: "ended", run: "rack 1", outcome: "failed" });
  expect(foldShop(book.entries).runs.all.get("rack 1")!.endings.get("0101")).toMatchObject({
    outcome: "failed",
    hours: 2,
  });
  book.write(34, { kind: "ended", run: "rack 1", outcome: "good", supersedes: wrong });
  expect(foldShop(book.entries).runs.all.get("rack 1")!.endings.get("0101")).toMatchObject({
    outcome: "good",
    hours: 24,
  });
});

// property: folding asks for no order
test("the same entries in another order give the same runs", () => {
  const book = Book.opened(["0101", "0102"]);
  book.write(10, begun(["0101", "0102"]));
  book.write(16, { kind: "ended", run: "rack 1", things: ["0102"], outcome: "good" });
  const forward = foldShop(book.entries).runs.all.get("rack 1")!;
  const backward = foldShop([...book.entries].reverse()).runs.all.get("rack 1")!;
  expect([...backward.endings]).toEqual([...forward.endings]);
});

const thing = (run: string, valves: readonly string[], more = {}) => ({
  kind: "begun" as const,
  run,
  valves: [...valves],
  place: "rack",
  hours: 24,
  ...more,
});

test("runs are told in the order they were begun, the open ones too, and slots where they were counted", () => {
  const book = Book.opened(["0101"]);
  book.write(12, thing("late", ["N3"]));
  book.write(10, thing("early", ["N1", "N2"], { slot: 3 }));
  book.write(12, thing("later", ["T1"], { place: "shelf" }));
  book.write(9, thing("first", ["T2"]));
  book.write(11, { kind: "ended", run: "first", outcome: "good" });
  for (const entries of [book.entries, book.entries.toReversed()]) {
    const { runs } = foldShop(entries);
    expect([...runs.all.keys()]).toEqual(["first", "early", "late", "later"]);
    expect(runs.open.map(({ body }) => body.run)).toEqual(["early", "late", "later"]);
    expect(runs.get("first")?.running).toEqual([]);
    expect(runs.get("nothing")).toBeUndefined();
    expect(runs.slotsOf("rack").map(({ slot, thing: one, run }) => [slot, one, run.body.run])).toEqual([
      [3, "N1", "early"],
      [4, "N2", "early"],
      [undefined, "N3", "late"],
    ]);
    expect(runs.slotsOf("rack")[2]).not.toHaveProperty("slot");
    expect(runs.slotsOf("shelf").map(({ thing: one }) => one)).toEqual(["T1"]);
    expect([runs.of("N2")?.body.run, runs.of("T2")]).toEqual(["early", undefined]);
  }
});

test("a thing ends once, with the first word of it, and only in its own run", () => {
  const book = Book.opened(["0101"]);
  book.write(10, thing("heat", ["N1", "N2"]));
  book.write(20, { kind: "ended", run: "heat", things: ["N1"], outcome: "good" });
  book.write(15, { kind: "ended", run: "heat", things: ["N1", "T1"], outcome: "failed", fault: "noise" });
  const run = foldShop(book.entries).runs.get("heat")!;
  expect([...run.endings]).toEqual([["N1", { at: at(15), outcome: "failed", hours: 5, fault: "noise" }]]);
  book.write(30, { kind: "ended", run: "heat", outcome: "good" });
  const ended = foldShop(book.entries).runs.get("heat")!;
  expect(ended.endings.get("N2")).toEqual({ at: at(30), outcome: "good", hours: 20 });
  expect(ended.endings.get("N1")).toMatchObject({ at: at(15), outcome: "failed" });
  expect(ended.running).toEqual([]);
});

test("of two that stand under one name the later begun is meant, and an end of what nobody began is of no run", () => {
  const book = Book.opened(["0101"]);
  book.write(12, thing("heat", ["N1"]));
  book.write(10, thing("heat", ["N2"]));
  book.write(14, { kind: "ended", run: "nothing", outcome: "good" });
  for (const entries of [book.entries, book.entries.toReversed()]) {
    const { runs } = foldShop(entries);
    expect(runs.get("heat")?.things).toEqual(["N1"]);
    expect([...runs.all.keys()]).toEqual(["heat"]);
    expect(runs.get("nothing")).toBeUndefined();
  }
});

test("a run without one of its ends is as if that had not been written", () => {
  const book = Book.opened(["0101"]);
  book.write(10, thing("heat", ["N1", "N2"]));
  const one = book.write(15, { kind: "ended", run: "heat", things: ["N1"], outcome: "failed" });
  const all = book.write(20, { kind: "ended", run: "heat", outcome: "good" });
  const { runs } = foldShop(book.entries);
  expect(runs.without(all, "heat")?.running).toEqual(["N2"]);
  expect(runs.without(one, "heat")?.endings.get("N1")).toEqual({ at: at(20), outcome: "good", hours: 10 });
  expect(runs.get("heat")?.endings.get("N1")).toMatchObject({ at: at(15), outcome: "failed" });
  expect(runs.without(all, "nothing")).toBeUndefined();
});

test("asked after each entry or at the end, runs are the same, whatever was put right", () => {
  const book = Book.opened(["0101", "0102"]);
  const shop = foldShop(book.entries);
  const told = (of: typeof shop) => ({
    all: [...of.runs.all.values()],
    open: of.runs.open.map(({ body }) => body.run),
    rack: of.runs.slotsOf("rack").map(({ thing: one, slot }) => [one, slot]),
  });
  const write = (hour: number, body: Parameters<Book["write"]>[1]) => {
    const id = book.write(hour, body);
    shop.add(book.entries.at(-1)!);
    expect(told(shop), id).toEqual(told(foldShop(book.entries)));
    return id;
  };
  const first = write(10, thing("a", ["N1"]));
  const second = write(11, thing("b", ["N2"]));
  // Of one name the newest that stands; under another name the first is no run any more.
  write(10.5, thing("a2", ["N1"], { supersedes: first }));
  expect([...shop.runs.all.keys()]).toEqual(["a2", "b"]);
  const end = write(12, { kind: "ended", run: "b", outcome: "good" });
  expect(shop.runs.open.map(({ body }) => body.run)).toEqual(["a2"]);
  write(12, { kind: "ended", run: "a2", outcome: "good", supersedes: end });
  expect(shop.runs.open.map(({ body }) => body.run)).toEqual(["b"]);
  write(13, thing("b", ["N3"], { supersedes: second }));
  expect(shop.runs.get("b")?.things).toEqual(["N3"]);
  // A step done tells the end of what waits for it, and an earlier or another one does not.
  write(20, { ...begun(["0101", "0102"]), run: "wire" });
  write(19, { kind: "step", unit: "0101", step: "wiring" });
  write(20, { kind: "step", unit: "0101", step: "wiring" });
  write(25, { kind: "step", unit: "0102", step: "chassis" });
  expect(shop.runs.get("wire")?.running).toEqual(["0101", "0102"]);
  write(30, { kind: "step", unit: "0101", step: "wiring" });
  expect(shop.runs.get("wire")?.endings.get("0101")).toEqual({
    at: at(30),
    outcome: "good",
    hours: 10,
    isImplied: true,
  });
  write(26, { kind: "step", unit: "0101", step: "wiring" });
  expect(shop.runs.get("wire")?.endings.get("0101")?.at).toBe(at(30));
  write(31, { kind: "ended", run: "wire", things: ["0101"], outcome: "failed" });
  expect(shop.runs.get("wire")?.endings.get("0101")).toMatchObject({ outcome: "failed", hours: 11 });
  // A run of units that waits for no step has no end from one.
  write(40, { ...begun(["0102"]), run: "soak", step: undefined, claim: "case-soak" });
  write(50, { kind: "step", unit: "0102", step: "wiring" });
  write(51, { kind: "step", unit: "0102", step: "undefined" });
  expect(shop.runs.get("soak")?.running).toEqual(["0102"]);
});

test("a step done at one moment, told twice in different zones, ends its run as it was told first", () => {
  const book = Book.opened(["0101"]);
  book.write(10, begun(["0101"]));
  book.write(34, { kind: "step", unit: "0101", step: "wiring" });
  const again = book.write(34, { kind: "step", unit: "0101", step: "wiring" });
  const eastern = book.entries.map((entry) =>
    entry.id === again ? { ...entry, at: "2026-03-02T12:00:00+02:00" } : entry,
  );
  expect(foldShop(eastern).runs.get("rack 1")?.endings.get("0101")).toMatchObject({ at: at(34), hours: 24 });
});
