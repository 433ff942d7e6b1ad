import { BadInput, quote } from "../maths/badInput.ts";
import { tQuantile } from "../maths/statistics/index.ts";
import { type DiffusivityLaw, type KnownDiffusivity, knownDiffusivity } from "./diffusivity.ts";
import { type Course, type DryRun, dryRun, type Snapshot, type Stretch } from "./dryRun.ts";
import { emcDoubt_pct, equilibriumMoisture_pct } from "./emc.ts";
import type { Grid } from "./slab.ts";
import { partingStrain, tangentialOf } from "./strength.ts";

export interface Stage {
  readonly hours: number;
  readonly temperature_C: number;
  readonly humidity_pct?: number;
  /** In place of the humidity. */
  readonly emc_pct?: number;
  readonly faces: "both" | "one";
  readonly surface_m_per_s?: number;
}

export interface Weighing {
  readonly hour: number;
  readonly mass_g: number;
}

export interface DryingQuestion {
  readonly species?: string;
  readonly density_kg_m3?: number;
  readonly diffusionFactor?: number;
  readonly diffusivity?: DiffusivityLaw;
  readonly thickness_mm: number;
  readonly start_pct: number;
  readonly stages: readonly Stage[];
  readonly weighings?: readonly Weighing[];
  readonly ovenDry_g?: number;
  readonly target_pct?: number;
  readonly outputs_h?: readonly number[];
}

export interface DryingAnswer {
  readonly state: "solved" | "undecided";
  readonly reason?: string;
  readonly hours: readonly number[];
  readonly mean_pct: readonly number[];
  readonly surface_pct: readonly number[];
  readonly core_pct: readonly number[];
  readonly profile: readonly { readonly z_mm: number; readonly moisture_pct: number }[];
  readonly hoursToTarget?: number;
  readonly overDry: boolean;
  readonly checkIndex: number;
  readonly diffusionFactor: number;
  readonly doubt: {
    readonly mean_pct: readonly number[];
    readonly checkIndex: number;
    readonly diffusionFactor: number;
    readonly hoursToTarget?: number;
  };
  readonly notes: readonly string[];
}

/** Driest moisture of any usual room; a piece below it has gone too far. */
const driestService_pct = 5;
const tooFar_pct = 1;

/**
 * How a board dries through its thickness, stage after stage.
 *
 *     ∂M/∂t = ∂/∂z(D(M, T)·∂M/∂z);   open face: −D·∂M/∂n = S·(M − EMC), or M = EMC;   closed face: no flow
 *
 * @returns moistures at the hours asked for (a row of even hours if none are), hours to the target, and an index of
 *   surface checking: elastic strain of the face over the strain at which wood parts
 * @throws BadInput  a wood not described, stages without air, masses that no factor on the diffusivity explains
 * @remarks Heat is taken as through the piece at once. Weighings fit one factor on the diffusivity by least squares.
 *   Finite volumes, implicit and extrapolated, within 0.003 % of the series solutions.
 * @source  J. Crank, The Mathematics of Diffusion, chapter 4; W. T. Simpson and J. Y. Liu, Wood and Fiber Science 29(4)
 */
export function dry(question: DryingQuestion): DryingAnswer {
  const known = knownDiffusivity(question);
  const course = courseOf(question, known);
  const fit = question.weighings?.length ? fitFactor(course, question, known) : undefined;
  const factor = fit?.factor ?? known.factor;
  const total_h = course.stretches.reduce((sum, { hours }) => sum + hours, 0);
  const hours = question.outputs_h ?? Array.from({ length: 49 }, (_, i) => (total_h * i) / 48);
  const run = dryRun(course, factor, hours);
  const others = neighbours(course, question, factor, fit?.spread ?? Math.log(known.doubt), hours);

  const check = checkIndex(run, known);
  const toTarget = judgeTarget(course, run, others);
  const floor_pct = Math.min(question.target_pct ?? driestService_pct + tooFar_pct, question.start_pct) - tooFar_pct;
  return {
    ...toTarget.state,
    hours,
    mean_pct: run.snapshots.map(({ mean_pct }) => mean_pct),
    surface_pct: run.snapshots.map(({ surface_pct }) => surface_pct),
    core_pct: run.snapshots.map(({ core_pct }) => core_pct),
    profile: profileOf(run.slab, run.snapshots.at(-1)!),
    overDry: lowestOf(run, hours, course) < floor_pct - 1e-9,
    checkIndex: check.index,
    diffusionFactor: factor,
    doubt: {
      mean_pct: run.snapshots.map(({ mean_pct }, i) =>
        Math.hypot(
          ...others.map((pair) => Math.max(...pair.map((other) => Math.abs(other.snapshots[i]!.mean_pct - mean_pct)))),
        ),
      ),
      checkIndex: check.doubt,
      diffusionFactor: fit ? factor * Math.sinh(Math.min(fit.spread, 20)) : factor * (known.doubt - 1),
      ...toTarget.doubt,
    },
    notes: [
      fit
        ? `Diffusivity fitted to ${question.weighings!.length} weighings: red oak's (or the law given) times ${Number(factor.toPrecision(3))}; ${fit.words}`
        : known.note,
      question.target_pct === undefined
        ? `overDry: the mean fell below ${driestService_pct} %, the driest that usual rooms make of wood.`
        : `overDry: the mean fell more than ${tooFar_pct} % below the target.`,
      "checkIndex: most that the face wanted to shrink beyond the mean, over the strain at which wood parts; elastic, so a number to rank by, not a chance. Creep relieves a large part; which board cracks cannot be told.",
      "The piece is taken as warm at once, its ends as sealed, and moisture as moving across the thickness only.",
    ],
  };
}

