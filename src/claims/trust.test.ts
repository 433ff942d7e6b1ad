import { describe, expect, test } from "vitest";
import type { Evidence } from "./evidence.ts";
import { Ledger } from "./ledger.ts";
import { at, Book } from "./testing/smallShop.ts";
import { changesNoTrust, instrumentStanding, instrumentTrust, judgeTrial } from "./trust.ts";

const define = (book: Book, hour: number, truth: number, instrument = "gauge") =>
  book.write(hour, {
    kind: "instrument",
    instrument,
    title: instrument,
    trial: { reference: "a cell", quantity: "level_V", true: truth, limit: 0.1 },
  });
const mend = "try gauge on a cell: level_V must read 10 within 0.1 by its doubt";

/** Trials of one instrument at their hours; 10 passes, 11 fails, 10.095 decides nothing. */
function tried(...trials: readonly (readonly [hour: number, value: number])[]): Book {
  const book = new Book();
  define(book, 0, 10);
  for (const [hour, value] of trials) book.trial(hour, value, "gauge");
  return book;
}
const trustAt = (book: Book, hour: number, seq = 1000) =>
  instrumentTrust(Ledger.of(book.entries), "gauge", { at: at(hour), seq });

describe("whether a reading may be believed", () => {
  // source: the rule of the trial before and after, by hand
  test.each<[string, [number, number][], number, string]>([
    [
      "between two good ones",
      [
        [1, 10],
        [3, 10],
      ],
      2,
      "good",
    ],
    ["after a good one", [[1, 10]], 2, "good"],
    ["before the first, which is good", [[3, 10]], 2, "good"],
    ["before the first, which fails", [[3, 11]], 2, "failed"],
    ["after one that failed", [[1, 11]], 2, "failed"],
    [
      "after one that failed, though the next is good",
      [
        [1, 11],
        [3, 10],
      ],
      2,
      "failed",
    ],
    [
      "after a good one, before one that fails",
      [
        [1, 10],
        [3, 11],
      ],
      2,
      "failed",
    ],
    [
      "beyond undecided ones to a failed one before",
      [
        [0.5, 11],
        [1, 10.095],
        [1.5, 10.095],
      ],
      2,
      "failed",
    ],
    [
      "beyond undecided ones to a failed one after",
      [
        [1, 10],
        [3, 10.095],
        [4, 10.095],
        [5, 11],
      ],
      2,
      "failed",
    ],
    [
      "beyond undecided ones to a good one after",
      [
        [1, 10.095],
        [3, 10.095],
        [4, 10],
      ],
      2,
      "good",
    ],
    ["after an undecided one alone", [[1, 10.095]], 2, "undecided"],
    [
      "after a good one and then an undecided one",
      [
        [1, 10],
        [1.5, 10.095],
      ],
      2,
      "undecided",
    ],
    ["never", [], 2, "undecided"],
  ])("tried %s", (_, trials, hour, expected) => {
    expect(trustAt(tried(...trials), hour).state).toBe(expected);
  });

  test("names the trial that decides, and what would", () => {
    const book = tried([1, 10], [3, 11]);
    const [, good, failed] = book.entries.map(({ id }) => id);
    expect(trustAt(tried([1, 10]), 2)).toEqual({ state: "good", trial: good });
    expect(trustAt(book, 2)).toEqual({
      state: "failed",
      trial: failed,
      why: "its instrument gauge failed its trial of 2026-03-01 03:00, the first since this was read",
    });
    expect(trustAt(book, 4)).toEqual({
      state: "failed",
      trial: failed,
      why: "its instrument gauge had failed its trial of 2026-03-01 03:00 and passed none since",
    });
    expect(trustAt(tried([1, 10.095]), 2)).toEqual({
      state: "undecided",
      trial: "e2",
      why: "the trial of gauge of 2026-03-01 01:00 decided nothing",
      wouldDecide: mend,
    });
    expect(trustAt(tried(), 2)).toEqual({
      state: "undecided",
      trial: undefined,
      why: "its instrument gauge has never been tried",
      wouldDecide: mend,
    });
    expect(trustAt(tried([3, 10]), 2)).toEqual({ state: "good", trial: "e2" });
  });

  test("of what carries the same time, the chain says which came first", () => {
    const book = tried([2, 11]);
    const trial = book.entries.at(-1)!.seq;
    expect(trustAt(book, 2, trial + 1)).toMatchObject({ why: expect.stringContaining("passed none since") });
    expect(trustAt(book, 2, trial - 1)).toMatchObject({
      why: expect.stringContaining("the first since this was read"),
    });
    // At another time the chain's order says nothing.
    expect(trustAt(book, 3, trial - 1)).toMatchObject({ why: expect.stringContaining("passed none since") });
    expect(trustAt(book, 1, trial + 1)).toMatchObject({
      why: expect.stringContaining("the first since this was read"),
    });
  });

  test("a trial, a correction and a definition that come later are taken up by a ledger that was asked before", () => {
    const book = tried([1, 10]);
    const ledger = Ledger.of(book.entries);
    const state = () => instrumentTrust(ledger, "gauge", { at: at(2), seq: 1000 }).state;
    const add = () => ledger.add(book.entries.at(-1)!);
    expect(state()).toBe("good");
    const failed = book.trial(3, 11, "gauge");
    add();
    expect(state()).toBe("failed");
    book.write(3, { kind: "trial", instrument: "gauge", value: 10, doubt: 0.01, supersedes: failed });
    add();
    expect(state()).toBe("good");
    define(book, 0.5, 12);
    add();
    expect(state()).toBe("failed");
  });
});

