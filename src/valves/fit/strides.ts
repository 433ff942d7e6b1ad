import type { Random } from "../../maths/random.ts";
import { cholesky } from "./cholesky.ts";

/** Share of strides that should be taken. @source Roberts, Gelman and Gilks 1997 (remembered) */
const TAKEN = 0.25;
/** Length of a stride between two places met, over √(2·size). @source ter Braak and Vrugt 2008 (remembered) */
const ALONG = 2.38;

/**
 * Strides of a walk that visits each place as often as it is likely. They follow the spread met so far, and their length
 * is set so that a quarter of them is taken; once the walk counts, nothing more is learnt. Half of them follow two places
 * met before, which keep to a bend where the spread as a whole does not.
 *
 * @param spread  first guess of the covariance; rows and columns of zeros stay where they are
 * @source adaptive Metropolis: Haario, Saksman and Tamminen, Bernoulli 7(2), 2001; differences of past places: ter Braak
 *         and Vrugt 2008 (both remembered)
 */
export function stridesOf(spread: readonly Float64Array[], random: Random) {
  const free = [...spread.keys()].filter((k) => spread[k]![k]! > 0);
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
  const mean = new Float64Array(size);
  const square = new Float64Array(size * size);
  let met = 0;
  let strides = 0;
  let forgets = 0;
  const shake = new Float64Array(size);
  const archive: Float64Array[] = [];
  let isAlong = false;

  return {
    /** Writes a place to try into `next`. */
    propose(x: Float64Array, next: Float64Array): void {
      // A stride ten times shorter now and then gets out of narrow corners.
      const length = Math.exp(logLength) * (random.uniform() < 0.1 ? 0.1 : 1);
      for (let a = 0; a < size; a++) shake[a] = random.normal();
      next.set(x);
      isAlong = archive.length >= 4 * size && random.uniform() < 0.5;
      if (isAlong) {
        const [from, to] = [archive[random.integer(archive.length)]!, archive[random.integer(archive.length)]!];
        const share = random.uniform() < 0.1 ? 1 : ALONG / Math.sqrt(2 * size);
        for (let a = 0; a < size; a++) {
          const k = free[a]!;
          next[k]! +=
            share * (to[k]! - from[k]!) +
            1e-3 * length * Math.sqrt(square[a * size + a]! / Math.max(met, 1)) * shake[a]!;
        }
      } else {
        for (let a = 0; a < size; a++) {
          let by = 0;
          for (let b = 0; b <= a; b++) by += factor[a * size + b]! * shake[b]!;
          next[free[a]!]! += length * by;
        }
      }
    },
    /** Learns from where the walk now stands. `share` is how much of the way to be learnt from is behind, 0 … 1. */
    learn(x: Float64Array, isTaken: boolean, share: number): void {
      strides++;
      if (!isAlong) logLength += (Number(isTaken) - TAKEN) / Math.sqrt(strides / 10 + 1);
      if (strides % 5 === 0 && share > 0.25) archive.push(x.slice());
      // What was met at first is forgotten.
      if (forgets < 2 && share >= (forgets + 1) / 4) {
        forgets++;
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
    },
  };
}
