import { describe, expect, test } from "vitest";
import { claimStates } from "../../claims/index.ts";
import { caseFinding } from "./caseFinding.ts";
import { cutPlan } from "./cutPlan.ts";
import { coatsOfUnit, finishingOf } from "./finishing.ts";
import { hardAfter_h } from "./hardening.ts";
import { runsPlan } from "./runsPlan.ts";
import { type Body, calculate, hours, prairie, Yardbook } from "./testing/yardbook.ts";
import type { CaseView, PieceCardView } from "./views.ts";

/** A card as the shelf would hand it on, its moisture known. */
function cardOf(book: Yardbook, piece: string, mean_pct: number, more: Partial<PieceCardView> = {}): PieceCardView {
  const { species, rough, length_mm, width_mm, thickness_mm, ringAngle_deg, place, since, meantFor } =
    book.shop.timber.state(piece)!;
  return {
    ...{ piece, species, rough, length_mm, width_mm, thickness_mm, ringAngle_deg, place, since },
    ...(meantFor !== undefined && { meantFor }),
    pending: false,
    moisture: {
      ...{ mean_pct, low_pct: mean_pct - 0.5, high_pct: mean_pct + 0.5, surface_pct: mean_pct, core_pct: mean_pct },
      basis: "fitted",
    },
    flaws: [],
    advice: "",
    ...more,
  };
}

test("a failed trial of the logger in whose air a panel stood takes the case's finding back, another logger's does not", () => {
  const book = new Yardbook();
  const salt = { reference: "jar of salt", quantity: "humidity_pct", true: 75.3, limit: 3 };
  for (const instrument of ["logger", "other logger"]) {
    book.write(0, { kind: "instrument", instrument, title: instrument, trial: salt });
    book.write(0, { kind: "trial", instrument, value: 75.3, doubt: 1 });
  }
  for (const [place, instrument] of [
    ["store", "logger"],
    ["attic", "other logger"],
  ] as const) {
    book.write(0, { kind: "timber-place", place, what: "room" });
    const readings = [{ at: hours(3), temperature_C: 18, humidity_pct: 60 }];
    book.write(3, { kind: "air", place, readings, instrument });
  }
  book.blank("A-1", { place: "store" });
  book.offcut("A-1");
  book.write(45, prairie);
  const panel = { panel: "top", piece: "A-1", fixed: "centre" as const, gap_mm: 6, warm: false };
  book.write(50, { kind: "case", case: "C-1", panels: [panel] });
  book.write(51, { kind: "case-given", case: "C-1", unit: "77" });
  const judged = { unit: "77", panels: [{ verdict: "proven" }] } as unknown as CaseView;
  book.write(52, { kind: "finding", ...caseFinding(book.shop, judged)! } as Body);

  const model = book.shop.modelOf("77")!;
  const requires = [{ quantity: "panelsAtRisk", of: "unit" as const, high: 0, counted: true }];
  const asked = { ...model, claims: [{ ...model.claims[0]!, claim: "case-home", requires, restsOn: [] }] };
  const state = (hour: number) => claimStates(asked, book.shop.ledger, "77", hours(hour))[0]!;
  expect(state(53)).toMatchObject({ state: "proven" });
  book.write(60, { kind: "trial", instrument: "other logger", value: 82, doubt: 1 });
  expect(state(61).state).toBe("proven");
  book.write(62, { kind: "trial", instrument: "logger", value: 82, doubt: 1 });
  expect(state(63)).toMatchObject({ state: "void" });
  expect(state(63).because).toContain("logger failed its trial");
});

describe("a coat hardens by the air of its room", () => {
  // source: worked by hand, twice as long for every 10 K below 20 °C, half as long again for an oil at 80 %
  test.each([
    ["oil as the tin says", "oil", 20, 50, 48],
    ["oil in cool air", "oil", 10, 50, 96],
    ["oil in cool, damp air", "oil", 10, 80, 144],
    ["lacquer, which damp does not hold up", "lacquer", 10, 80, 96],
    ["oil in warm air, no sooner than the tin says", "oil", 30, 50, 48],
    ["oil where nothing cures, by the tin alone", "oil", 3, 50, 48],
  ] as const)("%s", async (_, finish, temperature_C, humidity_pct, hard_h) => {
    const book = new Yardbook();
    book.air("shed", 30, temperature_C, humidity_pct);
    const coat = { at: hours(31), finish, hardens_h: 48 };
    expect(await hardAfter_h(book.shop.timber, coat, calculate)).toBeCloseTo(hard_h, 6);
  });

  test("what may be done next, and by when a second coat is hard", async () => {
    const book = new Yardbook();
    book.blank("A-1");
    book.air("shed", 30, 10, 50);
    book.write(31, { kind: "coat", unit: "77", finish: "oil", hardens_h: 96 });
    const ask = (hour: number) => finishingOf(book.shop.timber, coatsOfUnit(book.shop, "77"), hours(hour), calculate);
    // source: worked by hand: at 10 °C all takes twice as long; oil by common practice 24 h to the next coat, 72 to handle
    expect(await ask(40)).toMatchObject({
      nextCoat: hours(31 + 48),
      handle: hours(31 + 144),
      hard: hours(31 + 192),
      heatFrom: hours(31 + 192),
      hardWithNext: hours(31 + 48 + 192),
      cautions: [expect.stringMatching(/^Rags .*catch fire/)],
    });
    expect(await ask(31 + 193)).toBeUndefined();
  });
});

