import type { Random } from "../../../src/maths/random.ts";

export { between, decades, pick } from "../../../src/bench/testing/intervals/draw.ts";

export const times = <T>(count: number, make: (i: number) => T): T[] =>
  Array.from({ length: count }, (_, i) => make(i));

/** How many of so many trials came off, one by one. */
export function binomial(random: Random, count: number, share: number): number {
  let k = 0;
  for (let i = 0; i < count; i++) if (random.uniform() < share) k++;
  return k;
}

/**
 * A gamma of any shape above 0, of scale 1.
 *
 * @source  G. Marsaglia and W. W. Tsang, ACM Transactions on Mathematical Software 26 (2000) 363-372 (from memory)
 */
export function gamma(random: Random, shape: number): number {
  if (shape < 1) return gamma(random, shape + 1) * (1 - random.uniform()) ** (1 / shape);
  const d = shape - 1 / 3;
  for (;;) {
    const x = random.normal();
    const v = (1 + x / Math.sqrt(9 * d)) ** 3;
    if (v > 0 && Math.log(1 - random.uniform()) < x ** 2 / 2 + d - d * v + d * Math.log(v)) return d * v;
  }
}
