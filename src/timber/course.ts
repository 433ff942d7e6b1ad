import { type DiffusivityLaw, diffusivityAt } from "./diffusivity.ts";
import { machined, machinedHalf } from "./machined.ts";
import {
  type Climate,
  type Face,
  faceValue,
  type Grid,
  grid,
  halfGrid,
  meanOf,
  middleOf,
  pass,
  type Step,
  usualCells,
} from "./slab.ts";

/** One stretch of steady air, as the wood sees it. */
export interface Stretch {
  readonly hours: number;
  /** Of the wood, one for the whole thickness. */
  readonly wood_C: number;
  readonly faces: readonly [Face, Face];
  /** Taken off both faces as the stretch begins. */
  readonly taken_mm?: readonly [number, number];
}

export interface Snapshot {
  readonly hour: number;
  readonly mean_pct: number;
  /** At the first face. */
  readonly surface_pct: number;
  /** At mid-thickness, or at the second face where it is closed. */
  readonly core_pct: number;
  readonly second_pct: number;
  readonly moisture_pct: Float64Array;
  readonly slab: Grid;
}

export interface Run {
  /** In the order of the hours asked for. */
  readonly means_pct: readonly number[];
  /** The same, with the profile; empty where only means were asked for. */
  readonly snapshots: readonly Snapshot[];
  /** As each stretch ends; empty where only means were asked for. */
  readonly ends: readonly Snapshot[];
  /** Mean as each stretch begins, just after what was taken off then. */
  readonly begins_pct: readonly number[];
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
  /** The target is looked for from this hour on; from hour 0 where left out. */
  readonly searchFrom_h?: number;
  readonly cells?: number;
}

/**
 * Dries (or wets) a piece through its stretches, the last going on for as long as an hour or the target asks.
 *
 * @param hours  asked for, each 0 or more, in any order and ascending steps of their own
 * @param keep  profiles, or means alone (faster)
 */
