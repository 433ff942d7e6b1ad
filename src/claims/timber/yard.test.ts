import { describe, expect, test } from "vitest";
import type { z } from "zod";
import { randomStream } from "../../maths/random.ts";
import { body as evidenceBody } from "../evidence.ts";
import { foldShop, Shop } from "../index.ts";
import { at, Book } from "../testing/smallShop.ts";
import { piecesOf } from "./pieces.ts";
import { touchOf } from "./touch.ts";
import type { Yard } from "./yard.ts";

type Body = z.input<typeof evidenceBody>;
const size = { length_mm: 500, width_mm: 120, thickness_mm: 20 };
const smaller = { length_mm: 240, width_mm: 110, thickness_mm: 18 };
const blank = (piece: string, more = {}): Body => ({
  kind: "blank",
  piece,
  species: "white ash",
  ...size,
  ringAngle_deg: 30,
  seller: "a sawmill",
  place: "shed",
  ...more,
});
const sawn = (piece: string, into: readonly string[], more = {}): Body => ({
  kind: "sawn",
  piece,
  into: into.map((one) => ({ piece: one, ...smaller, ringAngle_deg: 60 })),
  ...more,
});
const stood = (pieces: string[], place: string, more = {}): Body => ({ kind: "stood", pieces, place, ...more });
const machined = (piece: string, more = {}): Body => ({ kind: "machined", piece, ...smaller, ...more });
const meant = (pieces: string[], unit: string, more = {}): Body => ({ kind: "meant", pieces, unit, ...more });
const joined = (name: string, pieces: readonly string[], more = {}): Body => ({
  kind: "case",
  case: name,
  panels: pieces.map((piece, i) => ({ panel: `panel ${i}`, piece, fixed: "free" as const })),
  ...more,
});
const given = (name: string, unit: string, more = {}): Body => ({ kind: "case-given", case: name, unit, ...more });
const marks = (piece: string, more = {}): Body => ({ kind: "board-marks", piece, ...more });
const planned = (more: object): Body => ({
  kind: "planned-stages",
  begins: at(50),
  stages: [{ place: "plate", hours: 5 }],
  ...more,
});
const weighed = (piece: string): Body => ({ kind: "weighing", piece, mass_g: 900, instrument: "balance" });

function bookOf(...bodies: readonly Body[]): Book {
  const book = new Book();
  for (const [i, one] of bodies.entries()) book.write(i + 1, one);
  return book;
}
const yardOf = (book: Book): Yard => foldShop(book.entries).timber;
const ids = (entries: readonly { readonly id: string }[]) => entries.map(({ id }) => id);

