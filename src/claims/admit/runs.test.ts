import { expect, test } from "vitest";
import { BadInput } from "../../maths/badInput.ts";
import { admit, foldShop, type Submitted } from "../index.ts";
import { at, Book, parsed, smallModel } from "../testing/smallShop.ts";

const begun = {
  kind: "begun" as const,
  run: "soak 1",
  units: ["0101"],
  claim: "case-soak",
  place: "shelf",
  slot: 1,
  hours: 12,
};
const ended = { kind: "ended" as const, run: "soak 1", outcome: "good" as const };

function shopWith(...entries: readonly object[]): Book {
  const book = Book.opened(["0101", "0102", "0103"]);
  book.write(1, {
    ...smallModel,
    build: [{ step: "heat run", unattended: true, hours: { fast: 24, usual: 24, slow: 24 } }, ...smallModel.build],
  });
  book.write(1, {
    kind: "shop",
    timeZone: "UTC",
    calendars: { day: { week: { mon: ["08:00-16:00"] } } },
    people: [{ id: "bench", skills: ["audio"], calendar: "day" }],
    places: [
      { id: "shelf", kind: "single", capacity: 2 },
      { id: "rack", kind: "batch", capacity: 4 },
    ],
    building_Hz: 50,
    currency: "EUR",
  });
  entries.forEach((entry, i) => {
    book.write(30 + i, entry as never, { id: `r${i}` });
  });
  return book;
}

const valves = (run: string, names: readonly string[], more: object = {}) => ({
  kind: "begun" as const,
  run,
  valves: [...names],
  place: "rack",
  hours: 24,
  ...more,
});

function refusal(entry: object, book = shopWith(), hour = 60): string {
  try {
    admit({ at: at(hour), by: "bench", ...parsed(entry as never) } as Submitted, foldShop(book.entries), {
      now: at(90),
    });
    return "";
  } catch (fault) {
    if (!(fault instanceof BadInput)) throw fault;
    return `${fault.path}: ${fault.message}`;
  }
}

test("what is set going waits by itself, and says of which unit it does not", () => {
  expect(refusal(begun)).toBe("");
  expect(refusal({ ...begun, claim: undefined, step: "heat run", place: "rack" })).toBe("");
  expect(refusal({ ...begun, claim: "ht" })).toMatch(
    /^claim: "ht" of unit 0101; checks of Skerry that have to wait: case-soak/,
  );
  expect(refusal({ ...begun, claim: undefined, step: "wiring" })).toMatch(
    /^step: "wiring" of unit 0101; .*by themselves: heat run/,
  );
  expect(refusal({ ...begun, claim: undefined })).toMatch(/^step: neither step nor claim; one of them, for unit 0101/);
  expect(refusal({ ...begun, step: "heat run" })).toMatch(/^claim: step and claim; one of them, for unit 0101/);
  expect(refusal({ ...begun, units: ["0999"] })).toMatch(/^units\[0\]: "0999"; no unit of that name/);
  expect(refusal({ ...begun, units: [] })).toMatch(/^units: nothing/);
  expect(refusal({ ...begun, units: [], claim: undefined, valves: ["Z1"] })).toMatch(/^valves\[0\]: "Z1"; no valve/);
  expect(refusal({ ...begun, units: [], claim: undefined, pieces: ["P1"] })).toMatch(/^pieces\[0\]: "P1"; no piece/);
  const board = shopWith(blank("P1"));
  const plate = { ...begun, units: [], claim: undefined };
  expect(refusal({ ...plate, pieces: ["P1"] }, board)).toBe("");
  expect(refusal({ ...plate, pieces: ["P1", "P2"] }, board)).toMatch(/^pieces\[1\]: "P2"; no piece/);
});

test("a place for timber takes as many pieces as find room in it, and anything else besides", () => {
  const chamber = shopWith(
    { kind: "timber-place", place: "chamber", what: "chamber", holds: 2 },
    ...["P1", "P2", "P3"].map(blank),
  );
  const dried = { ...begun, units: [], claim: undefined, place: "chamber", slot: undefined };
  expect(refusal({ ...dried, pieces: ["P1", "P2"] }, chamber)).toBe("");
  expect(refusal({ ...dried, pieces: ["P1", "P2", "P3"] }, chamber)).toMatch(
    /^place: "chamber" for P1 and 2 more; it holds 2, and 0 are in it: none/,
  );
  expect(refusal(valves("warm", ["N1", "N2", "N3"], { place: "chamber" }), chamber)).toBe("");
});

