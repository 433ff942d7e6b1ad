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
  const next = (): number => {
    const [a, b, c, d] = [state[0]!, state[1]!, state[2]!, state[3]!];
    const sum = (a + d) | 0;
    const word = (((sum << 7) | (sum >>> 25)) + a) | 0;
    state[2] = c ^ a ^ (b << 9);
    state[3] = ((d ^ b) << 11) | ((d ^ b) >>> 21);
    state[1] = b ^ c ^ a;
    state[0] = a ^ d ^ b;
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
      const x = ((word >> 7) + 0.5) * place[layer]!;
      if (Math.abs(x) < edge[layer + 1]!) return x;
      if (layer === 0) return x < 0 ? -tail() : tail();
      const y = height[layer]! + uniform() * (height[layer + 1]! - height[layer]!);
      if (y < Math.exp(-0.5 * x * x)) return x;
    }
  };
  return (into, from, to) => {
    for (let i = from; i < to; i++) {
      i = fillCommon(state, into, i, to);
      if (i < to) into[i] = one();
    }
  };
}

/**
 * The common case, nine in ten and more, on locals alone: where the state stands in a closure's variables every word costs
 * six times as much. Returns where it stopped, at a word that must be looked at closely and is not taken yet.
 */
function fillCommon(state: Int32Array, into: Float64Array, from: number, to: number): number {
  let a = state[0]!;
  let b = state[1]!;
  let c = state[2]!;
  let d = state[3]!;
  let i = from;
  for (; i < to; i++) {
    const sum = (a + d) | 0;
    const word = (((sum << 7) | (sum >>> 25)) + a) | 0;
    const layer = word & (layers - 1);
    const x = ((word >> 7) + 0.5) * place[layer]!;
    if (Math.abs(x) >= edge[layer + 1]!) break;
    const t = b << 9;
    c ^= a;
    d ^= b;
    b ^= c;
    a ^= d;
    c ^= t;
    d = (d << 11) | (d >>> 21);
    into[i] = x;
  }
  state[0] = a;
  state[1] = b;
  state[2] = c;
  state[3] = d;
  return i;
}

const layers = 128;
/** Start of the tail, and the area of each layer, for 128 layers. */
const start = 3.442619855899;
const area = 9.91256303526217e-3;
/** Layer 0 is the base: as wide as its area at the tail's height asks. Right edges, falling; edge[128] is 0. */
const edge = new Float64Array(layers + 1);
const height = new Float64Array(layers + 1);
/** Width of a layer by the 2²⁴ places in it. */
const place = new Float64Array(layers + 1);
edge[0] = area / Math.exp(-0.5 * start * start);
edge[1] = start;
for (let i = 2; i < layers; i++) {
  edge[i] = Math.sqrt(-2 * Math.log(area / edge[i - 1]! + Math.exp(-0.5 * edge[i - 1]! ** 2)));
}
for (let i = 0; i <= layers; i++) {
  height[i] = Math.exp(-0.5 * edge[i]! ** 2);
  place[i] = edge[i]! / 2 ** 24;
}
