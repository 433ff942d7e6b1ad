import { describe, expect, test } from "vitest";
import { randomStream } from "../maths/random.ts";
import { keeping } from "./kept.ts";
import { type FoundFault, lookBack } from "./lookBack.ts";

const day_ms = 86_400_000;
/** Promises that were late by so many days. */
const late = (days: readonly number[], group?: string) =>
  days.map((by, i) => ({
    order: `order ${i}`,
    share_pct: 80,
    date_ms: 0,
    done_ms: by * day_ms,
    ...(group !== undefined && { group }),
  }));
const some = (kept: number, missed: number) => late([...Array(kept).fill(-1), ...Array(missed).fill(3)]);

describe("promises kept", () => {
  // source: scipy 1.10 beta.ppf(0.025, 8, 3) = 0.444, beta.ppf(0.975, 9, 2) = 0.975: Clopper and Pearson for 8 of 10
  test("eight of ten decide nothing", () => {
    const [found] = keeping(some(8, 2));
    expect(found).toMatchObject({ made: 10, kept: 8, kept_pct: 80, state: "undecided" });
    expect(found!.low_pct).toBeCloseTo(44.39, 1);
    expect(found!.high_pct).toBeCloseTo(97.48, 1);
  });

  test("many decide: as often as said, too early, too late", () => {
    expect(keeping(some(160, 40))[0]?.state).toBe("holds");
    expect(keeping(some(120, 80))[0]?.state).toBe("too early");
    expect(keeping(some(190, 10))[0]?.state).toBe("too late");
    expect(keeping(some(10, 0))[0]).toMatchObject({ high_pct: 100, state: "undecided" });
  });

  // source: by hand: the fourth of five lateness values in rising order
  test("says by how many days the dates should have been later", () => {
    expect(keeping(late([-4, 2, -1, 5, -2]))[0]).toMatchObject({ kept: 3, shift_days: 2 });
  });

  // source: table of distribution-free confidence limits for the median at 95 %: 2nd and 9th of 10, none of 5 (from memory;
  // by hand, P(0 or 1 of 10) = 11/1024 = 0.011, P(0, 1 or 2) = 0.055, P(0 of 5) = 0.031)
  test("that number of days ends at orders there were, or nowhere", () => {
    const half = (days: readonly number[]) => keeping(late(days).map((one) => ({ ...one, share_pct: 50 })))[0]!;
    expect(half([1, 2, 3, 4, 5, 6, 7, 8, 9, 10])).toMatchObject({ shiftLow_days: 2, shiftHigh_days: 9 });
    const few = half([1, 2, 3, 4, 5]);
    expect(few).not.toHaveProperty("shiftLow_days");
    expect(few).not.toHaveProperty("shiftHigh_days");
  });

  // source: by hand, 0.95^n ≤ 0.025 from n = 72 on
  test("dates of 95 % need 72 promises before any order is late enough", () => {
    const all = (n: number) =>
      keeping(late(Array.from({ length: n }, (_, i) => i)).map((one) => ({ ...one, share_pct: 95 })))[0]!;
    expect(all(71)).not.toHaveProperty("shiftHigh_days");
    expect(all(72).shiftHigh_days).toBe(71);
  });

  test("groups and shares are counted apart", () => {
    const two = keeping([...late([-1, 1], "before"), ...late([-1], "after")]);
    expect(two.map(({ group, made }) => [group, made])).toEqual([
      ["before", 2],
      ["after", 1],
    ]);
  });

  test("a share of nothing or all is named with its order", () => {
    expect(() => keeping([{ ...late([1])[0]!, share_pct: 100 }])).toThrow(/100 for order "order 0"/);
  });
});

const fault = (found: string, repair_h: number, more: Partial<FoundFault> = {}): FoundFault => ({
  unit: "0101",
  fault: "dry joint",
  possible: "wiring",
  found,
  repair_h,
  cost_cents: 100 * repair_h,
  ...more,
});
const stages = ["wiring", "noise", "customer"];

describe("look-back", () => {
  // source: scipy, ttest_ind([5, 6, 7], [1, 1.5, 2, 1.5], equal_var=False): interval 2.3142 to 6.6858 about 4.5

  test("an arrow carries what was spent and would have been saved, with Welch's interval", () => {
    const found = lookBack(stages, [
      ...[5, 6, 7].map((h) => fault("customer", h)),
      ...[1, 1.5, 2, 1.5].map((h) => fault("wiring", h)),
    ]);
    const [arrow] = found.arrows;
    expect(arrow).toMatchObject({
      found: "customer",
      possible: "wiring",
      faults: 3,
      early: 4,
      spent_h: 18,
      saved_h: 13.5,
    });
    expect(arrow?.state).toBe("saves");
    expect(arrow!.savedLow_h!).toBeCloseTo(3 * 2.3142, 3);
    expect(found.rungs.map(({ found: here, possible }) => [here, possible])).toEqual([
      [4, 7],
      [0, 0],
      [3, 0],
    ]);
  });

  test("is silent where the interval holds zero, and undecided with too few", () => {
    const alike = [...[1, 4, 2].map((h) => fault("noise", h)), ...[1, 3, 2].map((h) => fault("wiring", h))];
    expect(lookBack(stages, alike).arrows[0]?.state).toBe("silent");
    expect(lookBack(stages, [fault("customer", 9), fault("wiring", 1)]).arrows[0]).toMatchObject({
      state: "undecided",
    });
  });

  test("what was found as early as could be has no arrow", () => {
    expect(lookBack(stages, [fault("wiring", 1)])).toMatchObject({ arrows: [], faults: 1, late: 0 });
  });

  test.each([
    [{ found: "spray" }, "faults[0].found", /spray.*0101/],
    [{ possible: "customer", found: "noise" }, "faults[0].possible", /0101.*noise/],
  ])("a stage out of place is named", (more, path, words) => {
    const ask = () => lookBack(stages, [fault("noise", 1, more)]);
    expect(ask).toThrow(expect.objectContaining({ path }));
    expect(ask).toThrow(words);
  });

  // property: where early and late faults cost alike, one arrow in twenty at most claims a saving
  test("seldom claims a saving where there is none", () => {
    const chance = randomStream("alike");
    const draws = 400;
    let claimed = 0;
    for (let i = 0; i < draws; i++) {
      const one = () => Math.exp(chance.normal(0, 0.5));
      const faults = [
        ...Array.from({ length: 6 }, () => fault("noise", one(), { cost_cents: 0 })),
        ...Array.from({ length: 8 }, () => fault("wiring", one(), { cost_cents: 0 })),
      ];
      if (lookBack(stages, faults).arrows[0]?.state === "saves") claimed++;
    }
    expect(claimed / draws).toBeLessThan(0.05);
  });
});
