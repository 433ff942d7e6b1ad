import { expect, test } from "vitest";
import { BadInput } from "../../maths/badInput.ts";
import { admit, foldShop, type Submitted } from "../index.ts";
import { at, Book, parsed } from "../testing/smallShop.ts";

const lot = "0123456789abcdef0123456789abcdef";
const version = (name: string) => ({
  kind: "version" as const,
  model: "Skerry",
  version: name,
  netlist: { ground: "0", parts: [{ id: "IN", kind: "voltage", between: ["g", "0"], ac_V: 1 }] },
  channels: [{ channel: "left", input: "IN", output: "g" }],
  why: "a drawing",
});
const series = {
  kind: "listening-series" as const,
  series: "1 or 2",
  model: "Skerry",
  versions: ["1", "2"] as [string, string],
  asked: "difference" as const,
  listeners: ["one", "two"],
  trials: 2,
  lot,
};
const answer = (listener: string, trial: number) => ({
  kind: "listening-answer" as const,
  series: "1 or 2",
  listener,
  trial,
  answer: "first" as const,
});

function room(...entries: readonly object[]): Book {
  const book = Book.opened();
  [version("1"), version("2"), ...entries].forEach((entry, i) => {
    book.write(30 + i, entry as never, { id: `l${i}` });
  });
  return book;
}

function refusal(entry: object, book: Book): string {
  try {
    admit({ at: at(60), by: "owner", ...parsed(entry as never) } as Submitted, foldShop(book.entries), { now: at(70) });
    return "";
  } catch (fault) {
    if (!(fault instanceof BadInput)) throw fault;
    return `${fault.path}: ${fault.message}`;
  }
}

test("a series is planned once, between two versions on record, by listeners who each stand once", () => {
  expect(refusal(series, room())).toBe("");
  expect(refusal(series, room(series))).toMatch(/^series: "1 or 2"; a series is planned once/);
  expect(refusal({ ...series, versions: ["1", "3"] }, room())).toMatch(/^versions\[1\]: "3"; no version of Skerry/);
  expect(refusal({ ...series, versions: ["1", "1"] }, room())).toMatch(/^versions\[1\]/);
  expect(refusal({ ...series, listeners: ["one", "one"] }, room())).toMatch(
    /^listeners\[1\]: "one"; each listener once/,
  );
});

test("levels that surely differ stop the series and say the trim; an undecided match may go on", () => {
  const match = (second_dB: number, doubt_dB = 0.02) => ({
    ...series,
    match: { first_dB: -1, second_dB, doubt_dB, shared_dB: 0, within_dB: 0.1 },
  });
  expect(refusal(match(-0.5), room())).toMatch(/^match: 2 reads 0\.50 dB above 1;.*give 2 -0\.50 dB/);
  expect(refusal(match(-0.9), room())).toBe("");
  expect(refusal(match(-1.01), room())).toBe("");
  const named = { ...match(-1), match: { ...match(-1).match, from: ["nothing", "l0"] } };
  expect(refusal(named, room())).toMatch(/^match\.from\[0\]: "nothing"; the id of a reading/);
  const shared = { ...series, match: { ...match(-1).match, shared_dB: 0.03 } };
  expect(refusal(shared, room())).toMatch(/^match\.shared_dB: 0\.03; 0 to the doubt, 0\.02/);
});

test("levels are taken from a reading or a finding, and from nothing else on record", () => {
  const level = { subject: { unit: "0101" }, quantity: "level_dBV", value: -1, doubt: 0.02 };
  const book = room(
    { kind: "reading", ...level, instrument: "meter" },
    { kind: "finding", ...level, calculation: "bench.tone", version: "1", from: ["l2"] },
  );
  const from = (...ids: readonly string[]) =>
    refusal({ ...series, match: { first_dB: -1, second_dB: -1, doubt_dB: 0.02, from: ids } }, book);
  expect(from("l2", "l3")).toBe("");
  expect(from("l3", "l2")).toBe("");
  expect(from("l2", "l0")).toMatch(/^match\.from\[1\]: "l0"; the id of a reading/);
});

test("answers come in order, once, from those who were planned, while the series is open", () => {
  const book = room(series, answer("one", 1));
  expect(refusal(answer("one", 2), book)).toBe("");
  expect(refusal(answer("one", 1), book)).toMatch(/^trial: 1; one has answered it/);
  expect(refusal({ ...answer("one", 1), supersedes: "l3" }, book)).toBe("");
  expect(refusal(answer("two", 2), book)).toMatch(/^trial: 2; the next of two is 1/);
  expect(refusal(answer("two", 3), book)).toMatch(/^trial: 3; 1 to 2, as series 1 or 2 was planned/);
  expect(refusal(answer("three", 1), book)).toMatch(/^listener: "three"; no listener of series 1 or 2/);
  expect(refusal({ ...answer("one", 1), series: "other" }, book)).toMatch(/^series: "other"/);
});

test("an answer takes the place of one of its own series alone, so that a closed one keeps what was heard", () => {
  const other = { ...answer("one", 1), series: "2 or 1" };
  const book = room(series, answer("one", 1), { ...series, series: "2 or 1" }, other);
  book.write(40, { kind: "listening-close", series: "1 or 2", why: "two of them fell ill" });
  expect(refusal({ ...other, supersedes: "l3" }, book)).toMatch(/^supersedes: "l3"; it answers series 1 or 2/);
  expect(refusal({ ...other, trial: 2, supersedes: "l3" }, book)).toMatch(/^supersedes: "l3"; it answers/);
  expect(refusal({ ...other, supersedes: "l5" }, book)).toBe("");
  expect(refusal({ ...other, listener: "two", supersedes: "l5" }, book)).toBe("");
});

test("a series closes once, and one that lacks answers says why", () => {
  const close = { kind: "listening-close", series: "1 or 2" };
  const begun = room(series, answer("one", 1));
  expect(refusal(close, begun)).toMatch(/^why: .*series 1 or 2 lacks 3 of its 4 answers/);
  expect(refusal({ ...close, why: "two of them fell ill" }, begun)).toBe("");
  expect(refusal({ ...close, why: " one ill " }, begun)).toMatch(/^why: .*in 8 characters or more/);
  expect(refusal({ ...close, why: "both ill" }, begun)).toBe("");
  const whole = room(series, answer("one", 1), answer("one", 2), answer("two", 1), answer("two", 2));
  expect(refusal(close, whole)).toBe("");
  const closed = room(series, answer("one", 1), { ...close, why: "two of them fell ill" });
  expect(refusal({ ...close, why: "two of them fell ill" }, closed)).toMatch(/^series: "1 or 2"; it is closed already/);
  expect(refusal(answer("one", 2), closed)).toMatch(/^series: .*is closed: an answer given now would know its lot/);
});

test("a tester's note is of a version on record, held against another", () => {
  const note = {
    kind: "listener-note",
    model: "Skerry",
    version: "1",
    tester: "tester 1",
    heard: "hiss",
    speaks: "against",
    strength: 3,
    isBlind: false,
  };
  expect(refusal(note, room())).toBe("");
  expect(refusal({ ...note, version: "9" }, room())).toMatch(/^version: "9"; no version of Skerry/);
  expect(refusal({ ...note, against: "1" }, room())).toMatch(/^against\[1\]/);
});
