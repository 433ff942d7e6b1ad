import fc from "fast-check";
import { expect, test } from "vitest";
import { inHundred, minutes, plainNumber, readNumber, withDoubt } from "./number.ts";

test("a decimal comma and a decimal point read alike", () => {
  expect(readNumber("0,25")).toEqual({ ok: true, value: 0.25 });
  expect(readNumber("0.25")).toEqual({ ok: true, value: 0.25 });
  expect(readNumber(" −12,5 ")).toEqual({ ok: true, value: -12.5 });
  expect(readNumber("1 250,5")).toEqual({ ok: true, value: 1250.5 });
  expect(readNumber(",5")).toEqual({ ok: true, value: 0.5 });
  expect(readNumber("2.2e-6")).toEqual({ ok: true, value: 2.2e-6 });
});

test("what can be read two ways, or not at all, is refused", () => {
  expect(readNumber("1.250,5")).toEqual({ ok: false, problem: "ambiguous" });
  for (const typed of ["12V", "1,2,3", "l2", "--3", ".", "1e999"]) {
    expect(readNumber(typed)).toEqual({ ok: false, problem: "not-a-number" });
  }
  expect(readNumber("  ")).toEqual({ ok: false, problem: "empty" });
});

// property: what is written with either sign comes back the same number
test("any number survives being typed with a comma or a point", () => {
  fc.assert(
    fc.property(fc.double({ noNaN: true, noDefaultInfinity: true, min: -1e9, max: 1e9 }), (value) => {
      const typed = String(value);
      for (const way of [typed, typed.replace(".", ",")]) {
        expect(readNumber(way)).toEqual({ ok: true, value: value === 0 ? Number(typed) : value });
      }
    }),
  );
});

// source: worked by hand; a doubt beginning with 1 or 2 is written to two figures, else to one, the value to its decimal
test("value and doubt end at the same decimal", () => {
  expect(withDoubt(0.1234, 0.0812)).toBe("0.12 ± 0.08");
  expect(withDoubt(-312.44, 1.5)).toBe("−312.4 ± 1.5");
  expect(withDoubt(312.44, 24)).toBe("312 ± 24");
  expect(withDoubt(5.2, 0.156)).toBe("5.20 ± 0.16");
  expect(withDoubt(148.2, 0.9)).toBe("148.2 ± 0.9");
  expect(withDoubt(3, 0)).toBe("3");
});

test("numbers are shown to three figures without a tail of zeros", () => {
  expect(plainNumber(0.5)).toBe("0.5");
  expect(plainNumber(-0.12345)).toBe("−0.123");
  expect(plainNumber(251.37)).toBe("251");
  expect(plainNumber(0)).toBe("0");
});

test("odds are never rounded to a certainty", () => {
  expect(inHundred(0.97)).toBe("97 in 100");
  expect(inHundred(0.9996)).toBe("over 99 in 100");
  expect(inHundred(0.001)).toBe("under 1 in 100");
});

test("minutes of hands are said as people say them", () => {
  expect(minutes(5)).toBe("5 min");
  expect(minutes(80)).toBe("1 h 20 min");
  expect(minutes(120)).toBe("2 h");
});
