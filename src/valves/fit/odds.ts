import type { ValveModel } from "../model.ts";
import { cholesky, solveLower, solveUpper } from "./cholesky.ts";
import { currentsOf } from "./currents.ts";
import { FORM_COUNT, type formSurface } from "./form.ts";
import type { Beliefs, Scale } from "./parameters.ts";
import type { Reading } from "./readings.ts";

export interface LikelyQuestion {
  readonly kind: ValveModel["kind"];
  readonly readings: readonly Reading[];
  readonly beliefs: Beliefs;
  /** The beliefs are of its type, not of any valve. */
  readonly knowsType: boolean;
  readonly scale: Scale;
  /** The middle of the points, from where the form's surface is counted. */
  readonly middle: Scale;
  /** Where the fit settled. */
  readonly parameters: Float64Array;
  /** Covariance about there, as far as slopes tell it. */
  readonly covariance: readonly Float64Array[];
  readonly sigma: number;
  /** Weight of each reading, below one for those far off the curve. */
  readonly weights: readonly number[];
  /** How much the screen's readings count. */
  readonly screen: number;
}

/** A screen's share follows our form less closely than the cathode's current: by this factor. */
export const SCREEN_FORM = 3;

/**
 * What is unknown beside a valve's parameters, each by its logarithm and normal before any point is seen: the scatter
 * of a reading at the highest current, as a share of it; the share of the highest current below which scatter stops
 * falling with the reading; and the deviation of the form's surface (`form.ts`), by which a true valve misses a law of
 * our form. A judgement: 1 % within a factor of 1.8; a tenth within one of 3.3; half a per cent within one of 3.
 */
export const UNKNOWN = [
  { centre: Math.log(0.01), sd: 0.6 },
  { centre: Math.log(0.1), sd: 1.2 },
  { centre: Math.log(0.005), sd: 1.1 },
] as const;

/** Deviations beyond which none of the three is looked for. */
const MOST_OFF = 5;

/** Readings' weights and the surface's room for one scatter, floor and size of the form. */
export interface Weighing {
  readonly perScatter: Float64Array;
  /** For plate and screen apart: Cholesky factor of I + τ²·Gᵀ·D⁻¹·G. */
  readonly factors: readonly Float64Array[];
  /** All that does not depend on the misses: determinants, and how much the three were believed. */
  log: number;
}

/**
 * Logarithm of how likely parameters, scatter, floor and form are together, up to a constant:
 *
 *     ln N(readings − currents; 0, D + τ²·G·Gᵀ)  −  ½·|R·(p − centre)|²  −  ½·Σ ((u − centre)/sd)²
 *
 * D being the readings' variances and G the form's functions at each reading's place times the fitted current there,
 * plate and screen apart: every surface that might lie on the law is averaged out. G stays the same along a walk, so
 * that only a new scatter, floor or size of the form needs a new factor.
 *
 * @source Bayes' rule; a surface for what the law misses after Kennedy and O'Hagan, Bayesian calibration of computer
 *         models, 2001; Woodbury's identity (all remembered)
 */
