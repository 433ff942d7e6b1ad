import { BadInput } from "../../maths/badInput.ts";
import { inverseNormal, leastSquares } from "../../maths/leastSquares/leastSquares.ts";
import { catalogueEntry, type ValveModel } from "../model.ts";
import { cholesky } from "./cholesky.ts";
import { type LikelyCurves, likelyCurves } from "./likely.ts";
import { type Belief, type Beliefs, generalBelief, type Scale, toModel, typeBelief, typeScale } from "./parameters.ts";
import type { CurvePoint } from "./point.ts";
import { type Reading, readingShape, readingsOf } from "./readings.ts";
import { currentSlopes } from "./slopes.ts";
import { firstGuess } from "./start.ts";

export interface FitQuestion {
  readonly kind: ValveModel["kind"];
  readonly type?: string | undefined;
  readonly points: readonly CurvePoint[];
}

/** A curve fitted to a valve's points, with what is needed to say how far each figure drawn from it can be off. */
export interface FittedCurve {
  readonly model: ValveModel;
  readonly rms_mA: number;
  readonly worst_mA: number;
  /** Index of the point that lies farthest off, counted in its own scatter. */
  readonly worstIndex: number;
  /** How many standard deviations that point is off. */
  readonly worstSigmas: number;
  /** Scatter of a reading at the highest current, as a share of it. */
  readonly scatter: number;
  /** Root mean square miss of the screen readings; 0 where there are none. */
  readonly screen_rms_mA: number;
  /** Parameters about which the points say little beside what was believed before. */
  readonly untold: readonly string[];
  readonly belief: "type" | "general" | "set aside";
  /** The curves that the points and the beliefs leave likely, each as likely as the next; takes a tenth of a second. */
  likely(): LikelyCurves;
}

/** Scatter before any point is seen: 1 % of a reading, believed as strongly as this many readings. */
const USUAL_SCATTER = 0.01;
const USUAL_SCATTER_WEIGHT = 3;
/** The most readings on which different weighings are tried. */
const EXPLORED = 150;
/** Shares of the highest current below which a reading's scatter stops falling with the reading. */
const FLOORS = [0.15, 0.02, 1.5] as const;

/**
 * Fits a valve's curves to readings by least squares, leaning on what is believed of its type.
 *
 * Scatter of a reading is taken as σ·√(I² + (f·I_max)²); σ comes from the points (with a weak belief of 1 %), f from
 * the likeliest of three shares. A reading more than 2.5 of its scatter off counts less (Huber). The belief about
 * each parameter enters as one more residual, so that few points lean on it and many outweigh it.
 *
 * @throws BadInput  no point carries current, or a pentode's point has no screen voltage
 */
export function fitCurve({ kind, type, points }: FitQuestion): FittedCurve {
  const top_mA = Math.max(...points.map((p) => p.plate_mA));
  if (!(top_mA > 0)) {
    throw new BadInput("points", "plate_mA 0 throughout", "at least one point with plate current", "add such a point");
  }
  const without = points.findIndex((p) => kind === "pentode" && p.screen_V === undefined);
  if (without >= 0) {
    throw new BadInput(
      `points[${without}].screen_V`,
      "nothing",
      "a screen voltage for each point of a pentode",
      'give screen_V, or kind "triode" where screen and plate were tied',
    );
  }
  const entry = type === undefined ? undefined : catalogueEntry(type);
  const known = entry?.kind === kind ? entry : undefined;
  const start = firstGuess(kind, points, known?.model.mu ?? (kind === "triode" ? 20 : 10));
  const readings = readingsOf(kind, points);
  const asAny: Question = {
    readings,
    beliefs: generalBelief(kind, start),
    scale: start.scale,
    middle: start.scale,
  };
  if (known) {
    const asType: Question = { ...asAny, beliefs: typeBelief(known), scale: typeScale(known) };
    const settled = likeliest(asType);
    const alone = likeliest(asAny);
    const saysUnlike = evidenceOf(asAny, alone) - evidenceOf(asType, settled);
    if (settled.sigma <= 4 * USUAL_SCATTER && saysUnlike < UNLIKE) {
      return describe(kind, points, asType, settled, "type");
    }
    return describe(kind, points, asAny, alone, "set aside");
  }
  return describe(kind, points, asAny, likeliest(asAny), "general");
}

