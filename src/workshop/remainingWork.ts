import type { ClaimSpec, Model } from "../claims/evidence.ts";
import { type ClaimState, isClosed, retests, type UnitState } from "../claims/index.ts";

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
 * @param first  work to be done before all else, such as exchanging a valve
 */
export function remainingRoute(
  model: Model,
  unit: Pick<UnitState, "done"> | undefined,
  states: readonly ClaimState[],
  first: readonly Step[] = [],
): readonly Step[] {
  const building = model.build.filter(({ step }) => !unit?.done.has(step)).map(buildStep);
  const open = states.filter((state) => !isClosed(state)).map(({ claim }) => claim);
  const checks = retests(model, open).flatMap(checkSteps);
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
function checkSteps({ claim, title, check }: ClaimSpec): readonly Step[] {
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
  return [{ step: `${title}, waiting`, hours: fixed(check.wait_h), unattended: true }, hands];
}

function fixed(hours: number): Step["hours"] {
  return { fast: hours, usual: hours, slow: hours };
}