function checkIndex(run: DryRun, { species }: KnownDiffusivity): { index: number; doubt: number } {
  const [movement, strain] = [tangentialOf(species), partingStrain(species)];
  const index = (run.steepest_pct * movement.value) / strain.value;
  const spread = Math.hypot(
    (movement.high - movement.low) / (2 * movement.value),
    (strain.high - strain.low) / (2 * strain.value),
  );
  return { index, doubt: index * spread };
}

function courseOf(question: DryingQuestion, { law }: KnownDiffusivity, emcShift = 0): Course {
  const { thickness_mm, start_pct, stages, target_pct } = question;
  if (stages.length === 0)
    throw new BadInput("stages", "none", "at least one", "give the air that the piece stands in");
  requireHours(question);
  return {
    thickness_mm,
    start_pct,
    law,
    ...(target_pct === undefined ? {} : { target_pct }),
    stretches: stages.map((stage, i): Stretch => {
      const emc_pct = stage.emc_pct ?? emcOf(stage, i);
      const shift = stage.emc_pct === undefined ? emcShift * emcDoubt_pct(emc_pct) : 0;
      return {
        hours: stage.hours,
        temperature_C: stage.temperature_C,
        faces: stage.faces,
        emc_pct: Math.max(0, emc_pct + shift),
        surface_m_per_s: stage.surface_m_per_s ?? Number.POSITIVE_INFINITY,
      };
    }),
  };
}

function emcOf({ temperature_C, humidity_pct }: Stage, i: number): number {
  if (humidity_pct === undefined) {
    throw new BadInput(
      `stages[${i}].humidity_pct`,
      "nothing",
      "humidity_pct or emc_pct",
      "give the air's relative humidity",
    );
  }
  try {
    return equilibriumMoisture_pct(temperature_C, humidity_pct);
  } catch (fault) {
    throw fault instanceof BadInput ? BadInput.at(`stages[${i}].${fault.path}`, fault) : fault;
  }
}

function requireHours({ outputs_h, weighings, ovenDry_g }: DryingQuestion): void {
  outputs_h?.forEach((hour, i) => {
    if (!(hour >= 0 && hour < Number.POSITIVE_INFINITY)) {
      throw new BadInput(`outputs_h[${i}]`, quote(hour), "0 or more", "count hours from the start of the first stage");
    }
  });
  if (weighings?.length && ovenDry_g === undefined) {
    throw new BadInput(
      "ovenDry_g",
      "nothing",
      "the oven-dry mass, where there are weighings",
      "dry an offcut at 103 °C and scale it to the piece",
    );
  }
  weighings?.forEach(({ mass_g }, i) => {
    if (mass_g >= ovenDry_g!) return;
    throw new BadInput(
      `weighings[${i}].mass_g`,
      quote(mass_g),
      `the oven-dry mass, ${ovenDry_g} g, or more`,
      "check this mass and ovenDry_g",
    );
  });
}

/** Runs that the doubt is read from, in pairs: diffusivity lower and higher, equilibrium lower and higher. */
function neighbours(
  course: Course,
  question: DryingQuestion,
  factor: number,
  spread: number,
  hours: readonly number[],
): DryRun[][] {
  const bounded = Math.min(spread, 3);
  const byFactor =
    spread > 0
      ? [dryRun(course, factor * Math.exp(-bounded), hours), dryRun(course, factor * Math.exp(bounded), hours)]
      : [];
  const known = { law: course.law } as KnownDiffusivity;
  const hasAir = question.stages.some((stage) => stage.emc_pct === undefined);
  const byAir = hasAir ? [-1, 1].map((shift) => dryRun(courseOf(question, known, shift), factor, hours)) : [];
  return [byFactor, byAir].filter((pair) => pair.length > 0);
}

function judgeTarget(course: Course, run: DryRun, others: readonly (readonly DryRun[])[]) {
  const { target_pct, stretches } = course;
  if (target_pct === undefined) return { state: { state: "solved" as const }, doubt: {} };
  if (run.hoursToTarget === undefined) {
    const reason = `hoursToTarget is undecided: ${whyNever(course, stretches.at(-1)!, target_pct)}`;
    return { state: { state: "undecided" as const, reason }, doubt: {} };
  }
  const reached = run.hoursToTarget;
  const far = others.map((pair) =>
    Math.max(...pair.map((other) => Math.abs((other.hoursToTarget ?? reached) - reached))),
  );
  return {
    state: { state: "solved" as const, hoursToTarget: reached },
    doubt: { hoursToTarget: Math.hypot(0, ...far) },
  };
}

