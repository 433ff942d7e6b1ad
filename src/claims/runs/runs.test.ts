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
