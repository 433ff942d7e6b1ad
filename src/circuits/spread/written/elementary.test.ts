import { expect, test } from "vitest";
import { type Code, Lines, load, moduleBytes, store, whole } from "./code.ts";
import { exponential, logarithm, logarithmOfOneAnd } from "./elementary.ts";

/** The function of a pair, run on its own. */
function written(of: (lines: Lines, x: Code) => Code): (x: number) => number {
  const lines = new Lines(0, 0);
  lines.add(store(whole(0), 16, of(lines, load(whole(0), 0))));
  const memory = new WebAssembly.Memory({ initial: 1 });
  const module = new WebAssembly.Module(moduleBytes(lines));
  const { exports } = new WebAssembly.Instance(module, { unit: { memory, curve() {} } });
  const view = new Float64Array(memory.buffer);
  return (x) => {
    view.fill(x, 0, 2);
    (exports.run as () => void)();
    expect(view[2]).toBe(view[3]);
    return view[2]!;
  };
}

const digits = 2 ** -52;
const spaced = (low: number, high: number) =>
  Array.from({ length: 4001 }, (_, i) => low + ((high - low) * i) / 4000 + 1e-3 * Math.sin(i));

// second method: the engine's own functions, which are within a unit in the last place
test("e^x to its last digits, over all that currents need", () => {
  const exp = written(exponential);
  for (const x of [...spaced(-690, 690), ...spaced(-1, 1), 0]) {
    expect(Math.abs(exp(x) / Math.exp(x) - 1), String(x)).toBeLessThan(4 * digits);
  }
  expect(exp(-1e6)).toBe(exp(-700));
  expect(exp(Number.NaN)).toBeNaN();
});

test("ln x to its last digits, near one to those of x − 1, and a floor for nothing", () => {
  const log = written(logarithm);
  for (const x of [...spaced(0.3, 40), ...spaced(-300, 300).map((power) => 10 ** power)]) {
    const off = Math.abs(log(x) - Math.log(x));
    expect(off, String(x)).toBeLessThan(4 * digits * Math.max(Math.abs(Math.log(x)), 2 ** -10));
  }
  expect(log(0)).toBeLessThan(-700);
});

test("ln(1 + x) keeps all digits of the smallest x", () => {
  const log = written(logarithmOfOneAnd);
  for (const x of [...spaced(0, 1).map(Math.abs), ...spaced(-300, 0).map((power) => 10 ** power)]) {
    if (x > 1) continue;
    expect(Math.abs(log(x) - Math.log1p(x)), String(x)).toBeLessThanOrEqual(4 * digits * Math.log1p(x));
  }
});
