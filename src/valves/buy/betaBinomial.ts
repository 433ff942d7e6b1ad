import { firstWhere } from "../../maths/firstWhere.ts";
/** Passes among n pieces of one batch whose pass rate is drawn about `mean`; pieces of a batch are alike by `likeness`. */
export interface BatchLaw {
  readonly mean: number;
  /** Correlation of two pieces of one batch, above 0 and below 1. */
  readonly likeness: number;
}

const LOG_TINY = -700;

/**
 * ln P(k passes of n), the pass rate being beta distributed with a + b = 1/likeness − 1.
 *
 * @source J. Skellam, A probability distribution derived from the binomial distribution, 1948 (remembered)
 */
export function logPasses({ mean, likeness }: BatchLaw, n: number, k: number): number {
  const total = 1 / likeness - 1;
  const [a, b] = [mean * total, (1 - mean) * total];
  return (
    logGamma(n + 1) -
    logGamma(k + 1) -
    logGamma(n - k + 1) +
    logGamma(k + a) +
    logGamma(n - k + b) -
    logGamma(n + total) +
    logGamma(total) -
    logGamma(a) -
    logGamma(b)
  );
}

/** P(fewer than k passes of n), summed downward from k − 1. */
export function fewerThan(law: BatchLaw, n: number, k: number): number {
  if (k <= 0) return 0;
  if (k > n) return 1;
  const total = 1 / law.likeness - 1;
  const [a, b] = [law.mean * total, (1 - law.mean) * total];
  const top = logPasses(law, n, k - 1);
  if (top < LOG_TINY) return law.mean * n < k ? 1 : 0;
  let term = Math.exp(top);
  let sum = term;
  for (let i = k - 1; i > 0; i--) {
    term *= (i * (n - i + b)) / ((n - i + 1) * (a + i - 1));
    sum += term;
    if (term < 1e-16 * sum && i < law.mean * n) break;
  }
  return Math.min(sum, 1);
}

/**
 * P(fewer passes of n than needed), where the number needed is itself uncertain: Σ P(j passes)·P(more than j needed),
 * summed from the likeliest j both ways.
 *
 * @param unmet  P(more than j needed) for j = 0, 1, 2, …, falling
 */
export function fewerThanNeeded(law: BatchLaw, n: number, unmet: ArrayLike<number>): number {
  const total = 1 / law.likeness - 1;
  const [a, b] = [law.mean * total, (1 - law.mean) * total];
  const last = Math.min(n, unmet.length - 1);
  if (last < 0) return 0;
  const first = Math.min(last, Math.round(law.mean * n));
  const top = Math.exp(logPasses(law, n, first));
  let sum = top * unmet[first]!;
  for (let j = first, term = top; j < last && term > 0; j++) {
    term *= ((n - j) * (j + a)) / ((j + 1) * (n - j - 1 + b));
    sum += term * unmet[j + 1]!;
  }
  for (let j = first, term = top; j > 0 && term > 0; j--) {
    term *= (j * (n - j + b)) / ((n - j + 1) * (j + a - 1));
    sum += term * unmet[j - 1]!;
  }
  return Math.min(sum, 1);
}

/** The number of passes of n below which the law puts a share `u`. */
export function passesAt(law: BatchLaw, n: number, u: number): number {
  return firstWhere(0, n, (passes) => fewerThan(law, n, passes + 1) > u);
}

/** ln Γ(x) for x above 0, to some 1e-12: Stirling's series after raising x to 9 or more. */
export function logGamma(x: number): number {
  let shift = 0;
  let y = x;
  while (y < 9) {
    shift -= Math.log(y);
    y++;
  }
  const r = 1 / (y * y);
  const series = (1 / 12 - r * (1 / 360 - r * (1 / 1260 - r * (1 / 1680 - r / 1188)))) / y;
  return shift + (y - 0.5) * Math.log(y) - y + 0.5 * Math.log(2 * Math.PI) + series;
}
