import { randomStream } from "../../maths/random.ts";
import type { ValveModel } from "../model.ts";
import { type FormAt, formSurface } from "./form.ts";
import { type LikelyQuestion, oddsOf, UNKNOWN } from "./odds.ts";
import { toModel } from "./parameters.ts";
import { stridesOf } from "./strides.ts";

/** One of the curves that the readings and the beliefs leave likely. */
export interface LikelyCurve {
  readonly model: ValveModel;
  /** Weights of the form's functions by which the true current differs from the model's, as a share of it. */
  readonly plateForm: Float64Array;
  readonly screenForm: Float64Array;
}

export interface LikelyCurves {
  readonly curves: readonly LikelyCurve[];
  formAt(plate_V: number, grid_V: number, screen_V: number | undefined): FormAt;
}

const KEPT = 400;
/** Readings gone through in all, each step counting as some more; few readings are walked over longer. */
const WORK = 1_200_000;
const BESIDE = 20;
const STEPS = { least: 8000, most: 50_000 } as const;
/** So many readings and fewer, and no type: what meets them is long and bent, and takes more steps to walk about in. */
const SO_FEW = { readings: 7, times: 3 } as const;
/** Readings at first count this much less, times their number over sixty, and fully after this share of the learning. */
const HEATED = { share: 0.4, fewReadings: 60 } as const;
/** Share of the steps spent on learning the way; none of them is kept. */
const LEARNING = 0.35;
/** Every so many steps scatter, floor and form are moved instead of the parameters. */
const TURN = 5;

/**
 * Draws curves as likely as the readings and the beliefs leave them, by walking over parameters, and by turns over
 * scatter, floor and the form's size (`odds.ts`, `strides.ts`). The draws are the same for the same question.
 */
export function likelyCurves(question: LikelyQuestion, seed = "likely curves"): LikelyCurves {
  const { kind, scale, parameters, beliefs, covariance, readings, middle } = question;
  const count = parameters.length;
  const surface = formSurface(toModel(kind, parameters, scale), middle);
  const odds = oddsOf(question, surface);
  const random = randomStream(seed);
  const spread = beliefs.each.map(({ low, high, sd }, a) => {
    const row = new Float64Array(count);
    if (high > low) for (let b = 0; b < count; b++) row[b] = covariance[a]?.[b] ?? (a === b ? sd ** 2 : 0);
    return row;
  });
  const ofParameters = stridesOf(spread, random);
  const ofUnknown = stridesOf(
    UNKNOWN.map(({ sd }, u) => Float64Array.from(UNKNOWN, (_, v) => (u === v ? (sd / 2) ** 2 : 0))),
    random,
  );
  let [x, next] = [parameters.slice(), parameters.slice()];
  let [misses_A, nextMisses_A] = [new Float64Array(readings.length), new Float64Array(readings.length)];
  const { centre, sd } = UNKNOWN[0];
  const atScatter = Math.min(Math.max(Math.log(question.sigma), centre - 3 * sd), centre + 3 * sd);
  let unknown = Float64Array.of(atScatter, UNKNOWN[1].centre, UNKNOWN[2].centre);
  let nextUnknown = unknown.slice();
  let [weighing, nextWeighing] = [odds.newWeighing(), odds.newWeighing()];
  odds.weigh(unknown, weighing);
  odds.missesAt(x, misses_A);
  let believed = odds.before(x);
  let fits = odds.ofMisses(misses_A, unknown, weighing);

  const longer = !question.knowsType && readings.length <= SO_FEW.readings ? SO_FEW.times : 1;
  const steps = longer * Math.min(Math.max(Math.round(WORK / (readings.length + BESIDE)), STEPS.least), STEPS.most);
  const learning = Math.round(LEARNING * steps);
  const curves: LikelyCurve[] = [];
  // Few readings may be met in ways far apart: the walk first goes about with readings that hardly count.
  const least = Math.min(1, readings.length / HEATED.fewReadings);
  for (let step = 1; step <= steps; step++) {
    let isTaken = false;
    const log = Math.log(random.uniform());
    const counted = least ** Math.max(0, 1 - step / (HEATED.share * learning));
    if (step % TURN === 0) {
      ofUnknown.propose(unknown, nextUnknown);
      odds.weigh(nextUnknown, nextWeighing);
      const there = odds.ofMisses(misses_A, nextUnknown, nextWeighing);
      isTaken = log < counted * (there - fits);
      if (isTaken) {
        [unknown, nextUnknown] = [nextUnknown, unknown];
        [weighing, nextWeighing] = [nextWeighing, weighing];
        fits = there;
      }
      if (step <= learning) ofUnknown.learn(unknown, isTaken, step / learning);
    } else {
      ofParameters.propose(x, next);
      const believedThere = odds.before(next);
      if (believedThere > -Infinity) {
        odds.missesAt(next, nextMisses_A);
        const there = odds.ofMisses(nextMisses_A, unknown, weighing);
        isTaken = log < believedThere - believed + counted * (there - fits);
        if (isTaken) {
          [x, next] = [next, x];
          [misses_A, nextMisses_A] = [nextMisses_A, misses_A];
          believed = believedThere;
          fits = there;
        }
      }
      if (step <= learning) ofParameters.learn(x, isTaken, step / learning);
    }
    if (step > learning && (step - learning) * KEPT >= (curves.length + 1) * (steps - learning)) {
      curves.push({
        model: toModel(kind, x, scale),
        ...odds.surfaceFrom(misses_A, unknown, weighing, () => random.normal()),
      });
    }
  }
  return { curves, formAt: surface };
}
