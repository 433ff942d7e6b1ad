import { BadInput, quote } from "../maths/badInput.ts";
import { checkIndexOf, type PastPieces } from "./checkIndex.ts";
import { drawnTo_pct, type Run, type Snapshot } from "./course.ts";
import { type DiffusivityLaw, type KnownDiffusivity, knownDiffusivity } from "./diffusivity.ts";
import { type Bands, bandsOf, type Estimate, estimate, factorEnds, type Observation, whenReached } from "./estimate.ts";
import type { Hands } from "./hands.ts";
import { type LifeStage, type Spell, spellsOf, stretchesOf, woodOffset_pct } from "./life.ts";
import { candidateHours, type NextWeighing, nextWeighing, weighingsUntil_h } from "./nextWeighing.ts";
import { driestService_pct, tooFar_pct } from "./overDry.ts";
import type { OwnWood } from "./ownWood.ts";
import { profileOf } from "./profile.ts";
import { stepOf } from "./resolution.ts";

export interface PieceWeighing {
  /** From the beginning of the first stage. */
  readonly hour: number;
  readonly mass_g: number;
  /** Taken just after the piece was machined, cut or coated at that hour, not just before. */
  readonly after?: boolean;
}

export interface PieceQuestion {
  readonly species?: string;
  /** In place of the catalogue's: the wood as the shop measured it. */
  readonly wood?: OwnWood;
  readonly density_kg_m3?: number;
  readonly diffusionFactor?: number;
  readonly diffusivity?: DiffusivityLaw;
  /** As the first stage begins. */
  readonly thickness_mm: number;
  readonly start_pct?: number;
  /** 95 % half-width. */
  readonly startDoubt_pct?: number;
  /** Past and planned, one after another; the last goes on. */
  readonly stages: readonly LifeStage[];
  readonly weighings?: readonly PieceWeighing[];
  /** 95 % half-width of one weighing; from how masses are written where left out. */
  readonly balance_g?: number;
  /** Of the whole piece as the first stage begins. */
  readonly ovenDry_g?: number;
  readonly ovenDryDoubt_g?: number;
  /** An offcut of the piece, weighed at that hour and dried in the oven. */
  readonly offcut?: { readonly hour: number; readonly wet_g: number; readonly dry_g: number };
  readonly target_pct?: number;
  /** The present; the last weighing where left out. */
  readonly now_h?: number;
  readonly outputs_h?: readonly number[];
  /** When someone is there to weigh it; any hour where left out. */
  readonly hands?: Hands;
  readonly past?: PastPieces;
}

export interface StageEnd {
  readonly place: string;
  readonly hour: number;
  readonly mean_pct: number;
  readonly surface_pct: number;
  readonly core_pct: number;
  /** Of the change that the stage asked for as it began, the share still to come; 0 where it asked under half a percent. */
  readonly leftUndone: number;
}

export interface PieceAnswer {
  readonly state: "fitted" | "approach" | "unweighed";
  readonly reason?: string;
  readonly now: {
    readonly hour: number;
    readonly mean_pct: number;
    readonly low_pct: number;
    readonly high_pct: number;
    readonly surface_pct: number;
    readonly core_pct: number;
    /** Core over skin: what a weighing cannot see. */
    readonly lag_pct: number;
  };
  readonly hours: readonly number[];
  readonly mean_pct: readonly number[];
  readonly low_pct: readonly number[];
  readonly high_pct: readonly number[];
  readonly surface_pct: readonly number[];
  readonly core_pct: readonly number[];
  /** Through the thickness, now. */
  readonly profile: readonly { readonly z_mm: number; readonly moisture_pct: number }[];
  readonly thickness_mm: number;
  readonly stageEnds: readonly StageEnd[];
  readonly hoursToTarget?: number;
  readonly targetLow_h?: number;
  readonly targetHigh_h?: number;
  readonly approach?: {
    readonly rest_g: number;
    readonly low_g: number;
    readonly high_g: number;
    /** Of the change since the present stage began, the share done. */
    readonly doneShare: number;
  };
  readonly ovenDry_g?: number;
  readonly diffusionFactor: number;
  readonly factorLow: number;
  readonly factorHigh: number;
  /** How far this wood comes to rest above the table, at 8 % or so. */
  readonly equilibriumOffset_pct: number;
  readonly overDry: boolean;
  readonly checkIndex: number;
  /** Share of the shop's past pieces of the species that stayed below this index. */
  readonly checkRank?: number;
  readonly checkChance?: {
    readonly value: number;
    readonly low: number;
    readonly high: number;
    readonly pieces: number;
  };
  readonly masses: readonly {
    readonly hour: number;
    readonly mass_g: number;
    readonly expected_g: number;
    readonly moisture_pct: number;
  }[];
  readonly aside: readonly {
    readonly weighing: number;
    readonly hour: number;
    readonly mass_g: number;
    readonly why: string;
  }[];
  readonly nextWeighing?: NextWeighing;
  readonly doubt: {
    readonly mean_pct: readonly number[];
    readonly now_pct: number;
    readonly hoursToTarget?: number;
    readonly ovenDry_g?: number;
    readonly checkIndex: number;
  };
  readonly notes: readonly string[];
}

