import type { Random } from "../../maths/random.ts";

/**
 * Normal deviates by the hundred thousand, in about ten nanoseconds each: a recording of eight seconds takes a million
 * and a half of them.
 *
 * The ziggurat: the bell is covered by 128 layers of equal area, so that all but one draw in forty is a table look-up
 * and a product; 32-bit integers come from the small fast counting generator sfc32, seeded from the stream given.
 *
 * @source G. Marsaglia and W. W. Tsang, "The ziggurat method for generating random variables" (2000), with the layers'
 *         R and V for 128 of them (from memory; the moments are held in physics.test.ts)
 */
export class Normals {
  private a: number;
  private b: number;
  private c: number;
  private counter = 1;

  constructor(chance: Random) {
    const word = () => chance.integer(2 ** 32) | 0;
    this.a = word();
    this.b = word();
    this.c = word();
    for (let i = 0; i < 12; i++) this.bits();
  }

  next(): number {
    for (;;) {
      const bits = this.bits();
      const layer = bits & 127;
      const x = (bits >> 7) * width[layer]!;
      if (Math.abs(bits >> 7) < sure[layer]!) return x;
      if (layer === 0) return this.tail(bits < 0);
      const low = height[layer]!;
      if (low + (height[layer + 1]! - low) * this.uniform() < Math.exp(-0.5 * x * x)) return x;
    }
  }

  private tail(isNegative: boolean): number {
    for (;;) {
      const x = -Math.log(1 - this.uniform()) / tail_start;
      const y = -Math.log(1 - this.uniform());
      if (y + y > x * x) return isNegative ? -(tail_start + x) : tail_start + x;
    }
  }

  private uniform(): number {
    return (this.bits() >>> 0) / 2 ** 32;
  }

  private bits(): number {
    const sum = (this.a + this.b + this.counter) | 0;
    this.counter = (this.counter + 1) | 0;
    this.a = this.b ^ (this.b >>> 9);
    this.b = (this.c + (this.c << 3)) | 0;
    this.c = ((this.c << 21) | (this.c >>> 11)) + sum;
    this.c |= 0;
    return sum;
  }
}

const layers = 128;
const tail_start = 3.442619855899;
const layer_area = 9.91256303526217e-3;
/** The signed integer that a layer's edge stands for. */
const edge = 2 ** 24;

const { width, sure, height } = (() => {
  const bell = (x: number) => Math.exp(-0.5 * x * x);
  const ends = new Float64Array(layers + 1);
  ends[0] = layer_area / bell(tail_start);
  ends[1] = tail_start;
  for (let i = 2; i < layers; i++) {
    ends[i] = Math.sqrt(-2 * Math.log(layer_area / ends[i - 1]! + bell(ends[i - 1]!)));
  }
  return {
    width: Float64Array.from({ length: layers }, (_, i) => ends[i]! / edge),
    sure: Float64Array.from({ length: layers }, (_, i) => edge * (ends[i + 1]! / ends[i]!)),
    height: Float64Array.from({ length: layers + 1 }, (_, i) => bell(ends[i]!)),
  };
})();
