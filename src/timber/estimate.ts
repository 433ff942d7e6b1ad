import { chiSquaredCdf, tQuantile } from "../maths/statistics/index.ts";
import { coatDoubt } from "./coats.ts";
import { type Course, type Run, runCourse } from "./course.ts";
import type { DiffusivityLaw } from "./diffusivity.ts";
import { type Spell, stretchesOf } from "./life.ts";
import { type Posterior, posteriorOf } from "./posterior.ts";

const z975 = 1.959963984540054;

/** A mass of the piece, or a moisture read from an offcut or a meter. */
export type Observation =
  | { readonly kind: "mass"; readonly hour: number; readonly mass_g: number; readonly segment: number }
  | { readonly kind: "moisture"; readonly hour: number; readonly moisture_pct: number; readonly sd_pct: number };

/** What is believed of a piece before its weighings, and the weighings. */
export interface LifeModel {
  readonly law: DiffusivityLaw;
  readonly factor: number;
  /** Standard deviation of the factor's logarithm. */
  readonly factorSd: number;
  readonly thickness_mm: number;
  readonly start_pct: number;
  readonly startSd_pct: number;
  readonly spells: readonly Spell[];
  readonly observations: readonly Observation[];
  /** Oven-dry mass from each change of the piece to the next, with its relative standard deviation. */
  readonly dry: readonly { readonly mass_g: number; readonly sd: number }[];
  /** Standard deviation of one weighing. */
  readonly noise_g: number;
}

type Doubted = "factor" | "wood" | "air" | "coat" | "start";

/** The piece's parameters as fitted, and every direction in which they may be otherwise. */
export interface Estimate {
  readonly model: LifeModel;
  readonly doubted: readonly Doubted[];
  readonly posterior: Posterior;
  /** Factor by which masses scatter more than the balance explains; 1 where it explains them. */
  readonly excess: number;
  /** Chance of masses at least so far from the model, were model and balance right. */
  readonly chance: number;
  readonly factor: number;
  readonly wood: number;
  readonly dry_g: readonly number[];
}

/** Logarithm of the factor, in standard deviations of what is believed of it, at which its valleys are looked for. */
const scanned = [-2.4, -1.2, 0, 1.2, 2.4] as const;

/** With more readings than this one valley is left. */
const severalReadings = 5;

/** @remarks Without observations the answer is what was believed before. */
export function estimate(model: LifeModel): Estimate {
  const has = (test: (face: Spell["faces"][number]) => boolean) => model.spells.some(({ faces }) => faces.some(test));
  const doubted: Doubted[] = [
    ...(model.factorSd > 0 ? (["factor"] as const) : []),
    ...(has((face) => face.open && face.byWood_pct > 0) ? (["wood"] as const) : []),
    ...(has((face) => face.open && face.byAir_pct > 0) ? (["air"] as const) : []),
    ...(has((face) => face.open && face.isCoated) ? (["coat"] as const) : []),
    ...(model.startSd_pct > 0 ? (["start"] as const) : []),
  ];
  const masses = model.dry.map(({ sd }) => sd).filter((sd) => sd > 0).length;
  const zero = [...doubted, ...Array.from({ length: masses })].map(() => 0);
  // A slow wood in dry air and a fast one that had dried before may weigh alike: both are looked for.
  const count = model.observations.length;
  const looked = count > severalReadings ? [] : scanned;
  const scan = doubted[0] === "factor" && count > 0 ? { index: 0, at: looked } : undefined;

  const means = meansOnce(model, doubted);
  const fitted = (excess: number) => posteriorOf((z) => misses(model, doubted, z, excess, means), [zero], scan);
  let posterior = fitted(1);
  let [excess, chance] = [1, 1];
  if (count > 0) {
    const told = zero.reduce<number>(
      (sum, _, k) => sum + 1 - posterior.axes.reduce((v, axis) => v + axis[k]! ** 2, 0),
      0,
    );
    const freedom = Math.max(0.5, count - told);
    const miss = posterior.left.reduce((sum, one) => sum + one * one, 0);
    chance = 1 - chiSquaredCdf(miss, freedom);
    if (chance < 0.02) {
      excess = (Math.sqrt(miss / freedom) * tQuantile(0.975, Math.max(1, freedom))) / z975;
      posterior = fitted(excess);
    }
  }
  const at = valuesAt(model, doubted, posterior.z);
  return { model, doubted, posterior, excess, chance, factor: at.factor, wood: at.wood, dry_g: at.dry_g };
}

/** 95 % ends of the factor on the diffusivity. */
export function factorEnds({ posterior, doubted, model, factor }: Estimate): {
  readonly low: number;
  readonly high: number;
} {
  const i = doubted.indexOf("factor");
  if (i < 0) return { low: factor, high: factor };
  const reach = (way: 1 | -1) =>
    Math.hypot(0, ...posterior.ends.map((ends) => Math.max(0, ...ends.map((z) => way * (z[i]! - posterior.z[i]!)))));
  return {
    low: factor * Math.exp(-model.factorSd * reach(-1)),
    high: factor * Math.exp(model.factorSd * reach(1)),
  };
}

interface Values {
  readonly factor: number;
  readonly wood: number;
  readonly air: number;
  readonly logCoat: number;
  readonly start_pct: number;
  readonly dry_g: readonly number[];
}

function valuesAt(model: LifeModel, doubted: readonly Doubted[], z: readonly number[]): Values {
  const of = (name: Doubted) => {
    const i = doubted.indexOf(name);
    return i < 0 ? 0 : z[i]!;
  };
  let next = doubted.length;
  return {
    factor: model.factor * Math.exp(model.factorSd * of("factor")),
    wood: of("wood"),
    air: of("air"),
    logCoat: (Math.log(coatDoubt) / z975) * of("coat"),
    start_pct: Math.max(0, model.start_pct + model.startSd_pct * of("start")),
    dry_g: model.dry.map(({ mass_g, sd }) => (sd > 0 ? mass_g * Math.exp(sd * z[next++]!) : mass_g)),
  };
}