const z975 = 1.959963984540054;

/** What a judgement of a wood's diffusivity is worth before a piece is weighed: 95 % within a factor of four. */
const factorSd = Math.log(4) / z975;

/** A start that nobody measured: shop-dry timber, 95 % half-width. */
const unknownStart = { start_pct: 12, doubt_pct: 8 } as const;

/** What the finite volumes and the cutting of logs may be off, as a share of the oven-dry mass. */
const ownError = 7e-5;

/** An offcut stands for its board to this, 95 % (common practice, no source). */
const offcutDoubt_pct = 0.5;

/**
 * What a piece holds now and will hold, from its own weighings and the places where it stood.
 *
 *     mass = oven-dry·(1 + M/100);   M by diffusion through the thickness, stage after stage
 *     fitted together: the factor on the diffusivity, the wood's and the logger's offset from the table's equilibrium,
 *     coats, the moisture at the start, the oven-dry mass; each with what is believed of it before
 *
 * @returns moisture with 95 % ends, skin and core, hours to the target, and what each stage leaves undone; `approach`
 *   where no oven-dry mass is known: then only how near it is to rest
 * @throws BadInput  a wood not described, a stage without air, thickness not above 0. Weighings that cannot be are kept
 *   aside, each with its reason, and the others are used
 */
