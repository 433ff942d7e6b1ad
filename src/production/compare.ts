import { BadInput, quote } from "../maths/badInput.ts";
import { randomStream } from "../maths/random.ts";
import { summary } from "../maths/statistics/index.ts";
import { reachedBy } from "./dates.ts";
import { type Forecast, forecast } from "./forecast.ts";
import { nearQuantile } from "./nearQuantile.ts";
import { writeUp } from "./promise.ts";
import type { PromiseInput } from "./shop.ts";
import { hour_ms } from "./spreads.ts";
import { type Change, changedShop } from "./whatIf.ts";

/** The runs are drawn again so often; what the shift does meanwhile tells its doubt. */
const redraws = 120;
const fewestRuns = 200;
const q = 0.8;

interface Dates {
  readonly p50: string;
  readonly p80: string;
  readonly p95: string;
}

/** What the changes do to one order. */
export interface OrderShift {
  readonly id: string;
  /** Left out for an order that only the changed shop has. */
  readonly before?: Dates;
  readonly after: Dates;
  /** 80 % date after less before, in hours of the clock, with its 95 % interval. */
  readonly shift_h?: number;
  readonly low_h?: number;
  readonly high_h?: number;
  /** Mean over the runs of the same difference, run against run. */
  readonly mean_h?: number;
  /** Silent when the interval holds zero. */
  readonly moves: "earlier" | "later" | "silent" | "new";
}

export interface WhatIf {
  readonly orders: readonly OrderShift[];
  readonly earlier: readonly string[];
  readonly later: readonly string[];
  /** Mean shift of the 80 % dates of all orders that both shops have, with its interval; left out where there is none. */
  readonly overall?: { readonly shift_h: number; readonly low_h: number; readonly high_h: number };
  readonly notes: readonly string[];
}

export interface WhatIfWork {
  readonly share: number;
  readonly isDone: boolean;
  step(): void;
  answer(): WhatIf;
}

/**
 * The shop as it stands beside the shop with changes, run against run with the same luck.
 *
 * Each unit draws the same hours and fails in both shops, so that what differs is the change. The interval of the shift
 * of an 80 % date comes from drawing the runs again with replacement, both shops' together, each 80 % date weighed over the runs near it:
 *
 *     shift ± 1.96 · sd(shifts of the redraws)
 *
 * @throws BadInput  as the promise, and a change of something that is not there; fewer than 200 runs where chance plays
 * @source  common random numbers: S. Asmussen and P. Glynn, Stochastic Simulation (2007), chapter V; bootstrap:
 *   B. Efron, Annals of Statistics 7 (1979) 1-26 (both from memory)
 */
export function whatIfWork(input: PromiseInput, changes: readonly Change[]): WhatIfWork {
  const changed = changedShop(input, changes);
  const works = [forecast(input), inChangedShop(() => forecast(changed))] as const;
  return {
    get share() {
      return (works[0].share + works[1].share) / 2;
    },
    get isDone() {
      return works.every(({ isDone }) => isDone);
    },
    step() {
      if (!works[0].isDone) works[0].step();
      else if (!works[1].isDone) inChangedShop(() => works[1].step());
    },
    answer: () => compared(works[0].answer(), works[1].answer(), input),
  };
}

/** A fault of the changed shop is one of the changes: the shop itself was read before. */
function inChangedShop<T>(ask: () => T): T {
  try {
    return ask();
  } catch (fault) {
    if (!(fault instanceof BadInput)) throw fault;
    const { message } = fault;
    throw BadInput.at("changes", Object.assign(new BadInput("", "", "", ""), { message: `${fault.path}: ${message}` }));
  }
}

