import { BadInput, quote } from "../maths/badInput.ts";
import { firstWhere } from "../maths/firstWhere.ts";
import { betaQuantile, shareInterval } from "../maths/statistics/index.ts";
import { reachedBy } from "./dates.ts";

/** A date that was given, and when the order was done. Instants in milliseconds. */
export interface PastPromise {
  readonly order: string;
  /** How often such dates were said to be kept. */
  readonly share_pct: number;
  readonly date_ms: number;
  readonly done_ms: number;
  /** Kept apart from others where they were given another way; left out, all go together. */
  readonly group?: string;
}

/** What became of the promises of one share. */
export interface Keeping {
  readonly group?: string;
  readonly share_pct: number;
  readonly made: number;
  readonly kept: number;
  /** Share kept, with its 95 % interval. */
  readonly kept_pct: number;
  readonly low_pct: number;
  readonly high_pct: number;
  /** `holds` when the interval holds the share said and is narrow; `undecided` while it is wide. */
  readonly state: "holds" | "too early" | "too late" | "undecided";
  /** How many days later, or below zero earlier, the dates should have been for the share said to have held. */
  readonly shift_days: number;
  /** 95 % interval; an end is left out where so few promises set none. */
  readonly shiftLow_days?: number;
  readonly shiftHigh_days?: number;
}

const day_ms = 86_400_000;
/** An interval that reaches further than this from the share said decides nothing. */
const narrow_pct = 10;

/**
 * Whether dates were kept as often as was said.
 *
 *     low = B(0.025; k, n − k + 1),   high = B(0.975; k + 1, n − k)     for k of n kept
 *
 * `shift_days` is the ⌈n·s⌉-th smallest of done less date, s the share said. Its interval goes from the highest l-th to the
 * lowest u-th smallest with
 *
 *     P(fewer than l of n) ≤ 0.025,   P(u of n or more) ≤ 0.025     each kept with chance s
 *
 * Where no l or u does, as for dates of 95 % with fewer than 72 promises, that end is left out.
 *
 * @throws BadInput  a share outside 0 to 100
 * @source  C. Clopper and E. Pearson, Biometrika 26 (1934) 404-413; order statistics of a binomial count (both from
 *   memory)
 * @remarks The interval takes promises as independent; those of the same weeks share the shop's luck, so that it is
 *   rather narrower than it should be.
 */
export function keeping(promises: readonly PastPromise[]): readonly Keeping[] {
  for (const [i, { share_pct, order }] of promises.entries()) {
    if (share_pct > 0 && share_pct < 100) continue;
    throw new BadInput(
      `promises[${i}].share_pct`,
      `${quote(share_pct)} for order ${quote(order)}`,
      "above 0 and below 100",
      "give the share that was said, 80 for four in five",
    );
  }
  const groups = new Map<string, PastPromise[]>();
  for (const promise of promises) {
    const key = JSON.stringify([promise.group, promise.share_pct]);
    groups.set(key, [...(groups.get(key) ?? []), promise]);
  }
  return [...groups.values()].map(keepingOf);
}

function keepingOf(promises: readonly PastPromise[]): Keeping {
  const { group, share_pct } = promises[0]!;
  const n = promises.length;
  const kept = promises.filter(({ date_ms, done_ms }) => done_ms <= date_ms).length;
  const { low, high } = shareInterval(kept, n);
  const [low_pct, high_pct] = [100 * low, 100 * high];
  const share = share_pct / 100;
  const late = Float64Array.from(promises, ({ date_ms, done_ms }) => (done_ms - date_ms) / day_ms).sort();
  const { low: shiftLow_days, high: shiftHigh_days } = endsOf(late, share);
  return {
    ...(group !== undefined && { group }),
    share_pct,
    made: n,
    kept,
    kept_pct: (100 * kept) / n,
    low_pct,
    high_pct,
    state: stateOf(share_pct, low_pct, high_pct),
    shift_days: reachedBy(late, share),
    ...(shiftLow_days !== undefined && { shiftLow_days }),
    ...(shiftHigh_days !== undefined && { shiftHigh_days }),
  };
}

/** The order statistics that hold a quantile in 95 of 100, by Clopper and Pearson's bounds turned round. */
function endsOf(sorted: Float64Array, share: number): { low: number | undefined; high: number | undefined } {
  const n = sorted.length;
  const isBelow = (k: number) => betaQuantile(0.975, k, n - k + 1) <= share;
  const isAbove = (k: number) => betaQuantile(0.025, k, n - k + 1) >= share;
  return {
    low: sorted[firstWhere(1, n + 1, (k) => !isBelow(k)) - 2],
    high: sorted[firstWhere(1, n + 1, isAbove) - 1],
  };
}

function stateOf(share_pct: number, low_pct: number, high_pct: number): Keeping["state"] {
  if (high_pct < share_pct) return "too early";
  if (low_pct > share_pct) return "too late";
  const isNarrow = share_pct - low_pct <= narrow_pct && high_pct - share_pct <= narrow_pct;
  return isNarrow ? "holds" : "undecided";
}
