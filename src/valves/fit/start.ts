import { softened } from "../plateLaw.ts";
import { type Scale, SOFTNESS } from "./parameters.ts";
import type { CurvePoint } from "./point.ts";

/** A first guess good enough for the fit to find its way: the mu whose simple law lies nearest the points. */
export interface Start {
  readonly mu: number;
  readonly current_A: number;
  readonly scale: Scale;
}

const EXPONENT = 1.4;

/**
 * Tries mu from 1.2 to 150 in steps of 8 %, each with the best factor of I = k·max(V/mu + Vg, 0)^1.4, and keeps the
 * one nearest to the points in I^(1/1.4). Where the points tell no mu, it stays near `usualMu`.
 */
export function firstGuess(kind: "triode" | "pentode", points: readonly CurvePoint[], usualMu: number): Start {
  const electrode = (p: CurvePoint) => (kind === "triode" ? p.plate_V : (p.screen_V ?? p.plate_V));
  const beyondKnee = points.filter((p) => kind === "triode" || p.plate_V > 0.4 * electrode(p));
  const used = beyondKnee.length >= 3 ? beyondKnee : points;
  const cathode_A = used.map((p) => (p.plate_mA + (kind === "pentode" ? (p.screen_mA ?? 0.1 * p.plate_mA) : 0)) / 1e3);
  const heights = cathode_A.map((i) => i ** (1 / EXPONENT));
  const total = heights.reduce((s, h) => s + h * h, 0);

  let best = { score: Infinity, mu: usualMu, drives: used.map(() => 1) };
  for (let mu = 1.2; mu < 150; mu *= 1.08) {
    const drives = used.map((p) => softened(electrode(p) / mu + p.grid_V, SOFTNESS * (electrode(p) / mu + 0.1)).value);
    const cross = drives.reduce((s, d, i) => s + d * heights[i]!, 0);
    const own = drives.reduce((s, d) => s + d * d, 0);
    if (!(own > 0)) continue;
    const misfit = Math.max(1 - (cross * cross) / (own * total), 0);
    const score = misfit + 1e-4 * Math.log(mu / usualMu) ** 2;
    if (score < best.score) best = { score, mu, drives };
  }
  const weight = heights.reduce((s, h) => s + h, 0);
  const drive_V = Math.max(best.drives.reduce((s, d, i) => s + d * heights[i]!, 0) / weight, 0.05);
  const electrode_V = Math.max(used.reduce((s, p, i) => s + electrode(p) * heights[i]!, 0) / weight, 1);
  const factor = best.drives.reduce((s, d, i) => s + d * heights[i]!, 0) / best.drives.reduce((s, d) => s + d * d, 0);
  return {
    mu: best.mu,
    current_A: Math.max((factor * drive_V) ** EXPONENT, 1e-9),
    scale: { drive_V, electrode_V },
  };
}
