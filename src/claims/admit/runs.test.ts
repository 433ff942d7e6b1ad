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
  expect(refusal({ ...begun, units: ["0999"] })).toMatch(/^units\[0\]: "0999"; no unit of that name/);
  expect(refusal({ ...begun, units: [] })).toMatch(/^units: nothing/);
  expect(refusal({ ...begun, units: [], claim: undefined, valves: ["Z1"] })).toMatch(/^valves\[0\]: "Z1"; no valve/);
  expect(refusal({ ...begun, units: [], claim: undefined, pieces: ["P1"] })).toMatch(/^pieces\[0\]: "P1"; no piece/);
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

test("an end is of what runs, within the clock, and frees its slot", () => {
  const one = shopWith(begun);
  expect(refusal(ended, one)).toBe("");
  expect(refusal({ ...ended, hours: 30 }, one)).toBe("");
  expect(refusal({ ...ended, hours: 31 }, one)).toMatch(/^hours: 31 for 0101 in run soak 1; at most the 30 h/);
  expect(refusal({ ...ended, things: ["0102"] }, one)).toMatch(/^things\[0\]: "0102"; no thing in run soak 1/);
  expect(refusal({ ...ended, run: "soak 9" }, one)).toMatch(/^run: "soak 9"/);
  expect(refusal({ ...ended, fault: "dry joint" }, one)).toMatch(/^fault: .*goes with outcome failed/);
  expect(refusal(ended, one, 20)).toMatch(/^at: .*was begun at/);
  const over = shopWith(begun, ended);
  expect(refusal(ended, over)).toMatch(/^run: "soak 1"; everything in it has ended|^things/);
  expect(refusal({ ...begun, run: "soak 2" }, over)).toBe("");
});
