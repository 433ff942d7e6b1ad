import scaledComplement from "@stdlib/math-base-special-erfcx";
import { normalCdf } from "../../maths/statistics/index.ts";
import { type Evidence, likelihoodAt } from "./evidence.ts";
import type { Seen } from "./inspect.ts";

/** About a severity the squared distance is a parabola, held.distance − 2·pull·(s − severity) + curvature·(s − severity)². */
export interface Bell {
  readonly severity: number;
  readonly held: Evidence;
  readonly pull: number;
  readonly curvature: number;
}

/**
 * The curvature follows from how much the determinant grows once the severity is free with variance v:
 * |S + v·g·gᵀ| = |S|·(1 + v·curvature).
 */
export function bellAbout(
  severity: number,
  { slopes, columns }: Seen,
  variances: Float64Array,
  held: Evidence,
  free: Evidence,
): Bell {
  let pull = 0;
  held.weighted.forEach((weight, i) => {
    pull += slopes[i * columns + columns - 1]! * weight;
  });
  const curvature = Math.max(0, Math.expm1(2 * (held.height - free.height)) / variances[columns - 1]!);
  return { severity, held, pull, curvature };
}

/** ln of the readings' density, its mean over a range of severities with even odds. */
export function overDegrees([low, high]: readonly [number, number], { severity, held, pull, curvature }: Bell): number {
  // Where nothing leans on the severity, any middle will do.
  const middle = curvature * (high - low) ** 2 < 1e-9 ? severity : severity + pull / curvature;
  const step = Math.min(high, Math.max(low, middle)) - severity;
  const distance = held.distance - 2 * pull * step + curvature * step * step;
  return likelihoodAt(distance, held) + Math.log(meanOfBell(curvature, middle, [low, high]));
}

/**
 * Mean of a bell over a range, as a share of its height at the range's nearest point to its middle.
 *
 *     (1/(high − low))·∫ exp(−½·a·((s − middle)² − (nearest − middle)²)) ds, s from low to high
 *
 * @param curvature  a, 0 or more; 0 is flat
 * @returns 0 to 1; the middle may lie outside the range, however far
 */
export function meanOfBell(curvature: number, middle: number, [low, high]: readonly [number, number]): number {
  const root = Math.sqrt(curvature);
  const width = root * (high - low);
  // So narrow beside the bell, or so far out, that the rule of Simpson is exact to ten digits.
  const slope = root * Math.max(0, low - middle, middle - high);
  if (width * Math.max(1, slope) < 0.02) return flat(root, middle, low, high);
  const from = root * (low - middle);
  const to = root * (high - middle);
  if (from <= 0 && to >= 0) return (Math.sqrt(2 * Math.PI) * (normalCdf(to) - normalCdf(from))) / width;
  const [near, far] = from > 0 ? [from, to] : [-to, -from];
  return (tail(near) - Math.exp(-0.5 * (far - near) * (far + near)) * tail(far)) / width;
}

function flat(root: number, middle: number, low: number, high: number): number {
  const nearest = Math.min(high, Math.max(low, middle));
  const at = (s: number): number => Math.exp(-0.5 * root * root * ((s - middle) ** 2 - (nearest - middle) ** 2));
  return (at(low) + 4 * at((low + high) / 2) + at(high)) / 6;
}

/** Mills' ratio e^(t²/2)·∫ e^(−u²/2) du, u from t to infinity. */
function tail(t: number): number {
  return Math.sqrt(Math.PI / 2) * scaledComplement(t / Math.SQRT2);
}