export function pieceOf(question: PieceQuestion): PieceAnswer {
  const { known, spells, begins, estimate: fitted, usable, aside } = fitPiece(question);
  const total_h = begins.at(-1)!;
  const now_h = question.now_h ?? usable.at(-1)?.weighing.hour ?? total_h;
  const outputs = question.outputs_h ?? Array.from({ length: 49 }, (_, i) => (Math.max(total_h, now_h) * i) / 48);
  const candidates = candidateHours(now_h, weighingsUntil_h(now_h, total_h), question.hands);
  const hours = [...outputs, now_h, ...usable.map(hourOf), ...candidates];
  const aim = question.target_pct === undefined ? {} : { target_pct: question.target_pct, searchFrom_h: now_h };
  const bands = bandsOf(fitted, hours, aim);
  const count = outputs.length;
  const shots = bands.run.snapshots.slice(0, count);
  const now = bands.run.snapshots[count]!;
  const isDryKnown = question.ovenDry_g !== undefined || question.offcut !== undefined;
  const state = usable.length === 0 ? "unweighed" : isDryKnown ? "fitted" : "approach";
  const lowest = [now.surface_pct, now.core_pct, now.second_pct];
  const check = checkIndexOf(bands.run.steepest_pct, known.species, question.past);
  const target = targetOf(question, bands, state, now_h, spells, fitted);
  const lag_pct = now.core_pct - Math.min(now.surface_pct, now.second_pct);
  const segment = segmentAt(question.stages, begins, now_h);
  const dry_g = fitted.dry_g[segment];
  const half = (i: number) => (bands.high_pct[i]! - bands.low_pct[i]!) / 2;
  const next = nextWeighing(fitted, bands, { hours: candidates, first: count + 1 + usable.length, segment });
  const factors = factorEnds(fitted);
  const floor_pct =
    Math.min(question.target_pct ?? driestService_pct + tooFar_pct, bands.run.means_pct[0] ?? 100) - tooFar_pct;
  const wet = Math.max(...lowest);
  return {
    state,
    ...(state === "approach"
      ? {
          reason:
            "only the approach is known: without an oven-dry mass weighings tell how near the piece is to rest, not its moisture. Dry an offcut of this board at 103 °C.",
        }
      : target.reason === undefined
        ? {}
        : { reason: target.reason }),
    now: {
      hour: now_h,
      mean_pct: now.mean_pct,
      low_pct: bands.low_pct[count]!,
      high_pct: bands.high_pct[count]!,
      surface_pct: now.surface_pct,
      core_pct: now.core_pct,
      lag_pct,
    },
    hours: outputs,
    mean_pct: shots.map(({ mean_pct }) => mean_pct),
    low_pct: bands.low_pct.slice(0, count),
    high_pct: bands.high_pct.slice(0, count),
    surface_pct: shots.map(({ surface_pct }) => surface_pct),
    core_pct: shots.map(({ core_pct }) => core_pct),
    profile: profileOf(now),
    thickness_mm: 1000 * now.slab.thickness_m,
    stageEnds: stageEndsOf(question.stages, spells, bands.run, fitted),
    ...target.figures,
    ...(usable.length > 0 && dry_g !== undefined
      ? { approach: approachOf(bands, spells, fitted, segment, now, begins, question.stages) }
      : {}),
    ...(isDryKnown && dry_g !== undefined ? { ovenDry_g: dry_g } : {}),
    diffusionFactor: fitted.factor,
    factorLow: factors.low,
    factorHigh: factors.high,
    equilibriumOffset_pct: woodOffset_pct(fitted.wood),
    overDry: Math.min(...shots.map(({ mean_pct }) => mean_pct), now.mean_pct) < floor_pct - 1e-9,
    checkIndex: check.index,
    ...(check.rank === undefined ? {} : { checkRank: check.rank }),
    ...(check.chance === undefined ? {} : { checkChance: check.chance }),
    masses: usable.map((one, i) => {
      const dry = fitted.dry_g[one.segment]!;
      const mean = bands.run.means_pct[count + 1 + i]!;
      return {
        hour: one.weighing.hour,
        mass_g: one.weighing.mass_g,
        expected_g: dry * (1 + mean / 100),
        moisture_pct: 100 * (one.weighing.mass_g / dry - 1),
      };
    }),
    aside,
    ...(next ? { nextWeighing: next } : {}),
    doubt: {
      mean_pct: outputs.map((_, i) => half(i)),
      now_pct: half(count),
      ...target.doubt,
      ...(isDryKnown && dry_g !== undefined ? { ovenDry_g: dryDoubt(bands, dry_g, segment) } : {}),
      checkIndex: check.doubt,
    },
    notes: notesOf(question, fitted, usable.length, lag_pct, wet, known.note, check.words, target.notes),
  };
}

/** A piece's estimate with what it rests on; the weighings that were used, and those kept aside. */
export interface PieceFit {
  readonly known: KnownDiffusivity;
  readonly spells: readonly Spell[];
  readonly begins: readonly number[];
  readonly estimate: Estimate;
  readonly usable: readonly Kept[];
  readonly aside: PieceAnswer["aside"];
}

export function fitPiece(question: PieceQuestion): PieceFit {
  const known = knownDiffusivity(question);
  const density_kg_m3 = known.species?.density_kg_m3 ?? question.density_kg_m3 ?? question.wood?.density_kg_m3;
  const spells = spellsOf(question.stages, question.thickness_mm, density_kg_m3);
  const begins = beginsOf(question.stages);
  const { kept, aside } = sift(question);
  const best = fitBest(question, known.law, known.factor, spells, begins, kept);
  const usable = kept.filter((one) => one !== best.dropped?.weighing);
  if (best.dropped) aside.push(entry(best.dropped.weighing, best.dropped.why));
  return {
    known,
    spells,
    begins,
    estimate: best.estimate,
    usable,
    aside: aside.sort((a, b) => a.weighing - b.weighing),
  };
}

export interface Kept {
  readonly index: number;
  readonly weighing: PieceWeighing;
  readonly segment: number;
}