describe("a piece, as all that was written of it leaves it", () => {
  test("comes in with what its seller says, rough unless he says otherwise", () => {
    const yard = yardOf(bookOf(blank("A"), blank("B", { rough: false, density_kg_m3: 650, pith_mm: 40 })));
    const a = {
      piece: "A",
      species: "white ash",
      ...size,
      ringAngle_deg: 30,
      rough: true,
      place: "shed",
      begun: at(1),
      since: at(1),
    };
    expect(yard.state("A")).toEqual(a);
    expect(yard.state("B")).toEqual({
      ...a,
      piece: "B",
      rough: false,
      density_kg_m3: 650,
      pith_mm: 40,
      begun: at(2),
      since: at(2),
    });
    expect(yard.state("C")).toBeUndefined();
  });

  test("is moved, planed, marked, kept for a unit and glued into a case", () => {
    const book = bookOf(blank("A"), stood(["A", "B"], "plate", { faces: "one" }));
    const state = () => yardOf(book).state("A");
    expect(state()).toMatchObject({ place: "plate", since: at(2), faces: "one", begun: at(1) });
    book.write(3, stood(["A"], "shed"));
    expect(state()).toMatchObject({ place: "shed", since: at(3) });
    expect(state()).not.toHaveProperty("faces");
    book.write(4, machined("A"));
    expect(state()).toMatchObject({ ...smaller, ringAngle_deg: 30, rough: false });
    book.write(5, machined("A", { ...size, ringAngle_deg: 80 }));
    expect(state()).toMatchObject({ ...size, ringAngle_deg: 80 });
    const knot = { what: "knot" as const, along: { from_mm: 1, to_mm: 5 } };
    book.write(6, marks("A", { figure: 2, defects: [knot] }));
    expect(state()).toMatchObject({ figure: 2, defects: [knot] });
    book.write(7, marks("A"));
    expect(state()).toMatchObject({ defects: [] });
    expect(state()).not.toHaveProperty("figure");
    book.write(8, meant(["A"], "0101"));
    expect(state()).toMatchObject({ meantFor: "0101" });
    const before = state();
    book.write(9, weighed("A"));
    expect(state()).toEqual(before);
    book.write(10, joined("K", ["B", "A"]));
    expect(state()).toEqual({ ...before, inCase: { case: "K", panel: "panel 1" } });
    // What was written of B without its ever coming in makes no piece of it.
    expect(yardOf(book).state("B")).toBeUndefined();
  });

  test("is sawn into others, which are of its wood and stand where it stood", () => {
    const book = bookOf(
      blank("A", { density_kg_m3: 640, pith_mm: 9 }),
      meant(["A"], "0101"),
      stood(["A"], "plate"),
      sawn("A", ["A1", "A2"]),
    );
    const yard = yardOf(book);
    expect(yard.state("A")).toMatchObject({ into: ["A1", "A2"], rough: true });
    expect(yard.state("A2")).toEqual({
      piece: "A2",
      ...smaller,
      ringAngle_deg: 60,
      species: "white ash",
      place: "plate",
      density_kg_m3: 640,
      meantFor: "0101",
      rough: false,
      from: "A",
      begun: at(4),
      since: at(4),
    });
    expect(yardOf(bookOf(sawn("A", ["A1"]))).state("A1")).toBeUndefined();
    const plain = yardOf(bookOf(blank("B"), sawn("B", ["B1"]))).state("B1");
    expect(plain).not.toHaveProperty("density_kg_m3");
    expect(plain).not.toHaveProperty("meantFor");
  });

  test("follows what was put right, also in the board that it was sawn from", () => {
    const book = new Book();
    const board = book.write(1, blank("A"));
    book.write(2, sawn("A", ["A1"]));
    book.write(3, sawn("A1", ["A11"]));
    const shop = foldShop(book.entries);
    const write = (hour: number, one: Body) => {
      const id = book.write(hour, one);
      shop.add(book.entries.at(-1)!);
      expect(shop.timber.state("A11")).toEqual(yardOf(book).state("A11"));
      return id;
    };
    expect(shop.timber.state("A11")?.species).toBe("white ash");
    write(1, blank("A", { species: "elm", supersedes: board }));
    expect(shop.timber.state("A11")?.species).toBe("elm");
    const move = write(4, stood(["A11"], "plate"));
    expect(shop.timber.state("A11")?.place).toBe("plate");
    write(4, stood(["B"], "plate", { supersedes: move }));
    expect(shop.timber.state("A11")?.place).toBe("shed");
    // A board that is said to be sawn from what was sawn from it leads nowhere, and does not hang.
    const ring = bookOf(blank("B"), sawn("B", ["C"]), sawn("C", ["B"]), weighed("C"));
    expect(yardOf(ring).state("C")?.from).toBe("B");
  });
});

