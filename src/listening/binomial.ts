/**
 * Chance of `from` or more right answers in `trials`.
 *
 *     P = Σ from k = from to n of C(n, k)·pᵏ·(1 − p)ⁿ⁻ᵏ
 *
 * @remarks Terms follow one another from the largest one asked for, so that small tails keep their digits.
 */
export function chanceOfAtLeast(from: number, trials: number, chance: number): number {
  if (from <= 0) return 1;
  if (from > trials || chance <= 0) return 0;
  if (chance >= 1) return 1;
  const odds = chance / (1 - chance);
  if (from > trials * chance) {
    return term(from, trials, chance) * series(trials - from, (i) => ((trials - from - i) / (from + i + 1)) * odds);
  }
  const below = from - 1;
  return 1 - term(below, trials, chance) * series(below, (i) => (below - i) / (trials - below + i + 1) / odds);
}

/** 1 + r₀ + r₀r₁ + …, until what follows no longer counts. */
function series(most: number, ratio: (i: number) => number): number {
  let [sum, next] = [1, 1];
  for (let i = 0; i < most && next > 1e-17 * sum; i++) {
    next *= ratio(i);
    sum += next;
  }
  return sum;
}

function term(right: number, trials: number, chance: number): number {
  const few = Math.min(right, trials - right);
  let choices = 0;
  for (let i = 1; i <= few; i++) choices += Math.log((trials - few + i) / i);
  return Math.exp(choices + right * Math.log(chance) + (trials - right) * Math.log1p(-chance));
}
