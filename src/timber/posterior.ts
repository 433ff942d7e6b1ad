/**
 * Most plausible parameters and their spread, all counted in standard deviations of what was believed before.
 *
 *     least of  |z|² + Σ ((value − predicted(z))/σ)²,      covariance ≈ (JᵀJ + 1)⁻¹
 *
 * Gauss and Newton with halved steps, slopes by differences.
 */
export interface Posterior {
  readonly z: readonly number[];
  /** Columns whose sum of squares is the covariance: each a direction of one standard deviation. */
  readonly axes: readonly (readonly number[])[];
  /** Where each direction's 95 % ends lie, followed along the valley and not along its tangent. */
  readonly ends: readonly (readonly [readonly number[], readonly number[]])[];
  /** (value − predicted)/σ at the end. */
  readonly left: readonly number[];
}

const stride = 0.05;

/** Coordinate along which there may be more than one valley, and where to look for them. */
export interface Scan {
  readonly index: number;
  readonly at: readonly number[];
}

/**
 * @param misses  (value − predicted)/σ of each observation at z
 * @param starts  points to begin at; the best is followed
 * @param scan  looked along with all else fitted; of several valleys the heaviest is the answer, and the ends of each
 *   that may be the true one count as ends
 */
export function posteriorOf(misses: Misses, starts: readonly (readonly number[])[], scan?: Scan): Posterior {
  const begun = scan
    ? [entered(misses, starts[0]!), ...valleysAlong(misses, starts[0]!, scan)]
    : [bestOf(starts.map((z) => pointAt(misses, z)))];
  const found = settled(begun.map((point) => descend(misses, point)));
  const weighed = found
    .map((valley) => ({
      valley,
      weight: Math.exp((costOf(found[0]!.point) - costOf(valley.point)) / 2) * volume(valley),
    }))
    .toSorted((a, b) => b.weight - a.weight);
  const [{ valley: best, weight: most }, ...others] = weighed as [(typeof weighed)[number], ...typeof weighed];
  const axes = axesOf(best.information.factor);
  const possible = others.filter(({ weight }) => weight > leastShare * most).map(({ valley }) => valley);
  return {
    ...best.point,
    axes,
    ends: [
      ...endsOf(misses, best, axes),
      ...possible.map((valley) => farEnds(endsOf(misses, valley, axesOf(valley.information.factor)), scan!.index)),
    ],
  };
}

type Misses = (z: readonly number[]) => number[];
interface Point {
  readonly z: readonly number[];
  readonly left: readonly number[];
}
interface Valley {
  readonly point: Point;
  readonly information: ReturnType<typeof informationAt>;
}

/** Valleys that weigh less than this of the heaviest are left out. */
const leastShare = 0.01;
/** A valley that begins so much higher is not followed. */
const tooHigh = 60;
/** A fine balance leaves a valley so narrow and bent that one is soon stuck on its side: it is entered while wide. */
const softened = [30, 8, 2.5] as const;

function pointAt(misses: Misses, z: readonly number[]): Point {
  return { z, left: misses(z) };
}

function costOf({ z, left }: Point): number {
  return squares(z) + squares(left);
}

function bestOf(points: readonly Point[]): Point {
  return points.reduce((a, b) => (costOf(b) < costOf(a) ? b : a));
}

/** The lowest points along a coordinate once all others are fitted there, each lower than its neighbours. */
function valleysAlong(misses: Misses, from: readonly number[], { index, at }: Scan): Point[] {
  const fitted = at.map((value) => {
    const begin = pointAt(misses, from.with(index, value));
    const { gradient, factor } = informationAt(misses, begin, index);
    const step = solveWith(factor, gradient);
    return bestOf([
      begin,
      pointAt(
        misses,
        begin.z.map((one, i) => (i === index ? one : one + step[i]!)),
      ),
    ]);
  });
  const costs = fitted.map(costOf);
  const least = Math.min(...costs);
  return fitted.filter(
    (_, i) =>
      costs[i]! <= least + tooHigh &&
      costs[i]! <= (costs[i - 1] ?? Number.POSITIVE_INFINITY) &&
      costs[i]! <= (costs[i + 1] ?? Number.POSITIVE_INFINITY),
  );
}

/** Down a valley that is made wider at first. */
function entered(misses: Misses, from: readonly number[]): Point {
  const z = softened.reduce<readonly number[]>((at, soft) => {
    const wide = (one: readonly number[]) => misses(one).map((miss) => miss / soft);
    return descend(wide, pointAt(wide, at), 3).point.z;
  }, from);
  return pointAt(misses, z);
}

function descend(misses: Misses, from: Point, rounds = 15): Valley {
  let best = from;
  let information = informationAt(misses, best);
  for (let round = 0; round < rounds; round++) {
    const step = solveWith(information.factor, information.gradient);
    let share = Math.min(1, 2 / Math.max(...step.map(Math.abs), 1e-12));
    const at = () =>
      pointAt(
        misses,
        best.z.map((one, i) => one + share * step[i]!),
      );
    let next = at();
    while (costOf(next) > costOf(best) && share > 1e-3) {
      share /= 3;
      next = at();
    }
    const gain = costOf(best) - costOf(next);
    if (gain < 0) break;
    const isNear = share * Math.max(...step.map(Math.abs)) < 2e-3 || gain < 1e-5;
    best = next;
    if (isNear) break;
    information = informationAt(misses, best);
  }
  return { point: best, information };
}