describe("pieces on record and in the shop", () => {
  test("in the order they came in; those sawn up or in a case stand no more, and stand again once that is put right", () => {
    const book = bookOf(weighed("Z"), blank("B"), blank("A"), blank("C"));
    const shop = foldShop(book.entries);
    const lists = () => [shop.timber.pieces, shop.timber.standing];
    const write = (hour: number, one: Body) => {
      const id = book.write(hour, one);
      shop.add(book.entries.at(-1)!);
      return id;
    };
    expect(lists()).toEqual([
      ["B", "A", "C"],
      ["B", "A", "C"],
    ]);
    const cut = write(6, sawn("B", ["B1", "B2"]));
    expect(lists()).toEqual([
      ["B", "A", "C", "B1", "B2"],
      ["A", "C", "B1", "B2"],
    ]);
    const glued = write(7, joined("K", ["A"]));
    expect(lists()[1]).toEqual(["C", "B1", "B2"]);
    write(7, joined("K", ["C"], { supersedes: glued }));
    expect(lists()[1]).toEqual(["A", "B1", "B2"]);
    write(6, sawn("C", ["C1"], { supersedes: cut }));
    expect(lists()).toEqual([
      ["B", "A", "C", "C1"],
      ["B", "A", "C1"],
    ]);
    write(9, blank("Z"));
    expect(lists()[1]).toEqual(["Z", "B", "A", "C1"]);
  });

  test("are told one by one, again only what was written of, or of what it was sawn into; all where a place is", () => {
    const book = bookOf(blank("A"), blank("B"), sawn("A", ["A1", "A2"]), sawn("A1", ["A11"]));
    const shop = foldShop(book.entries);
    const told: string[] = [];
    const tell = (yard: Yard, piece: string) => {
      told.push(piece);
      return `${piece} ${yard.entriesOf(piece).length}`;
    };
    const ask = () => {
      const all = shop.timber.each(tell);
      expect(all).toEqual(yardOf(book).each((yard, piece) => `${piece} ${yard.entriesOf(piece).length}`));
      return told.splice(0);
    };
    const write = (one: Body) => {
      book.write(50, one);
      shop.add(book.entries.at(-1)!);
    };
    expect(ask()).toEqual(["A", "B", "A1", "A2", "A11"]);
    expect(ask()).toEqual([]);
    write(weighed("B"));
    expect(ask()).toEqual(["B"]);
    write(weighed("A11"));
    expect(ask()).toEqual(["A", "A1", "A11"]);
    write(weighed("A"));
    expect(ask()).toEqual(["A", "A1", "A2", "A11"]);
    write({ kind: "step", unit: "0101", step: "wiring" });
    expect(ask()).toEqual([]);
    write({ kind: "timber-place", place: "shed", what: "room" });
    expect(ask()).toEqual(["A", "B", "A1", "A2", "A11"]);
  });

  test("have their entries in the order things were done, those put right left out", () => {
    const book = new Book();
    const late = book.write(5, weighed("A"));
    const first = book.write(1, blank("A"));
    const slip = book.write(2, stood(["A", "B"], "plate"));
    const right = book.write(3, stood(["B"], "plate", { supersedes: slip }));
    const plan = book.write(4, planned({ pieces: ["A"] }));
    const yard = yardOf(book);
    expect(ids(yard.entriesOf("A"))).toEqual([first, plan, late]);
    expect(ids(yard.entriesOf("B"))).toEqual([right]);
    expect(yard.entriesOf("C")).toEqual([]);
  });
});

