import fc from "fast-check";
import { describe, expect, test } from "vitest";
import published from "../../../reference/schedule.json" with { type: "json" };
import { recordAccuracy } from "../../../tests/accuracy.ts";
import { BadInput } from "../../maths/badInput.ts";
import type { Operation } from "./jobShop.ts";
import { preemptiveBound } from "./oneMachine.ts";
import { type Schedule, scheduleSearch } from "./schedule.ts";

type Jobs = readonly (readonly Operation[])[];

function carriedToItsEnd(jobs: Jobs, mostSteps = 100_000): Schedule {
  const search = scheduleSearch(jobs);
  for (let n = 0; n < mostSteps && !search.isDone; n++) search.step();
  return search.answer();
}

/** Says what is wrong with a schedule, by its definition alone. */
function faultIn(jobs: Jobs, { start_h, makespan_h }: Schedule): string | undefined {
  const taken: { place: string; from: number; to: number }[] = [];
  let latest = 0;
  for (const [j, job] of jobs.entries()) {
    let free = 0;
    for (const [k, { place, hours }] of job.entries()) {
      const from = start_h[j]![k]!;
      if (from < free) return `job ${j} operation ${k} starts at ${from}, before ${free}`;
      free = from + hours;
      taken.push({ place: String(place), from, to: free });
      latest = Math.max(latest, free);
    }
  }
  for (const [n, a] of taken.entries()) {
    for (const b of taken.slice(n + 1)) {
      if (a.place === b.place && a.to > b.from && b.to > a.from) return `${a.place} does two at once at ${b.from}`;
    }
  }
  return latest === makespan_h ? undefined : `ends at ${latest}, not ${makespan_h}`;
}

const asJobs = (operations: readonly (readonly (readonly number[])[])[]): Jobs =>
  operations.map((job) => job.map(([place, hours]) => ({ place: place!, hours: hours! })));

describe("published instances", () => {
  // source: reference/schedule.json: Fisher and Thompson 1963, Lawrence 1984, optima as listed in a public index
  test.each(published.instances)(
    "$instance is brought to its optimum, and proved",
    (instance) => {
      const jobs = asJobs(instance.operations);
      const answer = carriedToItsEnd(jobs);
      expect(faultIn(jobs, answer)).toBeUndefined();
      expect(answer).toMatchObject({
        makespan_h: instance.optimal_makespan,
        bound_h: instance.optimal_makespan,
        optimal: true,
      });
      recordAccuracy({
        area: "production",
        what: `job shop ${instance.instance}, ${instance.jobs} jobs on ${instance.machines} places`,
        source: "reference/schedule.json (published optimum)",
        reached: `${answer.makespan_h}, proved`,
        limit: `${instance.optimal_makespan}, proved`,
      });
    },
    30_000,
  );

  // source: reference/schedule.json: Johnson 1954, two places in the same order, all 120 orders enumerated
  test("two places in a row go by Johnson's rule", () => {
    const { a, b, optimal_makespan } = published.johnson;
    const jobs = a.map((hours, j) => [
      { place: "first", hours },
      { place: "second", hours: b[j]! },
    ]);
    expect(carriedToItsEnd(jobs)).toMatchObject({ makespan_h: optimal_makespan, optimal: true });
  });
});

/** Second method: every order of every place, each timed by repeated passes. */
function byEnumeration(jobs: Jobs): number {
  const operations = jobs.flatMap((job, j) => job.map((operation, k) => ({ ...operation, j, k })));
  const names = [...new Set(operations.map(({ place }) => String(place)))];
  const perPlace = names.map((name) => permutations(operations.filter(({ place }) => String(place) === name)));
  let shortest = Number.POSITIVE_INFINITY;
  const choose = (n: number, orders: (typeof operations)[]): void => {
    if (n < names.length) {
      for (const order of perPlace[n]!) choose(n + 1, [...orders, order]);
      return;
    }
    const end = new Map<string, number>();
    const key = ({ j, k }: { j: number; k: number }): string => `${j}/${k}`;
    for (let pass = 0; pass <= operations.length + 1; pass++) {
      let moved = false;
      for (const order of orders) {
        for (const [n, operation] of order.entries()) {
          const from = Math.max(
            operation.k > 0 ? (end.get(key({ j: operation.j, k: operation.k - 1 })) ?? 0) : 0,
            n > 0 ? (end.get(key(order[n - 1]!)) ?? 0) : 0,
          );
          if ((end.get(key(operation)) ?? -1) < from + operation.hours) {
            end.set(key(operation), from + operation.hours);
            moved = true;
          }
        }
      }
      if (!moved) {
        shortest = Math.min(shortest, Math.max(0, ...end.values()));
        return;
      }
    }
  };
  choose(0, []);
  return shortest;
}