interface Question {
  readonly readings: readonly Reading[];
  readonly beliefs: Beliefs;
  readonly scale: Scale;
  /** Where the points lie. */
  readonly middle: Scale;
}

/** A valve is taken to be unlike its type's sheet where its points say so by odds of twenty to one. */
const UNLIKE = Math.log(20);

/**
 * Logarithm of how likely the points were under a belief, whatever the parameters, up to a constant:
 *
 *     ln Z ≈ ln(likelihood at the best · what was believed there) + ½·ln(|covariance after| / |covariance before|)
 *
 * so that a narrow belief is worth more where it is met, and less where the points must strain it.
 *
 * @source Laplace's approximation (remembered)
 */
function evidenceOf({ beliefs: { each, together } }: Question, settled: Settled): number {
  const { logLikelihood, strain, sigma, covariance } = settled;
  const free = each.flatMap((b, k) => (b.high > b.low ? [k] : []));
  const halfLogDeterminant = (entry: (a: number, b: number) => number) => {
    const matrix = Float64Array.from(free.flatMap((a) => free.map((b) => entry(a, b))));
    return cholesky(matrix, free.length);
  };
  const before = -halfLogDeterminant((a, b) =>
    together.reduce((sum, row) => sum + row[a]! * row[b]!, a === b ? 1 / each[a]!.sd ** 2 : 0),
  );
  const after = halfLogDeterminant((a, b) => covariance[a]?.[b] ?? (a === b ? each[a]!.sd ** 2 : 0));
  const scatter = USUAL_SCATTER_WEIGHT * (Math.log(sigma) + 0.5 * (USUAL_SCATTER / sigma) ** 2);
  return logLikelihood - 0.5 * strain - scatter + after - before;
}

/**
 * The likeliest weighing. Where plate and screen readings cannot both come from one conserved cathode current, the
 * plate's are followed and the screen's only lightly.
 */
function likeliest(question: Question): Settled {
  const every = Math.ceil(question.readings.length / EXPLORED);
  if (every === 1) return explore(question);
  // The way is found on a share of many readings; then all of them settle it.
  const share = explore({ ...question, readings: question.readings.filter((r) => r.point % every === 0) });
  return settle(question, share.weighing, share.parameters);
}

function explore(question: Question): Settled {
  const { readings } = question;
  const first = settle(question, { floor: FLOORS[0], screen: 1 });
  if (readings.length < 12) return first;
  const best = FLOORS.slice(1)
    .map((floor) => settle(question, { floor, screen: 1 }, first.parameters))
    .reduce((a, b) => (b.logLikelihood > a.logLikelihood ? b : a), first);
  // Fewer readings, or a smaller gain, could be the scatter's doing.
  if (readings.filter((r) => r.of === "screen").length < 20 || plateMiss(readings, best) < 0.01) return best;
  const light = settle(question, { floor: FLOORS[0], screen: 0.02 });
  return plateMiss(readings, light) < 0.5 * plateMiss(readings, best) ? light : best;
}

/** Root mean square miss of the plate readings over the highest of them. */
function plateMiss(readings: readonly Reading[], { misses_A }: Settled): number {
  const plate = readings.flatMap((r, i) => (r.of === "plate" ? [{ miss: misses_A[i]!, value: r.value_A }] : []));
  const top = Math.max(...plate.map((r) => r.value));
  return Math.sqrt(plate.reduce((sum, r) => sum + r.miss ** 2, 0) / plate.length) / top;
}

interface Settled {
  readonly weighing: Weighing;
  readonly parameters: Float64Array;
  readonly covariance: Float64Array[];
  readonly sigma: number;
  readonly weights: readonly number[];
  readonly scatter_A: readonly number[];
  readonly misses_A: readonly number[];
  readonly logLikelihood: number;
  /** Squared distance of the parameters from what was believed, in deviations. */
  readonly strain: number;
}