describe("cases", () => {
  test("are of their last word, free until they are given, and one unit's at a time", () => {
    const book = new Book();
    const shop = new Shop();
    const write = (hour: number, one: Body) => {
      const id = book.write(hour, one);
      shop.add(book.entries.at(-1)!);
      return id;
    };
    const asked = () => {
      const answers = (yard: Yard) => ({
        cases: yard.cases,
        free: yard.casesFree,
        of: ["0101", "0102"].map((unit) => yard.caseOfUnit(unit)?.joined.body.case),
      });
      expect(answers(shop.timber)).toEqual(answers(yardOf(book)));
      return answers(shop.timber);
    };
    const none = [undefined, undefined];
    expect(asked()).toEqual({ cases: [], free: [], of: none });
    const first = write(1, joined("K", ["A"]));
    write(2, joined("L", ["B"]));
    expect(asked()).toEqual({ cases: ["K", "L"], free: ["K", "L"], of: none });
    const gift = write(3, given("K", "0101"));
    expect(asked()).toEqual({ cases: ["K", "L"], free: ["L"], of: ["K", undefined] });
    expect(shop.timber.givenOf("K")?.id).toBe(gift);
    write(4, given("K", "0102"));
    expect(asked()).toEqual({ cases: ["K", "L"], free: ["L"], of: [undefined, "K"] });
    const second = write(5, given("L", "0102"));
    expect(asked()).toEqual({ cases: ["K", "L"], free: [], of: [undefined, "L"] });
    write(6, given("L", "0101", { supersedes: second }));
    expect(asked()).toEqual({ cases: ["K", "L"], free: [], of: ["L", "K"] });
    const again = write(7, joined("K", ["C"]));
    expect(shop.timber.caseOf("K")?.id).toBe(again);
    expect(shop.timber.caseOfUnit("0102")?.joined.id).toBe(again);
    write(8, joined("M", ["D"], { supersedes: first }));
    write(8, joined("M", ["D"], { supersedes: again }));
    expect(asked()).toEqual({ cases: ["L", "M"], free: ["M"], of: ["L", undefined] });
    expect(shop.timber.caseOf("K")).toBeUndefined();
    // A case that was given by a slip, and another in its stead.
    const slip = write(9, given("M", "0102"));
    write(9, given("L", "0102", { supersedes: slip }));
    expect(asked()).toEqual({ cases: ["L", "M"], free: ["M"], of: [undefined, "L"] });
  });
});

