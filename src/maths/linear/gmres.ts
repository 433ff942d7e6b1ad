/** Writes a linear map of its first argument into its second. */
export type LinearMap = (from: Float64Array, into: Float64Array) => void;

export interface GmresAnswer {
  readonly x: Float64Array;
  /** Length of what is left of the right-hand side, over its own. */
  readonly left: number;
  readonly steps: number;
}

/**
 * x of A·x = b for a matrix known only by what it does to a vector, by minimal residuals over growing Krylov spaces,
 * without restarts.
 *
 * @param precondition  something near A⁻¹; applied from the right, so that `left` is the plain residual's
 * @source Y. Saad and M. H. Schultz, SIAM J. Sci. Stat. Comput. 7 (1986) 856-869 (remembered)
 */
export function gmres(
  apply: LinearMap,
  precondition: LinearMap,
  b: Float64Array,
  { tolerance, mostSteps }: { readonly tolerance: number; readonly mostSteps: number },
): GmresAnswer {
  const size = b.length;
  const whole = lengthOf(b);
  if (whole === 0) return { x: new Float64Array(size), left: 0, steps: 0 };
  const basis = [b.map((value) => value / whole)];
  const columns: Float64Array[] = [];
  const cosines: number[] = [];
  const sines: number[] = [];
  const target = [whole];
  const held = new Float64Array(size);
  const most = Math.min(mostSteps, size);
  let left = 1;
  while (columns.length < most && left > tolerance) {
    const k = columns.length;
    precondition(basis[k]!, held);
    const next = new Float64Array(size);
    apply(held, next);
    const before = lengthOf(next);
    const column = new Float64Array(k + 2);
    for (let pass = 0; pass < 2; pass++) {
      for (let i = 0; i <= k; i++) {
        const share = dot(basis[i]!, next);
        column[i] = column[i]! + share;
        addTo(next, basis[i]!, -share);
      }
    }
    const length = lengthOf(next);
    column[k + 1] = length;
    for (let i = 0; i < k; i++) rotate(column, i, cosines[i]!, sines[i]!);
    const radius = Math.hypot(column[k]!, length);
    if (radius === 0) break;
    cosines.push(column[k]! / radius);
    sines.push(length / radius);
    rotate(column, k, cosines[k]!, sines[k]!);
    target.push(-sines[k]! * target[k]!);
    target[k] = cosines[k]! * target[k]!;
    columns.push(column);
    left = Math.abs(target[k + 1]!) / whole;
    if (length <= 1e-15 * before) break;
    for (let i = 0; i < size; i++) next[i] = next[i]! / length;
    basis.push(next);
  }
  const steps = columns.length;
  const shares = new Float64Array(steps);
  for (let i = steps - 1; i >= 0; i--) {
    let sum = target[i]!;
    for (let j = i + 1; j < steps; j++) sum -= columns[j]![i]! * shares[j]!;
    shares[i] = sum / columns[i]![i]!;
  }
  held.fill(0);
  for (let i = 0; i < steps; i++) addTo(held, basis[i]!, shares[i]!);
  const x = new Float64Array(size);
  precondition(held, x);
  return { x, left, steps };
}

function rotate(column: Float64Array, i: number, cosine: number, sine: number): void {
  const [upper, lower] = [column[i]!, column[i + 1]!];
  column[i] = cosine * upper + sine * lower;
  column[i + 1] = cosine * lower - sine * upper;
}

function dot(a: Float64Array, b: Float64Array): number {
  let sum = 0;
  for (let i = 0; i < a.length; i++) sum += a[i]! * b[i]!;
  return sum;
}

function addTo(into: Float64Array, from: Float64Array, share: number): void {
  for (let i = 0; i < into.length; i++) into[i] = into[i]! + share * from[i]!;
}

function lengthOf(v: Float64Array): number {
  return Math.sqrt(dot(v, v));
}