test("runs: what is at its target comes out, what waits goes in as far as the box has room, by the clock of full hours", async () => {
  const book = new Yardbook();
  book.write(0, { kind: "timber-place", place: "warm box", what: "chamber", set_C: 45, holds: 3 });
  for (const piece of ["A-1", "A-2", "A-3", "A-4"]) {
    book.blank(piece);
    book.offcut(piece);
  }
  book.write(100, { kind: "stood", pieces: ["A-1", "A-2"], place: "warm box" });
  const cards = [
    cardOf(book, "A-1", 10, { target_pct: 8 }),
    cardOf(book, "A-2", 8.05, { target_pct: 8 }),
    cardOf(book, "A-3", 12, { target_pct: 8 }),
    cardOf(book, "A-4", 12),
  ];
  const asked: { pieces: { id: string }[]; places: { name: string; capacity: number; freeFrom_h?: number }[] }[] = [];
  // Answers each question by one batch of all its pieces, each out after ten hours and a half.
  const answering = async <T>(_: string, input: unknown) => {
    const { pieces, places } = input as (typeof asked)[number];
    asked.push({ pieces, places });
    const out = pieces.map(({ id }) => ({
      ...{ id, out_h: 10.5, low_h: 8, high_h: 14, ifLeft_pct: 8, isOverDryIfLeft: false },
    }));
    return {
      batches: [{ place: places[0]!.name, start_h: 0, end_h: 10.5, pieces: out }],
      ...{ makespan_h: 10.5, unplaced: [], weigh: [], notes: [] },
    } as T;
  };
  // source: worked by hand: hour 124 is at half past, so the next full hour comes half an hour later
  const view = await runsPlan(book.shop, cards, hours(124), answering);
  expect(view.from).toBe(hours(124.5));
  const box = view.places.find(({ place }) => place === "warm box")!;
  expect(box.ripe).toEqual(["A-2"]);
  expect(box.runs.flatMap(({ groups }) => groups.flatMap(({ pieces }) => pieces))).toMatchObject([
    { piece: "A-1", out: { at: hours(135), from: hours(132.5), to: hours(138.5) } },
  ]);
  expect(view.waiting).toEqual(["A-3"]);
  expect(asked.map(({ pieces }) => pieces.map(({ id }) => id))).toEqual([["A-1"], ["A-3"]]);
  // Three fit, two are in: there is room for one now.
  expect(asked[1]!.places.find(({ name }) => name === "warm box")).toMatchObject({ capacity: 1, freeFrom_h: 0 });
});

test("cuts: finished sizes with their allowances from the board that is whole, the others left aside with the reason", async () => {
  const book = new Yardbook();
  for (const piece of ["A-1", "A-2", "A-3"]) book.blank(piece, { thickness_mm: 24 });
  book.write(10, prairie);
  const size = { species: "white ash", length_mm: 300, width_mm: 200, thickness_mm: 20 };
  book.write(50, {
    kind: "case-panels",
    unit: "77",
    panels: [
      { panel: "top", ...size },
      { panel: "bottom", ...size },
    ],
  });
  const cards = [
    cardOf(book, "A-1", 9),
    cardOf(book, "A-2", 9, { flaws: ["crack of 40 mm"] }),
    cardOf(book, "A-3", 9, { moisture: undefined } as object),
  ];
  const bandOf = async () => ({ driest_pct: 6, wettest_pct: 10, doubt_pct: 0.5 });
  const plan = await cutPlan(book.shop, cards, bandOf, calculate);
  expect(plan.aside).toEqual([
    { piece: "A-2", why: "it is cracked, and nobody wrote down where" },
    { piece: "A-3", why: "its moisture is not known" },
  ]);
  // source: worked by hand: 300 + 20 by 200 + 8 mm, the second one a kerf of 3 on; the middle of 6 and 10 % is 8 %
  const cuts = plan.boards.flatMap((one) => one.cuts);
  expect(cuts.map(({ from_mm, to_mm, across_mm, width_mm }) => [from_mm, to_mm, across_mm, width_mm])).toEqual([
    [0, 320, 0, 208],
    [323, 643, 0, 208],
  ]);
  expect(cuts.map(({ piece, dryBy_pct }) => [piece, dryBy_pct])).toEqual([
    ["A-1.1", 1],
    ["A-1.2", 1],
  ]);
  expect(plan.unplaced).toEqual([]);
  // source: worked by hand: a board of 700 by 300 mm
  expect(plan.sum?.opened_dm2).toBeCloseTo(21, 9);
});
