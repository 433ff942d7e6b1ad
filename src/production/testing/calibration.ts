import { randomStream } from "../../maths/random.ts";
import { promise } from "../promise.ts";
import { minuteShop } from "./minuteShop.ts";
import { randomShop } from "./randomShop.ts";

export interface Kept {
  /** Outcomes counted; those of one run of a shop share their luck. */
  readonly outcomes: number;
  readonly shops: number;
  /** Share of the outcomes that kept each date. */
  readonly p50: number;
  readonly p80: number;
  readonly p95: number;
}

/**
 * How often dates are kept by a shop that was told a second time, with luck of its own: a fresh shop for each draw, its
 * orders promised once and then made once by the minute shop.
 */
export function keptByMinuteShop(draws: number, seed: string, runs = 1000): Kept {
  const kept = { p50: 0, p80: 0, p95: 0 };
  let outcomes = 0;
  for (let i = 0; i < draws; i++) {
    const input = { ...randomShop(randomStream(`${seed} ${i}`), "chance"), runs, seed: `${seed} ${i}` };
    const { orders } = promise(input);
    const made = minuteShop(input, 300)(randomStream(`outcome of ${seed} ${i}`).uniform);
    for (const order of orders) {
      const done_ms = Date.parse(input.now) + made.done_min.get(order.id)! * 60_000;
      outcomes++;
      // The minute shop rounds to minutes, a step at a time.
      for (const date of ["p50", "p80", "p95"] as const) if (done_ms <= Date.parse(order[date]) + 60_000) kept[date]++;
    }
  }
  return { outcomes, shops: draws, p50: kept.p50 / outcomes, p80: kept.p80 / outcomes, p95: kept.p95 / outcomes };
}
