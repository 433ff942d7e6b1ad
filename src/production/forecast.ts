import { BadInput, quote } from "../maths/badInput.ts";
import { randomStream } from "../maths/random.ts";
import { type Plan, plan } from "./plan.ts";
import type { PromiseInput } from "./shop.ts";
import { type Culprits, drawParts, type Simulation, simulation } from "./simulation.ts";
import { day_ms } from "./spreads.ts";
import { timeAtWork } from "./workingHours.ts";

/** Step executions over all runs that are simulated at most: some seconds of work. */
export const mostExecutions = 10_000_000;
/** Dates of orders and slacks of parts kept over all runs at most. */
const mostRemembered = 30_000_000;
export const horizon_ms = 20 * 365.25 * day_ms;
/** Step executions between two looks at whether anybody still wants the answer. */
const perStep = 40_000;

/** What all runs together showed; instants in milliseconds from `now`. */
export interface Forecast {
  readonly shop: Plan;
  readonly runs: number;
  /** Per order, when each run had it done. */
  readonly done: readonly Float64Array[];
  /** Per part of an order, how long before its first use each run had it, were it ordered now or when it was. */
  readonly slack: readonly Float64Array[];
  /** Per order, how often each culprit was the longest wait. */
  readonly held: readonly ReadonlyMap<number, number>[];
  readonly culprits: Culprits;
  readonly placeHeld: Float64Array;
  readonly personWorked: Float64Array;
  readonly atWork: Float64Array;
  /** Time from `now` to the last order's end, summed over all runs. */
  readonly span: number;
}

/** A forecast under way, so that whoever waits for it can watch it or break it off. */
export interface ForecastWork {
  readonly share: number;
  readonly isDone: boolean;
  /** Some more runs. @throws BadInput  orders that are never done */
  step(): void;
  answer(): Forecast;
}

/**
 * Lets the shop run forward many times with drawn times, delays and fails.
 *
 * @throws BadInput  a shop that can't work as described, with the order or person concerned; more runs than can be done
 */
export function forecast(input: PromiseInput): ForecastWork {
  requireSeed(input.seed);
  const shop = plan(input);
  requireAffordable(shop, input.runs);

  const floor = simulation(shop, horizon_ms, 1.5 * mostExecutions);
  const chance = randomStream(input.seed);
  const runs = shop.isRandom ? input.runs : 1;
  const { orders, people } = shop;
  const done = orders.map(() => new Float64Array(runs));
  const slack = Array.from({ length: shop.orderParts }, () => new Float64Array(runs));
  const held = orders.map(() => new Map<number, number>());
  const atWork = new Float64Array(people.length);
  const runsPerStep = Math.max(1, Math.floor(perStep / Math.max(1, shop.cost)));
  let span = 0;
  let run = 0;

  function once(): void {
    const luck = shop.isRandom ? chance.fork(run) : undefined;
    const ready = drawParts(shop, luck);
    requireFinished(floor.run(luck, ready), floor, shop, input);

    const { trace } = floor;
    for (let order = 0; order < orders.length; order++) {
      done[order]![run] = trace.done[order]!;
      const culprit = trace.waitedFor[order]!;
      held[order]!.set(culprit, (held[order]!.get(culprit) ?? 0) + 1);
      const { parts, firstPart } = orders[order]!;
      for (let i = 0; i < parts.length; i++) {
        slack[firstPart + i]![run] = trace.firstUse[firstPart + i]! - ready[parts[i]!]!;
      }
    }
    const last = trace.lastDone();
    span += last;
    people.forEach(({ hours }, person) => {
      atWork[person]! += timeAtWork(hours, last);
    });
    run++;
  }

  return {
    get share() {
      return run / runs;
    },
    get isDone() {
      return run === runs;
    },
    step() {
      for (let n = 0; n < runsPerStep && run < runs; n++) once();
    },
    answer: () => ({
      shop,
      runs,
      done,
      slack,
      held,
      culprits: floor.culprits,
      placeHeld: floor.placeHeld,
      personWorked: floor.personWorked,
      atWork,
      span,
    }),
  };
}

function requireSeed(seed: number | string): void {
  if (typeof seed === "string" || Number.isSafeInteger(seed)) return;
  throw new BadInput("seed", quote(seed), "a whole number or a text", "give a whole number, or write it as a text");
}

function requireAffordable(shop: Plan, runs: number): void {
  if (!(Number.isInteger(runs) && runs >= 1)) {
    throw new BadInput("runs", quote(runs), "a whole number of at least 1", "ask for 2000 runs");
  }
  const steps = Math.max(1, shop.cost);
  const affordable = Math.floor(mostExecutions / steps);
  if (affordable < 1) {
    throw new BadInput(
      "orders",
      `about ${Math.round(steps).toLocaleString("en")} steps to be done in one run`,
      `at most ${mostExecutions.toLocaleString("en")}`,
      "lower the odds of failing, or ask for fewer orders or units",
    );
  }
  const rememberable = Math.floor(mostRemembered / Math.max(1, shop.orderParts + shop.orders.length));
  if (shop.isRandom && runs > Math.min(affordable, rememberable)) {
    throw new BadInput(
      "runs",
      quote(runs),
      `at most ${Math.min(affordable, rememberable)} runs of this shop, whose orders take about ${Math.round(shop.expectedSteps)} steps a run`,
      "ask for fewer runs",
    );
  }
}

function requireFinished(
  outcome: ReturnType<Simulation["run"]>,
  floor: Simulation,
  shop: Plan,
  input: PromiseInput,
): void {
  if (outcome === "done") return;
  const unfinished = floor.trace.done.indexOf(Number.POSITIVE_INFINITY);
  const id = quote(shop.orders[unfinished]!.id);
  if (outcome === "beyond-horizon") {
    throw new BadInput(
      `orders[${unfinished}]`,
      `order ${id} is not done within 20 years in the simulation`,
      "orders that can be done by then",
      "look at its release, its hours and the odds of failing in its route",
    );
  }
  throw new BadInput(
    "runs",
    quote(input.runs),
    `${mostExecutions.toLocaleString("en")} steps over all runs; order ${id} and others repeat steps far more often than odds lead to expect`,
    "ask for fewer runs",
  );
}