describe("places, air, climates, woods and plans", () => {
  test("are of their last word that was not put right", () => {
    const room = (place: string, more = {}): Body => ({ kind: "timber-place", place, what: "room", ...more });
    const air = (place: string, more = {}): Body => ({
      kind: "air",
      place,
      readings: [{ at: at(1), temperature_C: 18, humidity_pct: 50 }],
      instrument: "meter",
      ...more,
    });
    const months = Array.from({ length: 12 }, (_, i) => ({ month: i + 1, temperature_C: 20, humidity_pct: 50 }));
    const climate = (place: string, basis: string, more = {}): Body => ({
      kind: "climate",
      place,
      months,
      basis,
      ...more,
    });
    const wood = (species: string, density_kg_m3: number, more = {}): Body => ({
      kind: "wood",
      species,
      density_kg_m3,
      ...more,
    });
    const book = bookOf(
      room("shed", { what: "plate" }),
      room("shed", { holds: 4 }),
      room("loft"),
      air("shed"),
      air("shed"),
      air("loft"),
      climate("inland", "a guess"),
      climate("inland", "measured"),
      wood("Rowan", 700),
      wood("rowan", 720),
      wood("pear-tree", 690),
    );
    const shop = foldShop(book.entries);
    const [loft, firstAir, climateOf, woodOf] = ["e3", "e4", "e8", "e10"];
    const { timber } = shop;
    expect([...timber.places]).toEqual([
      ["shed", expect.objectContaining({ what: "room", holds: 4 })],
      ["loft", expect.objectContaining({ what: "room" })],
    ]);
    expect(ids(timber.airOf("shed"))).toEqual(["e4", "e5"]);
    expect(timber.airOf("nowhere")).toEqual([]);
    expect([...timber.climates].map(([place, { body: one }]) => [place, one.basis])).toEqual([["inland", "measured"]]);
    expect(timber.woodOf("ROWAN")?.body.density_kg_m3).toBe(720);
    expect(timber.woodOf("Pear tree")?.body.density_kg_m3).toBe(690);
    expect(timber.woodOf("oak")).toBeUndefined();
    expect(timber.ownWoods).toEqual(["rowan", "pear-tree"]);
    for (const one of [
      room("attic", { supersedes: loft }),
      air("loft", { supersedes: firstAir }),
      climate("coast", "a guess", { supersedes: climateOf }),
      wood("plum", 800, { supersedes: woodOf }),
    ]) {
      book.write(30, one);
      shop.add(book.entries.at(-1)!);
    }
    expect([...timber.places.keys()]).toEqual(["shed", "attic"]);
    expect([ids(timber.airOf("shed")), ids(timber.airOf("loft"))]).toEqual([["e5"], ["e6", "e13"]]);
    expect([...timber.climates].map(([place, { body: one }]) => [place, one.basis])).toEqual([
      ["inland", "a guess"],
      ["coast", "a guess"],
    ]);
    expect(timber.woodOf("rowan")?.body.density_kg_m3).toBe(700);
    expect(timber.ownWoods).toEqual(["Rowan", "pear-tree", "plum"]);
    // Where all that was said of one is put right by what is said of another, nothing is left of it.
    for (const one of [climate("island", "a guess", { supersedes: "e7" }), wood("cherry", 600, { supersedes: "e9" })]) {
      book.write(31, one);
      shop.add(book.entries.at(-1)!);
    }
    expect([...timber.climates.keys()]).toEqual(["coast", "island"]);
    expect(timber.ownWoods).toEqual(["pear-tree", "plum", "cherry"]);
  });

  test("are emptied by an empty one", () => {
    const finish = (unit: string, coats: number, more = {}): Body => ({
      kind: "finish-plan",
      unit,
      begins: at(1),
      who: "woodworker",
      coats: Array.from({ length: coats }, () => ({ finish: "oil" as const, coats: 1 })),
      ...more,
    });
    const wanted = (unit: string, more = {}): Body => ({
      kind: "case-panels",
      unit,
      panels: [{ panel: "lid", species: "elm", ...size }],
      ...more,
    });
    const book = bookOf(
      finish("0101", 1),
      finish("0101", 2),
      finish("0102", 1),
      planned({ unit: "0101" }),
      planned({ pieces: ["A"] }),
      wanted("0101"),
      wanted("0102"),
      wanted("0101"),
    );
    const yard = () => yardOf(book);
    expect(yard().finishPlanOf("0101")?.id).toBe("e2");
    expect(yard().unitsToFinish).toEqual(["0101", "0102"]);
    expect([yard().soakPlanOf("0101")?.id, yard().soakPlanOf("0102")]).toEqual(["e4", undefined]);
    expect([yard().plannedOf("A")?.id, yard().plannedOf("B")]).toEqual(["e5", undefined]);
    expect(ids(yard().wanted)).toEqual(["e8", "e7"]);
    book.write(20, finish("0101", 0));
    book.write(20, planned({ unit: "0101", stages: [] }));
    book.write(20, planned({ pieces: ["A"], stages: [] }));
    book.write(21, weighed("A"));
    expect([yard().finishPlanOf("0101"), yard().soakPlanOf("0101"), yard().plannedOf("A")]).toEqual([
      undefined,
      undefined,
      undefined,
    ]);
    expect(yard().unitsToFinish).toEqual(["0102"]);
    book.write(22, planned({ pieces: ["A"] }));
    expect(yard().plannedOf("A")?.id).toBe("e13");
    book.write(23, weighed("A"));
    expect(yard().plannedOf("A")?.id).toBe("e13");
    book.write(23, wanted("0103", { supersedes: "e7" }));
    expect(ids(yard().wanted)).toEqual(["e8", "e15"]);
  });
});