export function runCourse(
  course: Course,
  factor: number,
  hours: readonly number[],
  keep: "profiles" | "means" = "profiles",
): Run {
  const { start_pct, stretches, target_pct, searchFrom_h = 0 } = course;
  // Means of a slab whose halves are alike are those of one half, until the first stretch that tells them apart.
  let isHalf = keep === "means" && isSymmetric(stretches[0]!);
  const cells = course.cells ?? usualCells;
  let slab = isHalf ? halfGrid(course.thickness_mm / 1000, (cells + 1) / 2) : grid(course.thickness_mm / 1000, cells);
  let moisture = new Float64Array(slab.size_m.length).fill(start_pct);
  const asked = [...new Set(hours)].sort((a, b) => a - b);
  const means = new Map<number, number>();
  const shots = new Map<number, Snapshot>();
  const ends: Snapshot[] = [];
  const begins_pct: number[] = [];

  let [now_h, lowest, steepest] = [0, start_pct, 0];
  let search: { readonly isDown: boolean } | undefined;
  let reached_h: number | undefined;
  const isPast = (mean_pct: number) => (search!.isDown ? mean_pct <= target_pct! : mean_pct >= target_pct!);
  const beginSearch = () => {
    if (target_pct === undefined || search) return;
    const mean_pct = meanOf(slab, moisture);
    search = { isDown: mean_pct >= target_pct };
    if (Math.abs(mean_pct - target_pct) < 1e-9) reached_h = now_h;
  };
  const answer = (hour: number, climate: Climate, step?: Step, share = 1) => {
    means.set(hour, step ? step.meanAt(share) : meanOf(slab, moisture));
    if (keep === "profiles")
      shots.set(hour, snapshot(hour, slab, step ? step.profileAt(share) : moisture.slice(), climate));
  };

  let pace_s: number | undefined;
  const follow = (until_h: number, climate: Climate, mayEnd?: () => boolean) => {
    const begun_h = now_h;
    const mayReach =
      target_pct !== undefined &&
      search !== undefined &&
      reached_h === undefined &&
      canReach(moisture, climate, search.isDown, target_pct);
    const watch = (step: Step) => {
      const begin_h = begun_h + (step.passed_s - step.step_s) / 3600;
      const end_h = begun_h + step.passed_s / 3600;
      while (asked.length > 0 && asked[0]! <= Math.min(end_h * (1 + 1e-12), until_h)) {
        const hour = asked.shift()!;
        answer(hour, climate, step, Math.max(0, Math.min(1, (hour - begin_h) / (end_h - begin_h))));
      }
      lowest = Math.min(lowest, step.to_pct);
      steepest = Math.max(steepest, drierThanMean(slab, step, climate));
      if (mayReach && reached_h === undefined && isPast(step.to_pct)) {
        reached_h = begin_h + crossing(step, target_pct!) * (end_h - begin_h);
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
    if (isHalf && !isSymmetric(stretch)) {
      isHalf = false;
      slab = grid(2 * slab.thickness_m, 2 * slab.size_m.length);
      moisture = unfolded(moisture);
    }
    const whole = climateOf(stretch, course.law, factor);
    const climate: Climate = isHalf ? { ...whole, faces: [whole.faces[0], { open: false }] } : whole;
    if (i === 0 && asked[0] === 0) {
      asked.shift();
      means.set(0, start_pct);
      const level = { surface_pct: start_pct, core_pct: start_pct, second_pct: start_pct };
      shots.set(0, { hour: 0, mean_pct: start_pct, ...level, moisture_pct: moisture.slice(), slab });
    }
    if (stretch.taken_mm) {
      [slab, moisture] = isHalf
        ? machinedHalf(slab, moisture, stretch.taken_mm[0])
        : machined(slab, moisture, stretch.taken_mm);
    }
    begins_pct.push(meanOf(slab, moisture));
    if (stretch.hours > 0 || isLast) {
      for (const face of climate.faces) {
        if (face.open && face.surface_m_per_s === Number.POSITIVE_INFINITY && stretch.hours > 0)
          steepest = Math.max(steepest, meanOf(slab, moisture) - face.emc_pct);
      }
    }
    const onTo = (until_h: number) => {
      if (target_pct !== undefined && !search && searchFrom_h <= until_h) {
        if (searchFrom_h > now_h) follow(searchFrom_h, climate);
        beginSearch();
      }
      if (until_h > now_h) follow(until_h, climate);
      while (asked.length > 0 && asked[0]! <= now_h) answer(asked.shift()!, climate);
    };
    onTo(end_h);
    if (keep === "profiles") ends.push(snapshot(now_h, slab, moisture.slice(), climate));
    if (isLast && asked.length > 0) onTo(asked.at(-1)!);
    if (isLast && target_pct !== undefined && reached_h === undefined) {
      if (!search) {
        follow(searchFrom_h, climate);
        beginSearch();
      }
      const isSettled = () => hasSettled(moisture, climate, target_pct);
      if (
        reached_h === undefined &&
        search &&
        canReach(moisture, climate, (search as { isDown: boolean }).isDown, target_pct) &&
        !isSettled()
      ) {
        follow(now_h + longest_h, climate, () => reached_h !== undefined || isSettled());
      }
    }
  }
  return {
    means_pct: hours.map((hour) => means.get(hour)!),
    snapshots: keep === "profiles" ? hours.map((hour) => shots.get(hour)!) : [],
    ends,
    begins_pct,
    lowestMean_pct: lowest,
    steepest_pct: steepest,
    ...(reached_h === undefined ? {} : { hoursToTarget: reached_h }),
  };
}

/** Both faces see the same, so both halves do the same. */
function isSymmetric({ faces: [a, b], taken_mm = [0, 0] }: Stretch): boolean {
  const isAlike =
    a.open && b.open ? a.emc_pct === b.emc_pct && a.surface_m_per_s === b.surface_m_per_s : a.open === b.open;
  return isAlike && taken_mm[0] === taken_mm[1];
}

function unfolded(half: Float64Array): Float64Array<ArrayBuffer> {
  const both = new Float64Array(2 * half.length);
  both.set(half);
  both.set(half.slice().reverse(), half.length);
  return both;
}

/** Nearer than this to the equilibrium, percent of moisture, is no target but a limit that is never reached. */
const asGoodAs_pct = 1e-4;

/** A thousand years; nobody waits longer. */
const longest_h = 8_766_000;

/** What the open faces draw to. */
export function drawnTo_pct({ faces }: { readonly faces: readonly [Face, Face] }): readonly number[] {
  return faces.flatMap((face) => (face.open && face.surface_m_per_s > 0 ? [face.emc_pct] : []));
}

/** Wood never leaves the span of what it holds and what it is drawn to, so neither does its mean. */
function canReach(moisture: Float64Array, climate: Climate, isDown: boolean, target_pct: number): boolean {
  const drawn = drawnTo_pct(climate);
  if (drawn.length === 0) return false;
  return isDown
    ? target_pct > Math.min(...drawn, ...moisture) + asGoodAs_pct
    : target_pct < Math.max(...drawn, ...moisture) - asGoodAs_pct;
}

/** No cell is as far from what both faces draw to as the target is; between two unlike faces, no cell moves on. */
function hasSettled(moisture: Float64Array, climate: Climate, target_pct: number): boolean {
  const drawn = drawnTo_pct(climate);
  const [low, high] = [Math.min(...drawn), Math.max(...drawn)];
  const reach_pct = Math.max(Math.min(...drawn.map((emc_pct) => Math.abs(target_pct - emc_pct))), 1e-6);
  if (high - low < 1e-9) return moisture.every((m) => Math.abs(m - low) < reach_pct);
  return isStraight(moisture, climate, low, high);
}

/** Between faces that draw apart the profile ends as a straight line of ∫D·dM: told by the middle cell. */
function isStraight(moisture: Float64Array, { diffusivity }: Climate, low: number, high: number): boolean {
  const { slope_per_pct: s } = diffusivity;
  const mean = (Math.exp(s * low) + Math.exp(s * high)) / 2;
  const middle_pct = s === 0 ? (low + high) / 2 : Math.log(mean) / s;
  const isWithin = moisture.every((m) => m > low - 1e-3 && m < high + 1e-3);
  return isWithin && Math.abs(middleOf(moisture) - middle_pct) < 1e-4;
}

/** Share of a step at which the mean comes to the target. */
function crossing(step: Step, target_pct: number): number {
  let [low, high] = [0, 1];
  const isAbove = step.from_pct >= target_pct;
  for (let i = 0; i < 40; i++) {
    const middle = (low + high) / 2;
    if (step.meanAt(middle) >= target_pct === isAbove) low = middle;
    else high = middle;
  }
  return high;
}

function drierThanMean(slab: Grid, step: Step, climate: Climate): number {
  let most = 0;
  for (const side of [0, 1] as const) {
    const face = climate.faces[side];
    if (!face.open) continue;
    const surface_pct =
      face.surface_m_per_s === Number.POSITIVE_INFINITY ? face.emc_pct : faceValue(slab, step.end(), climate, side);
    most = Math.max(most, step.to_pct - surface_pct);
  }
  return most;
}

export function climateOf(stretch: Stretch, law: DiffusivityLaw, factor: number): Climate {
  return { diffusivity: diffusivityAt(law, factor, stretch.wood_C), faces: stretch.faces };
}

function snapshot(hour: number, slab: Grid, moisture_pct: Float64Array, climate: Climate): Snapshot {
  const second_pct = faceValue(slab, moisture_pct, climate, 1);
  return {
    hour,
    mean_pct: meanOf(slab, moisture_pct),
    surface_pct: faceValue(slab, moisture_pct, climate, 0),
    core_pct: climate.faces[1].open ? middleOf(moisture_pct) : second_pct,
    second_pct,
    moisture_pct,
    slab,
  };
}
