import type { Cause, CauseShare } from "../cause.ts";
import { type Bench, keyOf } from "./drawBench.ts";

/** Whether the true share of one cause in one line lies between the bounds given for it. */
export interface ShareHeld {
  readonly cause: Cause["cause"];
  readonly truth: number;
  readonly share: number;
  readonly low: number;
  readonly high: number;
  readonly leads: number;
  readonly held: boolean;
}

/**
 * The bounds on every cause of a line against the truth: a cause's share is its own power over the sum of the powers
 * of all that sound there. Lines with one cause alone are left out, and so are those that the bench never made.
 */
export function sharesHeld(bench: Bench, channel: string, order: number, causes: readonly CauseShare[]): ShareHeld[] {
  const place = bench.orders.indexOf(order);
  if (place < 0 || causes.length < 2) return [];
  const powers = causes.map((cause) => {
    const key =
      cause.cause === "valve" ? keyOf(channel, "valve", cause.position, cause.valve) : keyOf(channel, cause.cause);
    const phasor = bench.phasors.get(key)?.[place];
    return phasor ? phasor.re ** 2 + phasor.im ** 2 : 0;
  });
  const total = powers.reduce((sum, power) => sum + power, 0);
  return causes.map(({ cause, share, low, high, leads }, i) => {
    const truth = powers[i]! / total;
    return { cause, truth, share, low, high, leads, held: low <= truth && truth <= high };
  });
}