const hourOf = ({ weighing }: Kept) => weighing.hour + (weighing.after ? justAfter_h : 0);

/** So long after a change counts as just after it. */
const justAfter_h = 1e-4;

function entry({ index, weighing }: Kept, why: string) {
  return { weighing: index, hour: weighing.hour, mass_g: weighing.mass_g, why };
}

/** Hours at which the stages begin, and the end of the last. */
function beginsOf(stages: readonly LifeStage[]): number[] {
  const begins = [0];
  for (const { hours } of stages) begins.push(begins.at(-1)! + hours);
  return begins;
}

/** The piece's dry mass is another after each stage that machines, cuts or coats it. */
function changes(stage: LifeStage): boolean {
  return (
    stage.massChanged === true ||
    stage.machinedTo_mm !== undefined ||
    stage.taken_mm !== undefined ||
    (stage.coats?.length ?? 0) > 0
  );
}

export function segmentAt(stages: readonly LifeStage[], begins: readonly number[], hour: number): number {
  return stages.filter((stage, i) => i > 0 && changes(stage) && begins[i]! < hour).length;
}

/** Weighings that can be, in the order of time, and those kept aside. */
function sift(question: PieceQuestion) {
  const kept: Kept[] = [];
  const aside: { weighing: number; hour: number; mass_g: number; why: string }[] = [];
  const begins = beginsOf(question.stages);
  const floor_g = (question.ovenDry_g ?? 0) - (question.ovenDryDoubt_g ?? 0);
  (question.weighings ?? []).forEach((weighing, index) => {
    const one: Kept = {
      index,
      weighing,
      segment: segmentAt(question.stages, begins, weighing.hour + (weighing.after ? justAfter_h : 0)),
    };
    const before = kept.at(-1)?.weighing.hour ?? 0;
    const put = (why: string) => aside.push(entry(one, why));
    if (!(weighing.mass_g > 0)) put("a mass is above 0");
    else if (!(weighing.hour >= 0)) put("it lies before the first stage");
    else if (weighing.hour < before)
      put(`out of order: hour ${weighing.hour} stands after hour ${before}; check its time`);
    else if (one.segment === 0 && weighing.mass_g < floor_g)
      put(`below the oven-dry mass, ${question.ovenDry_g} g; check this mass and ovenDry_g`);
    else kept.push(one);
  });
  return { kept, aside };
}

const mostSuspects = 8;

/** The fit of all weighings; where they cannot agree and one alone is the cause, without that one. */
function fitBest(
  question: PieceQuestion,
  law: DiffusivityLaw,
  factor: number,
  spells: readonly Spell[],
  begins: readonly number[],
  kept: readonly Kept[],
): { estimate: Estimate; dropped?: { weighing: Kept; why: string } } {
  const fitted = (some: readonly Kept[]) => estimate(modelOf(question, law, factor, spells, begins, some));
  const all = fitted(kept);
  if (all.chance > 0.001 || kept.length < 4) return { estimate: all };
  // A slip lies far off in the fit of all, too: only those furthest off are tried.
  const apart = (one: Kept) => Math.abs(all.posterior.left[kept.indexOf(one)]!);
  const suspects = [...kept].sort((a, b) => apart(b) - apart(a)).slice(0, mostSuspects);
  const without = suspects.map((one) => ({ one, fit: fitted(kept.filter((other) => other !== one)) }));
  const best = without.reduce((a, b) => (b.fit.chance > a.fit.chance ? b : a));
  const second = Math.max(0, ...without.filter((one) => one !== best).map((one) => one.fit.chance));
  if (best.fit.chance < 0.05 || second > 0.02) return { estimate: all };
  const expected = bandsOf(best.fit, [hourOf(best.one)]).run.means_pct[0]!;
  const mass_g = best.fit.dry_g[best.one.segment]! * (1 + expected / 100);
  return {
    estimate: best.fit,
    dropped: { weighing: best.one, why: `all other weighings agree on ${mass_g.toFixed(1)} g; check it for a slip` },
  };
}

