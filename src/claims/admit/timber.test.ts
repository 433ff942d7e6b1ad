import { describe, expect, test } from "vitest";
import { BadInput } from "../../maths/badInput.ts";
import type { EvidenceBody } from "../evidence.ts";
import { admit, foldShop, type Submitted } from "../index.ts";
import { at, Book } from "../testing/smallShop.ts";

const size = { length_mm: 500, width_mm: 120, thickness_mm: 20 };
const blank = (piece: string, more: object = {}) => ({
  kind: "blank" as const,
  piece,
  species: "white ash",
  ...size,
  ringAngle_deg: 30,
  seller: "a sawmill",
  place: "shed",
  ...more,
});

/** Two boards came in at hour 10, a third is sawn into two at hour 20, and a unit is ordered that is not opened yet. */
function yard(): Book {
  const book = Book.opened(["0101"]);
  for (const place of ["shed", "plate"]) book.write(1, { kind: "timber-place", place, what: "room" } as EvidenceBody);
  for (const piece of ["A-1", "A-2", "A-3"]) book.write(10, blank(piece) as EvidenceBody);
  const into = ["A-3a", "A-3b"].map((piece) => ({ piece, ...size, length_mm: 240, ringAngle_deg: 30 }));
  book.write(20, { kind: "sawn", piece: "A-3", into });
  book.write(2, {
    kind: "order",
    order: "O2",
    customer: "c2",
    model: "Skerry",
    revision: "1",
    units: ["0102"],
    destination: { place: "inland", nominal_V: 120, frequency_Hz: 60 },
  });
  return book;
}

/** A case of A-1, given to unit 0101. */
function housed(book: Book): void {
  const panels = [{ panel: "lid", piece: "A-1", fixed: "centre" as const, gap_mm: 1, warm: false }];
  book.write(25, { kind: "case", case: "K1", panels });
  book.write(26, { kind: "case-given", case: "K1", unit: "0101" });
}

/** What is said to an entry at hour 40, or nothing where it is let in. */
function said(entry: object, before: (book: Book) => void = () => {}): string {
  const book = yard();
  before(book);
  try {
    admit({ at: at(40), by: "woodworker", ...entry } as Submitted, foldShop(book.entries), { now: at(100) });
    return "";
  } catch (fault) {
    if (!(fault instanceof BadInput)) throw fault;
    return fault.message;
  }
}

const noMore = () => {};
const belowDry = /^716 g; the piece's own oven-dry mass, about 720.0 g, or more/;

type Case = readonly [what: string, entry: object, said: RegExp | "", before?: (book: Book) => void];
const weighed = (mass_g: number, more: object = {}) => ({
  kind: "weighing",
  piece: "A-1",
  mass_g,
  instrument: "meter",
  ...more,
});
const air = (hour: number, more: object = {}) => ({
  kind: "air",
  place: "shed",
  readings: [{ at: at(hour), temperature_C: 18, humidity_pct: 55 }],
  instrument: "meter",
  ...more,
});
const offcut = (more: object = {}) => ({
  kind: "offcut",
  piece: "A-1",
  cut: at(30),
  wet_g: 50,
  ovenDry_g: 45,
  instrument: "meter",
  ...more,
});
const rowan = (more: object = {}) => ({ kind: "wood" as const, species: "rowan", density_kg_m3: 700, ...more });
const panel = (more: object = {}) => ({ panel: "lid", species: "white ash", ...size, ...more });
const joined = (...panels: object[]) => ({
  kind: "case",
  case: "K2",
  panels: panels.map((one) => ({ panel: "lid", piece: "A-2", fixed: "free", gap_mm: 1, ...one })),
});

