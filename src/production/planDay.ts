import type { DayInput, DayPlan } from "./day/day.ts";
import { dispatch } from "./day/dispatch.ts";
import { keepForEvening } from "./day/evening.ts";
import { todayOf } from "./day/hours.ts";
import { whyNot, whyNotToday } from "./day/limits.ts";
import { readTasks } from "./day/tasks.ts";
import { plainHours, round, whyOf } from "./day/words.ts";
import { readInstant, readZone, writeInstant } from "./instants.ts";
import { planPeople } from "./planPeople.ts";

/**
 * What each pair of hands does next, and what it starts before going home.
 *
 *     worth = Σ over faults  odds it is there · odds this check finds it · max(0, hours later − hours now)
 *     next  = greatest worth per minute of hands among what may be done
 *
 * Limits are never weighed against worth: skill, danger (live parts only with somebody else at work), places free, and
 * how long a check may keep a unit waiting. What goes on by itself is the spine of the day: whatever gains hours by
 * being under way over night is kept for its pair of hands, and other work is fitted before its latest start.
 *
 * @throws BadInput  a skill nobody has, odds above 1, a time that is none; the task concerned is named
 * @remarks Greedy in time: at each moment the freest hands take the task of greatest worth per minute; first tasks
 *   of busy hands pass to idle ones that may do them. A task without faults is worth
 *   nothing by itself and comes after those that are, by its date.
 * @source  rule of search, odds over cost: L. G. Mitten (1960), see production.checks (from memory)
 */
export function planDay(input: DayInput): DayPlan {
  const now = readInstant(input.now, "now");
  const zone = readZone(input.timeZone, input.now);
  const { people: hours } = planPeople(
    { ...input, places: [], routes: {}, orders: [], runs: 1, seed: 1 } as Parameters<typeof planPeople>[0],
    zone,
    now,
  );
  const jobs = readTasks(input, now);
  const write = (at: number) => writeInstant(now + at, zone);
  const shifts = hours.map(({ hours: of }) => todayOf(of, now, zone));
  const hands = input.people.map((person, i) => ({
    ...person,
    hours: hours[i]!.hours,
    shifts: shifts[i]!,
    home: shifts[i]!.at(-1)?.[1],
  }));
  const free = new Map(Object.entries(input.free ?? {}));
  const blocked: { task: string; why: string }[] = [];
  const open = jobs.filter((job) => {
    const why = whyNot(job, input, free);
    if (why !== undefined) blocked.push({ task: job.id, why });
    return why === undefined;
  });

  const evening = keepForEvening(open, hands, free, input.limits?.alone);
  const forEvening = new Set([...evening.values()].flat().map(({ job }) => job));
  const plans = dispatch(
    open.filter((job) => !forEvening.has(job)),
    hands,
    evening,
    free,
    input,
  );
  const planned = new Set(plans.flatMap((plan) => plan.map(({ job }) => job)));
  for (const job of open) {
    if (planned.has(job) || forEvening.has(job)) continue;
    const why = whyNotToday(job, hands, input);
    if (why !== undefined) blocked.push({ task: job.id, why });
  }
  const depth = input.depth ?? 3;
  return {
    hands: hands.map(({ id, home }, i) => ({
      person: id,
      ...(home === undefined ? {} : { home: write(home) }),
      next: plans[i]!.slice(0, depth).map(({ job, start }) => ({
        task: job.id,
        start: write(start),
        ...job.worth,
        why: whyOf(job, input),
      })),
      beforeHome: (evening.get(i) ?? []).map(({ job, latest, ripe, tomorrow, gains_h }) => ({
        task: job.id,
        latest: write(latest),
        ripe: write(ripe),
        tomorrow: write(tomorrow),
        gains_h,
        why: `${plainHours(job.wait_h)} by itself: begun today it is ready ${round(gains_h)} h at work sooner than begun tomorrow.`,
      })),
    })),
    blocked,
  };
}
