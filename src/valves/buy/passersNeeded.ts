import type { Random } from "../../maths/random.ts";
import { alikeSets } from "../sets/alike.ts";

/** Batches with fewer readings are drawn from together. */
const OWN_READINGS = 12;
/** With fewer readings in all nothing is drawn. */
export const FEWEST_READINGS = 8;
/** For more valves a draw would take too long. */
export const MOST_DRAWN_FOR = 600;
const MOST_DRAWS = 200;
const FEWEST_DRAWS = 30;
/** Comparisons of two valves in all draws together, about. */
const MOST_WORK = 3e8;

/** Readings of one past batch about their mean, and how to draw more like them. */
interface Batch {
  readonly readings: readonly Float64Array[];
  /** Lower triangle of the root of their covariance, row by row. */
  readonly root: readonly Float64Array[];
}

/**
 * How many passing valves it takes until the sets can be made, in one draw after another of a new batch.
 *
 * A new batch is like a past one picked at random: its readings are drawn with replacement and jittered (h of their
 * covariance, the whole drawn in by 1/√(1 + h²) so that the spread stays), since the same valve does not come twice;
 * their scale is drawn by chi-squared, since few readings tell the spread only roughly.
 *
 *     h = (4/(d + 2))^(1/(d + 4))·m^(−1/(d + 4)),   m readings of d features
 *
 * @returns one number a draw, Infinity where no number up to 4·perSet·sets + 300 is enough; undefined with too few
 *          readings, or where time ends before the first
 * @source B. Efron, Bootstrap methods, 1979; smoothing: B. Silverman, Density Estimation, 1986 (both remembered)
 */
export function passersNeeded(
  past: readonly (readonly (readonly number[])[])[],
  { perSet, sets, limit }: { readonly perSet: number; readonly sets: number; readonly limit: number },
  random: Random,
  hasTime: () => boolean,
): number[] | undefined {
  const batches = batchesOf(past);
  if (batches === undefined) return undefined;
  const need = perSet * sets;
  const most = 4 * need + 300;
  const needed: number[] = [];
  let work = 0;
  while (needed.length < MOST_DRAWS && (work < MOST_WORK || needed.length < FEWEST_DRAWS)) {
    const draw = drawing(batches[random.integer(batches.length)]!, random);
    const valves: Float64Array[] = [];
    const isEnough = (n: number): boolean => {
      while (valves.length < n) valves.push(draw());
      work += n * (n + 200);
      return alikeSets(valves.slice(0, n), perSet, limit).length >= sets;
    };
    // Looked for from what the draw before needed, in strides that double.
    let few = need - 1;
    let enough = most + 1;
    let at = Math.min(needed.at(-1) ?? need, most);
    for (let stride = 2; enough - few > 1 && hasTime(); stride *= 2) {
      if (isEnough(at)) enough = at;
      else few = at;
      const next = enough === at ? at - stride : at + stride;
      at = next <= few || next >= enough ? (few + enough) >> 1 : next;
    }
    if (enough - few > 1) {
      if (needed.length === 0) return undefined;
      break;
    }
    needed.push(enough > most ? Number.POSITIVE_INFINITY : enough);
  }
  return needed;
}

/** Sets that can be made of so many passing valves of a new batch, draw by draw. */
export function setsDrawn(
  past: readonly (readonly (readonly number[])[])[],
  { perSet, limit }: { readonly perSet: number; readonly limit: number },
  passes: () => number,
  random: Random,
  hasTime: () => boolean,
): number[] {
  const batches = batchesOf(past) ?? [];
  const sets: number[] = [];
  let work = 0;
  while (sets.length < MOST_DRAWS && (sets.length === 0 || (work < MOST_WORK && hasTime()))) {
    const draw = drawing(batches[random.integer(batches.length)]!, random);
    const n = passes();
    work += n * (n + 200);
    sets.push(alikeSets(Array.from({ length: n }, draw), perSet, limit).length);
  }
  return sets;
}

function batchesOf(past: readonly (readonly (readonly number[])[])[]): Batch[] | undefined {
  const pooled: Float64Array[] = [];
  const groups: Float64Array[][] = [];
  for (const readings of past) {
    if (readings.length < 2) continue;
    const centred = aboutMean(readings);
    if (readings.length >= OWN_READINGS) groups.push(centred);
    else pooled.push(...centred);
  }
  if (pooled.length >= (groups.length > 0 ? OWN_READINGS : FEWEST_READINGS)) groups.push(pooled);
  return groups.length === 0 ? undefined : groups.map((readings) => ({ readings, root: rootOfCovariance(readings) }));
}

/** Distances from the batch's mean, stretched by √(m/(m − 1)) for the mean being their own. */
function aboutMean(readings: readonly (readonly number[])[]): Float64Array[] {
  const m = readings.length;
  const mean = readings[0]!.map((_, f) => readings.reduce((sum, r) => sum + r[f]! / m, 0));
  const stretch = Math.sqrt(m / (m - 1));
  return readings.map((r) => Float64Array.from(r, (x, f) => stretch * (x - mean[f]!)));
}

/** Cholesky's root; a feature that follows wholly from those before it gets a row with no part of its own. */
function rootOfCovariance(readings: readonly Float64Array[]): Float64Array[] {
  const d = readings[0]!.length;
  const root = Array.from({ length: d }, () => new Float64Array(d));
  for (let i = 0; i < d; i++) {
    for (let j = 0; j <= i; j++) {
      let own = readings.reduce((sum, r) => sum + r[i]! * r[j]!, 0) / readings.length;
      for (let k = 0; k < j; k++) own -= root[i]![k]! * root[j]![k]!;
      if (i === j) root[i]![i] = Math.sqrt(Math.max(own, 0));
      else root[i]![j] = root[j]![j]! > 0 ? own / root[j]![j]! : 0;
    }
  }
  return root;
}

/** Draws valve after valve of one new batch. */
function drawing({ readings, root }: Batch, random: Random): () => Float64Array {
  const m = readings.length;
  const d = root.length;
  const h = (4 / (d + 2)) ** (1 / (d + 4)) * m ** (-1 / (d + 4));
  let square = 0;
  for (let i = 1; i < m; i++) square += random.normal() ** 2;
  const scale = Math.sqrt((m - 1) / square) / Math.sqrt(1 + h * h);
  const jitter = new Float64Array(d);
  return () => {
    const picked = readings[random.integer(m)]!;
    for (let f = 0; f < d; f++) jitter[f] = random.normal();
    return picked.map((x, f) => {
      let sum = x;
      for (let k = 0; k <= f; k++) sum += h * root[f]![k]! * jitter[k]!;
      return scale * sum;
    });
  };
}
