import type { Random } from "../maths/random.ts";
import type { LineSamples } from "./linePosterior.ts";

/** Relative amplitude above which a source counts as having something to say at an order. */
export const voice = 0.1;

/** Odds that a source that hums at all is heard at a given order, that one that does not is, and that one hums. */
const heardWhenHumming = 0.6;
const heardWhenNot = 0.02;
const humming = 0.3;

/**
 * Ties the orders of a channel together by one weak piece of physics: a source that hums does so at many orders, one
 * that does not is heard at few. Each order's samples, drawn as if alone, are given new weights.
 *
 *     P(H | all) ∝ P(H) Π_k Σ_a P(a | H) · n_k(a) / P₀(a)
 *
 * H says which sources hum, a which are heard at one order, n_k(a) how often that was sampled, P₀ the odds it was
 * sampled with. A pattern never sampled counts as half a sample.
 *
 * @param lines      samples of each order, [sample][source], powers relative to the order's strongest reading
 * @param heardOdds  odds of the sampler's prior that each source is above `voice`
 * @returns `draws` indices into each line's samples, [draw][line]
 */
export function poolOrders(
  lines: readonly LineSamples[],
  heardOdds: readonly number[],
  draws: number,
  random: Random,
): readonly Int32Array[] {
  const count = lines[0]![0]!.length;
  const patterns = lines.map((samples) => samples.map(patternOf));
  const hypotheses = hypothesesWorthTrying(patterns, count);
  const base = oddsOf((s) => heardOdds[s]!);

  const tables = patterns.map((list) => {
    const counts = new Map<number, number>();
    for (const pattern of list) counts.set(pattern, (counts.get(pattern) ?? 0) + 1);
    return [...counts].map(([pattern, n]) => ({ pattern, weight: n / list.length / base(pattern, count) }));
  });
  const logOdds = hypotheses.map((hums) => {
    const given = oddsOf((s) => (hums & (1 << s) ? heardWhenHumming : heardWhenNot));
    const prior = oddsOf(() => humming)(hums, count);
    return tables.reduce(
      (sum, table, k) =>
        sum +
        Math.log(
          table.reduce((total, { pattern, weight }) => total + weight * given(pattern, count), 0.5 / lines[k]!.length),
        ),
      Math.log(prior),
    );
  });
  const highest = Math.max(...logOdds);
  const odds = logOdds.map((x) => Math.exp(x - highest));
  const pickHypothesis = picker(odds);

  const pickers = new Map<number, readonly (() => number)[]>();
  return Array.from({ length: draws }, () => {
    const h = pickHypothesis(random);
    let perLine = pickers.get(h);
    if (!perLine) {
      const given = oddsOf((s) => (hypotheses[h]! & (1 << s) ? heardWhenHumming : heardWhenNot));
      perLine = patterns.map((list) => {
        const pick = picker(list.map((pattern) => given(pattern, count) / base(pattern, count)));
        return () => pick(random);
      });
      pickers.set(h, perLine);
    }
    return Int32Array.from(perLine, (pick) => pick());
  });
}

function patternOf(sample: Float64Array): number {
  let pattern = 0;
  for (let s = 0; s < sample.length; s++) if (sample[s]! > voice * voice) pattern |= 1 << s;
  return pattern;
}

/** All of them for few sources; else every pattern sampled, and the unions and single sources of those. */
function hypothesesWorthTrying(patterns: readonly (readonly number[])[], count: number): readonly number[] {
  if (count <= 10) return Array.from({ length: 1 << count }, (_, h) => h);
  const seen = new Set(patterns.flat());
  for (let s = 0; s < count; s++) seen.add(1 << s);
  return [...seen];
}

function oddsOf(heard: (source: number) => number): (pattern: number, count: number) => number {
  return (pattern, count) => {
    let odds = 1;
    for (let s = 0; s < count; s++) odds *= pattern & (1 << s) ? heard(s) : 1 - heard(s);
    return odds;
  };
}

function picker(weights: readonly number[]): (random: Random) => number {
  const upTo = new Float64Array(weights.length);
  let sum = 0;
  for (const [i, weight] of weights.entries()) {
    sum += weight;
    upTo[i] = sum;
  }
  return (random) => {
    const target = random.uniform() * sum;
    let low = 0;
    let high = upTo.length - 1;
    while (low < high) {
      const middle = (low + high) >> 1;
      if (upTo[middle]! > target) high = middle;
      else low = middle + 1;
    }
    return low;
  };
}
