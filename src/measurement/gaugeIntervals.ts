import { type Random, randomStream } from "../maths/random.ts";

/** A mean square with its degrees of freedom. */
export interface Term {
  readonly ms: number;
  readonly freedom: number;
}

export interface Interval {
  readonly low: number;
  readonly high: number;
}

const draws = 3000;

/**
 * What mean squares leave possible: each true one drawn as often as its own chi-squared allows.
 *
 *     E(MS) ~ MS·f/χ²(f)        ends: 2.5 and 97.5 in a hundred of what `of` makes of the draws
 *
 * @param terms  mean squares of one analysis, drawn apart from each other
 * @param of  variances (or their ratios) from drawn mean squares; below zero it counts as none
 * @returns 95 % intervals, in the order of `of`
 * @remarks The same draws every time, so that the same study answers alike.
 * @source  M. Hamada and S. Weerahandi, Journal of Quality Technology 32 (2000) 241-253 (from memory)
 */
export function drawnIntervals<Name extends string>(
  terms: Readonly<Record<Name, Term>>,
  of: (drawn: Readonly<Record<Name, number>>) => readonly number[],
): readonly Interval[] {
  const names = Object.keys(terms) as Name[];
  const chance = randomStream("gauge");
  const drawn = { ...terms } as unknown as Record<Name, number>;
  const found: Float64Array[] = [];
  for (let i = 0; i < draws; i++) {
    for (const name of names) {
      const { ms, freedom } = terms[name];
      drawn[name] = (ms * freedom) / chiSquared(chance, freedom);
    }
    const values = of(drawn);
    for (let k = 0; k < values.length; k++) {
      found[k] ??= new Float64Array(draws);
      found[k]![i] = Math.max(0, values[k]!);
    }
  }
  return found.map((values) => {
    values.sort();
    return { low: values[Math.round(0.025 * draws)]!, high: values[Math.round(0.975 * draws) - 1]! };
  });
}

/**
 * A draw of chi-squared, as twice a gamma of half its freedom.
 *
 * @source  G. Marsaglia and W. W. Tsang, ACM Transactions on Mathematical Software 26 (2000) 363-372 (from memory)
 */
function chiSquared(chance: Random, freedom: number): number {
  const shape = freedom / 2;
  // Below one the method needs a shape raised by one and a power of a uniform draw.
  const raised = shape < 1 ? shape + 1 : shape;
  const d = raised - 1 / 3;
  const c = 1 / Math.sqrt(9 * d);
  for (;;) {
    const x = chance.normal();
    const v = (1 + c * x) ** 3;
    if (v <= 0) continue;
    const u = 1 - chance.uniform();
    if (Math.log(u) >= x * x * 0.5 + d - d * v + d * Math.log(v)) continue;
    return 2 * d * v * (shape < 1 ? (1 - chance.uniform()) ** (1 / shape) : 1);
  }
}
