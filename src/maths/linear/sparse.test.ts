import { readFileSync } from "node:fs";
import fc from "fast-check";
import { expect, test } from "vitest";
import { recordAccuracy } from "../../../tests/accuracy.ts";
import { type ComplexVector, complexSystem, complexVector, factorComplex, solveComplex } from "./complexLu.ts";
import { determinantSign, factorReal, realSystem, solveReal, solveRealTransposed } from "./realLu.ts";
import {
  factorSparseComplex,
  solveSparseComplex,
  solveSparseComplexTransposed,
  sparseComplexSolver,
} from "./sparseComplex.ts";
import { patternOf } from "./sparsePlan.ts";
import {
  factorSparseReal,
  solveSparseReal,
  solveSparseRealTransposed,
  sparseDeterminantSign,
  sparseRealSolver,
} from "./sparseReal.ts";

interface Solved {
  size: number;
  complex: boolean;
  entries: number[][];
  b: number[];
  x: (number | [number, number])[];
  transposed: (number | [number, number])[];
}

const fixtures = JSON.parse(readFileSync(new URL("fixtures/sparse.json", import.meta.url), "utf8")) as Solved[];

/** Largest difference, each unknown against the largest of all. */
function apart(found: ArrayLike<number>, expected: readonly number[]): number {
  const top = Math.max(...expected.map(Math.abs));
  return Math.max(...expected.map((value, i) => Math.abs(found[i]! - value) / top));
}

// source: fixtures/sparse.py, scipy's SuperLU refined in long double
test("systems such as circuits make are solved as an independent library solves them", () => {
  let worst = 0;
  for (const { size, complex, entries, b, x, transposed } of fixtures) {
    const re = new Float64Array(size * size);
    const im = new Float64Array(size * size);
    for (const [row, column, a, c] of entries as [number, number, number, number][]) {
      re[row * size + column] = a;
      im[row * size + column] = c ?? 0;
    }
    if (!complex) {
      const solver = sparseRealSolver(patternOf(size, re));
      expect(factorSparseReal(solver, re)).toBe(-1);
      expect(solver.dense).toBeUndefined();
      const found = new Float64Array(size);
      solveSparseReal(solver, Float64Array.from(b), found);
      worst = Math.max(worst, apart(found, x as number[]));
      solveSparseRealTransposed(solver, Float64Array.from(b), found);
      worst = Math.max(worst, apart(found, transposed as number[]));
      continue;
    }
    const solver = sparseComplexSolver(patternOf(size, re, im));
    solver.matrix.re.set(re);
    solver.matrix.im.set(im);
    expect(factorSparseComplex(solver)).toBe(-1);
    expect(solver.dense).toBeUndefined();
    const found = complexVector(size);
    const side: ComplexVector = { re: Float64Array.from(b), im: new Float64Array(size) };
    for (const [solve, answer] of [
      [solveSparseComplex, x],
      [solveSparseComplexTransposed, transposed],
    ] as const) {
      solve(solver, side, found);
      const pairs = answer as [number, number][];
      const flat = pairs.flat();
      worst = Math.max(
        worst,
        apart(
          pairs.flatMap((_, i) => [found.re[i]!, found.im[i]!]),
          flat,
        ),
      );
    }
  }
  expect(worst).toBeLessThan(1e-9);
  recordAccuracy({
    area: "Linear systems",
    what: "Sparse elimination of circuit-like systems, 9 to 98 unknowns, real and complex",
    source: "scipy's SuperLU, refined in long double (maths/linear/fixtures/sparse.py)",
    reached: `${worst.toExponential(1)} of the largest unknown`,
    limit: "1e-9",
  });
});

const sparse = fc.integer({ min: 1, max: 16 }).chain((n) =>
  fc.record({
    n: fc.constant(n),
    a: fc.array(fc.oneof({ weight: 3, arbitrary: fc.constant(0) }, fc.double({ min: -10, max: 10, noNaN: true })), {
      minLength: n * n,
      maxLength: n * n,
    }),
    x: fc.array(fc.double({ min: -5, max: 5, noNaN: true }), { minLength: n, maxLength: n }),
    stretch: fc.array(fc.double({ min: -3, max: 3, noNaN: true }), { minLength: n, maxLength: n }),
  }),
);

// property: any pattern, whatever its pivots; judged by the dense elimination with full row exchanges
test("sparse and dense agree on any pattern, also when values change under a plan that is kept", () => {
  fc.assert(
    fc.property(sparse, ({ n, a, x, stretch }) => {
      const matrix = Float64Array.from(a);
      const solver = sparseRealSolver(patternOf(n, matrix));
      for (const scale of [0, 1]) {
        const now = matrix.map((value, i) => value * 10 ** (scale * stretch[Math.floor(i / n)]!));
        const dense = realSystem(n);
        dense.matrix.set(now);
        const verdict = factorReal(dense);
        const pivots = Array.from({ length: n }, (_, i) => Math.abs(dense.matrix[i * n + i]!));
        // On the brink of singular the two may judge differently.
        fc.pre(verdict >= 0 || Math.min(...pivots) > 1e-6 * Math.max(...pivots));
        if (verdict >= 0) {
          expect(factorSparseReal(solver, now)).toBeGreaterThanOrEqual(0);
          continue;
        }
        expect(factorSparseReal(solver, now)).toBe(-1);
        expect(sparseDeterminantSign(solver)).toBe(determinantSign(dense));
        const b = Float64Array.from(x);
        const [one, two] = [new Float64Array(n), new Float64Array(n)];
        solveSparseReal(solver, b, one);
        solveReal(dense, b, two);
        expect(apart(one, [...two])).toBeLessThan(1e-6);
        solveSparseRealTransposed(solver, b, one);
        solveRealTransposed(dense, b, two);
        expect(apart(one, [...two])).toBeLessThan(1e-6);
      }
    }),
    { numRuns: 300 },
  );
});

test("complex systems agree with the dense elimination", () => {
  fc.assert(
    fc.property(sparse, ({ n, a, x, stretch }) => {
      const dense = complexSystem(n);
      for (let i = 0; i < n * n; i++) {
        const onDiagonal = Math.floor(i / n) === i % n;
        dense.re[i] = onDiagonal ? a[i]! + 12 * n : a[i]!;
        dense.im[i] = a[(i * 7) % (n * n)]! * 10 ** Math.min(0, stretch[i % n]!);
      }
      const solver = sparseComplexSolver(patternOf(n, dense.re, dense.im));
      solver.matrix.re.set(dense.re);
      solver.matrix.im.set(dense.im);
      expect(factorSparseComplex(solver)).toBe(factorComplex(dense));
      const side = { re: Float64Array.from(x), im: Float64Array.from(stretch) };
      const [one, two] = [complexVector(n), complexVector(n)];
      solveSparseComplex(solver, side, one);
      solveComplex(dense, side, two);
      expect(Math.max(apart(one.re, [...two.re]), apart(one.im, [...two.im]))).toBeLessThan(1e-6);
    }),
  );
});

// source: a column of nothing, and two rows alike, by hand
test("the unknown that nothing determines is named", () => {
  const matrix = Float64Array.of(1, 0, 2, 3, 0, 4, 5, 0, 6);
  const solver = sparseRealSolver(
    patternOf(
      3,
      matrix.map(() => 1),
    ),
  );
  expect(factorSparseReal(solver, matrix)).toBe(1);
  const complex = sparseComplexSolver(patternOf(2, Float64Array.of(1, 1, 1, 1)));
  complex.matrix.re.set([1, 2, 2, 4]);
  expect(factorSparseComplex(complex)).toBe(1);
});
