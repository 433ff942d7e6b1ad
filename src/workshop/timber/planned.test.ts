import { describe, expect, test } from "vitest";
import { BadInput } from "../../maths/badInput.ts";
import { cutPlan } from "./cutPlan.ts";
import { finishPlanOf } from "./finishPlan.ts";
import { handsThere } from "./handsThere.ts";
import { lifeOf } from "./life.ts";
import { type Body, calculate, hours, prairie, start_ms, Yardbook } from "./testing/yardbook.ts";

/** Monday to Friday, 8 to 17 by the wall; the book begins on a Monday at half past nine. */
const shopHours = {
  kind: "shop",
  timeZone: "Europe/Dublin",
  calendars: {
    wood: {
      week: Object.fromEntries(["mon", "tue", "wed", "thu", "fri"].map((day) => [day, ["08:00-12:30", "13:15-17:00"]])),
      closed: ["2026-03-17"],
    },
  },
  people: [{ id: "woodworker", skills: ["wood"], calendar: "wood" }],
  places: [],
  building_Hz: 50,
  currency: "EUR",
} as unknown as Body;

function refusal(act: () => void): string {
  try {
    act();
    return "";
  } catch (fault) {
    if (!(fault instanceof BadInput)) throw fault;
    return `${fault.path}: ${fault.message}`;
  }
}

test("hands are in by their calendar: no break at noon, none at the weekend, none on a day off", () => {
  const book = new Yardbook();
  book.write(0, shopHours);
  const there = handsThere(book.shop, start_ms, "woodworker")!;
  // source: by the calendar. 2026-03-02 is a Monday; the day begun at 9:30 goes on until 17:00, Tuesday from 8:00
  expect(there.slice(0, 2)).toEqual([
    { from_h: expect.any(Number), to_h: 7.5 },
    { from_h: 22.5, to_h: 31.5 },
  ]);
  expect(there[0]!.from_h).toBeLessThanOrEqual(0);
  const isIn = (hour: number) => there.some(({ from_h, to_h }) => from_h <= hour && hour < to_h);
  // Saturday at 10:00, the seventeenth at 10:00, the eighteenth at 10:00.
  expect([120.5, 360.5, 384.5].map(isIn)).toEqual([false, false, true]);
  expect(handsThere(new Yardbook().shop, start_ms)).toBeUndefined();
});

describe("stages that are planned", () => {
  const planned = (book: Yardbook, begin: number, stages: readonly object[]) =>
    book.write(148, { kind: "planned-stages", pieces: ["A-1"], begins: hours(begin), stages } as unknown as Body);
  const dried = () => {
    const book = new Yardbook();
    book.blank("A-1");
    book.offcut("A-1");
    book.write(100, { kind: "stood", pieces: ["A-1"], place: "warm box" });
    book.weigh("A-1", 124, 1099.5);
    book.weigh("A-1", 148, 1087.8);
    return book;
  };

  test("follow those that were, by the clock of the plan, and what it will hold as each ends is told", async () => {
    const book = dried();
    planned(book, 160, [
      { place: "shed", hours: 24 },
      { place: "plate", hours: 36, machinedTo_mm: 18 },
    ]);
    const told = lifeOf(book.shop.timber, "A-1");
    if (!told.ok) return expect.fail(told.wanting);
    const stages = told.life.question.stages as { place: string; hours: number; machinedTo_mm?: number }[];
    // source: worked by hand: it came in at hour 1; from 148, the last that is known, it stays in the box until 160
    expect(stages.map(({ place, hours: long }) => [place, long])).toEqual([
      ["shed", 99],
      ["warm box", 48],
      ["warm box", 12],
      ["shed", 24],
      ["plate", 36],
    ]);
    expect(stages.at(-1)!.machinedTo_mm).toBe(18);
    const { ripens, events } = await book.desk().piece("A-1");
    expect(ripens.map(({ place, to }) => [place, to])).toEqual([
      ["warm box", hours(160)],
      ["shed", hours(184)],
      ["plate", hours(220)],
    ]);
    // A plate at 90 °C dries it on; in the shed it lies level or takes up.
    expect(ripens[2]!.mean_pct).toBeLessThan(ripens[1]!.mean_pct - 0.5);
    expect(ripens.every(({ low_pct, mean_pct, high_pct }) => low_pct < mean_pct && mean_pct < high_pct)).toBe(true);
    expect(events[0]!.words).toBe("planned: shed for 24 h, then plate for 36 h");
  });

  test("what is over is left out, an emptied plan is none, and a place without air is named", () => {
    const book = dried();
    planned(book, 130, [
      { place: "shed", hours: 10 },
      { place: "warm box", hours: 20 },
    ]);
    const ahead = () => {
      const told = lifeOf(book.shop.timber, "A-1");
      return told.ok ? told.life : expect.fail(told.wanting);
    };
    expect(ahead().planned).toEqual([{ place: "warm box", from: hours(148), to: hours(160) }]);
    book.write(149, { kind: "timber-place", place: "attic", what: "room" });
    planned(book, 149, [{ place: "attic", hours: 5 }]);
    expect(ahead().planWanting).toMatch(/attic/);
    planned(book, 149, []);
    expect(ahead().planned).toEqual([]);
    expect(refusal(() => planned(book, 149, [{ place: "moon", hours: 5 }]))).toMatch(/^stages\[0\]\.place/);
  });
});