export function oddsOf(question: LikelyQuestion, surface: ReturnType<typeof formSurface>) {
  const { kind, beliefs, readings, scale, weights, screen, parameters } = question;
  const { each, together } = beliefs;
  const count = each.length;
  const [low, high, centre] = (["low", "high", "centre"] as const).map((of) =>
    Float64Array.from(each, (b) => b[of]),
  ) as [Float64Array, Float64Array, Float64Array];
  // What may not move is not believed anything of.
  const perSd = Float64Array.from(each, (b) => (b.high > b.low ? 1 / b.sd : 0));
  const size = FORM_COUNT;
  const currents = currentsOf(readings, scale, kind === "pentode");
  const top = { plate: 1e-12, screen: 1e-12 };
  for (const r of readings) top[r.of] = Math.max(top[r.of], r.value_A);
  const settled_A = new Float64Array(readings.length);
  currents(parameters, settled_A);
  // Row after row, one for each reading.
  const heights = new Float64Array(readings.length * size);
  readings.forEach((r, i) => {
    const { value } = surface(r.plate_V, r.grid_V, r.screen_V);
    const height_A = settled_A[i]! * (r.of === "screen" ? SCREEN_FORM : 1);
    for (let a = 0; a < size; a++) heights[i * size + a] = value[a]! * height_A;
  });
  const blocks = (["plate", "screen"] as const).flatMap((of) => {
    const places = Int32Array.from(readings.flatMap((r, i) => (r.of === of ? [i] : [])));
    return places.length === 0 ? [] : [{ of, places }];
  });
  const pull = new Float64Array(size);
  const values_A = Float64Array.from(readings, (r) => r.value_A);
  const weightOf = Float64Array.from(weights);

  const newWeighing = (): Weighing => ({
    perScatter: new Float64Array(readings.length),
    factors: blocks.map(() => new Float64Array(size * size)),
    log: 0,
  });

  function weigh(unknown: Float64Array, into: Weighing): void {
    const sigma = Math.exp(unknown[0]!);
    const floor = Math.exp(unknown[1]!);
    const form = Math.exp(unknown[2]!);
    let log = 0;
    UNKNOWN.forEach(({ centre, sd }, u) => {
      const off = (unknown[u]! - centre) / sd;
      log -= off > -MOST_OFF && off < MOST_OFF ? 0.5 * off * off : Infinity;
    });
    into.log = log;
    // Far out the factor would lose all its digits, and seem likely for it.
    if (log === -Infinity) return;
    for (let b = 0; b < blocks.length; b++) {
      const { of, places } = blocks[b]!;
      const factor = into.factors[b]!;
      factor.fill(0);
      for (let a = 0; a < size; a++) factor[a * size + a] = 1;
      const least_A = floor * top[of];
      const whole = sigma / Math.sqrt(1 + floor * floor) / (of === "screen" ? screen : 1);
      for (let j = 0; j < places.length; j++) {
        const i = places[j]!;
        const value_A = values_A[i]!;
        const scatter_A = (whole * Math.sqrt(value_A * value_A + least_A * least_A)) / weightOf[i]!;
        log -= Math.log(scatter_A);
        into.perScatter[i] = 1 / scatter_A;
        const share = (form / scatter_A) ** 2;
        const from = i * size;
        for (let a = 0; a < size; a++) {
          const row = a * size;
          const times = share * heights[from + a]!;
          for (let c = 0; c <= a; c++) factor[row + c]! += times * heights[from + c]!;
        }
      }
      log -= cholesky(factor, size);
    }
    into.log = log;
  }

  /** Fills `pull` with L⁻¹·τ·Gᵀ·D⁻¹·misses of one block; returns ½·missesᵀ·D⁻¹·misses. */
  function pullOf(b: number, misses_A: Float64Array, form: number, { perScatter, factors }: Weighing): number {
    pull.fill(0);
    let half = 0;
    const { places } = blocks[b]!;
    for (let j = 0; j < places.length; j++) {
      const i = places[j]!;
      const miss = misses_A[i]! * perScatter[i]!;
      half += 0.5 * miss * miss;
      const times = form * miss * perScatter[i]!;
      const from = i * size;
      for (let a = 0; a < size; a++) pull[a]! += times * heights[from + a]!;
    }
    solveLower(factors[b]!, pull);
    return half;
  }

  return {
    newWeighing,
    weigh,
    /** What was believed of the parameters; −Infinity outside their bounds. */
    before(x: Float64Array): number {
      let squares = 0;
      for (let k = 0; k < count; k++) {
        if (x[k]! < low[k]! || x[k]! > high[k]!) return -Infinity;
        const off = (x[k]! - centre[k]!) * perSd[k]!;
        squares += off * off;
      }
      for (const row of together) {
        let sum = 0;
        for (let k = 0; k < count; k++) sum += row[k]! * (x[k]! - centre[k]!);
        squares += sum * sum;
      }
      return -0.5 * squares;
    },
    missesAt(x: Float64Array, misses_A: Float64Array): void {
      currents(x, misses_A);
      for (let i = 0; i < readings.length; i++) misses_A[i] = values_A[i]! - misses_A[i]!;
    },
    ofMisses(misses_A: Float64Array, unknown: Float64Array, weighing: Weighing): number {
      const form = Math.exp(unknown[2]!);
      let log = weighing.log;
      if (log === -Infinity) return log;
      for (let b = 0; b < blocks.length; b++) {
        log -= pullOf(b, misses_A, form, weighing);
        for (let a = 0; a < size; a++) log += 0.5 * pull[a]! * pull[a]!;
      }
      // Where currents overflow there is no curve.
      return Number.isNaN(log) ? -Infinity : log;
    },
    /** One surface, drawn as likely as the misses leave it: the plate's weights, then the screen's. */
    surfaceFrom(misses_A: Float64Array, unknown: Float64Array, weighing: Weighing, normal: () => number) {
      const form = Math.exp(unknown[2]!);
      const draw = (of: "plate" | "screen"): Float64Array => {
        const b = blocks.findIndex((block) => block.of === of);
        if (b >= 0) pullOf(b, misses_A, form, weighing);
        else pull.fill(0);
        const z = pull.map((by) => by + normal());
        return (b >= 0 ? solveUpper(weighing.factors[b]!, z) : z).map(
          (w) => w * form * (of === "screen" ? SCREEN_FORM : 1),
        );
      };
      return { plateForm: draw("plate"), screenForm: draw("screen") };
    },
  };
}
