import type { Random } from "../../maths/random.ts";

/**
 * Fills arrays with standard normal deviates, many at a time, from a seed that `random` gives.
 *
 * The ziggurat of 128 equal areas over 32-bit words of xoshiro128++; a layer's number and the place in it come from
 * different bits.
 *
 * @source G. Marsaglia and W. W. Tsang, J. Stat. Softw. 5(8), 2000, with J. A. Doornik's care about bits, 2005;
 *         D. Blackman and S. Vigna, "Scrambled linear pseudorandom number generators" (all from memory)
 */
export function normalFiller(random: Random): (into: Float64Array, from: number, to: number) => void {
  const state = Int32Array.from({ length: 4 }, () => random.integer(2 ** 32) | 0);
  if (state.every((word) => word === 0)) state[0] = 1;
  let [s0, s1, s2, s3] = state as unknown as [number, number, number, number];
  const next = (): number => {
    const sum = (s0 + s3) | 0;
    const word = (((sum << 7) | (sum >>> 25)) + s0) | 0;
    const t = s1 << 9;
    s2 ^= s0;
    s3 ^= s1;
    s1 ^= s2;
    s0 ^= s3;
    s2 ^= t;
    s3 = (s3 << 11) | (s3 >>> 21);
    return word;
  };
  const uniform = (): number => ((next() >>> 0) + 0.5) / 2 ** 32;
  const tail = (): number => {
    for (;;) {
      const x = -Math.log(uniform()) / edge[1]!;
      if (-2 * Math.log(uniform()) > x * x) return edge[1]! + x;
    }
  };
  const one = (): number => {
    for (;;) {
      const word = next();
      const layer = word & (layers - 1);
      // 25 bits and a sign, none of them those of the layer.
      const place = (word >> 7) / 2 ** 24 + 2 ** -25;
      const x = place * edge[layer]!;
      if (Math.abs(x) < edge[layer + 1]!) return x;
      if (layer === 0) return place < 0 ? -tail() : tail();
      const y = height[layer]! + uniform() * (height[layer + 1]! - height[layer]!);
      if (y < Math.exp(-0.5 * x * x)) return x;
    }
  };
  return (into, from, to) => {
    // The common case, nine in ten and more, with the generator's words at hand instead of behind a call.
    let [a, b, c, d] = [s0, s1, s2, s3];
    for (let i = from; i < to; i++) {
      const sum = (a + d) | 0;
      const word = (((sum << 7) | (sum >>> 25)) + a) | 0;
      const layer = word & (layers - 1);
      const x = ((word >> 7) / 2 ** 24 + 2 ** -25) * edge[layer]!;
      if ((x < 0 ? -x : x) < edge[layer + 1]!) {
        const t = b << 9;
        c ^= a;
        d ^= b;
        b ^= c;
        a ^= d;
        c ^= t;
        d = (d << 11) | (d >>> 21);
        into[i] = x;
        continue;
      }
      [s0, s1, s2, s3] = [a, b, c, d];
      into[i] = one();
      [a, b, c, d] = [s0, s1, s2, s3];
    }
    [s0, s1, s2, s3] = [a, b, c, d];
  };
}

const layers = 128;
/** Start of the tail, and the area of each layer, for 128 layers. */
const start = 3.442619855899;
const area = 9.91256303526217e-3;
/** Layer 0 is the base: as wide as its area at the tail's height asks. Right edges, falling; edge[128] is 0. */
const edge = new Float64Array(layers + 1);
const height = new Float64Array(layers + 1);
edge[0] = area / Math.exp(-0.5 * start * start);
edge[1] = start;
for (let i = 2; i < layers; i++) {
  edge[i] = Math.sqrt(-2 * Math.log(area / edge[i - 1]! + Math.exp(-0.5 * edge[i - 1]! ** 2)));
}
for (let i = 0; i <= layers; i++) height[i] = Math.exp(-0.5 * edge[i]! ** 2);
