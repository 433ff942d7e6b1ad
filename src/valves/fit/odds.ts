import type { ValveModel } from "../model.ts";
import { cholesky, solveLower, solveUpper } from "./cholesky.ts";
import { FORM_COUNT, type formSurface } from "./form.ts";
import type { Beliefs, Scale } from "./parameters.ts";
import type { Reading } from "./readings.ts";
import { currentSlopes } from "./slopes.ts";

export interface LikelyQuestion {
  readonly kind: ValveModel["kind"];
  readonly readings: readonly Reading[];
  readonly beliefs: Beliefs;
  readonly scale: Scale;
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
const SCREEN_FORM = 3;

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

/**
 * Logarithm of how likely parameters, scatter, floor and form are together, up to a constant:
 *
 *     ln N(readings − currents; 0, D + τ²·G·Gᵀ)  −  ½·|R·(p − centre)|²  −  ½·Σ ((u − centre)/sd)²
 *
 * D being the readings' variances and G the currents times the form's functions at each reading's place, plate and
 * screen apart: every surface that might lie on the law is averaged out. −Infinity outside the parameters' bounds.
 *
 * @source Bayes' rule; a surface for what the law misses after Kennedy and O'Hagan, Bayesian calibration of computer
 *         models, 2001; Woodbury's identity (all remembered)
 */
export function oddsOf(question: LikelyQuestion, surface: ReturnType<typeof formSurface>) {
  const { beliefs, readings, scale, weights, screen } = question;
  const { each, together } = beliefs;
  const count = each.length;
  const size = FORM_COUNT;
  const functions = readings.map((r) => surface(r.plate_V, r.grid_V, r.screen_V).value);
  const top = { plate: 1e-12, screen: 1e-12 };
  for (const r of readings) top[r.of] = Math.max(top[r.of], r.value_A);
  const [plate, screenSlopes] = [new Float64Array(count), new Float64Array(count)];
  const blocks = (["plate", "screen"] as const).flatMap((of) => {
    const places = readings.flatMap((r, i) => (r.of === of ? [i] : []));
    if (places.length === 0) return [];
    return [{ of, places, matrix: new Float64Array(FORM_COUNT ** 2), pull: new Float64Array(FORM_COUNT) }];
  });

  function before(x: Float64Array): number {
    let squares = 0;
    for (let k = 0; k < count; k++) {
      const { centre, sd, low, high } = each[k]!;
      if (x[k]! < low || x[k]! > high) return -Infinity;
      if (high > low) squares += ((x[k]! - centre) / sd) ** 2;
    }
    for (const row of together) {
      let sum = 0;
      for (let k = 0; k < count; k++) sum += row[k]! * (x[k]! - each[k]!.centre);
      squares += sum * sum;
    }
    UNKNOWN.forEach(({ centre, sd }, u) => {
      squares += ((x[count + u]! - centre) / sd) ** 2;
    });
    return -0.5 * squares;
  }

  /** Fills each block's matrix with the Cholesky factor of I + τ²·Gᵀ·D⁻¹·G, and its pull with τ·Gᵀ·D⁻¹·misses. */
  function fromReadings(x: Float64Array): number {
    const sigma = Math.exp(x[count]!);
    const floor = Math.exp(x[count + 1]!);
    const form = Math.exp(x[count + 2]!);
    let log = 0;
    for (const { of, places, matrix, pull } of blocks) {
      const depth = of === "plate" ? form : form * SCREEN_FORM;
      matrix.fill(0);
      pull.fill(0);
      for (let a = 0; a < size; a++) matrix[a * size + a] = 1;
      for (const i of places) {
        const r = readings[i]!;
        const { plate_A, screen_A } = currentSlopes(x, scale, r, plate, screenSlopes);
        const current_A = of === "plate" ? plate_A : screen_A;
        const scatter_A =
          ((sigma * Math.hypot(r.value_A, floor * top[of])) / Math.hypot(1, floor) / weights[i]!) *
          (of === "screen" ? 1 / screen : 1);
        const miss = (r.value_A - current_A) / scatter_A;
        log -= 0.5 * miss * miss + Math.log(scatter_A);
        const height = (depth * current_A) / scatter_A;
        const here = functions[i]!;
        for (let a = 0; a < size; a++) {
          const high = height * here[a]!;
          pull[a]! += high * miss;
          const row = a * size;
          const times = high * height;
          for (let b = 0; b <= a; b++) matrix[row + b]! += times * here[b]!;
        }
      }
      log -= cholesky(matrix, size);
      solveLower(matrix, pull);
      for (let a = 0; a < size; a++) log += 0.5 * pull[a]! ** 2;
    }
    return log;
  }

  return {
    at(x: Float64Array): number {
      const log = before(x);
      if (log === -Infinity) return log;
      const whole = log + fromReadings(x);
      // Where currents overflow there is no curve.
      return Number.isNaN(whole) ? -Infinity : whole;
    },
    /** One surface, drawn as likely as the readings leave it at x: the plate's weights, then the screen's. */
    surfaceAt(x: Float64Array, normal: () => number): { plateForm: Float64Array; screenForm: Float64Array } {
      fromReadings(x);
      const form = Math.exp(x[count + 2]!);
      const draw = (of: "plate" | "screen") => {
        const block = blocks.find((b) => b.of === of);
        const size = of === "plate" ? form : form * SCREEN_FORM;
        const z = Float64Array.from({ length: FORM_COUNT }, (_, a) => (block?.pull[a] ?? 0) + normal());
        return (block ? solveUpper(block.matrix, z) : z).map((w) => w * size);
      };
      return { plateForm: draw("plate"), screenForm: draw("screen") };
    },
  };
}
