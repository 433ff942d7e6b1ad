import { BadInput, quote } from "../maths/badInput.ts";
import type { Spread } from "./shop.ts";

export const hour_ms = 3_600_000;
export const day_ms = 24 * hour_ms;

/** Longest times that make sense. */
export const most = { hours: 10_000, lead_days: 3_650 } as const;

export function isFixed({ fast, slow }: Spread): boolean {
  return fast === slow;
}

/** Whole milliseconds, so that instants reached on different ways compare as equal. */
export function spread_ms({ fast, usual, slow }: Spread, unit_ms: number): Spread {
  return { fast: Math.round(fast * unit_ms), usual: Math.round(usual * unit_ms), slow: Math.round(slow * unit_ms) };
}

export function requireSpread({ fast, usual, slow }: Spread, path: string, limit: number, what: string): void {
  for (const [name, value] of Object.entries({ fast, usual, slow })) {
    if (value >= 0 && value <= limit) continue;
    throw new BadInput(`${path}.${name}`, `${quote(value)}, ${what}`, `0 to ${limit}`, "give a time inside the limit");
  }
  if (fast <= usual && usual <= slow) return;
  throw new BadInput(
    `${path}.usual`,
    `fast ${fast}, usual ${usual}, slow ${slow}: ${what}`,
    "fast is at most usual, usual at most slow",
    "put the three in rising order, or make them equal for a fixed time",
  );
}