/** Valleys once each, the lowest first; a point that is stuck above a floor is none. */
function settled(valleys: readonly Valley[]): Valley[] {
  const byCost = valleys.toSorted((a, b) => costOf(a.point) - costOf(b.point));
  return byCost.filter(({ point, information }, i) => {
    if (i === 0) return true;
    const step = solveWith(information.factor, information.gradient);
    const isStuck = Math.max(...step.map(Math.abs)) > 0.05;
    return !isStuck && !byCost.slice(0, i).some((other) => isNear(point, other.point));
  });
}

function isNear({ z }: Point, other: Point): boolean {
  return z.every((one, k) => Math.abs(one - other.z[k]!) < 0.05);
}

/** Width of a valley in all directions: one over the root of its information's determinant. */
function volume({ information }: Valley): number {
  return 1 / information.factor.reduce((product, row, i) => product * row[i]!, 1);
}

function endsOf(
  misses: Misses,
  { point: best, information }: Valley,
  axes: readonly (readonly number[])[],
): (readonly [readonly number[], readonly number[]])[] {
  const floor = costOf(best);
  const endOf = (axis: readonly number[], far: number) => {
    let z = best.z.map((one, i) => one + far * axis[i]!);
    let left = misses(z);
    if (left.length === 0) return z;
    for (let round = 0; round < 2; round++) {
      const downhill = information.slopes.map((slope, i) => -dot(slope, left) - z[i]!);
      const straight = solveWith(information.factor, downhill);
      const kept = dot(axis, downhill);
      const across = straight.map((one, i) => one - kept * axis[i]!);
      const next = z.map((one, i) => one + across[i]!);
      const nextLeft = misses(next);
      if (costOf({ z: next, left: nextLeft }) >= costOf({ z, left })) break;
      [z, left] = [next, nextLeft];
    }
    const risen = costOf({ z, left }) - floor;
    const share = Math.max(0.6, Math.min(1.6, Math.abs(far) / Math.sqrt(Math.max(risen, 0.1))));
    return z.map((one, i) => best.z[i]! + share * (one - best.z[i]!));
  };
  return axes.map((axis) => [endOf(axis, -z975), endOf(axis, z975)] as const);
}

/** Those ends of a valley that reach lowest and highest along a coordinate. */
function farEnds(ends: ReturnType<typeof endsOf>, index: number): (typeof ends)[number] {
  const all = ends.flat().toSorted((a, b) => a[index]! - b[index]!);
  return [all[0]!, all.at(-1)!];
}

const z975 = 1.959963984540054;

function dot(a: readonly number[], b: readonly number[]): number {
  return a.reduce((sum, one, i) => sum + one * b[i]!, 0);
}

function squares(values: readonly number[]): number {
  return values.reduce((sum, one) => sum + one * one, 0);
}

/** Factor of JᵀJ + 1, and the downhill gradient; a coordinate that is held has no slope. */
function informationAt(misses: Misses, { z, left }: Point, held?: number) {
  const slopes = z.map((_, k) => {
    if (k === held) return left.map(() => 0);
    const moved = misses(z.map((one, i) => (i === k ? one + stride : one)));
    return moved.map((one, i) => (one - left[i]!) / stride);
  });
  const matrix = slopes.map((a, i) => slopes.map((b, j) => dot(a, b) + (i === j ? 1 : 0)));
  return { slopes, factor: cholesky(matrix), gradient: slopes.map((a, i) => -dot(a, left) - z[i]!) };
}

/** Lower triangle L of a positive matrix, L·Lᵀ. */
function cholesky(matrix: readonly (readonly number[])[]): number[][] {
  const L = matrix.map((row) => row.map(() => 0));
  for (let i = 0; i < matrix.length; i++) {
    for (let j = 0; j <= i; j++) {
      let sum = matrix[i]![j]!;
      for (let k = 0; k < j; k++) sum -= L[i]![k]! * L[j]![k]!;
      L[i]![j] = i === j ? Math.sqrt(sum) : sum / L[j]![j]!;
    }
  }
  return L;
}

function solveWith(L: readonly (readonly number[])[], right: readonly number[]): number[] {
  const y: number[] = [];
  for (let i = 0; i < right.length; i++) {
    y.push((right[i]! - y.reduce((sum, one, k) => sum + L[i]![k]! * one, 0)) / L[i]![i]!);
  }
  return backward(L, y);
}

/** x with Lᵀ·x = y. */
function backward(L: readonly (readonly number[])[], y: readonly number[]): number[] {
  const x = y.map(() => 0);
  for (let i = y.length - 1; i >= 0; i--) {
    let sum = y[i]!;
    for (let k = i + 1; k < y.length; k++) sum -= L[k]![i]! * x[k]!;
    x[i] = sum / L[i]![i]!;
  }
  return x;
}

/** Columns of L⁻ᵀ. */
function axesOf(L: readonly (readonly number[])[]): number[][] {
  return L.map((_, k) =>
    backward(
      L,
      L.map((_row, i) => (i === k ? 1 : 0)),
    ),
  );
}