function whyNever({ start_pct }: Course, last: Stretch, target_pct: number): string {
  if (last.surface_m_per_s === 0) return "the face of the last stage lets nothing pass.";
  const goes_pct = Number(last.emc_pct.toFixed(2));
  const liesBeyond = start_pct >= target_pct ? target_pct <= last.emc_pct + 1e-4 : target_pct >= last.emc_pct - 1e-4;
  return liesBeyond
    ? `the mean never comes to ${target_pct} %; in the last stage it goes to ${goes_pct} %. Change that stage's air, or the target.`
    : `the mean would take more than a thousand years to ${target_pct} %. Warm the last stage, or thin the piece.`;
}

/** The lowest mean up to the last hour asked for; the search for the target may have gone on beyond. */
function lowestOf(run: DryRun, hours: readonly number[], course: Course): number {
  const isBeyond = run.hoursToTarget !== undefined && run.hoursToTarget > Math.max(...hours);
  const shown = Math.min(course.start_pct, ...run.snapshots.map(({ mean_pct }) => mean_pct));
  return isBeyond || course.target_pct !== undefined ? shown : Math.min(shown, run.lowestMean_pct);
}

function profileOf(slab: Grid, { moisture_pct, surface_pct, closed_pct }: Snapshot) {
  const { centre_m, thickness_m } = slab;
  const z = [0, ...centre_m, thickness_m];
  const m = [surface_pct, ...moisture_pct, closed_pct];
  return Array.from({ length: 41 }, (_, i) => {
    const at = (thickness_m * i) / 40;
    const next = Math.max(
      1,
      z.findIndex((place) => place >= at * (1 - 1e-12)),
    );
    const share = (at - z[next - 1]!) / (z[next]! - z[next - 1]!);
    return { z_mm: 1000 * at, moisture_pct: m[next - 1]! + share * (m[next]! - m[next - 1]!) };
  });
}

/** Least squares of the logarithm of the factor, Gauss and Newton with halved steps. */
function fitFactor(course: Course, { weighings = [], ovenDry_g }: DryingQuestion, known: KnownDiffusivity) {
  const { target_pct: _, ...untargeted } = course;
  const hours = weighings.map(({ hour }) => hour);
  const read_pct = weighings.map(({ mass_g }) => 100 * (mass_g / ovenDry_g! - 1));
  const misses = (log: number) =>
    dryRun(untargeted, Math.exp(log), hours).snapshots.map(({ mean_pct }, i) => mean_pct - read_pct[i]!);
  const squares = (left: readonly number[]) => left.reduce((sum, one) => sum + one * one, 0);

  const start = Math.log(known.factor);
  let best = [-4, -2, 0, 2, 4]
    .map((shift) => ({ log: start + shift, left: misses(start + shift) }))
    .reduce((a, b) => (squares(b.left) < squares(a.left) ? b : a));
  let information = 0;
  for (let round = 0; round < 12; round++) {
    const slope = misses(best.log + 0.02).map((one, i) => (one - best.left[i]!) / 0.02);
    information = squares(slope);
    if (information < 1e-8) break;
    let step = Math.max(
      -1.5,
      Math.min(1.5, -best.left.reduce((sum, one, i) => sum + one * slope[i]!, 0) / information),
    );
    let next = { log: best.log + step, left: misses(best.log + step) };
    while (squares(next.left) > squares(best.left) && Math.abs(step) > 1e-4) {
      step /= 2;
      next = { log: best.log + step, left: misses(best.log + step) };
    }
    if (squares(next.left) > squares(best.left)) break;
    best = next;
    if (Math.abs(step) < 1e-5) break;
  }
  if (information < 1e-8 || Math.abs(best.log - start) > 7) {
    throw new BadInput(
      "weighings",
      `moisture ${read_pct
        .slice(0, 5)
        .map((one) => one.toFixed(2))
        .join(", ")} %`,
      "masses that some speed of drying in these stages explains, at least one after hour 0",
      "check ovenDry_g, start_pct and the stages against the masses",
    );
  }
  const freedom = weighings.length - 1;
  const scale_pct = (100 * stepOf(weighings.map(({ mass_g }) => mass_g))) / Math.sqrt(12) / ovenDry_g!;
  const scatter_pct = freedom > 0 ? Math.sqrt(squares(best.left) / freedom) : 0;
  const reach = Math.max(freedom > 0 ? tQuantile(0.975, freedom) * scatter_pct : 0, 1.96 * scale_pct);
  return {
    factor: Math.exp(best.log),
    spread: reach / Math.sqrt(information),
    words: `masses lie within ${Math.max(...best.left.map(Math.abs)).toFixed(2)} % moisture of the fit. ovenDry_g and start_pct are taken as exact.`,
  };
}

/** The step that all masses are multiples of, from how they are written: 0.1 g for 512.3 and 508.9. */
function stepOf(masses: readonly number[]): number {
  for (const step of [1, 0.1, 0.01, 0.001]) {
    if (masses.every((mass) => Math.abs(mass / step - Math.round(mass / step)) < 1e-6)) return step;
  }
  return 0.0001;
}