describe("what somebody watches", () => {
  const months = Array.from({ length: 12 }, (_, i) => ({ month: i + 1, temperature_C: 20, humidity_pct: 50 }));
  const readings = [{ at: at(1), temperature_C: 18, humidity_pct: 50 }];
  const place: Body = { kind: "timber-place", place: "shed", what: "room" };
  const air: Body = { kind: "air", place: "shed", readings, instrument: "meter" };
  const climate: Body = { kind: "climate", place: "inland", months, basis: "a guess" };
  const wood: Body = { kind: "wood", species: "rowan", density_kg_m3: 700 };
  const panels = [{ panel: "lid", species: "elm", ...size }];
  const list: Body = { kind: "case-panels", unit: "0101", panels };
  const coats = [{ finish: "oil" as const, coats: 1 }];
  const plan: Body = { kind: "finish-plan", unit: "0101", begins: at(1), who: "woodworker", coats };
  const board = blank("A");
  const cut = sawn("A", ["A1"]);
  const glued = joined("K", ["A"]);
  const gift = given("K", "0101");

  test.each<[string, (yard: Yard) => unknown, readonly Body[]]>([
    ["pieces", (yard) => yard.pieces, [board, cut]],
    [
      "each piece",
      (yard) => yard.each((_, piece) => piece),
      [place, board, cut, glued, marks("A"), weighed("A"), machined("A"), stood(["A"], "shed"), meant(["A"], "0101")],
    ],
    ["pieces that stand in the shop", (yard) => yard.standing, [board, cut, glued]],
    ["places", (yard) => yard.places, [place]],
    ["a place's air", (yard) => yard.airOf("shed"), [air]],
    ["cases", (yard) => yard.cases, [glued]],
    ["cases that no unit has", (yard) => yard.casesFree, [glued, gift]],
    ["a case", (yard) => yard.caseOf("K"), [glued]],
    ["whose a case is", (yard) => yard.givenOf("K"), [gift]],
    ["a unit's case", (yard) => yard.caseOfUnit("0101"), [gift]],
    ["panels wanted", (yard) => yard.wanted, [list]],
    ["how a case is finished", (yard) => yard.finishPlanOf("0101"), [plan]],
    ["units to finish", (yard) => yard.unitsToFinish, [plan]],
    ["a unit's soak", (yard) => yard.soakPlanOf("0101"), [planned({ unit: "0101" })]],
    ["climates", (yard) => yard.climates, [climate]],
    ["a wood", (yard) => yard.woodOf("rowan"), [wood]],
    ["own woods", (yard) => yard.ownWoods, [wood]],
  ])("grows with all that it is answered from: %s", (_, ask, bodies) => {
    for (const one of bodies) {
      const shop = new Shop();
      const { cabinet } = shop.ledger;
      const opened: { readonly grownAt: number }[] = [];
      cabinet.watch((drawer) => opened.push(drawer));
      ask(shop.timber);
      shop.add(bookOf(one).entries[0]!);
      expect(
        opened.some(({ grownAt }) => grownAt > 0),
        one.kind,
      ).toBe(true);
    }
  });
});

test("a stretch of a board ends after it begins", () => {
  const mark = (from_mm: number, to_mm: number) =>
    evidenceBody.safeParse(marks("A", { defects: [{ what: "knot", along: { from_mm, to_mm } }] }));
  expect(mark(4, 5).success).toBe(true);
  for (const end_mm of [4, 3]) {
    const { error } = mark(4, end_mm);
    expect(error?.issues.map(({ path, message }) => [path.join("."), message])).toEqual([
      ["defects.0.along.to_mm", "ends where it begins, or before"],
    ]);
  }
});