test("a place takes as many as it holds, a slot one, and a thing is in one run at a time", () => {
  const full = shopWith(begun, { ...begun, run: "soak 2", units: ["0102"], slot: 2 });
  expect(refusal({ ...begun, run: "soak 3", units: ["0103"], slot: undefined }, full)).toMatch(
    /^place: "shelf" for 0103; it holds 2, and 2 are in it: 0101, 0102/,
  );
  const one = shopWith(begun);
  expect(refusal({ ...begun, run: "soak 2", units: ["0102"] }, one)).toMatch(
    /^slot: 1 for 0102; 0101 stands in slot 1 of shelf/,
  );
  expect(refusal({ ...begun, run: "soak 2", units: ["0102"], slot: 3 }, one)).toMatch(
    /^slot: 3 for 0102; shelf has slots 1 to 2/,
  );
  expect(refusal({ ...begun, run: "soak 2", slot: 2 }, one)).toMatch(/0101 is in run soak 1 at shelf since/);
  expect(refusal({ ...begun, run: "soak 2", units: ["0102"], place: "cellar" }, one)).toMatch(
    /^place: "cellar"; no place/,
  );
  expect(refusal({ ...begun, units: ["0102"], slot: 2 }, one)).toMatch(/^run: "soak 1"; a run of that name was begun/);
  expect(refusal({ ...begun, slot: 2, supersedes: "r0" }, one)).toBe("");
});

test("what is put right leaves the room it took, and room is asked of its own place", () => {
  const one = shopWith(begun);
  expect(refusal({ ...begun, supersedes: "r0" }, one)).toBe("");
  const full = shopWith(begun, { ...begun, run: "soak 2", units: ["0102"], slot: 2 });
  expect(refusal({ ...begun, hours: 20, supersedes: "r0" }, full)).toBe("");
  const three = ["N1", "N2", "N3"];
  expect(refusal(valves("heat", three))).toBe("");
  expect(refusal(valves("heat", three, { place: "shelf" }))).toMatch(
    /^place: "shelf" for N1 and 2 more; it holds 2, and 0 are in it: none/,
  );
  expect(refusal(valves("heat", ["N1", "N2"], { place: "shelf", slot: 2 }))).toMatch(
    /^slot: 2 for N1 and 1 more; shelf has slots 1 to 2/,
  );
});

test("a timber place holds what is put there, in any slot", () => {
  const chamber = shopWith({ kind: "timber-place", place: "chamber", what: "chamber" });
  expect(refusal(valves("warm", ["N1", "N2", "N3"], { place: "chamber" }), chamber)).toBe("");
  expect(refusal(valves("warm", ["N1"], { place: "chamber", slot: 40 }), chamber)).toBe("");
});

// source: by hand; the rack has slots 1 to 4, and what is named first stands in the slot named
test.each<[held: readonly string[], slot: number | undefined, put: readonly string[], at: number, heldBy: string]>([
  [["N1"], 2, ["N2"], 1, ""],
  [["N1"], 2, ["N2"], 2, "N1 stands in slot 2"],
  [["N1"], 2, ["N2"], 3, ""],
  [["N1"], 3, ["N2", "N3"], 1, ""],
  [["N1"], 3, ["N2", "N3"], 2, "N1 stands in slot 3"],
  [["N1"], 1, ["N2", "N3"], 2, ""],
  [["N1", "N2"], 1, ["N3"], 2, "N2 stands in slot 2"],
  [["N1", "N2"], 1, ["N3"], 3, ""],
  [["N1"], undefined, ["N2"], 1, ""],
  [["N1"], undefined, ["N2", "N3"], 3, ""],
])("with %j from slot %j, %j in slot %d is told: %j", (held, slot, put, wanted, heldBy) => {
  const told = refusal(valves("new", put, { slot: wanted }), shopWith(valves("old", held, { slot })));
  if (heldBy === "") expect(told).toBe("");
  else expect(told).toMatch(new RegExp(`^slot: ${wanted} for .*; ${heldBy} of rack since`));
});

