/** A dense complex system, real and imaginary parts in arrays of their own; see `realLu.ts`. */
export interface ComplexSystem {
  readonly size: number;
  readonly re: Float64Array;
  readonly im: Float64Array;
  readonly order: Int32Array;
}

/** A vector of complex numbers. */
export interface ComplexVector {
  readonly re: Float64Array;
  readonly im: Float64Array;
}

export function complexSystem(size: number): ComplexSystem {
  const entries = size * size;
  return { size, re: new Float64Array(entries), im: new Float64Array(entries), order: new Int32Array(size) };
}

export function complexVector(size: number): ComplexVector {
  return { re: new Float64Array(size), im: new Float64Array(size) };
}

const vanished = 1e-14;

/**
 * LU factors with partial pivoting by |re| + |im|, in place.
 *
 * @returns −1 when the matrix could be factored, else the column (the unknown) that nothing determines
 */
export function factorComplex(system: ComplexSystem): number {
  const { size: n, re, im, order } = system;
  const columnTop = largestOfColumns(system);
  for (let i = 0; i < n; i++) order[i] = i;
  for (let k = 0; k < n; k++) {
    let pivotRow = k;
    let top = 0;
    for (let i = k; i < n; i++) {
      const size = Math.abs(re[i * n + k]!) + Math.abs(im[i * n + k]!);
      if (size > top) {
        top = size;
        pivotRow = i;
      }
    }
    if (!(top > vanished * columnTop[k]!)) return k;
    if (pivotRow !== k) exchangeRows(system, k, pivotRow);
    const rowK = k * n;
    const pivotRe = re[rowK + k]!;
    const pivotIm = im[rowK + k]!;
    const size2 = pivotRe * pivotRe + pivotIm * pivotIm;
    const inverseRe = pivotRe / size2;
    const inverseIm = -pivotIm / size2;
    for (let i = k + 1; i < n; i++) {
      const row = i * n;
      const headRe = re[row + k]!;
      const headIm = im[row + k]!;
      if (headRe === 0 && headIm === 0) continue;
      const factorRe = headRe * inverseRe - headIm * inverseIm;
      const factorIm = headRe * inverseIm + headIm * inverseRe;
      re[row + k] = factorRe;
      im[row + k] = factorIm;
      for (let j = k + 1; j < n; j++) {
        const upperRe = re[rowK + j]!;
        const upperIm = im[rowK + j]!;
        re[row + j] = re[row + j]! - factorRe * upperRe + factorIm * upperIm;
        im[row + j] = im[row + j]! - factorRe * upperIm - factorIm * upperRe;
      }
    }
  }
  return -1;
}

/** x of A·x = b, written into `x`, another vector than `b`. Needs `factorComplex` before. */
export function solveComplex(system: ComplexSystem, b: ComplexVector, x: ComplexVector): void {
  const { size: n, re, im, order } = system;
  for (let i = 0; i < n; i++) {
    let sumRe = b.re[order[i]!]!;
    let sumIm = b.im[order[i]!]!;
    const row = i * n;
    for (let j = 0; j < i; j++) {
      sumRe -= re[row + j]! * x.re[j]! - im[row + j]! * x.im[j]!;
      sumIm -= re[row + j]! * x.im[j]! + im[row + j]! * x.re[j]!;
    }
    x.re[i] = sumRe;
    x.im[i] = sumIm;
  }
  for (let i = n - 1; i >= 0; i--) {
    let sumRe = x.re[i]!;
    let sumIm = x.im[i]!;
    const row = i * n;
    for (let j = i + 1; j < n; j++) {
      sumRe -= re[row + j]! * x.re[j]! - im[row + j]! * x.im[j]!;
      sumIm -= re[row + j]! * x.im[j]! + im[row + j]! * x.re[j]!;
    }
    divideInto(x, i, sumRe, sumIm, re[row + i]!, im[row + i]!);
  }
}

/** x of Aᵀ·x = b (transposed, not conjugated), from the same factors. */
export function solveComplexTransposed(system: ComplexSystem, b: ComplexVector, x: ComplexVector): void {
  const { size: n, re, im, order } = system;
  const y = { re: b.re.slice(), im: b.im.slice() };
  for (let i = 0; i < n; i++) {
    divideInto(y, i, y.re[i]!, y.im[i]!, re[i * n + i]!, im[i * n + i]!);
    for (let j = i + 1; j < n; j++) takeAway(y, j, i, re[i * n + j]!, im[i * n + j]!);
  }
  for (let i = n - 1; i >= 0; i--) {
    for (let j = 0; j < i; j++) takeAway(y, j, i, re[i * n + j]!, im[i * n + j]!);
  }
  for (let i = 0; i < n; i++) {
    x.re[order[i]!] = y.re[i]!;
    x.im[order[i]!] = y.im[i]!;
  }
}

function takeAway(y: ComplexVector, to: number, from: number, factorRe: number, factorIm: number): void {
  if (factorRe === 0 && factorIm === 0) return;
  y.re[to] = y.re[to]! - factorRe * y.re[from]! + factorIm * y.im[from]!;
  y.im[to] = y.im[to]! - factorRe * y.im[from]! - factorIm * y.re[from]!;
}

function divideInto(x: ComplexVector, at: number, re: number, im: number, byRe: number, byIm: number): void {
  const size2 = byRe * byRe + byIm * byIm;
  x.re[at] = (re * byRe + im * byIm) / size2;
  x.im[at] = (im * byRe - re * byIm) / size2;
}

function exchangeRows({ size: n, re, im, order }: ComplexSystem, a: number, b: number): void {
  for (const part of [re, im]) {
    for (let j = 0; j < n; j++) {
      const held = part[a * n + j]!;
      part[a * n + j] = part[b * n + j]!;
      part[b * n + j] = held;
    }
  }
  const held = order[a]!;
  order[a] = order[b]!;
  order[b] = held;
}

function largestOfColumns({ size: n, re, im }: ComplexSystem): Float64Array {
  const top = new Float64Array(n);
  for (let i = 0, at = 0; i < n; i++) {
    for (let j = 0; j < n; j++, at++) {
      const size = Math.abs(re[at]!) + Math.abs(im[at]!);
      if (size > top[j]!) top[j] = size;
    }
  }
  return top;
}
