import type { Danger, DayInput, Job, Worker } from "./day.ts";
import { minute_ms } from "./hours.ts";
import { plainHours, round } from "./words.ts";

/** Why a task can't be done by anybody now, whoever is here. */
export function whyNot(job: Job, { limits, people }: DayInput, free: ReadonlyMap<string, number>): string | undefined {
  if (limits?.wait_h !== undefined && job.wait_h > limits.wait_h) {
    return `keeps the unit waiting ${plainHours(job.wait_h)}, longer than the ${plainHours(limits.wait_h)} allowed`;
  }
  if (job.place !== undefined && (free.get(job.place) ?? 1) <= 0) return `${job.place} has no slot free`;
  const able = people.filter(({ skills }) => skills.includes(job.skill));
  if (!able.some(({ dangers }) => dangers?.includes(job.danger) ?? true)) {
    return `${job.danger}: nobody with the skill ${job.skill} may meet it`;
  }
  return undefined;
}

export function whyNotToday(job: Job, hands: readonly Worker[], input: DayInput): string | undefined {
  const able = hands.filter((one) => mayDo(one, job) && one.shifts.length > 0);
  if (able.length === 0) return `nobody with the skill ${job.skill} is at work any more today`;
  if (able.every((one) => startIn(one, job, 0) === undefined)) {
    return `its ${round(job.hands_min)} min do not fit before the hands that can do it go home`;
  }
  if (
    isLive(job.danger) &&
    !input.limits?.alone &&
    able.every((one) => !company(one, hands, startIn(one, job, 0)!, job))
  ) {
    return `${job.danger}: nobody else is at work with the one who can do it`;
  }
  return undefined;
}

export const mayDo = (one: Worker, job: Job) =>
  one.skills.includes(job.skill) && (one.dangers?.includes(job.danger) ?? true);
export const isLive = (danger: Danger) => danger === "mains" || danger === "high-voltage";

/** Somebody else at work from its start to its end. */
export function company(one: Worker, hands: readonly Worker[], start: number, job: Job): boolean {
  const end = start + job.hands_min * minute_ms;
  return hands.some((other) => other !== one && other.shifts.some(([from, to]) => from <= start && to >= end));
}

/** The first moment from `from` at which these hands can begin it and end it before a pause; none today otherwise. */
export function startIn({ shifts }: Worker, job: Job, from: number): number | undefined {
  const length = job.hands_min * minute_ms;
  for (const [start, end] of shifts) {
    const at = Math.max(start, from, job.ready);
    if (at + length <= end) return at;
  }
  const open = shifts.find(([, end]) => end > Math.max(from, job.ready));
  if (job.splits) return open && Math.max(open[0], from, job.ready);
  // What is longer than any stretch between pauses goes on after a pause, so long as it ends today.
  if (!open) return undefined;
  const at = Math.max(open[0], from, job.ready);
  const left = shifts.reduce((sum, [start, end]) => sum + Math.max(0, end - Math.max(start, at)), 0);
  return length <= left && shifts.every(([start, end]) => end - start < length) ? at : undefined;
}