test("a trial noted under the wrong instrument is taken back by a ledger that was asked before", () => {
  const book = tried([1, 10], [3, 11]);
  define(book, 0, 10, "other");
  const ledger = Ledger.of(book.entries);
  const state = (of: string) => instrumentTrust(ledger, of, { at: at(2), seq: 1000 }).state;
  expect([state("gauge"), state("other")]).toEqual(["failed", "undecided"]);
  book.write(3, { kind: "trial", instrument: "other", value: 11, doubt: 0.01, supersedes: "e3" });
  ledger.add(book.entries.at(-1)!);
  expect([state("gauge"), state("other")]).toEqual(["good", "failed"]);
});

describe("a trial against its reference", () => {
  const verdict = (book: Book) => judgeTrial(Ledger.of(book.entries), book.entries.at(-1) as Evidence<"trial">);

  test("is judged by the definition that held when it was taken, the first where it was taken before any", () => {
    const book = new Book();
    define(book, 2, 10);
    define(book, 4, 12);
    const at_h = (hour: number, value: number) => {
      book.trial(hour, value, "gauge");
      return verdict(book);
    };
    expect([at_h(3, 10), at_h(3, 12)]).toEqual(["proven", "refuted"]);
    expect([at_h(4, 12), at_h(4, 10)]).toEqual(["proven", "refuted"]);
    expect([at_h(5, 12), at_h(5, 10)]).toEqual(["proven", "refuted"]);
    expect([at_h(1, 10), at_h(1, 12)]).toEqual(["proven", "refuted"]);
  });

  test("decides nothing without a doubt, except that it fails, and nothing without a definition", () => {
    const book = tried();
    book.trial(1, 10, "gauge", 0);
    expect(verdict(book)).toBe("undecided");
    book.trial(1, 11, "gauge", 0);
    expect(verdict(book)).toBe("refuted");
    book.trial(1, 10, "unheard of");
    expect(verdict(book)).toBe("undecided");
    expect(instrumentTrust(Ledger.of(book.entries), "unheard of", { at: at(2), seq: 1000 })).toMatchObject({
      wouldDecide: "enter unheard of with what it is tried against, then try it",
    });
  });
});

describe("where an instrument stands", () => {
  const standing = (book: Book) => instrumentStanding(Ledger.of(book.entries), "gauge");

  test("good, failed, undecided or never tried, in words", () => {
    expect(standing(tried())).toEqual({ state: "untried", words: `never tried: ${mend}` });
    const read = (value: number) => `read ${value} ± 0.01 on 2026-03-01 01:00`;
    expect(standing(tried([1, 10]))).toEqual({ state: "good", at: at(1), words: read(10) });
    expect(standing(tried([1, 11]))).toEqual({
      state: "failed",
      at: at(1),
      words: `${read(11)}; it must pass again: ${mend}`,
    });
    expect(standing(tried([1, 10.095]))).toEqual({
      state: "undecided",
      at: at(1),
      words: `${read(10.095)}, which decides nothing: ${mend}`,
    });
  });

  test("by the newest trial that was not put right", () => {
    const book = tried([1, 10]);
    const slip = book.trial(3, 11, "gauge");
    expect(standing(book).state).toBe("failed");
    book.write(2, { kind: "trial", instrument: "gauge", value: 10, doubt: 0.01, supersedes: slip });
    expect(standing(book)).toMatchObject({ state: "good", at: at(2) });
  });
});

describe("a trial that changes nothing of what may be believed", () => {
  const changesNothing = (book: Book) => {
    const trial = book.entries.at(-1) as Evidence<"trial">;
    return changesNoTrust(Ledger.of(book.entries.slice(0, -1)), trial);
  };

  test.each<[string, [number, number][], boolean]>([
    [
      "a good one after a good one",
      [
        [1, 10],
        [2, 10],
      ],
      true,
    ],
    ["the first", [[1, 10]], false],
    [
      "a good one after a failed one",
      [
        [1, 11],
        [2, 10],
      ],
      false,
    ],
    [
      "a good one after an undecided one",
      [
        [1, 10.095],
        [2, 10],
      ],
      false,
    ],
    [
      "a failed one after a good one",
      [
        [1, 10],
        [2, 11],
      ],
      false,
    ],
    [
      "an undecided one after a good one",
      [
        [1, 10],
        [2, 10.095],
      ],
      false,
    ],
    [
      "a good one told late",
      [
        [2, 10],
        [1, 10],
      ],
      false,
    ],
    [
      "a good one of the same moment, later in the chain",
      [
        [1, 10],
        [1, 10],
      ],
      true,
    ],
  ])("%s", (_, trials, expected) => {
    expect(changesNothing(tried(...trials))).toBe(expected);
  });

  test("not one that puts another right; and the one before it is the last that stands", () => {
    const book = tried([1, 10]);
    const slip = book.trial(2, 11, "gauge");
    book.write(2, { kind: "trial", instrument: "gauge", value: 10, doubt: 0.01, supersedes: slip });
    expect(changesNothing(book)).toBe(false);
    book.trial(3, 10, "gauge");
    expect(changesNothing(book)).toBe(true);
    const failing = tried([1, 11]);
    failing.write(0.5, { kind: "trial", instrument: "gauge", value: 10, doubt: 0.01, supersedes: "e2" });
    failing.trial(3, 10, "gauge");
    expect(changesNothing(failing)).toBe(true);
  });

  test("not one that puts right a trial before the last, though that one was good too", () => {
    const book = tried([1, 10], [2, 11], [3, 10]);
    expect(trustAt(book, 2.5).state).toBe("failed");
    book.write(4, { kind: "trial", instrument: "gauge", value: 10, doubt: 0.01, supersedes: "e3" });
    expect(trustAt(book, 2.5).state).toBe("good");
    expect(changesNothing(book)).toBe(false);
  });
});
