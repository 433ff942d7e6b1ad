import type { ClaimSpec, Model } from "../claims/evidence.ts";
import { type ClaimState, isClosed, retests, type UnitState } from "../claims/index.ts";
import { hoursLeft, type Waiting } from "./production/waits.ts";

export interface Step {
  readonly step: string;
  readonly skill?: string;
  readonly place?: string;
  readonly hours: { readonly fast: number; readonly usual: number; readonly slow: number };
  readonly unattended?: boolean;
  readonly failOdds?: number;
  readonly onFail?: { readonly back?: string; readonly repair_h: number };
}

/** Hands are quicker or slower than the minutes written on a check by about this much; common practice, no source. */
const quickest = 0.75;
const slowest = 1.75;

/**
 * What is left to do on a unit, as a route that the promise can be simulated from: build steps not yet done, then a
 * check for each claim that is neither proven nor conceded, in the order hands would make them.
 *
 * @param first    work to be done before all else, such as exchanging a valve
 * @param waiting  what was set going on it and goes on by itself; what it still takes is left of that, and its place is
 *   taken already
 */
export function remainingRoute(
  model: Model,
  unit: Pick<UnitState, "done"> | undefined,
  states: readonly ClaimState[],
  first: readonly Step[] = [],
  waiting?: { readonly of: Waiting; readonly now: string },
): readonly Step[] {
  const begun = first.length > 0 ? undefined : waiting;
  const building = model.build
    .filter(({ step }) => !unit?.done.has(step))
    .map((step) => (begun?.of.step === step.step ? leftOf(buildStep(step), begun) : buildStep(step)));
  const open = states.filter((state) => !isClosed(state)).map(({ claim }) => claim);
  const checks = retests(model, open).flatMap((claim) => checkSteps(claim, begun));
  const route = [...first, ...building, ...checks];
  return route.length > 0 ? route : [{ step: "release", hours: fixed(0), unattended: true }];
}

function buildStep({ step, skill, place, hours, unattended, failOdds }: Model["build"][number]): Step {
  return {
    step,
    hours,
    ...(skill !== undefined && { skill }),
    ...(place !== undefined && { place }),
    ...(unattended !== undefined && { unattended }),
    ...(failOdds !== undefined && { failOdds, onFail: { repair_h: hours.usual / 2 } }),
  };
}

/** A check's own hours of hands, after whatever waiting it needs by itself. */
function checkSteps({ claim, title, check }: ClaimSpec, begun: Begun): readonly Step[] {
  const hands_h = check.hands_min / 60;
  const hands: Step = {
    step: claim,
    skill: check.skill,
    ...(check.place !== undefined && { place: check.place }),
    hours: { fast: hands_h * quickest, usual: hands_h, slow: hands_h * slowest },
    failOdds: check.failOdds,
    onFail: { repair_h: check.repair_h },
  };
  if (check.wait_h === 0) return [hands];
  const wait: Step = {
    step: `${title}, waiting`,
    hours: fixed(check.wait_h),
    unattended: true,
    ...(check.waitPlace !== undefined && { place: check.waitPlace }),
  };
  return [begun?.of.claim === claim ? leftOf(wait, begun) : wait, hands];
}

type Begun = { readonly of: Waiting; readonly now: string } | undefined;

/** What is left of a wait that goes on already. */
function leftOf(step: Step, { of, now }: NonNullable<Begun>): Step {
  const gone_h = Math.max(0, of.body.hours - hoursLeft(of, now));
  const { place: _, ...rest } = step;
  const left = (hours: number) => Math.max(0, hours - gone_h);
  const { fast, usual, slow } = step.hours;
  const differs = step.hours.usual !== of.body.hours;
  return {
    ...rest,
    hours: differs ? fixed(hoursLeft(of, now)) : { fast: left(fast), usual: left(usual), slow: left(slow) },
  };
}

function fixed(hours: number): Step["hours"] {
  return { fast: hours, usual: hours, slow: hours };
}
