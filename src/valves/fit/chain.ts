import type { Random } from "../../maths/random.ts";
import { cholesky } from "./cholesky.ts";

/** The share of steps spent on finding the way; none of them is kept. */
const BURN_IN = 0.4;
/** Share of steps that should be taken. @source Roberts, Gelman and Gilks 1997 (remembered) */
const TAKEN = 0.25;
/** Length of a stride between two places met, over √(2·size). @source ter Braak and Vrugt 2008 (remembered) */
const ALONG = 2.38;

/**
 * Walks over unknowns so that each place is visited as often as it is likely: adaptive Metropolis. Strides follow the
 * spread met so far, and their length is set so that a quarter of them is taken; both stand still once the walk counts.
 *
 * @param odds    logarithm of how likely a place is, up to a constant; −Infinity where it can't be
 * @param spread  first guess of the covariance; rows and columns of zeros stay where they are
 * @returns `kept` places, evenly along the walk
 * @source Haario, Saksman and Tamminen, Bernoulli 7(2), 2001 (remembered)
 */
export function walk(
  start: Float64Array,
  spread: readonly Float64Array[],
  odds: (x: Float64Array) => number,
  { steps, kept, random }: { readonly steps: number; readonly kept: number; readonly random: Random },
): Float64Array[] {
  const free = [...start.keys()].filter((k) => spread[k]![k]! > 0);
  const size = free.length;
  const factor = new Float64Array(size * size);
  const takeSpread = (covariance: (a: number, b: number) => number) => {
    for (let a = 0; a < size; a++) {
      for (let b = 0; b <= a; b++) factor[a * size + b] = covariance(a, b);
      factor[a * size + a]! *= 1 + 1e-9;
    }
    cholesky(factor, size);
  };
  takeSpread((a, b) => spread[free[a]!]![free[b]!]!);

  let logLength = Math.log(2.38 / Math.sqrt(size));
  let x = start.slice();
  let here = odds(x);
  let next = start.slice();
  const burnIn = Math.round(BURN_IN * steps);
  const mean = new Float64Array(size);
  const square = new Float64Array(size * size);
  let met = 0;
  const places: Float64Array[] = [];
  const shake = new Float64Array(size);
  const archive: Float64Array[] = [];
  for (let step = 1; step <= steps; step++) {
    // A stride ten times shorter now and then gets out of narrow corners.
    const length = Math.exp(logLength) * (random.uniform() < 0.1 ? 0.1 : 1);
    for (let a = 0; a < size; a++) shake[a] = random.normal();
    next.set(x);
    // Half of the strides follow two places met before, which keep to a bend where the spread as a whole does not.
    const isAlong = archive.length >= 4 * size && random.uniform() < 0.5;
    if (isAlong) {
      const [from, to] = [archive[random.integer(archive.length)]!, archive[random.integer(archive.length)]!];
      const share = random.uniform() < 0.1 ? 1 : ALONG / Math.sqrt(2 * size);
      for (let a = 0; a < size; a++) {
        const k = free[a]!;
        next[k]! +=
          share * (to[k]! - from[k]!) + 1e-3 * length * Math.sqrt(square[a * size + a]! / Math.max(met, 1)) * shake[a]!;
      }
    } else {
      for (let a = 0; a < size; a++) {
        let by = 0;
        for (let b = 0; b <= a; b++) by += factor[a * size + b]! * shake[b]!;
        next[free[a]!]! += length * by;
      }
    }
    const there = odds(next);
    const isTaken = Math.log(random.uniform()) < there - here;
    if (isTaken) {
      [x, next] = [next, x];
      here = there;
    }
    if (step <= burnIn) {
      if (!isAlong) logLength += (Number(isTaken) - TAKEN) / Math.sqrt(step / 10 + 1);
      if (step % 5 === 0 && step > burnIn / 4) archive.push(x.slice());
      // What was met at first is forgotten.
      if (step === Math.round(burnIn / 4) || step === Math.round(burnIn / 2)) {
        met = 0;
        mean.fill(0);
        square.fill(0);
      }
      met++;
      for (let a = 0; a < size; a++) {
        const off = x[free[a]!]! - mean[a]!;
        mean[a]! += off / met;
        for (let b = 0; b <= a; b++) square[a * size + b]! += off * (x[free[b]!]! - mean[b]!);
      }
      if (met % 100 === 0 && met >= 10 * size) takeSpread((a, b) => square[a * size + b]! / met);
    } else if ((step - burnIn) * kept >= (places.length + 1) * (steps - burnIn)) places.push(x.slice());
  }
  return places;
}
