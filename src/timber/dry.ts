import { BadInput, quote } from "../maths/badInput.ts";
import { evenDoubt } from "../maths/statistics/index.ts";
import { checkIndexOf } from "./checkIndex.ts";
import { drawnTo_pct, type Run } from "./course.ts";
import { type DiffusivityLaw, type KnownDiffusivity, knownDiffusivity } from "./diffusivity.ts";
import { bandsOf, type Estimate, estimate, factorEnds, whenReached } from "./estimate.ts";
import { type Spell, spellsOf, stretchesOf, woodOffset_pct } from "./life.ts";
import { driestService_pct, tooFar_pct } from "./overDry.ts";
import type { OwnWood } from "./ownWood.ts";
import { profileOf } from "./profile.ts";
import { stepOf } from "./resolution.ts";

export interface Stage {
  readonly hours: number;
  readonly temperature_C: number;
  readonly humidity_pct?: number;
  /** 95 % half-width of the humidity; 0 where left out: the air is as given. */
  readonly humidityDoubt_pct?: number;
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
  /** In place of the catalogue's: the wood as the shop measured it. */
  readonly wood?: OwnWood;
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
  /** How far above the table's equilibrium this wood comes to rest; 0 where nothing tells. */
  readonly equilibriumOffset_pct: number;
  /** As each stage ends, and what of the change it asked for is still to come. */
  readonly stageEnds: readonly {
    readonly hour: number;
    readonly mean_pct: number;
    readonly surface_pct: number;
    readonly core_pct: number;
    readonly leftUndone: number;
  }[];
  readonly doubt: {
    readonly mean_pct: readonly number[];
    readonly checkIndex: number;
    readonly diffusionFactor: number;
    readonly hoursToTarget?: number;
  };
  readonly notes: readonly string[];
}

const z975 = 1.959963984540054;

/** Before weighings a factor may be anything: this standard deviation of its logarithm. */
const openFactorSd = 2;
/** What the finite volumes themselves may be off, as a share of the oven-dry mass. */
const ownError = 5e-5;
/** Stands where an interval has no upper end: a thousand years. */
const noUpperEnd_h = 8_766_000;

/**
 * How a board dries through its thickness, stage after stage.
 *
 *     ∂M/∂t = ∂/∂z(D(M, T)·∂M/∂z);   open face: −D·∂M/∂n = S·(M − EMC), or M = EMC;   closed face: no flow
 *
 * @returns moistures at the hours asked for (a row of even hours if none are), hours to the target, and an index of
 *   surface checking: elastic strain of the face over the strain at which wood parts
 * @throws BadInput  a wood not described, stages without air, masses that no factor on the diffusivity explains
 * @remarks Heat is taken as through the piece at once. Weighings fit one factor on the diffusivity and, where the air
 *   is given by its humidity, how far this wood comes to rest off the table (doubted by 1 % of moisture or more).
 *   Finite volumes, implicit, within 0.003 % of the series solutions.
 * @source  J. Crank, The Mathematics of Diffusion, chapter 4; W. T. Simpson and J. Y. Liu, Wood and Fiber Science 29(4)
 */