function permutations<T>(items: readonly T[]): T[][] {
  if (items.length === 0) return [[]];
  return items.flatMap((item, i) => permutations(items.filter((_, k) => k !== i)).map((rest) => [item, ...rest]));
}

describe("any shop", () => {
  const shop = (hours: fc.Arbitrary<number>, most: { jobs: number; length: number }) =>
    fc.array(fc.array(fc.record({ place: fc.constantFrom("a", "b", "c"), hours }), { maxLength: most.length }), {
      minLength: 1,
      maxLength: most.jobs,
    });
  const whole = fc.integer({ min: 0, max: 12 });
  const broken = fc.integer({ min: 0, max: 999 }).map((n) => n / 7);

  // source: enumeration of all orders, timed by repeated passes. Places come back within a job, hours may be 0.
  test("small shops are as short as the best of all orders", () => {
    fc.assert(
      fc.property(shop(fc.oneof(whole, broken), { jobs: 3, length: 3 }), (jobs) => {
        const most = Math.max(...["a", "b", "c"].map((p) => jobs.flat().filter(({ place }) => place === p).length));
        fc.pre(most <= 5);
        const answer = carriedToItsEnd(jobs);
        expect(faultIn(jobs, answer)).toBeUndefined();
        expect(answer.optimal).toBe(true);
        expect(answer.makespan_h).toBeCloseTo(byEnumeration(jobs), 9);
      }),
      { numRuns: 40 },
    );
  }, 30_000);

  test("a search cut short still gives a schedule that can be kept, and a bound under it", () => {
    fc.assert(
      fc.property(shop(broken, { jobs: 12, length: 8 }), fc.integer({ min: 0, max: 15 }), (jobs, steps) => {
        const answer = carriedToItsEnd(jobs, steps);
        expect(faultIn(jobs, answer)).toBeUndefined();
        expect(answer.bound_h).toBeLessThanOrEqual(answer.makespan_h);
        expect(answer.optimal).toBe(answer.bound_h === answer.makespan_h);
        const busiest = Math.max(
          ...["a", "b", "c"].map((p) =>
            jobs
              .flat()
              .filter(({ place }) => place === p)
              .reduce((sum, { hours }) => sum + hours, 0),
          ),
        );
        expect(answer.bound_h).toBeGreaterThanOrEqual(busiest * (1 - 1e-12));
      }),
      { numRuns: 30 },
    );
  }, 30_000);

  test("the same shop in other units, or with its places renamed, has the same schedule", () => {
    const jobs = asJobs(published.instances[0]!.operations);
    const inMinutes = jobs.map((job) => job.map(({ place, hours }) => ({ place: `p${place}`, hours: hours / 60 })));
    const [one, other] = [carriedToItsEnd(jobs), carriedToItsEnd(inMinutes)];
    expect(other.makespan_h * 60).toBeCloseTo(one.makespan_h, 9);
    expect(other.start_h.flat().map((h) => Math.round(h * 60))).toEqual(one.start_h.flat());
  });

  test("the search ends alike every time", () => {
    const jobs = asJobs(published.instances[0]!.operations);
    expect(carriedToItsEnd(jobs)).toEqual(carriedToItsEnd(jobs));
  });
});

test("empty jobs and work of no length take no time", () => {
  expect(carriedToItsEnd([[], []])).toEqual({ makespan_h: 0, start_h: [[], []], optimal: true, bound_h: 0 });
  expect(carriedToItsEnd([[{ place: 1, hours: 0 }], []])).toMatchObject({ makespan_h: 0, optimal: true });
});

test("hours that are no length of time are named", () => {
  for (const hours of [-1, Number.NaN, Number.POSITIVE_INFINITY]) {
    const jobs = [
      [],
      [
        { place: "a", hours: 1 },
        { place: "b", hours },
      ],
    ];
    expect(() => scheduleSearch(jobs)).toThrow(BadInput);
    expect(() => scheduleSearch(jobs)).toThrow(expect.objectContaining({ path: "jobs[1][1].hours" }));
  }
});

// source: worked by hand: with the longer tail in hand at every moment, b (from 2, 2 long) breaks into a (from 0, 5 long);
// a ends at 7 with its tail of 1, b at 4 with its tail of 6
test("one place with work that may be broken off", () => {
  const bound = preemptiveBound(
    Int32Array.of(0, 1),
    Float64Array.of(0, 2),
    Float64Array.of(5, 2),
    Float64Array.of(1, 6),
  );
  expect(bound).toBe(10);
});