function misses(
  model: LifeModel,
  doubted: readonly Doubted[],
  z: readonly number[],
  excess: number,
  means: (z: readonly number[]) => readonly number[],
): number[] {
  const { observations, noise_g } = model;
  if (observations.length === 0) return [];
  const values = valuesAt(model, doubted, z);
  const at = means(z);
  return observations.map((one, i) =>
    one.kind === "mass"
      ? (one.mass_g - values.dry_g[one.segment]! * (1 + at[i]! / 100)) / (noise_g * excess)
      : (one.moisture_pct - at[i]!) / one.sd_pct,
  );
}

/** Moisture at the observations; kept where only oven-dry masses differ, which no course depends on. */
function meansOnce(model: LifeModel, doubted: readonly Doubted[]): (z: readonly number[]) => readonly number[] {
  const hours = model.observations.map(({ hour }) => hour);
  const last_h = Math.max(0, ...hours);
  const known = new Map<string, readonly number[]>();
  return (z) => {
    const key = z.slice(0, doubted.length).join(" ");
    const found = known.get(key);
    if (found) return found;
    const values = valuesAt(model, doubted, z);
    const { means_pct } = runCourse(courseAt(model, values, last_h), values.factor, hours, "means");
    known.set(key, means_pct);
    return means_pct;
  };
}

function courseAt(model: LifeModel, values: Values, until_h = Number.POSITIVE_INFINITY): Course {
  return {
    thickness_mm: model.thickness_mm,
    start_pct: values.start_pct,
    law: model.law,
    stretches: stretchesOf(until(model.spells, until_h), values),
    cells: fitCells,
  };
}

/** Cells for fits and doubts, good to 0.005 % of moisture. */
const fitCells = 41;

/** Spells up to an hour; the last is kept whole. */
function until(spells: readonly Spell[], hour: number): readonly Spell[] {
  let end_h = 0;
  const last = spells.findIndex(({ hours }) => {
    end_h += hours;
    return end_h >= hour;
  });
  return last < 0 ? spells : spells.slice(0, last + 1);
}

export interface Aim {
  readonly target_pct?: number;
  readonly searchFrom_h?: number;
}

/** Both runs, down and up, of one direction of doubt. */
export interface Pair {
  readonly runs: readonly [Run, Run];
  readonly dry_g: readonly [readonly number[], readonly number[]];
}

export interface Bands {
  readonly run: Run;
  readonly pairs: readonly Pair[];
  /** 95 % ends of the mean at the hours asked for. */
  readonly low_pct: readonly number[];
  readonly high_pct: readonly number[];
}

/** The piece's course as fitted, and as it would go 1.96 standard deviations along every direction of doubt. */
export function bandsOf(one: Estimate, hours: readonly number[], aim: Aim = {}): Bands {
  const { model, doubted, posterior } = one;
  const runAt = (z: readonly number[], keep: "profiles" | "means") => {
    const values = valuesAt(model, doubted, z);
    const course = { ...courseAt(model, values), ...aim, ...(keep === "profiles" ? { cells: shownCells } : {}) };
    return { run: runCourse(course, values.factor, hours, keep), dry_g: values.dry_g };
  };
  const { run } = runAt(posterior.z, "profiles");
  const pairs = posterior.ends
    .filter(([down, up]) => down.some((part, i) => Math.abs(part - up[i]!) > 1e-9))
    .map((ends): Pair => {
      const [down, up] = ends.map((z) => runAt(z, "means"));
      return { runs: [down!.run, up!.run], dry_g: [down!.dry_g, up!.dry_g] };
    });
  const reach = (i: number, way: 1 | -1) =>
    Math.hypot(
      ...pairs.map(({ runs }) => Math.max(0, ...runs.map((other) => way * (other.means_pct[i]! - run.means_pct[i]!)))),
    );
  return {
    run,
    pairs,
    low_pct: run.means_pct.map((mean, i) => Math.max(0, mean - reach(i, -1))),
    high_pct: run.means_pct.map((mean, i) => mean + reach(i, 1)),
  };
}

const shownCells = 81;

export interface WhenReached {
  readonly hours: number;
  readonly low_h: number;
  /** Left out where it may never come to the target. */
  readonly high_h?: number;
}

/**
 * When the mean comes to the target, with 95 % ends: distances in the logarithm of the time, added as squares.
 *
 * @returns nothing where the fitted course never comes to it
 */
export function whenReached({ run, pairs }: Bands, from_h = 0): WhenReached | undefined {
  const at = run.hoursToTarget;
  if (at === undefined) return undefined;
  const left = (hour: number) => Math.log(Math.max(hour - from_h, 1e-3));
  if (at <= from_h) return { hours: at, low_h: at, high_h: at };
  const apart = (way: 1 | -1) =>
    Math.hypot(
      ...pairs.map(({ runs }) =>
        Math.max(
          0,
          ...runs.map(({ hoursToTarget: t }) =>
            t === undefined ? (way > 0 ? Number.POSITIVE_INFINITY : 0) : way * (left(t) - left(at)),
          ),
        ),
      ),
    );
  const high_h = from_h + (at - from_h) * Math.exp(apart(1));
  return {
    hours: at,
    low_h: from_h + (at - from_h) * Math.exp(-apart(-1)),
    ...(high_h < neverAgain_h ? { high_h } : {}),
  };
}

/** A hundred years: a time with that upper end has none. */
const neverAgain_h = 876_600;