export function dry(question: DryingQuestion): DryingAnswer {
  const known = knownDiffusivity(question);
  requireHours(question);
  const spells = spellsOf(
    question.stages.map((stage, i) => ({ humidityDoubt_pct: 0, ...stage, place: `stage ${i + 1}` })),
    question.thickness_mm,
    known.species?.density_kg_m3 ?? question.density_kg_m3 ?? question.wood?.density_kg_m3,
  );
  const fit = fitted(question, known, spells);
  const total_h = spells.reduce((sum, { hours }) => sum + hours, 0);
  const hours = question.outputs_h ?? Array.from({ length: 49 }, (_, i) => (total_h * i) / 48);
  const bands = bandsOf(fit, hours, question.target_pct === undefined ? {} : { target_pct: question.target_pct });
  const { run } = bands;
  const check = checkIndexOf(run.steepest_pct, known.species);
  const floor_pct = Math.min(question.target_pct ?? driestService_pct + tooFar_pct, question.start_pct) - tooFar_pct;
  const toTarget = judgeTarget(question, fit, run, whenReached(bands));
  const count = question.weighings?.length ?? 0;
  return {
    ...toTarget.state,
    hours,
    mean_pct: run.means_pct,
    surface_pct: run.snapshots.map(({ surface_pct }) => surface_pct),
    core_pct: run.snapshots.map(({ core_pct }) => core_pct),
    profile: profileOf(run.snapshots.at(-1)!),
    overDry: lowestOf(run, hours, question) < floor_pct - 1e-9,
    checkIndex: check.index,
    diffusionFactor: fit.factor,
    equilibriumOffset_pct: woodOffset_pct(fit.wood),
    stageEnds: stageEndsOf(question, fit, run),
    doubt: {
      mean_pct: run.means_pct.map((mean, i) => Math.max(bands.high_pct[i]! - mean, mean - bands.low_pct[i]!)),
      checkIndex: check.doubt,
      diffusionFactor: count > 0 ? factorReach(fit) : fit.factor * (known.doubt - 1),
      ...toTarget.doubt,
    },
    notes: [
      count > 0
        ? `Diffusivity fitted to ${count} weighings: red oak's (or the law given) times ${Number(fit.factor.toPrecision(3))}; ${fitWords(fit, count)}`
        : known.note,
      question.target_pct === undefined
        ? `overDry: the mean fell below ${driestService_pct} %, the driest that usual rooms make of wood.`
        : `overDry: the mean fell more than ${tooFar_pct} % below the target.`,
      ...toTarget.notes,
      check.words,
      "The piece is taken as warm at once, its ends as sealed, and moisture as moving across the thickness only.",
    ],
  };
}

/** Without weighings what is believed before; with them the fit, its start and oven-dry mass taken as exact. */
function fitted(question: DryingQuestion, known: KnownDiffusivity, spells: readonly Spell[]): Estimate {
  const { weighings = [], ovenDry_g = 1, thickness_mm, start_pct } = question;
  const written_g = stepOf(weighings.map(({ mass_g }) => mass_g)) / Math.sqrt(12);
  const fit = estimate({
    law: known.law,
    factor: known.factor,
    factorSd: weighings.length > 0 ? openFactorSd : Math.log(known.doubt) / z975,
    thickness_mm,
    start_pct,
    startSd_pct: 0,
    spells,
    observations: weighings.map(({ hour, mass_g }) => ({ kind: "mass", hour, mass_g, segment: 0 })),
    dry: [{ mass_g: ovenDry_g, sd: 0 }],
    noise_g: Math.hypot(written_g, ownError * ovenDry_g),
  });
  if (
    weighings.length > 0 &&
    (factorSpread(fit) > 0.9 * openFactorSd || Math.abs(Math.log(fit.factor / known.factor)) > 7)
  ) {
    const read_pct = weighings.slice(0, 5).map(({ mass_g }) => (100 * (mass_g / ovenDry_g - 1)).toFixed(2));
    throw new BadInput(
      "weighings",
      `moisture ${read_pct.join(", ")} %`,
      "masses that some speed of drying in these stages explains, at least one after hour 0",
      "check ovenDry_g, start_pct and the stages against the masses",
    );
  }
  return fit;
}

function factorSpread({ posterior, doubted, model }: Estimate): number {
  const i = doubted.indexOf("factor");
  return i < 0 ? 0 : model.factorSd * Math.hypot(...posterior.axes.map((axis) => axis[i]!));
}

function factorReach(fit: Estimate): number {
  const { low, high } = factorEnds(fit);
  return evenDoubt(fit.factor, low, high);
}

function fitWords({ posterior, model, excess, wood, doubted }: Estimate, count: number): string {
  const worst_g = Math.max(...posterior.left.map(Math.abs)) * model.noise_g * excess;
  const worst_pct = (100 * worst_g) / model.dry[0]!.mass_g;
  return [
    `masses lie within ${worst_pct.toFixed(2)} % moisture of the fit${excess > 1 && count > 1 ? ", further than their last digit explains, which widens the doubt" : ""}.`,
    ...(doubted.includes("wood") && Math.abs(wood) > 1
      ? [`They say that this wood comes to rest off the table, or that the air was not as given.`]
      : []),
    "ovenDry_g and start_pct are taken as exact.",
  ].join(" ");
}