const everything: readonly Case[] = [
  ["a board", blank("A-4"), ""],
  ["a board's number again", blank("A-1"), /^"A-1"; a piece comes in once; give it another number$/],
  ["a number that a sawn board's part has", blank("A-3a"), /a piece comes in once/],
  ["a place nobody wrote down", blank("A-4", { place: "loft" }), /^"loft"; no place for timber/],
  ["a wood nobody knows", blank("A-4", { species: "rowan" }), /^"rowan"; a species of the catalogue.*density_kg_m3/],
  ["the same with its density", blank("A-4", { species: "rowan", density_kg_m3: 700 }), ""],
  ["a wood of the shop's own", blank("A-4", { species: "rowan" }), "", (book) => book.write(3, rowan())],
  // source: by hand, 0.5 · 0.12 · 0.02 m³ = 1.2 dm³, at 40 to 1600 kg/m³ 48 to 1920 g
  ["a weighing", weighed(780), ""],
  ["the lightest that wood may be", weighed(48), ""],
  ["grams for kilograms", weighed(47), /^47 g; for wood of its size 48 to 1920 g; look at the decimal point/],
  ["the heaviest", weighed(1920), ""],
  ["heavier than soaked wood", weighed(1921), /for wood of its size 48 to 1920 g/],
  ["an instrument nobody wrote down", weighed(780, { instrument: "scale" }), /^"scale"; no instrument/],
  [
    "a board nobody received",
    weighed(780, { piece: "A-9" }),
    /^"A-9"; no piece .* such as A-1, A-2, A-3, A-3a, or receive it$/,
  ],
  ["a weighing before it came in", weighed(780, { at: at(9) }), /A-1 came in at .*; check the date/],
  ["a weighing as it came in", weighed(780, { at: at(10) }), ""],
  ["a weighing of a board when it was whole", weighed(780, { piece: "A-3", at: at(20) }), ""],
  ["and since it was sawn", weighed(780, { piece: "A-3" }), /^"A-3"; it was sawn into A-3a, A-3b; name one of those/],
  [
    "a weighing of a part when it was whole",
    weighed(370, { piece: "A-3a", at: at(25) }),
    "",
    (book) => book.write(30, sawn("A-3a", "A-4") as EvidenceBody),
  ],
  [
    "a weighing of a board sawn into many",
    weighed(780, { piece: "A-2" }),
    /; it was sawn into B-1, B-2, B-3, B-4, B-5, B-6; name one/,
    (book) => book.write(30, sawn("A-2", "B-1", "B-2", "B-3", "B-4", "B-5", "B-6", "B-7") as EvidenceBody),
  ],
  ["a part by its own size", weighed(370, { piece: "A-3a" }), ""],
  // source: by hand, 0.24 · 0.12 · 0.02 m³ = 0.576 dm³, at most 922 g
  ["a part as heavy as the whole", weighed(1000, { piece: "A-3a" }), /23 to 922 g/],
  // source: by hand, 0.12 · 0.12 · 0.02 m³ = 0.288 dm³, at most 461 g
  ["the smaller of two parts as heavy as the larger", weighed(500, { piece: "A-2b" }), /12 to 461 g/, unlike],
  // source: by hand, planed to 0.5 · 0.12 · 0.01 m³ = 0.6 dm³, at least 24 g, and 1920 g as it was before
  ["a planed board by its size now", weighed(24), "", thinned],
  ["lighter than that", weighed(23), /for wood of its size 24 to 1920 g/, thinned],
  ["a planed board by its size before", weighed(1920), "", thinned],
  ["heavier than that", weighed(1921), /for wood of its size 24 to 1920 g/, thinned],
  // source: by hand, weighed 800 g when 50 g of it held 45 g of dry wood: 720 g dry, 0.5 % less lets 716.4 g in
  ["a weighing above its dry mass", weighed(716.4), "", (book) => dried(book)],
  ["one below it", weighed(716), belowDry, (book) => dried(book)],
  ["one below it before its offcut was dry", weighed(700, { at: at(34.9) }), "", (book) => dried(book)],
  ["one below it as the offcut came out of the oven", weighed(716, { at: at(35) }), belowDry, (book) => dried(book)],
  ["one below it, weighed again since", weighed(716), belowDry, (book) => dried(book, ofMass(36, 780))],
  ["one below it, planed as the offcut was cut", weighed(716), belowDry, (book) => dried(book, planed(30))],
  ["the same once it was planed", weighed(700), "", (book) => dried(book, planed(36))],
  [
    "one below it, by the weighing nearest to the cut",
    weighed(716),
    belowDry,
    (book) => {
      ofMass(12, 900)(book);
      dried(book, ofMass(36, 790), 33);
    },
  ],
  ["one above it, a crack found nearer to the cut", weighed(717), "", (book) => dried(book, cracked(33), 33)],
  [
    "one below it, weighed a day before the cut",
    weighed(716, { at: at(60) }),
    belowDry,
    (book) => dried(book, noMore, 54),
  ],
  ["one below it, weighed longer before", weighed(700, { at: at(60) }), "", (book) => dried(book, noMore, 54.1)],
  [
    "the first weighing of a board with an offcut",
    weighed(100),
    "",
    (book) => book.write(35, offcut() as EvidenceBody),
  ],
  ["an offcut", offcut(), ""],
  ["cut as it was dry", offcut({ cut: at(40) }), /a moment before .*, when it was dry; check both moments/],
  ["cut after it was dry", offcut({ cut: at(41) }), /a moment before .*, when it was dry; check both moments/],
  ["heavier dry than wet", offcut({ ovenDry_g: 50.1 }), /^50.1 g; its wet mass, 50 g, or less/],
  ["as heavy dry as wet", offcut({ ovenDry_g: 50 }), ""],
  ["cut before the board came in", offcut({ cut: at(9) }), /A-1 came in at/],
  ["an offcut on a scale nobody knows", offcut({ instrument: "scale" }), /no instrument/],
  ["a log of the air", air(40), ""],
  ["one that runs ahead", air(40.1), /a moment not after .*, when the log was written down; check the logger's clock/],
  ["air of a place nobody knows", air(30, { place: "loft" }), /no place for timber/],
  ["air by an instrument nobody knows", air(30, { instrument: "scale" }), /no instrument/],
  ["boards on the plate", { kind: "stood", pieces: ["A-1", "A-2"], place: "plate" }, ""],
  ["one of them twice", { kind: "stood", pieces: ["A-1", "A-1"], place: "plate" }, /^"A-1"; each piece once/],
  ["on no place", { kind: "stood", pieces: ["A-1"], place: "loft" }, /no place for timber/],
  ["a board that is not there", { kind: "stood", pieces: ["A-1", "A-9"], place: "plate" }, /^"A-9"; no piece/],
  ["a board planed", { kind: "machined", piece: "A-1", ...size, thickness_mm: 18 }, ""],
  ["a board planed that is not there", { kind: "machined", piece: "A-9", ...size }, /no piece/],
  [
    "a panel planed, its unit unnamed",
    { kind: "machined", piece: "A-1", ...size },
    /A-1 is in the case of unit 0101/,
    housed,
  ],
  ["with its unit named", { kind: "machined", piece: "A-1", ...size, unit: "0101" }, "", housed],
  ["a coat on a board", coat({ pieces: ["A-1"] }), ""],
  ["a coat on a unit's case", coat({ unit: "0101" }), ""],
  ["a coat on nothing", coat({}), /^none; pieces, or the unit whose case it is; say what the coat is on/],
  ["a coat on no such unit", coat({ unit: "0999" }), /^"0999"; no unit/],
  ["a coat on no such board", coat({ pieces: ["A-9"] }), /no piece/],
  ["a coat on a panel of another unit", coat({ pieces: ["A-1"] }), /name unit 0101: this voids proofs/, housed],
  ["a flaw", { kind: "flaw", piece: "A-1", flaw: "crack", length_mm: 40, found: "plate" }, ""],
  ["a flaw of no board", { kind: "flaw", piece: "A-9", flaw: "crack", length_mm: 40, found: "plate" }, /no piece/],
  ["a board sawn", sawn("A-1", "A-5", "A-6"), ""],
  ["a board sawn before", sawn("A-3", "A-5"), /^"A-3"; it was sawn into A-3a, A-3b/],
  ["the same told as of before that", { ...sawn("A-3", "A-5"), at: at(15) }, /^"A-3"; it was sawn into A-3a, A-3b/],
  ["into two of one number", sawn("A-1", "A-5", "A-5"), /^"A-5"; each piece once/],
  ["into a number that is taken", sawn("A-1", "A-5", "A-2"), /^"A-2"; a number no other piece has; give it another/],
  ["a board that is not there", sawn("A-9", "A-5"), /no piece/],
  ["boards kept for a unit that is ordered", { kind: "meant", pieces: ["A-1"], unit: "0102" }, ""],
  ["for one that nobody ordered", { kind: "meant", pieces: ["A-1"], unit: "0999" }, /^"0999"; no unit/],
  ["boards kept that are not there", { kind: "meant", pieces: ["A-9"], unit: "0102" }, /no piece/],
  ["panels wanted", wanted(panel()), ""],
  ["a panel twice", wanted(panel(), panel()), /^"lid"; each panel once/],
  ["for a unit that nobody ordered", { ...wanted(panel()), unit: "0999" }, /no unit/],
  ["of a wood nobody knows", wanted(panel({ species: "rowan" })), /"rowan"/],
  [
    "of a wood whose movement nobody knows",
    wanted(panel({ species: "rowan" })),
    /a wood whose movement is known/,
    (book) => book.write(3, rowan()),
  ],
  [
    "of one measured here",
    wanted(panel({ species: "rowan" })),
    "",
    (book) => book.write(3, rowan({ tangential_pct_per_pct: 0.28 })),
  ],
  ["a case", joined({}), ""],
  ["a panel's name twice", joined({}, { piece: "A-1" }), /^"lid"; each panel once/],
  ["a board in two panels", joined({}, { panel: "back" }), /^"A-2"; each piece once/],
  ["a panel of another case", joined({ piece: "A-1" }), /^"A-1"; it is a panel of case K1; name another piece/, housed],
  ["a board sawn before", joined({ piece: "A-3" }), /it was sawn into/],
  ["a moisture without its doubt", joined({ moisture_pct: 8 }), /a moisture with its doubt, or neither/],
  ["a doubt without its moisture", joined({ doubt_pct: 1 }), /a moisture with its doubt, or neither/],
  ["both", joined({ moisture_pct: 8, doubt_pct: 1 }), ""],
  ["marks", marks({ along: { from_mm: 0, to_mm: 500.5 } }), ""],
  [
    "a mark beyond the end",
    marks({ along: { from_mm: 0, to_mm: 500.6 } }),
    /^500.6 mm; at most 500 mm, the board's own; measure the knot again from the same end/,
  ],
  [
    "a mark beyond the edge",
    marks({ along: { from_mm: 0, to_mm: 9 }, across: { from_mm: 0, to_mm: 121 } }),
    /^121 mm; at most 120 mm.*from the same edge/,
  ],
  ["a mark at the edge", marks({ along: { from_mm: 0, to_mm: 9 }, across: { from_mm: 0, to_mm: 120.5 } }), ""],
  ["marks on no board", { ...marks(), piece: "A-9" }, /no piece/],
  ["a wood of one's own", rowan(), ""],
  ["a second wood of one's own", rowan({ species: "plum" }), "", (book) => book.write(3, rowan())],
  ["a wood that the catalogue has", rowan({ species: "white ash" }), /a wood that the catalogue lacks/],
  ["stages for boards", stages({ pieces: ["A-1"] }), ""],
  ["stages for a unit's case", stages({ unit: "0102" }), ""],
  ["stages for nothing", stages({}), /^none; pieces, or the unit whose case it is; say what the plan is for/],
  ["stages for no such unit", stages({ unit: "0999" }), /no unit/],
  ["stages for no such board", stages({ pieces: ["A-9"] }), /no piece/],
  ["stages at no place", stages({ pieces: ["A-1"] }, "loft"), /^"loft"; no place for timber/],
  ["a finish planned", finish("anybody"), ""],
  ["by one of the shop", finish("woodworker"), "", staffed],
  ["by a stranger", finish("anybody"), /^"anybody"; no person of the shop/, staffed],
  ["for a unit that nobody ordered", { ...finish("anybody"), unit: "0999" }, /no unit/],
  ["a case given to a unit", { kind: "case-given", case: "K1", unit: "0102" }, "", housed],
  ["a case nobody joined", { kind: "case-given", case: "K9", unit: "0102" }, /^"K9"; no case of that name/, housed],
  ["a case given to no unit", { kind: "case-given", case: "K1", unit: "0999" }, /no unit/, housed],
  ["a climate", climate(12), ""],
  ["one with a month twice", climate(11), /^"11"; each month once/],
];

function dried(book: Book, then: (book: Book) => void = noMore, cutHour = 30): void {
  ofMass(30, 800)(book);
  book.write(Math.max(35, cutHour), { ...offcut(), cut: at(cutHour) } as EvidenceBody);
  then(book);
}
function ofMass(hour: number, mass_g: number): (book: Book) => void {
  return (book) => book.write(hour, weighed(mass_g) as EvidenceBody);
}
function planed(hour: number, thickness_mm = 18): (book: Book) => void {
  return (book) => book.write(hour, { kind: "machined", piece: "A-1", ...size, thickness_mm });
}
function thinned(book: Book): void {
  planed(36, 10)(book);
}
function cracked(hour: number): (book: Book) => void {
  return (book) => book.write(hour, { kind: "flaw", piece: "A-1", flaw: "crack", length_mm: 40, found: "plate" });
}
/** A-2 is sawn into two of unlike lengths. */
function unlike(book: Book): void {
  const lengths_mm = { "A-2a": 240, "A-2b": 120 };
  const into = Object.entries(lengths_mm).map(([piece, length_mm]) => ({
    piece,
    ...size,
    length_mm,
    ringAngle_deg: 30,
  }));
  book.write(30, { kind: "sawn", piece: "A-2", into });
}
function coat(on: object): object {
  return { kind: "coat", pieces: [], ...on, finish: "oil", hardens_h: 24 };
}
function sawn(piece: string, ...into: string[]): object {
  return { kind: "sawn", piece, into: into.map((one) => ({ piece: one, ...size, ringAngle_deg: 30 })) };
}
function wanted(...panels: object[]): object {
  return { kind: "case-panels", unit: "0102", panels };
}
function marks(...places: object[]): object {
  return { kind: "board-marks", piece: "A-1", defects: places.map((place) => ({ what: "knot", ...place })) };
}
function stages(of: object, place = "plate"): object {
  return { kind: "planned-stages", pieces: [], ...of, begins: at(50), stages: [{ place, hours: 24 }] };
}
function finish(who: string): object {
  return { kind: "finish-plan", unit: "0102", begins: at(50), who, coats: [] };
}
function staffed(book: Book): void {
  book.write(3, {
    kind: "shop",
    timeZone: "Europe/London",
    calendars: { usual: { week: { mon: ["08:00-16:00"] } } },
    people: [{ id: "woodworker", skills: [], calendar: "usual" }],
    places: [],
    building_Hz: 50,
    cleanSupply_Hz: [],
    currency: "EUR",
  });
}
/** Twelve months, the last of which is called so. */
function climate(last: number): object {
  const months = Array.from({ length: 12 }, (_, i) => ({ month: i + 1, temperature_C: 18, humidity_pct: 50 }));
  return {
    kind: "climate",
    place: "inland",
    months: months.with(11, { ...months[11]!, month: last }),
    basis: "a guess",
  };
}

describe("of timber is written down", () => {
  const cases = everything.map(([what, entry, expected, before]) => ({ what, entry, expected, before }));
  test.each(cases)("$what", ({ entry, expected, before }) => {
    const answer = said(entry, before);
    if (expected === "") expect(answer).toBe("");
    else expect(answer).toMatch(expected);
  });

  test("an offcut that was cut before its board came in is laid to the moment it was cut", () => {
    const early = { at: at(40), by: "woodworker", ...offcut({ cut: at(9) }) } as Submitted;
    expect(() => admit(early, foldShop(yard().entries), { now: at(100) })).toThrow(
      expect.objectContaining({ path: "cut", message: expect.stringMatching(/A-1 came in at/) }),
    );
  });

  test("what puts right is not judged by what it puts right", () => {
    const book = yard();
    housed(book);
    const ids = book.entries.map(({ id, body }) => [body.kind, id] as const);
    const idOf = (kind: string) => ids.findLast(([of]) => of === kind)![1];
    expect(said({ ...blank("A-3"), supersedes: idOf("blank") })).toBe("");
    expect(said({ ...blank("A-9"), supersedes: idOf("blank") })).toBe("");
    const first = ids.find(([of]) => of === "blank")![1];
    expect(said({ ...blank("A-1"), supersedes: first }, housed)).toBe("");
    expect(said({ ...blank("A-2"), supersedes: idOf("blank") })).toMatch(/^"A-2"; a piece comes in once/);
    const right = (entry: object, hour: number) => said({ ...entry, at: at(hour), supersedes: idOf("sawn") });
    expect(right(sawn("A-3", "A-3a", "A-4"), 20)).toBe("");
    expect(right(sawn("A-3", "A-3a"), 21)).toBe("");
    expect(right(sawn("A-3", "A-3a", "A-2"), 20)).toMatch(/^"A-2"; a number no other piece has/);
    expect(right(sawn("A-3", "A-3"), 20)).toMatch(/^"A-3"; a number no other piece has/);
    const named = (name: string) => said({ ...joined({ piece: "A-1" }), case: name, supersedes: idOf("case") }, housed);
    expect(named("K1")).toBe("");
    expect(named("K2")).toMatch(/it is a panel of case K1/);
    let heavy = "";
    const slip = (of: Book) => {
      heavy = of.write(36, weighed(800) as EvidenceBody);
      of.write(35, offcut() as EvidenceBody);
    };
    slip(yard());
    expect(said(weighed(700, { at: at(36) }), slip)).toMatch(/oven-dry mass, about 720.0 g/);
    expect(said(weighed(700, { at: at(36), supersedes: heavy }), slip)).toBe("");
  });

  test("a wood that is put right keeps its name", () => {
    let wood = "";
    const known = (of: Book) => {
      wood = of.write(3, rowan());
    };
    known(yard());
    expect(said(rowan({ density_kg_m3: 710, supersedes: wood }), known)).toBe("");
    expect(said(rowan({ species: "service tree", supersedes: wood }), known)).toMatch(
      /^"service tree"; it puts right rowan/,
    );
  });
});