function modelOf(
  question: PieceQuestion,
  law: DiffusivityLaw,
  factor: number,
  spells: readonly Spell[],
  begins: readonly number[],
  kept: readonly Kept[],
) {
  const start_pct = question.start_pct ?? unknownStart.start_pct;
  const startDoubt = question.startDoubt_pct ?? (question.start_pct === undefined ? unknownStart.doubt_pct : 2);
  const observations: Observation[] = kept.map((one) => ({
    kind: "mass",
    hour: hourOf(one),
    mass_g: one.weighing.mass_g,
    segment: one.segment,
  }));
  const { offcut } = question;
  if (offcut) {
    if (!(offcut.dry_g > 0 && offcut.wet_g >= offcut.dry_g)) {
      throw new BadInput(
        "offcut.dry_g",
        quote(offcut.dry_g),
        `above 0, at most its mass before the oven, ${offcut.wet_g} g`,
        "check both masses of the offcut",
      );
    }
    observations.push({
      kind: "moisture",
      hour: offcut.hour,
      moisture_pct: 100 * (offcut.wet_g / offcut.dry_g - 1),
      sd_pct: offcutDoubt_pct / z975,
    });
  }
  const segments = segmentAt(question.stages, begins, Number.POSITIVE_INFINITY) + 1;
  const dry = Array.from({ length: segments }, (_, segment) => {
    if (segment === 0 && question.ovenDry_g !== undefined) {
      const doubt_g = question.ovenDryDoubt_g ?? 0.001 * question.ovenDry_g;
      return { mass_g: question.ovenDry_g, sd: doubt_g / z975 / question.ovenDry_g };
    }
    const first = kept.find((one) => one.segment === segment);
    return { mass_g: (first?.weighing.mass_g ?? 1) / (1 + start_pct / 100), sd: first ? 0.3 : 0 };
  });
  const written_g = stepOf(kept.map(({ weighing }) => weighing.mass_g)) / Math.sqrt(12);
  return {
    law,
    factor,
    factorSd: question.diffusionFactor !== undefined ? 0 : factorSd,
    thickness_mm: question.thickness_mm,
    start_pct,
    startSd_pct: startDoubt / z975,
    spells,
    observations,
    dry,
    noise_g: Math.hypot(
      Math.max(written_g, question.balance_g === undefined ? written_g : question.balance_g / z975),
      ownError * (dry[0]?.mass_g ?? 0),
    ),
  };
}

function dryDoubt({ pairs }: Bands, dry_g: number, segment: number): number {
  return Math.hypot(
    0,
    ...pairs.map(({ dry_g: both }) => Math.max(...both.map((one) => Math.abs(one[segment]! - dry_g)))),
  );
}

function targetOf(
  question: PieceQuestion,
  bands: Bands,
  state: string,
  now_h: number,
  spells: readonly Spell[],
  one: Estimate,
) {
  const { target_pct } = question;
  if (target_pct === undefined) return { figures: {}, doubt: {}, notes: [] };
  if (state === "approach") return { figures: {}, doubt: {}, notes: [] };
  const when = whenReached(bands, now_h);
  if (!when) {
    const rest = restMean(spells.at(-1)!, one);
    const reason =
      rest === undefined
        ? `hoursToTarget is undecided: no face is open in the last stage, so nothing changes.`
        : `hoursToTarget is undecided: in the last stage the mean goes to ${rest.toFixed(1)} % and never comes to ${target_pct} %. Change that stage's air, or the target.`;
    return { reason, figures: {}, doubt: {}, notes: [] };
  }
  return {
    figures: {
      hoursToTarget: when.hours,
      targetLow_h: when.low_h,
      ...(when.high_h === undefined ? {} : { targetHigh_h: when.high_h }),
    },
    doubt:
      when.high_h === undefined ? {} : { hoursToTarget: Math.max(when.high_h - when.hours, when.hours - when.low_h) },
    notes:
      when.high_h === undefined
        ? [
            `The hours to ${target_pct} % have no upper end: within its doubt the air, or this wood, may never bring it there.`,
          ]
        : [],
  };
}

/** Mean that a spell's air asks for in the end. */
function restMean(spell: Spell, { wood }: Estimate): number | undefined {
  const drawn = drawnTo_pct(stretchesOf([spell], { wood, air: 0, logCoat: 0 })[0]!);
  return drawn.length === 0 ? undefined : drawn.reduce((sum, emc_pct) => sum + emc_pct, 0) / drawn.length;
}

