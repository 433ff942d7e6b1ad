import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { recordAccuracy } from "../../tests/accuracy.ts";
import type { DayInput, Task } from "./day/day.ts";
import { worthOf } from "./day/worth.ts";
import { softened } from "./odds.ts";
import { planDay } from "./planDay.ts";

const week = (hours: string[]) => ({ mon: hours, tue: hours, wed: hours, thu: hours, fri: hours });
/** A Wednesday. */
const shop = {
  now: "2026-12-02T08:00:00+00:00",
  timeZone: "UTC",
  calendars: { full: { week: week(["08:00-16:00"]) }, half: { week: week(["08:00-12:00"]) } },
  people: [
    { id: "bench", skills: ["audio", "safety"], calendar: "full" },
    { id: "wood", skills: ["wood"], calendar: "half" },
  ],
} as const;
const check = (id: string, odds: number, later_h: number, hands_min: number, more: Partial<Task> = {}): Task => ({
  id,
  skill: "audio",
  hands_min,
  faults: [{ fault: id, odds, now_h: 1, later_h }],
  ...more,
});
const planned = (input: Partial<DayInput> & { tasks: readonly Task[] }) => planDay({ ...shop, ...input });
const ofBench = (input: Partial<DayInput> & { tasks: readonly Task[] }) => planned(input).hands[0]!;

// source: reference/production.json rule (f + 1)/(n + 10); interval by scipy 1.10 stats.beta.ppf(…, 4, 50)
test("odds start from the shop's records and are softened by a stated guess", () => {
  const { odds, low, high } = softened({ found: 3, of: 44 });
  expect(odds).toBeCloseTo(4 / 54, 12);
  expect(low).toBeCloseTo(0.020946, 6);
  expect(high).toBeCloseTo(0.156629, 6);
  expect(softened({ found: 0, of: 0, guess: 0.05 }).odds).toBeCloseTo(0.05, 12);
});

// source: by hand. 0.1·0.9·(14 − 2) + 0.02·1·(5 − 1) = 1.16 h; over 10 minutes 0.116
test("worth is odds times finding times hours avoided, per minute of hands", () => {
  const worth = worthOf(
    [
      { fault: "hum", odds: 0.1, finds: 0.9, now_h: 2, later_h: 14 },
      { fault: "hiss", odds: 0.02, now_h: 1, later_h: 5 },
    ],
    10,
  );
  expect(worth.saves_h).toBeCloseTo(1.16, 12);
  expect(worth.saves_h_per_min).toBeCloseTo(0.116, 12);
  expect(worth.chief?.fault).toBe("hum");
});