/** How the readings are weighed: where their scatter stops falling, and how much screen readings count. */
interface Weighing {
  readonly floor: number;
  readonly screen: number;
}

/** Finds parameters, scatter and the weight of odd readings together, by turns. */
function settle(question: Question, weighing: Weighing, near?: Float64Array): Settled {
  const { floor, screen } = weighing;
  const { readings, scale } = question;
  const { each: belief, together } = question.beliefs;
  const shape = readingShape(readings, floor, screen);
  const free = belief.map((b) => b.high > b.low);
  const [low, high] = [belief.map((b) => b.low), belief.map((b) => b.high)];
  const curve = curveOf(readings, belief.length, scale);
  let sigma = 2 * USUAL_SCATTER;
  let weights = readings.map(() => 1);
  let parameters: Float64Array = near ?? Float64Array.from(belief, (b) => Math.min(Math.max(b.centre, b.low), b.high));
  let covariance: Float64Array[] = [];
  let freedom = 1;
  let misses: number[] = [];

  for (let turn = 0; turn < 6; turn++) {
    const before = sigma;
    const weigh = readings.map((_, i) => weights[i]! / (shape[i]! * sigma));
    const problem = {
      residuals(p: Float64Array): Float64Array {
        const { currents } = curve(p);
        const out = new Float64Array(readings.length + belief.length + together.length);
        readings.forEach((r, i) => {
          out[i] = (currents[i]! - r.value_A) * weigh[i]!;
        });
        belief.forEach((b, k) => {
          out[readings.length + k] = free[k] ? (p[k]! - b.centre) / b.sd : 0;
        });
        together.forEach((row, t) => {
          out[readings.length + belief.length + t] = row.reduce(
            (sum, r, k) => sum + r * (p[k]! - belief[k]!.centre),
            0,
          );
        });
        return out;
      },
      jacobian(p: Float64Array): Float64Array[] {
        const { slopes } = curve(p);
        const ofReadings = slopes.map((row, i) => row.map((x, k) => (free[k] ? x * weigh[i]! : 0)));
        const ofBelief = belief.map((b, k) => {
          const row = new Float64Array(belief.length);
          if (free[k]) row[k] = 1 / b.sd;
          return row;
        });
        return [...ofReadings, ...ofBelief, ...together];
      },
      low,
      high,
      mostSteps: turn === 0 ? 80 : 30,
      leastGain: turn === 0 ? 1e-5 : 1e-7,
    };
    const answer = startsFor(near ? 1 : turn, parameters, belief)
      .map((start) => leastSquares({ ...problem, start }))
      .reduce((a, b) => (b.sumOfSquares < a.sumOfSquares ? b : a));
    parameters = answer.parameters;
    covariance = inverseNormal(answer.jacobian, free, 1e-12) ?? covariance;
    const used = answer.jacobian.slice(0, readings.length).reduce((sum, row) => sum + quadratic(covariance, row), 0);
    const { currents } = curve(parameters);
    misses = readings.map((r, i) => currents[i]! - r.value_A);
    const scores = misses.map((m, i) => m / shape[i]!);
    freedom = USUAL_SCATTER_WEIGHT + Math.max(readings.length - used, 0);
    const spread = scores.reduce((sum, s, i) => sum + weights[i]! ** 2 * s * s, 0);
    sigma = Math.sqrt((USUAL_SCATTER_WEIGHT * USUAL_SCATTER ** 2 + spread) / freedom);
    if (readings.length >= 8) {
      weights = scores.map((s) => Math.min(1, Math.sqrt((2.5 * sigma) / Math.abs(s || 1e-300))));
    }
    if (turn > 0 && Math.abs(sigma / before - 1) < 0.01) break;
  }
  const off = belief.map((b, k) => (free[k] ? parameters[k]! - b.centre : 0));
  const strain =
    off.reduce((sum, d, k) => sum + (d / belief[k]!.sd) ** 2, 0) +
    together.reduce((sum, row) => sum + row.reduce((s, r, k) => s + r * off[k]!, 0) ** 2, 0);
  const logLikelihood = -readings.reduce((sum, _, i) => {
    const off = Math.abs(misses[i]! / (shape[i]! * sigma));
    const cost = off <= 2.5 ? 0.5 * off * off : 2.5 * off - 3.125;
    return sum + cost + Math.log(shape[i]! * sigma);
  }, 0);
  const scatter_A = shape.map((s) => s * sigma);
  return { weighing, parameters, covariance, sigma, weights, scatter_A, misses_A: misses, logLikelihood, strain };
}

