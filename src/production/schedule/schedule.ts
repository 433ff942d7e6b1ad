import { randomStream } from "../../maths/random.ts";
import { firstSchedule } from "./dispatch.ts";
import { type JobShop, jobShop, makespanOf, type Operation, startsOf } from "./jobShop.ts";
import { preemptiveBound } from "./oneMachine.ts";
import { knowledge } from "./propagate.ts";
import { type Proof, proof, shave } from "./prove.ts";
import { type Improver, tabuSearch } from "./tabu.ts";

export interface Schedule {
  readonly makespan_h: number;
  /** Per job and operation, in the order given. */
  readonly start_h: readonly (readonly number[])[];
  /** No schedule is shorter than the bound, and this one is as short. */
  readonly optimal: boolean;
  readonly bound_h: number;
}

/** A search under way. Each step is short; the answer at any time is the best so far. */
export interface ScheduleSearch {
  step(): void;
  readonly isDone: boolean;
  answer(): Schedule;
}

/**
 * The shortest schedule of a job shop: each job's operations in the order given, each place one at a time, nothing
 * broken off.
 *
 * A tabu search shortens a dispatched schedule; at the same time lengths are refuted from below, and schedules shorter
 * than the best are searched for exhaustively. The steps count work, not time, so that a search carried to its end
 * always ends alike.
 *
 * @param jobs  a job may be empty and may visit a place several times; operations may last 0 hours
 * @throws BadInput at the operation whose hours are no length of time, or for a shop too large
 * @example const search = scheduleSearch([[{ place: "bench", hours: 2 }], [{ place: "bench", hours: 3 }]]);
 *   while (!search.isDone) search.step();
 *   search.answer().makespan_h // 5
 */
export function scheduleSearch(jobs: readonly (readonly Operation[])[]): ScheduleSearch {
  const shop = jobShop(jobs);
  const random = randomStream("schedule");
  const tabu = tabuSearch(shop, firstSchedule(shop, random), random);
  const bound = { units: simpleBound(shop) };
  const isDone = (): boolean => bound.units >= tabu.best.makespan;
  const work = steps(shop, tabu, bound);
  return {
    step() {
      if (!isDone()) work.next();
    },
    get isDone() {
      return isDone();
    },
    answer: () => answerOf(shop, jobs, tabu.best.orders, bound.units, isDone()),
  };
}

/** Longest job, and each place as if nothing else were scarce. */
function simpleBound(shop: JobShop): number {
  const { heads, tails } = knowledge(shop, Number.POSITIVE_INFINITY);
  const longestJob = heads.reduce((most, head, i) => Math.max(most, head + shop.lasts[i]!), 0);
  return shop.places.reduce(
    (most, members) => Math.max(most, preemptiveBound(members, heads, shop.lasts, tails)),
    longestJob,
  );
}

/** Pairs beyond which following up one decision takes too long to be of use. */
const mostPairs = 400_000;
/** Pairs beyond which both orders of each are not tried. */
const mostShaved = 5000;

function* steps(shop: JobShop, tabu: Improver, bound: { units: number }): Generator<void> {
  const pairs = shop.places.reduce((sum, { length }) => sum + length ** 2, 0);
  const tabuSteps = Math.max(20, Math.ceil(50_000 / shop.size));
  for (let round = 0; round < 2; round++) {
    tabu.improve(tabuSteps);
    yield;
    if (bound.units >= tabu.best.makespan) return;
  }
  if (pairs <= mostPairs) yield* refuteFromBelow(shop, tabu, bound, pairs <= mostShaved);
  const branches = Math.max(5, Math.ceil(50_000 / Math.max(1, pairs)));
  let limit = Number.NaN;
  let searching: Proof | undefined;
  while (bound.units < tabu.best.makespan) {
    tabu.improve(tabuSteps);
    yield;
    if (pairs > mostPairs) continue;
    if (limit !== tabu.best.makespan - 1) {
      limit = tabu.best.makespan - 1;
      const known = knowledge(shop, limit);
      if (pairs <= mostShaved && !(yield* shave(shop, known))) {
        bound.units = limit + 1;
        return;
      }
      searching = proof(shop, limit, known);
    }
    const found = searching!.search(branches);
    yield;
    if (found === "none") bound.units = limit + 1;
    else if (found !== "open") tabu.adopt(found);
  }
}

/** The bound is the shortest length that following up what it forces does not refute; halved in on. */
function* refuteFromBelow(
  shop: JobShop,
  tabu: Improver,
  bound: { units: number },
  shaving: boolean,
): Generator<void, void> {
  let open = tabu.best.makespan;
  while (bound.units < open) {
    const limit = Math.floor((bound.units + open) / 2);
    const known = knowledge(shop, limit);
    const isOpen = known.propagate() && (!shaving || (yield* shave(shop, known)));
    if (isOpen) open = limit;
    else bound.units = limit + 1;
    yield;
  }
}

function answerOf(
  shop: JobShop,
  jobs: readonly (readonly Operation[])[],
  orders: readonly Int32Array[],
  bound: number,
  optimal: boolean,
): Schedule {
  const starts = startsOf(shop, orders, shop.hours)!;
  const makespan_h = makespanOf(starts, shop.hours);
  return {
    makespan_h,
    start_h: jobs.map((job, j) => job.map((_, k) => starts[shop.firstOf[j]! + k]!)),
    optimal,
    bound_h: optimal ? makespan_h : Math.min(makespan_h, bound / shop.unitsPerHour),
  };
}