// property: a yard that was asked after each entry tells what one folded anew tells, in whatever order the entries came
test.each(["one", "two", "three"])("asked all along or at the end, it tells the same: %s", (seed) => {
  const chance = randomStream(`yard ${seed}`);
  const some = <T>(things: readonly T[]): T => things[chance.integer(things.length)]!;
  const book = new Book();
  const piece = () => some(["A", "B", "A1", "A2"]);
  const told = (yard: Yard) => ({
    pieces: yard.pieces,
    states: ["A", "B", "A1", "A2"].map((one) => yard.state(one)),
    standing: yard.standing,
    cases: yard.cases,
    free: yard.casesFree,
    each: yard.each((of, one) => ids(of.entriesOf(one))),
    units: ["0101", "0102"].map((unit) => yard.caseOfUnit(unit)?.given.id),
  });
  const shop = new Shop();
  for (let i = 0; i < 60; i++) {
    const more = book.entries.length > 0 && chance.uniform() < 0.2 ? { supersedes: some(book.entries).id } : {};
    const hour = chance.integer(8);
    book.write(
      hour,
      some([
        blank(some(["A", "B"]), more),
        sawn("A", some([["A1"], ["A1", "A2"]]), more),
        stood([piece()], some(["shed", "plate"]), more),
        machined(piece(), more),
        meant([piece()], some(["0101", "0102"]), more),
        joined("K", [piece()], more),
        given("K", some(["0101", "0102"]), more),
        marks(piece(), more),
      ]),
    );
    shop.add(book.entries.at(-1)!);
    expect(told(shop.timber), `after ${i}`).toEqual(told(yardOf(book)));
  }
  const { pieces, each, standing, cases, free, ...rest } = told(yardOf(book));
  const backwards = told(foldShop(book.entries.toReversed()).timber);
  expect(backwards).toMatchObject(rest);
  // In which order pieces came in is the chain's to say.
  expect([backwards.pieces.toSorted(), backwards.standing.toSorted()]).toEqual([
    pieces.toSorted(),
    standing.toSorted(),
  ]);
});

describe("what an entry speaks of", () => {
  const entryOf = (one: Body) => bookOf(one).entries[0]!;

  test.each<[string, Body, string[]]>([
    ["a board", blank("A"), ["A"]],
    ["marks", marks("A"), ["A"]],
    ["a weighing", weighed("A"), ["A"]],
    ["an offcut", { kind: "offcut", piece: "A", cut: at(1), wet_g: 2, ovenDry_g: 1, instrument: "b" }, ["A"]],
    ["planing", machined("A"), ["A"]],
    ["a flaw", { kind: "flaw", piece: "A", flaw: "cup", length_mm: 1, found: "plate" }, ["A"]],
    ["a move", stood(["A", "B"], "plate"), ["A", "B"]],
    ["a coat", { kind: "coat", pieces: ["A", "B"], finish: "oil", hardens_h: 10 }, ["A", "B"]],
    ["what is kept for a unit", meant(["A", "B"], "0101"), ["A", "B"]],
    ["a plan", planned({ pieces: ["A", "B"] }), ["A", "B"]],
    ["sawing", sawn("A", ["A1", "A2"]), ["A", "A1", "A2"]],
    ["a case", joined("K", ["A", "B"]), ["A", "B"]],
    ["a place", { kind: "timber-place", place: "shed", what: "room" }, []],
  ])("%s: its pieces", (_, one, pieces) => {
    expect(piecesOf(entryOf(one))).toEqual(pieces);
  });

  test("work on a unit's case is a touch of what it reaches; on loose pieces it touches no unit", () => {
    const coat: Body = { kind: "coat", unit: "0101", finish: "oil", hardens_h: 10 };
    const entry = entryOf(coat);
    expect(touchOf(entry)).toEqual({
      ...entry,
      body: { kind: "rework", unit: "0101", touched: [{ case: "finish" }], why: "a coat of oil" },
    });
    expect(touchOf(entryOf(machined("A", { unit: "0101" })))?.body).toEqual({
      kind: "rework",
      unit: "0101",
      touched: [{ case: "timber" }, { case: "finish" }, { case: "closure" }],
      why: "A was machined",
    });
    const rework = entryOf({ kind: "rework", unit: "0101", touched: [{ position: "V1" }], why: "noisy" });
    expect(touchOf(rework)).toBe(rework);
    for (const one of [
      machined("A"),
      { kind: "coat", pieces: ["A"], finish: "oil", hardens_h: 10 } as Body,
      weighed("A"),
    ])
      expect(touchOf(entryOf(one))).toBeUndefined();
  });
});