describe("the next check", () => {
  // source: by hand. a: 0.1·9/10 min = 0.09; b: 0.02·99/5 = 0.396; c: 0.5·1/30 = 0.017 h a minute
  test("is the one worth most per minute, and why is said with the numbers", () => {
    const { next } = ofBench({ tasks: [check("a", 0.1, 10, 10), check("b", 0.02, 100, 5), check("c", 0.5, 2, 30)] });
    expect(next.map(({ task }) => task)).toEqual(["b", "a", "c"]);
    expect(next.map(({ start }) => start.slice(11, 16))).toEqual(["08:00", "08:05", "08:15"]);
    expect(next[0]!.why).toBe(
      "1 in 50 has b, this finds it, and found now it costs 1 h instead of 100 h: 2 h saved on average for 5 min of hands.",
    );
  });

  test("hours that differ little are told to the digit in which they do", () => {
    const close = { faults: [{ fault: "a", odds: 0.1, now_h: 8.02, later_h: 8.04 }] };
    expect(ofBench({ tasks: [check("a", 0.1, 0, 1, close)] }).next[0]!.why).toContain("8.02 h instead of 8.04 h");
    const same = { faults: [{ fault: "a", odds: 0.1, now_h: 8, later_h: 8 }] };
    expect(ofBench({ tasks: [check("a", 0.1, 0, 1, same)] }).next[0]!.why).toContain(
      "found now or later it costs 8 h:",
    );
  });

  test("never sets one alone on live parts, and goes to somebody who may", () => {
    const live = [check("live", 0.5, 9, 10, { danger: "high-voltage" })];
    expect(ofBench({ tasks: live }).next).toHaveLength(1);
    const alone = planned({ tasks: live, now: "2026-12-02T13:00:00+00:00" });
    expect(alone.hands[0]!.next).toEqual([]);
    expect(alone.blocked).toEqual([
      { task: "live", why: "high-voltage: nobody else is at work with the one who can do it" },
    ]);
    expect(planned({ tasks: live, now: "2026-12-02T13:00:00+00:00", limits: { alone: true } }).blocked).toEqual([]);
    const people = [{ ...shop.people[0], dangers: ["none" as const] }, shop.people[1]];
    expect(planned({ tasks: live, people }).blocked[0]!.why).toMatch(/nobody with the skill audio may meet it/);
  });

  test("keeps to places, waiting allowed, and the hours left", () => {
    const tasks = [
      check("full", 0.5, 9, 10, { place: "rack" }),
      check("slow", 0.5, 9, 10, { wait_h: 40 }),
      check("long", 0.5, 9, 600),
    ];
    const { blocked, hands } = planned({ tasks, free: { rack: 0 }, limits: { wait_h: 36 } });
    expect(hands[0]!.next).toEqual([]);
    expect(blocked.map(({ task }) => task).toSorted()).toEqual(["full", "long", "slow"]);
    expect(blocked.find(({ task }) => task === "full")!.why).toBe("rack has no slot free");
  });

  test("what may be broken off is begun however long it is", () => {
    const wiring: Task = { id: "wiring", skill: "audio", hands_min: 900, splits: true };
    expect(ofBench({ tasks: [wiring] }).next.map(({ task }) => task)).toEqual(["wiring"]);
    expect(ofBench({ tasks: [{ ...wiring, splits: false }] }).next).toEqual([]);
  });

  test("one place is not taken by two pairs of hands at once", () => {
    const people = [shop.people[0], { ...shop.people[0], id: "second" }];
    const tasks = [check("a", 0.5, 9, 60, { place: "bench" }), check("b", 0.4, 9, 60, { place: "bench" })];
    const starts = planned({ people, tasks }).hands.flatMap(({ next }) => next.map(({ start }) => start.slice(11, 16)));
    expect(starts.toSorted()).toEqual(["08:00", "09:00"]);
  });

  test("hands that find a place taken come back when it is free", () => {
    const people = [
      { ...shop.people[0], skills: ["audio"] },
      { ...shop.people[0], id: "second", skills: ["tests"] },
    ];
    const tasks = [
      check("a", 0.5, 9, 60, { place: "bench" }),
      check("b", 0.4, 9, 60, { place: "bench", skill: "tests" }),
    ];
    const { hands } = planned({ people, tasks });
    expect(hands.map(({ next }) => next[0]?.start.slice(11, 16))).toEqual(["08:00", "09:00"]);
  });
});

describe("the evening", () => {
  // source: by hand. 12 h begun by 15:50 is ripe at 04:00 and usable at 08:00 on Thursday; begun at 08:00 on Thursday it
  // is ripe at 20:10 and usable on Friday at 08:00: one day at work, 8 h
  test("keeps what gains a day by running over night, with its latest start", () => {
    const { beforeHome, next, home } = ofBench({
      tasks: [check("soak", 0.1, 9, 10, { wait_h: 12 }), check("a", 0.1, 10, 10)],
    });
    expect(home).toMatch(/^2026-12-02T16:00/);
    expect(next.map(({ task }) => task)).toEqual(["a"]);
    expect(beforeHome).toMatchObject([{ task: "soak", gains_h: 8 }]);
    expect(beforeHome[0]!.latest).toMatch(/T15:50/);
    expect(beforeHome[0]!.ripe).toMatch(/^2026-12-03T08:00/);
    expect(beforeHome[0]!.tomorrow).toMatch(/^2026-12-04T08:00/);
  });

  test("on a Friday it gains no more than the hours at work, and a rack holds what it holds", () => {
    const now = "2026-12-04T09:00:00+00:00";
    const soaks = ["s1", "s2", "s3"].map((id) => check(id, 0.1, 9, 10, { wait_h: 24, place: "rack" }));
    const { beforeHome } = ofBench({ now, tasks: soaks, free: { rack: 2 } });
    expect(beforeHome.map(({ task }) => task)).toHaveLength(2);
    // source: by hand. Ripe on Saturday, usable on Monday at 08:00; begun on Monday at 08:10, ripe on Tuesday at 08:10
    expect(beforeHome[0]!.gains_h).toBeCloseTo(8 + 1 / 6, 6);
  });

  test("one unit goes on with one thing over night, and is in one pair of hands at a time", () => {
    const soaks = ["s1", "s2"].map((id) => check(id, 0.1, 9, 10, { wait_h: 12, unit: "0101" }));
    expect(ofBench({ tasks: soaks }).beforeHome).toHaveLength(1);
    const people = [shop.people[0], { ...shop.people[0], id: "second" }];
    const tasks = ["a", "b"].map((id) => check(id, 0.5, 9, 60, { unit: "0101" }));
    const starts = planned({ people, tasks }).hands.flatMap(({ next }) => next.map(({ start }) => start.slice(11, 16)));
    expect(starts.toSorted()).toEqual(["08:00", "09:00"]);
  });

  test("what ends within the day is ordinary work, and nobody is left alone with live parts in the evening", () => {
    const short = check("short", 0.1, 9, 10, { wait_h: 2 });
    const { next, beforeHome } = ofBench({ tasks: [short] });
    expect(next.map(({ task }) => task)).toEqual(["short"]);
    expect(beforeHome).toEqual([]);
    expect(ofBench({ tasks: [short], now: "2026-12-02T15:00:00+00:00" }).beforeHome.map(({ task }) => task)).toEqual([
      "short",
    ]);
    const live = check("live", 0.1, 9, 10, { wait_h: 12, danger: "mains" });
    expect(ofBench({ tasks: [live] }).beforeHome).toEqual([]);
    expect(ofBench({ tasks: [live], limits: { alone: true } }).beforeHome).toHaveLength(1);
  });

  test("other work is fitted before its latest start", () => {
    const now = "2026-12-02T15:30:00+00:00";
    const tasks = [check("soak", 0.1, 9, 10, { wait_h: 12 }), check("tiny", 0.01, 5, 15), check("dear", 0.5, 50, 25)];
    expect(ofBench({ now, tasks }).next.map(({ task }) => task)).toEqual(["tiny"]);
  });
});