/** Currents of all readings and their slopes, remembered for the parameters last asked. */
function curveOf(readings: readonly Reading[], count: number, scale: Scale) {
  let last: { readonly p: Float64Array; readonly currents: Float64Array; readonly slopes: Float64Array[] } | undefined;
  const plate = new Float64Array(count);
  const screen = new Float64Array(count);
  return (p: Float64Array) => {
    if (last?.p.every((x, k) => x === p[k])) return last;
    const currents = new Float64Array(readings.length);
    const slopes = readings.map((r, i) => {
      const { plate_A, screen_A } = currentSlopes(p, scale, r, plate, screen);
      currents[i] = r.of === "plate" ? plate_A : screen_A;
      return (r.of === "plate" ? plate : screen).slice();
    });
    last = { p: p.slice(), currents, slopes };
    return last;
  };
}

/** The first turn also starts from a law without its low-plate bend, where a bare law's points would lead. */
function startsFor(turn: number, parameters: Float64Array, belief: readonly Belief[]): Float64Array[] {
  if (turn > 0) return [parameters];
  const bare = parameters.slice();
  bare[2] = Math.min(Math.max(1.5, belief[2]!.low), belief[2]!.high);
  bare[4] = 0;
  bare[5] = belief[5]!.low;
  return [parameters, bare];
}

function describe(
  kind: ValveModel["kind"],
  points: readonly CurvePoint[],
  question: Question,
  settled: Settled,
  kindOfBelief: FittedCurve["belief"],
): FittedCurve {
  const { readings, beliefs, scale, middle } = question;
  const { parameters, covariance, misses_A, scatter_A } = settled;
  const plate = readings.flatMap((r, i) => (r.of === "plate" ? [i] : []));
  const misses_mA = plate.map((i) => Math.abs(misses_A[i]!) * 1e3);
  const sigmas = readings.map((_, i) => Math.abs(misses_A[i]!) / scatter_A[i]!);
  const worst = sigmas.indexOf(Math.max(...sigmas));
  const top = Math.max(...points.map((p) => p.plate_mA)) / 1e3;
  return {
    model: toModel(kind, parameters, scale),
    rms_mA: rms(misses_mA),
    worst_mA: Math.max(...misses_mA),
    worstIndex: readings[worst]!.point,
    worstSigmas: sigmas[worst]!,
    scatter: Math.max(...plate.map((i) => scatter_A[i]!)) / top,
    screen_rms_mA: rms(readings.flatMap((r, i) => (r.of === "screen" ? [misses_A[i]! * 1e3] : []))),
    untold: beliefs.each
      .filter((b, k) => b.high > b.low && Math.sqrt(covariance[k]?.[k] ?? b.sd ** 2) > 0.7 * b.sd)
      .map((b) => b.name),
    belief: kindOfBelief,
    likely: () =>
      likelyCurves({
        kind,
        readings,
        beliefs,
        knowsType: kindOfBelief === "type",
        scale,
        middle,
        parameters,
        covariance,
        sigma: settled.sigma,
        weights: settled.weights,
        screen: settled.weighing.screen,
      }),
  };
}

function rms(values: readonly number[]): number {
  return Math.sqrt(values.reduce((sum, v) => sum + v * v, 0) / Math.max(values.length, 1));
}

function quadratic(matrix: readonly Float64Array[], v: ArrayLike<number>): number {
  let sum = 0;
  for (let i = 0; i < matrix.length; i++) {
    for (let j = 0; j < matrix.length; j++) sum += v[i]! * matrix[i]![j]! * v[j]!;
  }
  return sum;
}