function stageEndsOf(
  stages: readonly LifeStage[],
  spells: readonly Spell[],
  { ends, begins_pct }: Run,
  one: Estimate,
): StageEnd[] {
  return stages.map((stage, i) => {
    const last = spells.findLastIndex((spell) => spell.stage === i);
    const end = ends[last]!;
    const rest = restMean(spells[last]!, one) ?? end.mean_pct;
    const asked = begins_pct[spells.findIndex((spell) => spell.stage === i)]! - rest;
    const leftUndone = Math.abs(asked) < 0.5 ? 0 : Math.max(0, (end.mean_pct - rest) / asked);
    const { hour, mean_pct, surface_pct, core_pct } = end;
    return { place: stage.place, hour, mean_pct, surface_pct, core_pct, leftUndone };
  });
}

function approachOf(
  bands: Bands,
  spells: readonly Spell[],
  one: Estimate,
  segment: number,
  now: Snapshot,
  begins: readonly number[],
  stages: readonly LifeStage[],
) {
  const index = Math.max(
    0,
    Math.min(
      stages.length - 1,
      begins.findLastIndex((begin) => begin < now.hour),
    ),
  );
  const spell = spells.findLast(({ stage }) => stage === index)!;
  const rest_pct = restMean(spell, one) ?? now.mean_pct;
  const before = bands.run.begins_pct[spells.findIndex(({ stage }) => stage === index)]!;
  const rest = (dry_g: readonly number[]) => dry_g[segment]! * (1 + rest_pct / 100);
  const rest_g = rest(one.dry_g);
  const byWood = one.doubted.includes("wood") ? (one.dry_g[segment]! * woodOffset_pct(z975)) / 100 : 0;
  const apart = Math.hypot(
    byWood * spreadOf(one, "wood"),
    ...bands.pairs.map(({ dry_g }) => Math.max(...dry_g.map((d) => Math.abs(rest(d) - rest_g)))),
  );
  const asked = before - rest_pct;
  return {
    rest_g,
    low_g: rest_g - apart,
    high_g: rest_g + apart,
    doneShare: Math.abs(asked) < 0.05 ? 1 : Math.max(0, Math.min(1, (before - now.mean_pct) / asked)),
  };
}

function spreadOf({ doubted, posterior }: Estimate, name: "wood"): number {
  const i = doubted.indexOf(name);
  return i < 0 ? 0 : Math.hypot(...posterior.axes.map((axis) => axis[i]!));
}

function notesOf(
  question: PieceQuestion,
  one: Estimate,
  count: number,
  lag_pct: number,
  core_pct: number,
  knownNote: string,
  checkWords: string,
  more: readonly string[],
): string[] {
  return [
    count === 0
      ? `Not weighed: ${knownNote}`
      : one.excess > 1
        ? `The masses lie further from any course than the balance explains (${one.excess.toFixed(1)} times); the doubt is widened by that. Check the air log, the dry mass and the times.`
        : `The masses lie within what the balance explains of one course, red oak's diffusivity (or the law given) times ${Number(one.factor.toPrecision(3))}.`,
    ...(Math.abs(one.wood) > 1
      ? [
          `This wood comes to rest about ${woodOffset_pct(one.wood).toFixed(1)} % of moisture or more off the table's equilibrium, or the air is not as logged.`,
        ]
      : []),
    ...(lag_pct > 1
      ? [
          `The core, ${core_pct.toFixed(1)} %, is ${lag_pct.toFixed(1)} % wetter than the skin: a weighing shows the mean alone. Let it level before it is cut or fitted.`,
        ]
      : []),
    ...(question.target_pct === undefined
      ? [`overDry: the mean falls below ${driestService_pct} %, the driest that usual rooms make of wood.`]
      : [`overDry: the mean falls more than ${tooFar_pct} % below the target.`]),
    checkWords,
    ...more,
    "The piece is taken as warm at once, its ends as sealed, moisture as moving across the thickness only; on a plate the push of the temperature's gradient is left out.",
  ];
}