function compared(before: Forecast, after: Forecast, input: PromiseInput): WhatIf {
  const runs = Math.max(before.runs, after.runs);
  if (runs > 1 && runs < fewestRuns) {
    throw new BadInput(
      "runs",
      quote(input.runs),
      `at least ${fewestRuns} runs, for an interval of a difference`,
      "ask for 2000 runs",
    );
  }
  const again = redrawn(runs, input.seed);
  const numberBefore = new Map(before.shop.orders.map(({ id }, i) => [id, i]));
  const together: { readonly shift: number; readonly shifts: readonly number[] }[] = [];
  const orders = after.shop.orders.map(({ id }, number): OrderShift => {
    const earlier = numberBefore.get(id);
    const [now, then] = [earlier === undefined ? undefined : before.done[earlier]!, after.done[number]!];
    const dates = { after: datesOf(after, then) };
    if (now === undefined) return { id, ...dates, moves: "new" };
    const { shift, low, high, mean, shifts } = shiftOf(now, then, again);
    together.push({ shift, shifts });
    return {
      id,
      before: datesOf(before, now),
      ...dates,
      shift_h: shift / hour_ms,
      low_h: low / hour_ms,
      high_h: high / hour_ms,
      mean_h: mean / hour_ms,
      moves: high < 0 ? "earlier" : low > 0 ? "later" : "silent",
    };
  });
  const moved = (way: OrderShift["moves"]) => orders.filter(({ moves }) => moves === way).map(({ id }) => id);
  return {
    orders,
    earlier: moved("earlier"),
    later: moved("later"),
    ...overallOf(together),
    notes: [
      runs === 1
        ? "Nothing is left to chance in this input: the two shops are compared once, exactly."
        : `${runs} runs of each shop with the same luck in both; an order is said to move when the 95 % interval of its shift leaves zero out, each order by itself.`,
    ],
  };
}

/** The redraws are the same for all orders, so that their mean shift is redrawn with them. */
function overallOf(
  together: readonly { readonly shift: number; readonly shifts: readonly number[] }[],
): Pick<WhatIf, "overall"> {
  const [first] = together;
  if (!first) return {};
  const shift_h = together.reduce((sum, { shift }) => sum + shift / hour_ms / together.length, 0);
  const means = first.shifts.map((_, i) => together.reduce((sum, one) => sum + one.shifts[i]!, 0) / together.length);
  const reach_h = means.length === 0 ? 0 : (1.96 * summary(means).sd) / hour_ms;
  return { overall: { shift_h, low_h: shift_h - reach_h, high_h: shift_h + reach_h } };
}

/** @returns the shift of the 80 % date with its interval, and the mean shift, in the unit of the dates */
export function shiftOf(
  before: Float64Array,
  after: Float64Array,
  again: readonly Int32Array[],
): {
  readonly shift: number;
  readonly low: number;
  readonly high: number;
  readonly mean: number;
  /** Of each redraw. */
  readonly shifts: readonly number[];
} {
  const [near80before, near80after] = [nearQuantile(before.length, q), nearQuantile(after.length, q)];
  const shift = near80after(after.slice()) - near80before(before.slice());
  const mean = meanOf(after) - meanOf(before);
  if (again.length === 0) return { shift, low: shift, high: shift, mean, shifts: [] };
  const [earlier, later] = [new Float64Array(before.length), new Float64Array(after.length)];
  const shifts = again.map((runs) => {
    redraw(before, runs, earlier);
    redraw(after, runs, later);
    return near80after(later) - near80before(earlier);
  });
  const reach = 1.96 * summary(shifts).sd;
  return { shift, low: shift - reach, high: shift + reach, mean, shifts };
}

/** Which runs stand in each redraw, the same for all orders. */
export function redrawn(runs: number, seed: number | string): readonly Int32Array[] {
  if (runs === 1) return [];
  const chance = randomStream(seed).fork("redraws");
  return Array.from({ length: redraws }, () => Int32Array.from({ length: runs }, () => chance.integer(runs)));
}

/** A shop without chance has one run that stands for all. */
function redraw(dates: Float64Array, runs: Int32Array, into: Float64Array): void {
  if (dates.length === 1) into[0] = dates[0]!;
  else for (let i = 0; i < runs.length; i++) into[i] = dates[runs[i]!]!;
}

function meanOf(dates: Float64Array): number {
  let sum = 0;
  for (const date of dates) sum += date;
  return sum / dates.length;
}

function datesOf({ shop }: Forecast, done: Float64Array): Dates {
  const sorted = done.slice().sort();
  return {
    p50: writeUp(shop, reachedBy(sorted, 0.5)),
    p80: writeUp(shop, reachedBy(sorted, 0.8)),
    p95: writeUp(shop, reachedBy(sorted, 0.95)),
  };
}
