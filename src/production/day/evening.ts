import type { WorkingHours } from "../workingHours.ts";
import type { Job, Worker } from "./day.ts";
import { hour_ms, minute_ms, nextAtWork, workedBetween } from "./hours.ts";
import { company, isLive, mayDo, startIn } from "./limits.ts";

export interface Kept {
  readonly job: Job;
  readonly latest: number;
  readonly ripe: number;
  readonly tomorrow: number;
  readonly gains_h: number;
}

/**
 * What gains hours by going on over night, for each pair of hands, the most gained first, as far as places are free and
 * hands have time. What ends within the day anyway is ordinary work; live parts are not left to somebody alone.
 */
export function keepForEvening(
  open: readonly Job[],
  hands: readonly Worker[],
  free: Map<string, number>,
  alone = false,
): Map<number, Kept[]> {
  const kept = new Map<number, Kept[]>();
  const busy = hands.map(() => 0);
  const taken = new Set<string>();
  const offers = open
    .filter((job) => job.wait_h > 0)
    .flatMap((job) => {
      const able = hands.flatMap((one, i) => (mayDo(one, job) ? [{ one, i }] : []));
      const calendars = [...new Set(able.map(({ one }) => one.hours))];
      const known = new Map<WorkingHours, Omit<Kept, "job"> | undefined>();
      const who = able.flatMap(({ one, i }) => {
        if (!known.has(one.hours)) known.set(one.hours, overNight(one, job, calendars));
        const gain = known.get(one.hours);
        if (gain === undefined || (isLive(job.danger) && !alone && !company(one, hands, gain.latest, job))) return [];
        return [{ i, gain }];
      });
      return who.length === 0 ? [] : [{ job, who }];
    })
    .sort(
      (a, b) =>
        b.who[0]!.gain.gains_h - a.who[0]!.gain.gains_h || a.job.due - b.job.due || (a.job.id < b.job.id ? -1 : 1),
    );
  for (const { job, who } of offers) {
    const slots = job.place === undefined ? Number.POSITIVE_INFINITY : (free.get(job.place) ?? 1);
    if (slots <= 0 || (job.unit !== undefined && taken.has(job.unit))) continue;
    const first = who
      .map(({ i, gain }) => ({ i, gain, latest: gain.latest - busy[i]! }))
      .filter(({ i, latest }) => startIn(hands[i]!, job, 0) !== undefined && latest >= Math.max(0, job.ready))
      .sort((a, b) => b.latest - a.latest)[0];
    if (!first) continue;
    if (job.place !== undefined) free.set(job.place, slots - 1);
    if (job.unit !== undefined) taken.add(job.unit);
    busy[first.i]! += job.hands_min * minute_ms;
    kept.set(first.i, [...(kept.get(first.i) ?? []), { job, ...first.gain, latest: first.latest }]);
  }
  for (const list of kept.values()) list.sort((a, b) => a.latest - b.latest);
  return kept;
}

/** What beginning it last thing today gains over beginning it first thing on the next day at work. */
function overNight(one: Worker, job: Job, calendars: readonly WorkingHours[]): Omit<Kept, "job"> | undefined {
  if (one.home === undefined) return undefined;
  const length = job.hands_min * minute_ms;
  const latest = one.home - length;
  const soonest = startIn(one, job, 0);
  if (soonest === undefined || latest < soonest) return undefined;
  if (soonest + length + job.wait_h * hour_ms <= one.home) return undefined;
  const usable = (at: number) => Math.min(...calendars.map((hours) => nextAtWork(hours, at)));
  const morning = nextAtWork(one.hours, one.home + 1);
  const ripe = one.home + job.wait_h * hour_ms;
  const [today, tomorrow] = [usable(ripe), usable(morning + length + job.wait_h * hour_ms)];
  const gains_h = workedBetween(one.hours, today, tomorrow) / hour_ms;
  return gains_h > 0 ? { latest, ripe: today, tomorrow, gains_h } : undefined;
}