// source: second method: every order of one pair of hands without waits, the best sum of worth got by each moment
test("no other order has saved more at any moment of the day", () => {
  const task = fc.record({
    odds: fc.double({ min: 0.01, max: 1, noNaN: true }),
    later: fc.double({ min: 1, max: 50, noNaN: true }),
    minutes: fc.integer({ min: 1, max: 40 }),
  });
  let worst = 0;
  fc.assert(
    fc.property(fc.array(task, { minLength: 2, maxLength: 5 }), (drawn) => {
      const tasks = drawn.map(({ odds, later, minutes }, i) => check(`t${i}`, odds, later, minutes));
      const { next } = ofBench({ tasks, depth: 50 });
      expect(next).toHaveLength(tasks.length);
      const weighted = (order: readonly number[]) => {
        let [time, sum] = [0, 0];
        for (const i of order) {
          time += drawn[i]!.minutes;
          sum += time * drawn[i]!.odds * Math.max(0, drawn[i]!.later - 1);
        }
        return sum;
      };
      const best = Math.min(...permutations(drawn.map((_, i) => i)).map(weighted));
      const ours = weighted(next.map(({ task: id }) => Number(id.slice(1))));
      worst = Math.max(worst, best === 0 ? 0 : ours / best - 1);
    }),
    { numRuns: 60 },
  );
  expect(worst).toBeLessThan(1e-9);
  recordAccuracy({
    area: "production",
    what: "next check: mean time until what it saves is saved, against every order",
    source: "enumeration of up to 120 orders, 60 drawn days",
    reached: worst.toExponential(1),
    limit: "1e-9",
  });
});

function permutations(items: readonly number[]): number[][] {
  if (items.length <= 1) return [[...items]];
  return items.flatMap((one) => permutations(items.filter((other) => other !== one)).map((rest) => [one, ...rest]));
}

test.each<[string, Partial<DayInput> & { tasks: Task[] }, string]>([
  ["odds above 1", { tasks: [check("a", 1.2, 5, 5)] }, "tasks[0].faults[0].odds"],
  ["a skill nobody has", { tasks: [check("a", 0.1, 5, 5, { skill: "magic" })] }, "tasks[0].skill"],
  ["minutes below 0", { tasks: [check("a", 0.1, 5, -5)] }, "tasks[0].hands_min"],
  ["an id twice", { tasks: [check("a", 0.1, 5, 5), check("a", 0.1, 5, 5)] }, "tasks[1].id"],
  ["a time that is none", { tasks: [check("a", 0.1, 5, 5, { ready: "soon" })] }, "tasks[0].ready"],
  [
    "more found than looked at",
    { tasks: [{ ...check("a", 0, 5, 5), faults: [{ fault: "a", odds: { found: 3, of: 2 }, now_h: 0, later_h: 1 }] }] },
    "tasks[0].faults[0].odds.found",
  ],
  ["hours below 0", { tasks: [check("a", 0.1, -5, 5)] }, "tasks[0].faults[0].later_h"],
])("%s is refused and named", (_, input, path) => {
  expect(() => planned(input)).toThrow(expect.objectContaining({ path }));
});