function stageEndsOf({ stages, start_pct }: DryingQuestion, { model, wood }: Estimate, { ends }: Run) {
  let before = start_pct;
  return stages.map((_, i) => {
    const { mean_pct, surface_pct, core_pct } = ends[i]!;
    const hour = stages.slice(0, i + 1).reduce((sum, { hours }) => sum + hours, 0);
    const drawn = drawnTo_pct(stretchesOf([model.spells[i]!], { wood, air: 0, logCoat: 0 })[0]!);
    const asked = before - (drawn[0] ?? before);
    const leftUndone = Math.abs(asked) < 0.5 ? 0 : Math.max(0, (mean_pct - drawn[0]!) / asked);
    before = mean_pct;
    return { hour, mean_pct, surface_pct, core_pct, leftUndone };
  });
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
  weighings?.forEach(({ mass_g, hour }, i) => {
    if (!(mass_g >= ovenDry_g!)) {
      throw new BadInput(
        `weighings[${i}].mass_g`,
        quote(mass_g),
        `the oven-dry mass, ${ovenDry_g} g, or more`,
        "check this mass and ovenDry_g",
      );
    }
    const before = i > 0 ? weighings[i - 1]!.hour : 0;
    if (!(hour >= before)) {
      throw new BadInput(
        `weighings[${i}].hour`,
        quote(hour),
        `${before} or later, in the order of time`,
        "check when this weighing was made",
      );
    }
  });
}

function judgeTarget(question: DryingQuestion, fit: Estimate, run: Run, when: ReturnType<typeof whenReached>) {
  const { target_pct } = question;
  if (target_pct === undefined) return { state: { state: "solved" as const }, doubt: {}, notes: [] };
  if (!when) {
    const reason = `hoursToTarget is undecided: ${whyNever(question, fit, target_pct)}`;
    return { state: { state: "undecided" as const, reason }, doubt: {}, notes: [] };
  }
  const { hours, low_h, high_h } = when;
  return {
    state: { state: "solved" as const, hoursToTarget: run.hoursToTarget! },
    doubt: { hoursToTarget: high_h === undefined ? noUpperEnd_h : evenDoubt(hours, low_h, high_h) },
    notes:
      high_h === undefined
        ? [
            `hoursToTarget has no upper end (its doubt stands at ${noUpperEnd_h} h): within what is doubted of wood and air the mean may never come to ${target_pct} %.`,
          ]
        : [],
  };
}

function whyNever({ start_pct, stages }: DryingQuestion, { model, wood }: Estimate, target_pct: number): string {
  if (stages.at(-1)!.surface_m_per_s === 0) return "the face of the last stage lets nothing pass.";
  const drawn = drawnTo_pct(stretchesOf([model.spells.at(-1)!], { wood, air: 0, logCoat: 0 })[0]!);
  const goes_pct = Number(drawn[0]!.toFixed(2));
  const liesBeyond = start_pct >= target_pct ? target_pct <= drawn[0]! + 1e-4 : target_pct >= drawn[0]! - 1e-4;
  return liesBeyond
    ? `the mean never comes to ${target_pct} %; in the last stage it goes to ${goes_pct} %. Change that stage's air, or the target.`
    : `the mean would take more than a thousand years to ${target_pct} %. Warm the last stage, or thin the piece.`;
}

/** The lowest mean up to the last hour asked for; the search for the target may have gone on beyond. */
function lowestOf(run: Run, hours: readonly number[], { start_pct, target_pct }: DryingQuestion): number {
  const isBeyond = run.hoursToTarget !== undefined && run.hoursToTarget > Math.max(...hours);
  const shown = Math.min(start_pct, ...run.means_pct);
  return isBeyond || target_pct !== undefined ? shown : Math.min(shown, run.lowestMean_pct);
}
