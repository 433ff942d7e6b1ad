import fc from "fast-check";
import { expect, test } from "vitest";
import { complexSystem, complexVector, factorComplex, solveComplex, solveComplexTransposed } from "./complexLu.ts";
import { determinantSign, factorReal, realSystem, solveReal, solveRealTransposed } from "./realLu.ts";

// source: worked by hand; 2x + y − z = 8, −3x − y + 2z = −11, −2x + y + 2z = −3 has x = 2, y = 3, z = −1
test("three equations give the roots worked by hand", () => {
  const system = realSystem(3);
  system.matrix.set([2, 1, -1, -3, -1, 2, -2, 1, 2]);
  expect(factorReal(system)).toBe(-1);
  const x = new Float64Array(3);
  solveReal(system, Float64Array.of(8, -11, -3), x);
  expect([...x].map((v) => Math.round(v * 1e12) / 1e12)).toEqual([2, 3, -1]);
});

// source: worked by hand; (1 + j)·x + y = 3 + j, x − j·y = 1 − 2j has x = 1, y = 2 (second row: 1 − 2j)
test("two complex equations give the roots worked by hand", () => {
  const system = complexSystem(2);
  system.re.set([1, 1, 1, 0]);
  system.im.set([1, 0, 0, -1]);
  expect(factorComplex(system)).toBe(-1);
  const x = complexVector(2);
  solveComplex(system, { re: Float64Array.of(3, 1), im: Float64Array.of(1, -2) }, x);
  expect(x.re[0]).toBeCloseTo(1, 12);
  expect(x.re[1]).toBeCloseTo(2, 12);
  expect(Math.hypot(x.im[0]!, x.im[1]!)).toBeLessThan(1e-12);
});

const size = fc.integer({ min: 1, max: 12 });
const entry = fc.oneof(fc.constant(0), fc.double({ min: -10, max: 10, noNaN: true }));
const square = size.chain((n) =>
  fc.record({
    n: fc.constant(n),
    a: fc.array(entry, { minLength: n * n, maxLength: n * n }),
    c: fc.array(entry, { minLength: n * n, maxLength: n * n }),
    x: fc.array(fc.double({ min: -5, max: 5, noNaN: true }), { minLength: 2 * n, maxLength: 2 * n }),
  }),
);

// property: what was multiplied comes back, forwards and transposed; the diagonal is made heavy so that it may
test("solving undoes multiplying", () => {
  fc.assert(
    fc.property(square, ({ n, a, x }) => {
      const matrix = Float64Array.from(a, (v, i) => (Math.floor(i / n) === i % n ? v + 11 * n : v));
      const system = realSystem(n);
      system.matrix.set(matrix);
      const b = new Float64Array(n);
      const bt = new Float64Array(n);
      for (let i = 0; i < n; i++) {
        for (let j = 0; j < n; j++) {
          b[i] = b[i]! + matrix[i * n + j]! * x[j]!;
          bt[j] = bt[j]! + matrix[i * n + j]! * x[i]!;
        }
      }
      expect(factorReal(system)).toBe(-1);
      const back = new Float64Array(n);
      solveReal(system, b, back);
      for (let i = 0; i < n; i++) expect(Math.abs(back[i]! - x[i]!)).toBeLessThan(1e-10);
      solveRealTransposed(system, bt, back);
      for (let i = 0; i < n; i++) expect(Math.abs(back[i]! - x[i]!)).toBeLessThan(1e-10);
    }),
  );
});

test("solving undoes multiplying, complex", () => {
  fc.assert(
    fc.property(square, ({ n, a, c, x }) => {
      const re = Float64Array.from(a, (v, i) => (Math.floor(i / n) === i % n ? v + 30 * n : v));
      const im = Float64Array.from(c);
      const system = complexSystem(n);
      system.re.set(re);
      system.im.set(im);
      const b = complexVector(n);
      const bt = complexVector(n);
      for (let i = 0; i < n; i++) {
        for (let j = 0; j < n; j++) {
          const at = i * n + j;
          b.re[i] = b.re[i]! + re[at]! * x[j]! - im[at]! * x[n + j]!;
          b.im[i] = b.im[i]! + re[at]! * x[n + j]! + im[at]! * x[j]!;
          bt.re[j] = bt.re[j]! + re[at]! * x[i]! - im[at]! * x[n + i]!;
          bt.im[j] = bt.im[j]! + re[at]! * x[n + i]! + im[at]! * x[i]!;
        }
      }
      expect(factorComplex(system)).toBe(-1);
      const back = complexVector(n);
      for (const [solve, side] of [
        [solveComplex, b],
        [solveComplexTransposed, bt],
      ] as const) {
        solve(system, side, back);
        for (let i = 0; i < n; i++) {
          expect(Math.abs(back.re[i]! - x[i]!)).toBeLessThan(1e-10);
          expect(Math.abs(back.im[i]! - x[n + i]!)).toBeLessThan(1e-10);
        }
      }
    }),
  );
});

test("the unknown that nothing determines is named", () => {
  const system = realSystem(3);
  system.matrix.set([1, 0, 2, 3, 0, 4, 5, 0, 6]);
  expect(factorReal(system)).toBe(1);
  const complex = complexSystem(2);
  complex.re.set([1, 2, 2, 4]);
  complex.im.set([1, 2, 2, 4]);
  expect(factorComplex(complex)).toBe(1);
});

// source: worked by hand; the determinant of 2 1 −1 / −3 −1 2 / −2 1 2 is −1, and exchanging two rows turns its sign
test("the sign of a determinant", () => {
  const rows = [
    [2, 1, -1],
    [-3, -1, 2],
    [-2, 1, 2],
  ];
  const sign = (...order: number[]) => {
    const system = realSystem(3);
    system.matrix.set(order.flatMap((i) => rows[i]!));
    factorReal(system);
    return determinantSign(system);
  };
  expect([sign(0, 1, 2), sign(1, 0, 2), sign(1, 2, 0), sign(2, 1, 0)]).toEqual([-1, 1, -1, 1]);
});
