import { BadInput } from "../../maths/badInput.ts";
import type { UnitLanes } from "./unitLanes.ts";

/** About six seconds of a slow machine, in multiplications. */
const most = 4e9;
/** What one look at a curve, and one product of the elimination, come to. */
const perCurve = 400;
const steps = 4;
const slowSteps = 40;

export interface WorkBudget {
  /** Told how many units had to be solved the slow way, and how many are through. */
  slow(units: number, through: number): void;
  /** Told how many units were solved anew with the meter joined. */
  again(units: number, through: number): void;
}

/**
 * Keeps a spread to a few seconds.
 *
 * @throws BadInput at `samples` with how many can be had, at once or when too many units turn out to need the slow way
 */
export function workBudget(units: UnitLanes, points: number, metered: boolean, samples: number): WorkBudget {
  const { elimination, devices, circuit, plan } = units;
  const pass = (elimination.moving.length + elimination.still.length) / 4 + 2 * plan.slots;
  const each =
    steps * (pass + perCurve * devices.length) +
    (metered ? points * 3 * (2 * plan.slots + 3 * plan.size + perCurve * devices.length) : 0) +
    60 * points +
    30 * units.varied.factors.length;
  const slowly =
    (1 + (metered ? points : 0)) *
    slowSteps *
    (circuit.size ** 2 / 4 + 12 * plan.slots + 4 * plan.targets.length + 3 * perCurve * devices.length);
  const refuse = (allowed: number): never => {
    throw new BadInput(
      "samples",
      `${samples} samples of a circuit of ${circuit.size} unknowns and ${devices.length} valves and other bent parts`,
      `at most ${Math.max(1, Math.floor(allowed))} for this circuit, so that an answer comes in time`,
      "ask for fewer samples",
    );
  };
  if (samples * each > most) refuse(most / each);
  if (samples * points > 3e7) refuse(3e7 / points);
  let spent = 0;
  const spend = (work: number, through: number): void => {
    spent += work;
    const share = spent / through;
    if (spent > most / 20 && samples * (each + share) > most) refuse(most / (each + share));
  };
  return {
    slow: (count, through) => spend(count * slowly, through),
    again: (count, through) => spend(count * 6 * steps * (pass + perCurve * devices.length), through),
  };
}
