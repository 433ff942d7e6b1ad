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

/**
 * @param misses  (value − predicted)/σ of each observation at z
 * @param starts  points to begin at; the best is followed
 */
export function posteriorOf(
  misses: (z: readonly number[]) => number[],
  starts: readonly (readonly number[])[],
): Posterior {
  const cost = (z: readonly number[], left: readonly number[]) => squares(z) + squares(left);
  let best = starts
    .map((z) => ({ z, left: misses(z) }))
    .reduce((a, b) => (cost(b.z, b.left) < cost(a.z, a.left) ? b : a));
  let information = informationAt(misses, best);
  for (let round = 0; round < 15; round++) {
    const step = solveWith(information.factor, information.gradient);
    let share = Math.min(1, 2 / Math.max(...step.map(Math.abs), 1e-12));
    const at = () => {
      const z = best.z.map((one, i) => one + share * step[i]!);
      return { z, left: misses(z) };
    };
    let next = at();
    while (cost(next.z, next.left) > cost(best.z, best.left) && share > 1e-3) {
      share /= 3;
      next = at();
    }
    const gain = cost(best.z, best.left) - cost(next.z, next.left);
    if (gain < 0) break;
    const isNear = share * Math.max(...step.map(Math.abs)) < 2e-3 || gain < 1e-5;
    best = next;
    if (isNear) break;
    information = informationAt(misses, best);
  }
  const axes = axesOf(information.factor);
  const floor = cost(best.z, best.left);
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
      if (cost(next, nextLeft) >= cost(z, left)) break;
      [z, left] = [next, nextLeft];
    }
    const risen = cost(z, left) - floor;
    const share = Math.max(0.6, Math.min(1.6, Math.abs(far) / Math.sqrt(Math.max(risen, 0.1))));
    return z.map((one, i) => best.z[i]! + share * (one - best.z[i]!));
  };
  return { ...best, axes, ends: axes.map((axis) => [endOf(axis, -z975), endOf(axis, z975)] as const) };
}

const z975 = 1.959963984540054;

function dot(a: readonly number[], b: readonly number[]): number {
  return a.reduce((sum, one, i) => sum + one * b[i]!, 0);
}

function squares(values: readonly number[]): number {
  return values.reduce((sum, one) => sum + one * one, 0);
}

/** Factor of JᵀJ + 1, and the downhill gradient. */
function informationAt(
  misses: (z: readonly number[]) => number[],
  { z, left }: { readonly z: readonly number[]; readonly left: readonly number[] },
) {
  const slopes = z.map((_, k) => {
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
