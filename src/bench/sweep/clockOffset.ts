import { inverseNormal, leastSquares } from "../../maths/leastSquares/leastSquares.ts";
import type { Complex } from "./transfer.ts";

/** Response of one channel on frequencies that rise by one factor, with the doubt of its phase. */
export interface ResponseCurve {
  readonly frequencies_Hz: readonly number[];
  readonly response: readonly Complex[];
  /** Standard deviation of the phase at each. */
  readonly phaseSd_rad: readonly number[];
}

export interface ClockOffset {
  /** Share by which the player's clock runs fast against the recorder's, 0 when the phases do not speak for one. */
  readonly stretch: number;
  readonly sd: number;
  /** Pure delay left in the response. */
  readonly delay_s: number;
}

/** Phase that no model of the amplifier explains to better than this. */
const usualMisfit_rad = 0.005;
/** A clock's offset must show by so many standard deviations, and leave the phases this smooth. */
const leastSds = 4;
const mostMisfit_rad = 0.04;
const largest = 2e-3;

/**
 * How far the player's clock is off the recorder's, from the phase of a swept response.
 *
 * A sweep stretched by s arrives at f late by s·L·ln f, which no amplifier does: what its gain asks for as phase
 * (Bode's integral) is taken off first, and delay, AC coupling and roll-off beyond the sweep's ends are fitted beside.
 *
 *     φ(f) − φ_Bode(f) = c₀ − 2πf·delay + c₁/f + c₂·f³ + 2π·s·L·f·(ln(f/f₁) − 1)
 *
 * @source  H. W. Bode, Network Analysis and Feedback Amplifier Design (1945), phase of a minimum-phase network
 *          (remembered)
 */
export function clockOffset({ frequencies_Hz, response, phaseSd_rad }: ResponseCurve, L: number): ClockOffset {
  const none = { stretch: 0, sd: 0, delay_s: 0 };
  const count = frequencies_Hz.length;
  if (count < 12) return none;
  const phase = unwrapped(response, frequencies_Hz);
  const own = bodePhase(
    frequencies_Hz,
    response.map(({ re, im }) => 0.5 * Math.log(Math.max(re * re + im * im, 1e-300))),
  );
  const [f1, f2] = [frequencies_Hz[0]!, frequencies_Hz[count - 1]!];
  const columns = (f: number) => [1, f / f2, f1 / f, (f / f2) ** 3, (f / f2) * (Math.log(f / f1) - 1)];
  const solve = (withClock: boolean) => {
    const rows = frequencies_Hz.map((f) => columns(f).slice(0, withClock ? 5 : 4));
    const weights = phaseSd_rad.map((sd) => 1 / Math.hypot(sd, usualMisfit_rad));
    const target = phase.map((p, i) => p - own[i]!);
    const answer = leastSquares({
      start: rows[0]!.map(() => 0),
      residuals: (p) =>
        Float64Array.from(rows, (row, i) => weights[i]! * (row.reduce((sum, x, j) => sum + x * p[j]!, 0) - target[i]!)),
      jacobian: () => rows.map((row, i) => Float64Array.from(row, (x) => x * weights[i]!)),
    });
    const misfit = Math.sqrt(
      answer.residuals.reduce((sum, r, i) => sum + (r / weights[i]!) ** 2, 0) / answer.residuals.length,
    );
    return { ...answer, misfit };
  };
  const plain = solve(false);
  const clocked = solve(true);
  const covariance = inverseNormal(
    clocked.jacobian,
    clocked.parameters.length === 5 ? [true, true, true, true, true] : [],
  );
  const perStretch = 2 * Math.PI * L * f2;
  const spread = Math.max(1, clocked.sumOfSquares / Math.max(1, count - 5));
  const sd = covariance ? Math.sqrt(covariance[4]![4]! * spread) / perStretch : Number.POSITIVE_INFINITY;
  const stretch = clocked.parameters[4]! / perStretch;
  const speaks =
    Math.abs(stretch) > leastSds * sd &&
    Math.abs(stretch) < largest &&
    clocked.misfit < mostMisfit_rad &&
    clocked.misfit < 0.5 * plain.misfit;
  const chosen = speaks ? clocked : plain;
  const delay_s = -chosen.parameters[1]! / (2 * Math.PI * f2);
  return speaks ? { stretch, sd, delay_s } : { stretch: 0, sd: Math.min(sd, largest), delay_s };
}

/** Phase made continuous, the slope foretold from the step before. */
function unwrapped(response: readonly Complex[], frequencies_Hz: readonly number[]): number[] {
  const phase: number[] = [];
  let slope = 0;
  response.forEach(({ re, im }, i) => {
    const angle = Math.atan2(im, re);
    if (i === 0) {
      phase.push(angle);
      return;
    }
    const step_Hz = frequencies_Hz[i]! - frequencies_Hz[i - 1]!;
    const foretold = phase[i - 1]! + slope * step_Hz;
    const next = angle + 2 * Math.PI * Math.round((foretold - angle) / (2 * Math.PI));
    slope = (next - phase[i - 1]!) / step_Hz;
    phase.push(next);
  });
  return phase;
}

/**
 * Phase that goes with a gain in a minimum-phase network.
 *
 *     φ(f₀) = 1/π·∫ (d ln A/du)·ln coth(|u|/2) du,   u = ln(f/f₀), slopes beyond the ends as at the ends
 */
function bodePhase(frequencies_Hz: readonly number[], logGain: readonly number[]): number[] {
  const u = frequencies_Hz.map(Math.log);
  const last = u.length - 1;
  const slopes = u.slice(1).map((x, i) => (logGain[i + 1]! - logGain[i]!) / (x - u[i]!));
  return u.map((centre) => {
    let sum = slopes[0]! * (tail(Number.POSITIVE_INFINITY) - tail(centre - u[0]!));
    sum += slopes[last - 1]! * (tail(Number.POSITIVE_INFINITY) - tail(u[last]! - centre));
    for (let i = 0; i < last; i++) sum += slopes[i]! * (signedTail(u[i + 1]! - centre) - signedTail(u[i]! - centre));
    return sum / Math.PI;
  });
}

const signedTail = (x: number) => Math.sign(x) * tail(Math.abs(x));

/** ∫₀ˣ ln coth(t/2) dt = 2·Σ over odd n of (1 − e^{−nx})/n²; π²/4 at infinity. */
function tail(x: number): number {
  if (x > 30) return Math.PI ** 2 / 4;
  if (x < 0.5) {
    // ln coth(t/2) = −ln(t/2) + t²/12 − 7t⁴/1440 + …
    return x > 0 ? x - x * Math.log(x / 2) + x ** 3 / 36 - (7 * x ** 5) / 7200 : 0;
  }
  let sum = 0;
  for (let n = 1; n < 60; n += 2) sum += Math.exp(-n * x) / (n * n);
  return Math.PI ** 2 / 4 - 2 * sum;
}
