import {
  add,
  addWhole,
  bits,
  type Code,
  div,
  type Lines,
  mul,
  nearest,
  number,
  pickGreater,
  pickLess,
  shiftDown,
  shiftUp,
  sub,
  subWhole,
} from "./code.ts";

/** ln 2 in two parts, the first so short that its product with a whole number under 2000 is exact. */
const LN2_HIGH = 0.6931471803691238;
const LN2_LOW = 1.9082149292705877e-10;
/** Added to a number under 2⁵¹ it leaves the whole part in the low bits. */
const SHIFTER = 6755399441055744;
const SHIFTER_BITS = 0x4338000000000000n;

/**
 * Polynomials through the Chebyshev points of their range, worked out with 60 digits; the error is of the value.
 *
 * e^r for |r| ≤ ln 2 / 2: 3·10⁻¹⁶
 */
const EXPONENTIAL = [
  1.0, 1.0000000000000067, 0.5000000000000006, 0.16666666666554406, 0.04166666666657314, 0.008333333385667782,
  0.0013888888932488599, 0.00019841170270440067, 2.4801504346997686e-5, 2.764018079620985e-6, 2.7626357241447223e-7,
];
/** 2·artanh(s)/s in s², for s up to (√2 − 1)/(√2 + 1): 2·10⁻¹⁶ */
const LOGARITHM = [
  2.0000000000000004, 0.6666666666655292, 0.40000000061741614, 0.2857141602110767, 0.22223434547517906,
  0.18121934431215214, 0.16837659970680488,
];
/** The same, for s up to 1/3: 10⁻¹⁶ */
const LOGARITHM_OF_ONE_AND = [
  2.0, 0.6666666666668257, 0.399999999952876, 0.2857142911165716, 0.22222190861346283, 0.1818285980047391,
  0.15363676248891633, 0.13591305485579894, 0.09880789048764786, 0.17780763826113302,
];

/** Terms two by two, then those by two: so that one need not wait for the other. @source G. Estrin, 1960 (remembered) */
function polynomial(lines: Lines, x: Code, coefficients: readonly number[]): Code {
  let terms: Code[] = coefficients.map(number);
  let power = x;
  while (terms.length > 1) {
    terms = Array.from({ length: Math.ceil(terms.length / 2) }, (_, i) => {
      const [low, high] = [terms[2 * i]!, terms[2 * i + 1]];
      return high === undefined ? low : add(low, mul(power, high));
    });
    if (terms.length > 1) power = lines.keep(mul(power, power));
  }
  return terms[0]!;
}

/**
 * e^x, for x between −700 and 700 (beyond, as there): x = n·ln 2 + r, e^x = 2ⁿ·e^r. Within 10⁻¹⁵ of the value.
 */
export function exponential(lines: Lines, exponent: Code): Code {
  const x = lines.keep(pickLess(pickGreater(exponent, number(-700)), number(700)));
  const n = lines.keep(nearest(mul(x, number(Math.LOG2E))));
  const r = lines.keep(sub(sub(x, mul(n, number(LN2_HIGH))), mul(n, number(LN2_LOW))));
  return lines.keep(addWhole(polynomial(lines, r, EXPONENTIAL), shiftUp(add(n, number(SHIFTER)), 52)));
}

/**
 * ln x for x above 10⁻³⁰⁸; of nothing some −709. With x = 2ⁿ·m, √½ ≤ m < √2, and s = (m − 1)/(m + 1):
 * ln x = n·ln 2 + 2·artanh s. Within 10⁻¹⁵ of the value, near 1 of x − 1.
 */
export function logarithm(lines: Lines, of: Code): Code {
  const x = lines.keep(of);
  const n = lines.keep(shiftDown(subWhole(x, bits(0x3fe6a09e667f3bcdn)), 52));
  const f = lines.keep(sub(subWhole(x, shiftUp(n, 52)), number(1)));
  const s = lines.keep(div(f, add(f, number(2))));
  const z = lines.keep(mul(s, s));
  const whole = lines.keep(sub(addWhole(n, bits(SHIFTER_BITS)), number(SHIFTER)));
  const ofPart = mul(s, polynomial(lines, z, LOGARITHM));
  return lines.keep(add(mul(whole, number(LN2_HIGH)), add(ofPart, mul(whole, number(LN2_LOW)))));
}

/** ln(1 + x) for x from 0 to 1, by s = x/(2 + x). Within 10⁻¹⁵ of the value, however small. */
export function logarithmOfOneAnd(lines: Lines, x: Code): Code {
  const s = lines.keep(div(x, add(x, number(2))));
  const z = lines.keep(mul(s, s));
  return lines.keep(mul(s, polynomial(lines, z, LOGARITHM_OF_ONE_AND)));
}
