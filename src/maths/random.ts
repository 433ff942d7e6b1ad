import { uniformFloat64 } from "pure-rand/distribution/uniformFloat64";
import { xoroshiro128plusFromState } from "pure-rand/generator/xoroshiro128plus";

/** A stream of chance that answers alike for the same seed, on every machine. Drawing changes it in place. */
export interface Random {
  /** Uniform in [0, 1), 53 bits. */
  uniform(): number;
  /** Normal with the given mean and standard deviation. */
  normal(mean?: number, sd?: number): number;
  /** Triangle between `fast` and `slow`, most likely at `usual`; the value itself when all three are equal. */
  triangle(fast: number, usual: number, slow: number): number;
  /** Whole number in 0 … n − 1. */
  integer(n: number): number;
  /**
   * A stream of its own, told apart by its label. It depends on this stream's seed and the label alone, never on
   * how much was drawn before, so that a draw added in one place changes nothing elsewhere.
   */
  fork(label: string | number): Random;
}

/**
 * A generator seeded by any number or text (xoroshiro128+ with 128 bits of hashed seed).
 *
 * @throws RangeError  a seed that is not finite
 * @remarks The seed is hashed because the generator's own short seeding leaves neighbouring seeds related.
 * @source  D. Blackman and S. Vigna, "Scrambled linear pseudorandom number generators" (from memory)
 */
export function randomStream(seed: number | string): Random {
  if (typeof seed === "number" && !Number.isFinite(seed)) {
    throw new RangeError(`seed is ${seed}; pass a finite number or a text`);
  }
  return stream(String(seed));
}

function stream(identity: string): Random {
  const generator = xoroshiro128plusFromState(hash128(identity));
  let spare: number | undefined;

  return {
    uniform() {
      return uniformFloat64(generator);
    },
    /** Polar method of Marsaglia: two deviates from each accepted point, the second kept for the next call. */
    normal(mean = 0, sd = 1) {
      if (spare !== undefined) {
        const kept = spare;
        spare = undefined;
        return mean + sd * kept;
      }
      for (;;) {
        const x = 2 * uniformFloat64(generator) - 1;
        const y = 2 * uniformFloat64(generator) - 1;
        const square = x * x + y * y;
        if (square === 0 || square >= 1) continue;
        const stretch = Math.sqrt((-2 * Math.log(square)) / square);
        spare = y * stretch;
        return mean + sd * x * stretch;
      }
    },
    triangle(fast, usual, slow) {
      return triangleQuantile(uniformFloat64(generator), fast, usual, slow);
    },
    integer(n) {
      return Math.floor(uniformFloat64(generator) * n);
    },
    fork(label) {
      return stream(`${identity}/${label}`);
    },
  };
}

/** Value below which the share `p` of a triangle distribution lies. */
export function triangleQuantile(p: number, fast: number, usual: number, slow: number): number {
  const width = slow - fast;
  if (width === 0) return usual;
  const rise = usual - fast;
  return p * width < rise ? fast + Math.sqrt(p * width * rise) : slow - Math.sqrt((1 - p) * width * (slow - usual));
}

/** Four words from a text: a multiplicative hash in four lanes, then each stirred with the others. */
function hash128(text: string): readonly number[] {
  let a = 0x9e3779b9;
  let b = 0x243f6a88;
  let c = 0xb7e15162;
  let d = 0x6a09e667;
  for (let i = 0; i < text.length; i++) {
    const code = text.charCodeAt(i);
    a = Math.imul(a ^ code, 0x85ebca6b);
    b = Math.imul(b ^ code, 0xc2b2ae35);
    c = Math.imul(c ^ code, 0x27d4eb2f);
    d = Math.imul(d ^ code, 0x165667b1);
    // Multiplying carries upward only; the turn brings high bits down again.
    a = (a << 13) | (a >>> 19);
    b = (b << 17) | (b >>> 15);
    c = (c << 7) | (c >>> 25);
    d = (d << 11) | (d >>> 21);
  }
  for (let round = 0; round < 2; round++) {
    a = stir(a + b);
    b = stir(b + c);
    c = stir(c + d);
    d = stir(d + a);
  }
  return (a | b | c | d) === 0 ? [1, 2, 3, 4] : [a, b, c, d];
}

function stir(word: number): number {
  let x = word | 0;
  x = Math.imul(x ^ (x >>> 16), 0x85ebca6b);
  x = Math.imul(x ^ (x >>> 13), 0xc2b2ae35);
  return x ^ (x >>> 16);
}