test("an end is of what runs, within the clock, and frees its slot", () => {
  const one = shopWith(begun);
  expect(refusal(ended, one)).toBe("");
  expect(refusal({ ...ended, hours: 30 }, one)).toBe("");
  expect(refusal({ ...ended, hours: 31 }, one)).toMatch(/^hours: 31 for 0101 in run soak 1; at most the 30 h/);
  expect(refusal({ ...ended, things: ["0102"] }, one)).toMatch(/^things\[0\]: "0102"; no thing in run soak 1/);
  expect(refusal({ ...ended, run: "soak 9" }, one)).toMatch(/^run: "soak 9"/);
  expect(refusal({ ...ended, fault: "dry joint" }, one)).toMatch(/^fault: .*goes with outcome failed/);
  expect(refusal({ ...ended, fault: "dry joint", outcome: "failed" }, one)).toBe("");
  expect(refusal(ended, one, 20)).toMatch(/^at: .*was begun at/);
  // Begun at hour 30 and ended within it: a clock read to the tenth of an hour may say so much.
  expect(refusal(ended, one, 30)).toBe("");
  expect(refusal({ ...ended, hours: 0.1 }, one, 30)).toBe("");
  expect(refusal({ ...ended, hours: 0.11 }, one, 30)).toMatch(/^hours: 0.11 .*; at most the 0 h/);
  const over = shopWith(begun, ended);
  expect(refusal(ended, over)).toMatch(/^run: "soak 1"; everything in it has ended/);
  expect(refusal({ ...ended, things: ["0101"] }, over)).toMatch(
    /^things\[0\]: "0101"; it ended good at 2026-03-02T07:00/,
  );
  expect(refusal({ ...begun, run: "soak 2" }, over)).toBe("");
});

test("a thing ends once, and otherwise only in place of the entry that told its end", () => {
  const book = shopWith(
    valves("heat", ["N1", "N2", "N3"]),
    { kind: "ended", run: "heat", things: ["N1"], outcome: "good" },
    { kind: "ended", run: "heat", things: ["N2"], outcome: "failed" },
    valves("other", ["T1"]),
    { kind: "ended", run: "other", outcome: "good" },
  );
  const end = (more: object) => refusal({ kind: "ended", run: "heat", outcome: "failed", ...more }, book);
  expect(end({})).toBe("");
  expect(end({ things: ["N3"] })).toBe("");
  expect(end({ things: ["N3", "N1"] })).toMatch(/^things\[1\]: "N1"; it ended good at .*supersede that entry/);
  expect(end({ things: ["N1"], supersedes: "r1" })).toBe("");
  expect(end({ things: ["N1"], supersedes: "r2" })).toMatch(/^things\[0\]: "N1"; it ended good at/);
  expect(end({ things: ["N1"], supersedes: "r4" })).toMatch(/^things\[0\]: "N1"; it ended good at/);
  // N2 ended at hour 32: the end of the whole run, told as of before that, would tell it anew.
  const whole = { kind: "ended", run: "heat", outcome: "good" };
  expect(refusal(whole, book, 31.5)).toMatch(/^things: nothing; N2 ended failed at 2026-03-02T08:00.*, after this/);
  expect(refusal({ ...whole, things: ["N3"] }, book, 31.5)).toBe("");
  expect(refusal({ ...whole, supersedes: "r2" }, book, 31.5)).toBe("");
  expect(refusal(whole, book, 32)).toBe("");
  // What ended all that ran is put right as it was written, without a list.
  expect(end({ run: "other", supersedes: "r4" })).toBe("");
  expect(end({ run: "other", supersedes: "r1" })).toMatch(/^run: "other"; everything in it has ended/);
});

test("what ended with its step is told in words of its own later", () => {
  const book = shopWith(
    { ...begun, claim: undefined, step: "heat run", units: ["0101", "0102"], place: "rack" },
    { kind: "step", unit: "0101", step: "heat run" },
  );
  expect(refusal({ ...ended, things: ["0101"], outcome: "failed" }, book)).toBe("");
});

function blank(piece: string): object {
  return {
    kind: "blank",
    piece,
    species: "white ash",
    length_mm: 900,
    width_mm: 120,
    thickness_mm: 22,
    ringAngle_deg: 60,
    seller: "a sawmill",
    place: "chamber",
  };
}
