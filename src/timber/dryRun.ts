import { type DiffusivityLaw, diffusivityAt } from "./diffusivity.ts";
import { type Climate, type Face, faceValue, type Grid, grid, meanOf, middleOf, pass, stepOnce } from "./slab.ts";

/** One stretch of steady air, as the wood sees it. */
export interface Stretch {
  readonly hours: number;
  readonly temperature_C: number;
  readonly emc_pct: number;
  readonly faces: "both" | "one";
  /** Infinite where the face takes the air's equilibrium at once. */
  readonly surface_m_per_s: number;
}

export interface Snapshot {
  readonly hour: number;
  readonly mean_pct: number;
  readonly surface_pct: number;
  readonly core_pct: number;
  readonly moisture_pct: Float64Array;
  readonly closed_pct: number;
}

export interface DryRun {
  readonly slab: Grid;
  /** In the order of the hours asked for. */
  readonly snapshots: readonly Snapshot[];
  readonly lowestMean_pct: number;
  /** Most that an open face was drier than the mean. */
  readonly steepest_pct: number;
  /** Left out where the mean never comes to the target. */
  readonly hoursToTarget?: number;
}

export interface Course {
  readonly thickness_mm: number;
  readonly start_pct: number;
  readonly stretches: readonly Stretch[];
  readonly law: DiffusivityLaw;
  readonly target_pct?: number;
}

/**
 * Dries (or wets) a piece through its stretches, the last going on for as long as an hour or the target asks.
 *
 * @param hours  asked for, each 0 or more, in any order and ascending steps of their own
 */
export function dryRun(course: Course, factor: number, hours: readonly number[]): DryRun {
  const { start_pct, stretches, target_pct } = course;
  const slab = grid(course.thickness_mm / 1000);
  const moisture = new Float64Array(slab.size_m.length).fill(start_pct);
  const asked = [...new Set(hours)].sort((a, b) => a - b);
  const found = new Map<number, Snapshot>();
  const isPast = (mean_pct: number) =>
    target_pct !== undefined && (start_pct >= target_pct ? mean_pct <= target_pct : mean_pct >= target_pct);

  let [now_h, lowest, steepest] = [0, start_pct, 0];
  let pace_s: number | undefined;
  let reached_h = isPast(start_pct) ? 0 : undefined;
  if (asked[0] === 0) {
    asked.shift();
    found.set(0, {
      hour: 0,
      mean_pct: start_pct,
      surface_pct: start_pct,
      core_pct: start_pct,
      closed_pct: start_pct,
      moisture_pct: moisture.slice(),
    });
  }

  const follow = (stretch: Stretch, until_h: number, climate: Climate, mayEnd?: () => boolean) => {
    const begun_h = now_h;
    const mayReach = target_pct !== undefined && canReach(moisture, stretch.emc_pct, start_pct, target_pct);
    const watch = (passed_s: number, before: Float64Array, step_s: number) => {
      const mean_pct = meanOf(slab, moisture);
      lowest = Math.min(lowest, mean_pct);
      const surface_pct = faceValue(slab, moisture, climate, 0);
      steepest = Math.max(steepest, mean_pct - surface_pct);
      if (mayReach && reached_h === undefined && isPast(mean_pct)) {
        const crossing_s = whenReached(slab, before, step_s, climate, target_pct!);
        reached_h = begun_h + (passed_s - step_s + crossing_s) / 3600;
      }
      return mayEnd?.() ?? false;
    };
    const passed = pass(slab, moisture, (until_h - now_h) * 3600, climate, watch, pace_s);
    pace_s = passed.step_s;
    now_h = mayEnd ? begun_h + passed.passed_s / 3600 : until_h;
  };

  let end_h = 0;
  for (const [i, stretch] of stretches.entries()) {
    const isLast = i === stretches.length - 1;
    end_h += stretch.hours;
    pace_s = undefined;
    const climate = climateOf(stretch, course.law, factor);
    if (stretch.hours > 0 && stretch.surface_m_per_s === Number.POSITIVE_INFINITY) {
      steepest = Math.max(steepest, meanOf(slab, moisture) - stretch.emc_pct);
    }
    while (asked.length > 0 && (isLast || asked[0]! <= end_h)) {
      const hour = asked.shift()!;
      follow(stretch, hour, climate);
      found.set(hour, snapshot(hour, slab, moisture, climate, stretch));
    }
    if (!isLast) follow(stretch, end_h, climate);
    else if (target_pct !== undefined && reached_h === undefined) {
      if (now_h < end_h) follow(stretch, end_h, climate);
      const reach_pct = Math.max(Math.abs(target_pct - stretch.emc_pct), 1e-6);
      const isSettled = () => moisture.every((m) => Math.abs(m - stretch.emc_pct) < reach_pct);
      const mayReach = canReach(moisture, stretch.emc_pct, start_pct, target_pct) && flows(stretch);
      if (reached_h === undefined && mayReach && !isSettled()) {
        follow(stretch, now_h + longest_h, climate, () => reached_h !== undefined || isSettled());
      }
    }
  }
  return {
    slab,
    snapshots: hours.map((hour) => found.get(hour)!),
    lowestMean_pct: lowest,
    steepest_pct: steepest,
    ...(reached_h === undefined ? {} : { hoursToTarget: reached_h }),
  };
}

/** Nearer than this to the equilibrium, percent of moisture, is no target but a limit that is never reached. */
const asGoodAs_pct = 1e-4;

/** Wood never leaves the span of what it holds and what it is drawn to, so neither does its mean. */
function canReach(moisture: Float64Array, emc_pct: number, start_pct: number, target_pct: number): boolean {
  return start_pct >= target_pct
    ? target_pct > Math.min(emc_pct, ...moisture) + asGoodAs_pct
    : target_pct < Math.max(emc_pct, ...moisture) - asGoodAs_pct;
}

/** A thousand years; nobody waits longer. */
const longest_h = 8_766_000;

const flows = ({ surface_m_per_s }: Stretch) => surface_m_per_s > 0;

function climateOf(stretch: Stretch, law: DiffusivityLaw, factor: number): Climate {
  const { emc_pct, surface_m_per_s, faces, temperature_C } = stretch;
  const open: Face = { open: true, emc_pct, surface_m_per_s };
  return {
    diffusivity: diffusivityAt(law, factor, temperature_C),
    faces: [open, faces === "both" ? open : { open: false }],
  };
}

function snapshot(hour: number, slab: Grid, moisture: Float64Array, climate: Climate, stretch: Stretch): Snapshot {
  const closed_pct = faceValue(slab, moisture, climate, 1);
  return {
    hour,
    mean_pct: meanOf(slab, moisture),
    surface_pct: faceValue(slab, moisture, climate, 0),
    core_pct: stretch.faces === "one" ? closed_pct : middleOf(moisture),
    closed_pct,
    moisture_pct: moisture.slice(),
  };
}

/** Seconds into a step at which the mean comes to the target, by shortening that step. */
function whenReached(slab: Grid, before: Float64Array, step_s: number, climate: Climate, target_pct: number): number {
  const from = before.slice();
  const trial = new Float64Array(from.length);
  const start_pct = meanOf(slab, from);
  let [low, high] = [0, step_s];
  for (let i = 0; i < 40 && high - low > 1e-9 * step_s; i++) {
    const middle = (low + high) / 2;
    stepOnce(slab, from, trial, middle, climate);
    const isBefore = Math.sign(meanOf(slab, trial) - target_pct) === Math.sign(start_pct - target_pct);
    if (isBefore) low = middle;
    else high = middle;
  }
  return high;
}
