import type { DayInput, Job, Worker } from "./day.ts";
import type { Kept } from "./evening.ts";
import { minute_ms } from "./hours.ts";
import { company, isLive, mayDo, startIn } from "./limits.ts";

export interface Slot {
  readonly job: Job;
  readonly start: number;
}

/** Fills the day: at each moment the hands free first take what is worth most per minute. */
export function dispatch(
  open: readonly Job[],
  hands: readonly Worker[],
  evening: ReadonlyMap<number, readonly Kept[]>,
  free: Map<string, number>,
  input: DayInput,
): Slot[][] {
  const plans: Slot[][] = hands.map(() => []);
  const at = hands.map((one) => one.shifts[0]?.[0] ?? Number.POSITIVE_INFINITY);
  const left = new Set(open.toSorted(byWorth));
  const placeBusy = new Map<string, number[]>();
  const unitBusy = new Map<string, number>();
  const depth = input.depth ?? 3;
  for (;;) {
    const i = at.reduce((first, time, k) => (time < at[first]! ? k : first), 0);
    if (!(at[i]! < Number.POSITIVE_INFINITY)) break;
    const one = hands[i]!;
    const deadline = evening.get(i)?.[0]?.latest ?? Number.POSITIVE_INFINITY;
    const choice = plans[i]!.length < depth ? [...left].find((job) => fits(one, job, at[i]!, deadline)) : undefined;
    if (!choice) {
      // A place or a unit may be free again later in the day.
      const ends = [...unitBusy.values(), ...[...placeBusy.values()].flat()].filter((end) => end > at[i]!);
      at[i] = plans[i]!.length < depth ? Math.min(...ends) : Number.POSITIVE_INFINITY;
      continue;
    }
    const start = startIn(one, choice, at[i]!)!;
    left.delete(choice);
    plans[i]!.push({ job: choice, start });
    at[i] = start + choice.hands_min * minute_ms;
    if (choice.unit !== undefined) unitBusy.set(choice.unit, at[i]!);
    if (choice.place !== undefined) placeBusy.set(choice.place, [...(placeBusy.get(choice.place) ?? []), at[i]!]);
  }
  return exchangeFirst(plans, hands, (one, job) => fits(one, job, 0, Number.POSITIVE_INFINITY));

  function fits(one: Worker, job: Job, from: number, deadline: number): boolean {
    if (!mayDo(one, job)) return false;
    const start = startIn(one, job, from);
    if (start === undefined || (!job.splits && start + job.hands_min * minute_ms > deadline)) return false;
    if (isLive(job.danger) && !input.limits?.alone && !company(one, hands, start, job)) return false;
    if (job.unit !== undefined && (unitBusy.get(job.unit) ?? 0) > start) return false;
    if (job.place === undefined) return true;
    const until = placeBusy.get(job.place) ?? [];
    return until.filter((end) => end > start).length < (free.get(job.place) ?? 1);
  }
}

/** Exchanges the first tasks of two pairs of hands while their sum of worth per minute rises, as when one alone can do both. */
function exchangeFirst(plans: Slot[][], hands: readonly Worker[], may: (one: Worker, job: Job) => boolean): Slot[][] {
  for (let round = 0; round < hands.length; round++) {
    let changed = false;
    for (let i = 0; i < hands.length; i++) {
      const second = plans[i]![1];
      const first = plans[i]![0];
      if (!first || !second) continue;
      // Somebody with nothing to do takes the first over, and these hands go on with their second.
      const idle = hands.findIndex((one, k) => k !== i && plans[k]!.length === 0 && may(one, first.job));
      if (idle < 0) continue;
      plans[idle] = [{ job: first.job, start: startIn(hands[idle]!, first.job, 0)! }];
      plans[i] = plans[i]!.slice(1).map(({ job }, k, rest) => ({
        job,
        start:
          startIn(hands[i]!, job, k === 0 ? 0 : rest[k - 1]!.start + rest[k - 1]!.job.hands_min * minute_ms) ??
          first.start,
      }));
      changed = true;
    }
    if (!changed) break;
  }
  return plans;
}

function byWorth(a: Job, b: Job): number {
  return (
    b.worth.saves_h_per_min - a.worth.saves_h_per_min ||
    a.due - b.due ||
    a.hands_min - b.hands_min ||
    (a.id < b.id ? -1 : 1)
  );
}