describe("a finishing plan", () => {
  const coated = () => {
    const book = new Yardbook();
    book.write(0, shopHours);
    book.air("shed", 26, 20, 50);
    book.write(26, {
      kind: "finish-plan",
      unit: "77",
      begins: hours(27),
      who: "woodworker",
      coats: [{ finish: "oil", coats: 3, between_h: 24, hardens_h: 72 }],
    } as unknown as Body);
    return book;
  };

  // source: worked by hand at 20 °C and 50 %, where the tin's own times hold: coats on Tuesday to Thursday at 12:30,
  // hard 72 h after the last, told by the next full hour
  test("tells every coat, on days its hands are in, and when all is hard", async () => {
    const plan = await finishPlanOf(coated().shop, "77", hours(26.5), calculate);
    const coats = plan!.steps.filter(({ kind }) => kind === "coat").map(({ at }) => at);
    expect(coats).toEqual([hours(27), hours(51), hours(75)]);
    expect(plan).toMatchObject({ coatsLeft: 3, hard: hours(75 + 72.5), isAirAssumed: false });
  });

  test("goes on from the coats that are on, and puts none before now", async () => {
    const book = coated();
    // Two are on, the second late on Thursday: the third would come on Friday at 16:00.
    book.write(27, { kind: "coat", unit: "77", finish: "oil", hardens_h: 72 });
    book.write(78.5, { kind: "coat", unit: "77", finish: "oil", hardens_h: 72 });
    const at = async (hour: number) => {
      const plan = await finishPlanOf(book.shop, "77", hours(hour), calculate);
      return plan!.steps.find(({ kind, isDone }) => kind === "coat" && !isDone)!.at;
    };
    expect(await at(80)).toBe(hours(102.5));
    // source: by the calendar: not done on Friday, it waits for Monday, 8:00
    expect(await at(105)).toBe(hours(166.5));
  });

  test("lets no soak begin before the oil is hard", async () => {
    const book = coated();
    const soak = (hour: number) =>
      book.write(28, {
        kind: "planned-stages",
        pieces: [],
        unit: "77",
        begins: hours(hour),
        stages: [{ place: "warm box", hours: 36 }],
      } as unknown as Body);
    soak(100);
    const early = await finishPlanOf(book.shop, "77", hours(29), calculate);
    expect(early!.soak).toMatchObject({
      isAllowed: false,
      earliest: early!.hard,
      why: "no heat before the oil is hard",
    });
    soak(190);
    const late = await finishPlanOf(book.shop, "77", hours(29), calculate);
    expect(late!.soak).toMatchObject({ isAllowed: true, from: hours(190), to: hours(226) });
  });

  test("names someone of the shop", () => {
    const book = coated();
    const by = (who: string) =>
      book.write(29, { kind: "finish-plan", unit: "77", begins: hours(30), who, coats: [] } as unknown as Body);
    expect(refusal(() => by("nobody"))).toMatch(/^who: "nobody".*woodworker/);
    expect(refusal(() => by("woodworker"))).toBe("");
    expect(book.shop.timber.finishPlanOf("77")).toBeUndefined();
  });
});

test("panels are cut round what was seen on the board; a mark beyond the board is refused", async () => {
  const book = new Yardbook();
  book.blank("A-1", { thickness_mm: 24 });
  book.write(10, prairie);
  const mark = (to_mm: number) =>
    book.write(20, {
      kind: "board-marks",
      piece: "A-1",
      defects: [{ what: "knot", along: { from_mm: 100, to_mm }, across: { from_mm: 0, to_mm: 60 } }],
      figure: 1,
    } as unknown as Body);
  expect(refusal(() => mark(900))).toMatch(/^defects\[0\]\.along\.to_mm: 900 mm.*700 mm/);
  mark(140);
  const size = { species: "white ash", length_mm: 300, width_mm: 200, thickness_mm: 20, matched: "faces" };
  const panels = ["left", "right"].map((panel) => ({ panel, ...size }));
  book.write(50, { kind: "case-panels", unit: "77", panels } as unknown as Body);
  const plan = await cutPlan(
    book.shop,
    [
      await book
        .desk()
        .piece("A-1")
        .then(({ card }) => ({ ...card, moisture: moist })),
    ],
    async () => ({ driest_pct: 6, wettest_pct: 10, doubt_pct: 0.5 }),
    calculate,
  );
  // source: worked by hand: a board of 300 mm with a knot in its first 60 has 240 clear, and a panel needs 208
  const cuts = plan.boards.flatMap((one) => one.cuts);
  expect(cuts.map(({ across_mm }) => across_mm >= 60)).toEqual([true, true]);
  expect(plan.boards[0]).toMatchObject({ figure: 1, defects: [{ what: "knot" }] });
});

const moist = {
  ...{ mean_pct: 9, low_pct: 8, high_pct: 10, surface_pct: 9, core_pct: 9 },
  basis: "fitted",
} as const;
